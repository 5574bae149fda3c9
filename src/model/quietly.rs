//! A case that is solved to learn its size, before it stands where it belongs.

use crate::vocabulary::Entry;

use super::case::Case;
use super::lower::Lower;
use super::place::Place;
use super::read_case::Shared;
use super::solve_case;

/// Solves a case with nothing reported, since it is solved once more where it stands;
/// `None` where it has a fault.
pub(super) fn quietly(
    entry: &Entry,
    place: Place,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Case> {
    let (sink, made_up, half) = (ctx.sink.clone(), ctx.made_up, ctx.half_solved.len());
    let case = solve_case::lower(entry, place, shared, ctx);
    let sound = ctx.sink.errors() == sink.errors();
    (ctx.sink, ctx.made_up) = (sink, made_up);
    ctx.half_solved.truncate(half);
    case.filter(|_| sound)
}
