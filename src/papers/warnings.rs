//! The warnings that whoever holds the papers must know of.

use crate::diagnostics::Severity;
use crate::model::Piece;
use crate::pipeline::Compilation;

/// Every warning that nobody has accepted: `warning not accepted: the two leaves
/// of press will meet … (gap-closes)`.
pub(super) fn open(compiled: &Compilation) -> Vec<String> {
    let warnings = compiled.diagnostics.iter().filter(|found| found.severity == Severity::Warning);
    warnings
        .map(|found| {
            let also = match found.also.is_empty() {
                true => String::new(),
                false => format!(", also on {}", found.also.join(", ")),
            };
            format!("warning not accepted: {} ({}{also})", found.title, found.slug)
        })
        .collect()
}

/// Every warning that the maker has accepted, with the reason.
pub(super) fn accepted(piece: &Piece) -> impl Iterator<Item = String> {
    piece
        .accepts
        .iter()
        .map(|accept| format!("accepted: {} on {}: {}", accept.slug, accept.subject, accept.reason))
}
