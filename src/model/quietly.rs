//! A case or a run that is solved to learn its size, before it stands where it belongs.

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
    without_word(ctx, |ctx| solve_case::lower(entry, place, shared, ctx))
}

/// Solves what is solved once more, with nothing reported; `None` where it has a fault.
pub(super) fn without_word<T>(
    ctx: &mut Lower,
    solve: impl FnOnce(&mut Lower) -> Option<T>,
) -> Option<T> {
    let (sink, made_up, half) = (ctx.sink.clone(), ctx.made_up, ctx.half_solved.len());
    let solved = solve(ctx);
    let sound = ctx.sink.errors() == sink.errors();
    (ctx.sink, ctx.made_up) = (sink, made_up);
    ctx.half_solved.truncate(half);
    solved.filter(|_| sound)
}
