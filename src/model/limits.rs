//! How large a piece may be: whatever a spec says, checking it comes to an end
//! while somebody waits.

use crate::diagnostics::Diagnostic;
use crate::measure::Span;

use super::case::Case;

/// How many cases stand in a row at most.
pub(super) const MOST_CASES: usize = 1_000;
/// How many openings one case may have, lists counted too. Their sizes are
/// solved together.
pub(super) const MOST_OPENINGS: usize = 500;
/// How many shelves a piece may have: the only boards of which a few letters
/// ask for many. A library of sixty cases has some six hundred.
const MOST_SHELVES: usize = 2_000;
/// How many boards a piece may have.
pub const MOST_PARTS: usize = 50_000;

/// Says at which opening there are more shelves than can be looked at.
pub(super) fn too_many_shelves(cases: &[Case]) -> Option<Diagnostic> {
    let mut left = MOST_SHELVES;
    let sets = cases.iter().flat_map(|case| &case.openings);
    let over = sets.filter_map(|opening| opening.shelves.as_ref()).find(|set| {
        match left.checked_sub(set.count as usize) {
            Some(rest) => left = rest,
            None => return true,
        }
        false
    });
    over.map(|set| too_many(MOST_SHELVES, "shelves", set.span))
}

/// What is said at the first that is too many.
pub(crate) fn too_many(most: usize, what: &str, at: Span) -> Diagnostic {
    Diagnostic::error(
        "too-many",
        format!("there are more than {most} {what}"),
        at,
        "the first one too many",
    )
    .note("write one spec for each piece of a job")
}
