//! A finding stands at the figure that it offers to mend.

use crate::diagnostics::{Diagnostic, Label};
use crate::measure::Span;

use super::Compilation;
use super::causes::holds;

/// The compilation with each list without room told at the figure that takes it, where
/// one is offered.
pub(super) fn told(mut compiled: Compilation) -> Compilation {
    for found in compiled.diagnostics.iter_mut().filter(|found| found.slug == "no-room") {
        if let Some(figure) = found.fixes.first().and_then(|fix| fix.edits.first()) {
            let span = figure.span;
            put(found, span);
        }
    }
    compiled.diagnostics.sort_by_key(|found| (found.primary.span, found.severity));
    compiled
}

/// Puts a finding at the label of a figure, where it stands elsewhere and has one: both
/// places keep what is said of them.
pub(super) fn put(found: &mut Diagnostic, figure: Span) {
    if holds(found.primary.span, figure) {
        return;
    }
    let is_of_it = |label: &Label| holds(label.span, figure);
    if let Some(at) = found.labels.iter().position(is_of_it) {
        std::mem::swap(&mut found.primary, &mut found.labels[at]);
    }
}
