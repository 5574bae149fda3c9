//! How large a piece may be: whatever a spec says, checking it comes to an end
//! while somebody waits.

use crate::diagnostics::Diagnostic;
use crate::measure::Span;

/// How many cases stand in a row at most.
pub(super) const MOST_CASES: usize = 1_000;
/// How many openings one case may have, lists counted too. Their sizes are
/// solved together.
pub(super) const MOST_OPENINGS: usize = 500;
/// How many boards a piece may have.
pub const MOST_PARTS: usize = 50_000;

/// What is said at the first that is too many.
pub(crate) fn too_many(most: usize, what: &str, at: Span) -> Diagnostic {
    Diagnostic::error("too-many", format!("more than {most} {what}"), at, "the first too many")
        .note("a job of several pieces is several specs")
}
