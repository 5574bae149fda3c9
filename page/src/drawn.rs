//! The elevation, and what lies where on it.

use casewright::papers::{self, PlaceOf};
use casewright::pipeline::Compilation;
use serde::Serialize;

use crate::place::Place;

#[derive(Serialize)]
pub(crate) struct Drawn {
    svg: String,
    /// All sizes hold, so that it bears figures.
    whole: bool,
    /// Those that cover others behind them.
    places: Vec<Shown>,
}

#[derive(Serialize)]
struct Shown {
    name: String,
    /// The mark of a part; nothing of an opening.
    mark: Option<String>,
    /// Left, top, right, bottom in the coordinates of the drawing.
    area: [f64; 4],
    at: Place,
}

/// The drawing of a piece; nothing where there is nothing to draw.
pub(crate) fn of(compiled: &Compilation) -> Option<Drawn> {
    let papers::Front { svg, places } = papers::front(compiled)?;
    let shown = |own: papers::Place| Shown {
        area: [own.from.0, own.from.1, own.to.0, own.to.1],
        at: Place::of(&compiled.sources, own.span),
        mark: match own.of {
            PlaceOf::Opening => None,
            PlaceOf::Part { mark } => Some(mark),
        },
        name: own.name,
    };
    let places = places.into_iter().map(shown).collect();
    Some(Drawn { svg, whole: compiled.piece.is_some(), places })
}
