//! Where a bit comes out of the work through an edge that is seen, and tears it: a covered
//! edge, or the bare front edge of a board of a case without a frame.

use crate::parts::{Assembly, Direction, Face};

use super::Workings;
use super::guide::Guide;
use super::operations;
use super::setups::{Run, Setup};

/// The edge or end against which scrap is clamped; `None` where the bit comes out through
/// nothing that is seen. Of two boards that mirror each other it comes out at the front of one
/// and at the back of the other, since its straight-edge stands on its left.
#[must_use]
pub fn backed(work: &Workings<'_>, setup: &Setup, run: &Run) -> Option<Face> {
    let part = work.parts.get(run.part)?;
    let guide = setup.guided.as_ref()?.guide;
    // Over the saw a board may be pushed with either edge first, and at the end of a whole
    // stick there is wood to spare.
    if guide == Guide::Saw || run.stick.is_some() {
        return None;
    }
    let out = operations::feed(part, guide, run.face, run.datum(part)?).to;
    let (first, _) = run.face.ends_of_run(setup.along);
    let (_, short) = run.stops_along(out != first);
    if short.is_positive() {
        return None;
    }
    let is_covered = part.strips.iter().any(|strip| strip.face == out);
    let is_front = matches!(part.assembly, Assembly::Carcass(_))
        && part.placement.face(Direction::Z, true) == out
        && work.piece.case(part.case).is_some_and(|case| case.frame.is_none());
    (is_covered || is_front).then_some(out)
}
