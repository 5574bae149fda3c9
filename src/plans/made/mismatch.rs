//! In what a joint that is made differs from the drawing.

use crate::measure::{Length, Span};
use crate::model::{Made, MadeKind};
use crate::parts::{Face, Feature};

use super::kind::{Sort, sort};
use super::laid::{Drawn, Stands};
use super::space::{Space, axis};

/// A joint that takes wood where the drawing leaves it.
#[derive(Clone, Copy, Debug)]
pub struct Lost<'a> {
    /// What is in the wood.
    pub made: &'a Made,
    /// In what it differs.
    pub mismatch: Mismatch,
}

/// In what a joint differs from the nearest of its kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mismatch {
    /// It stands elsewhere.
    Place {
        /// Where both count from.
        from: Face,
        /// Where it stands: its near side, of a hole the center.
        was: Length,
        /// Where it is drawn.
        wanted: Length,
        /// The statement that the drawn one comes from.
        span: Span,
    },
    /// It is too large.
    Size {
        /// `wide`, `deep`, `long`, `thick`, `across`.
        word: &'static str,
        /// As it was made.
        was: Length,
        /// As it is drawn.
        wanted: Length,
        /// The statement that says so, else the one that the joint comes from.
        span: Span,
    },
    /// None is drawn there.
    Gone {
        /// Where it counts from.
        from: Face,
        /// Where it stands.
        was: Length,
    },
}

/// The axes that a joint's place on its face is counted along.
pub(super) fn flat(feature: &Feature) -> [usize; 2] {
    match axis(feature.face) {
        0 => [1, 2],
        1 => [0, 2],
        _ => [0, 1],
    }
}

const STARTS: [Face; 3] = [Face::LengthStart, Face::WidthStart, Face::ThickStart];

pub(super) fn lost<'a>(
    made: &Stands<'a>,
    near: Option<&Drawn<'_>>,
    board: &Space,
    tolerance: Length,
) -> Lost<'a> {
    let mismatch = near.and_then(|drawn| {
        moved(made, drawn, tolerance).or_else(|| resized(made, drawn, tolerance))
    });
    Lost { made: made.made, mismatch: mismatch.unwrap_or_else(|| gone(made, board)) }
}

/// Where a joint stands along an axis, as it is told.
fn place(kind: MadeKind, space: &Space, axis: usize) -> Length {
    match sort(kind) {
        Sort::Bore => space.middle(axis),
        _ => space.0[axis].0,
    }
}

fn moved(made: &Stands<'_>, drawn: &Drawn<'_>, tolerance: Length) -> Option<Mismatch> {
    let far = |axis: usize| {
        let (was, now) = (made.space.0[axis], drawn.space.0[axis]);
        let middle = (made.space.middle(axis) - drawn.space.middle(axis)).abs();
        let by = match sort(made.kind) {
            Sort::Bore => middle,
            // One that only reaches further stands where it stood.
            _ => (was.0 - now.0).abs().min((was.1 - now.1).abs()).min(middle),
        };
        (by > tolerance).then_some((by, axis))
    };
    let places = flat(drawn.feature).into_iter().filter_map(far);
    let (_, axis) = places.max_by_key(|(by, _)| *by)?;
    Some(Mismatch::Place {
        from: STARTS[axis],
        was: place(made.kind, &made.space, axis),
        wanted: place(made.kind, &drawn.space, axis),
        span: drawn.feature.span,
    })
}

fn resized(made: &Stands<'_>, drawn: &Drawn<'_>, tolerance: Length) -> Option<Mismatch> {
    let depth = axis(drawn.feature.face);
    let differs = |axis: usize| {
        let (was, wanted) = (made.space.extent(axis), drawn.space.extent(axis));
        ((was - wanted).abs() > tolerance).then_some((axis, was, wanted))
    };
    let flat = flat(drawn.feature);
    let (axis, was, wanted) = flat.into_iter().chain([depth]).find_map(differs)?;
    let is_tenon = matches!(made.kind, MadeKind::Tenon | MadeKind::Haunch);
    let longer = |other: usize| drawn.space.extent(axis) >= drawn.space.extent(other);
    let word = match (sort(made.kind), axis == depth) {
        (Sort::Tenon | Sort::Whole, true) => "long",
        (_, true) => "deep",
        (Sort::Bore, false) => "across",
        // What is shaped at an end is measured by its part.
        (_, false) if is_tenon && axis == 2 => "thick",
        (_, false) if is_tenon => "wide",
        (_, false) if flat.into_iter().all(longer) => "long",
        _ => "wide",
    };
    let span = drawn.feature.deep_at.filter(|_| axis == depth);
    Some(Mismatch::Size { word, was, wanted, span: span.unwrap_or(drawn.feature.span) })
}

/// Where a joint is told to stand: along the first axis that it does not reach
/// across.
fn gone(made: &Stands<'_>, board: &Space) -> Mismatch {
    let reaches = |axis: &usize| {
        made.space.0[*axis].0 <= board.0[*axis].0 && made.space.0[*axis].1 >= board.0[*axis].1
    };
    let axis = (0..3).find(|axis| !reaches(axis)).unwrap_or(0);
    Mismatch::Gone { from: STARTS[axis], was: place(made.kind, &made.space, axis) }
}
