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
/// How many statements cases may take over from others, all together: a large case has some
/// hundreds.
pub(super) const MOST_TAKEN_OVER: usize = 100_000;
/// How many shelves a piece may have: the only boards of which a few letters
/// ask for many. A library of sixty cases has some six hundred.
const MOST_SHELVES: usize = 1_000;
/// How many of them one case may have: each is held against the others of its
/// column. A tall bookcase has ten to a column, and a case few columns; a sorter for
/// mail of 15 columns with 20 slots each has 285.
const MOST_CASE_SHELVES: usize = 300;
/// How many boards a piece may have.
pub const MOST_PARTS: usize = 50_000;

/// Says at which opening there are more shelves than can be looked at.
pub(super) fn too_many_shelves(cases: &[Case]) -> Option<Diagnostic> {
    let mut all = 0;
    for case in cases {
        let mut own = 0;
        for set in case.openings.iter().filter_map(|opening| opening.shelves.as_ref()) {
            own += set.count() as usize;
            if own > MOST_CASE_SHELVES {
                return Some(too_many(MOST_CASE_SHELVES, "shelves in one case", set.span));
            }
            if all + own > MOST_SHELVES {
                return Some(too_many(MOST_SHELVES, "shelves", set.span));
            }
        }
        all += own;
    }
    None
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
