//! Finishes.

use crate::measure::{Duration, Exact, Span};
use crate::vocabulary::{Entry, Value};

use super::lower::Lower;

/// What a finish is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FinishKind {
    /// Hardens by oxidation; its rags can catch fire of themselves.
    HardwaxOil,
    /// Likewise.
    Oil,
    /// A varnish.
    Varnish,
    /// A lacquer.
    Lacquer,
    /// A wax.
    Wax,
    /// A paint.
    Paint,
}

impl FinishKind {
    /// Its word in a spec.
    #[must_use]
    pub fn slug(self) -> &'static str {
        match self {
            Self::HardwaxOil => "hardwax-oil",
            _ => self.word(),
        }
    }

    /// How it is called on the papers.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::HardwaxOil => "hardwax oil",
            Self::Oil => "oil",
            Self::Varnish => "varnish",
            Self::Lacquer => "lacquer",
            Self::Wax => "wax",
            Self::Paint => "paint",
        }
    }
}

/// A finish.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finish {
    /// Its name in the spec.
    pub name: String,
    /// What it is.
    pub kind: FinishKind,
    /// How many coats.
    pub coats: u32,
    /// Square metres that a litre covers in one coat.
    pub covers: Option<Exact>,
    /// How it is mixed with its second part.
    pub mix: Option<(Exact, Exact)>,
    /// How long it may be used once mixed.
    pub pot_life: Option<Duration>,
    /// How long a coat dries before the next work.
    pub cure: Duration,
    /// Notes for the papers.
    pub notes: Vec<String>,
    /// Where it is written.
    pub span: Span,
}

pub(super) fn finish(entry: &Entry, _ctx: &mut Lower) -> Option<Finish> {
    let body = entry.body()?;
    let kinds = ["hardwax-oil", "oil", "varnish", "lacquer", "wax", "paint"];
    let kind = match body.first_of(&kinds)?.0 {
        "hardwax-oil" => FinishKind::HardwaxOil,
        "oil" => FinishKind::Oil,
        "varnish" => FinishKind::Varnish,
        "lacquer" => FinishKind::Lacquer,
        "wax" => FinishKind::Wax,
        _ => FinishKind::Paint,
    };
    Some(Finish {
        name: entry.text(0)?.value.to_owned(),
        kind,
        coats: body.count("coats")?.value.max(1),
        covers: body.any("covers").and_then(|value| match value.value {
            Value::Coverage(coverage) => Some(coverage),
            _ => None,
        }),
        mix: body.any("mix").and_then(|value| match value.value {
            Value::Ratio(a, b) => Some((a, b)),
            _ => None,
        }),
        pot_life: body.duration("pot-life").map(|life| life.value),
        cure: body.duration("cure")?.value,
        notes: body.notes(),
        span: entry.head,
    })
}
