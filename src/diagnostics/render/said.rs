//! A finding in plain lines, for places that have no page of their own.

use super::{Look, mend, plain};
use crate::diagnostics::{Diagnostic, Fix, Sources};
use crate::measure::FileId;

/// The title, then the sums, what happens at the bench, and the notes, a line each, made
/// safe to print.
#[must_use]
pub fn finding(diagnostic: &Diagnostic) -> Vec<String> {
    let mut lines = vec![plain(&diagnostic.title)];
    let sums = diagnostic.sums.iter().map(|sum| (sum.head.as_str(), sum.text()));
    let working = diagnostic.working.iter().map(|(head, text)| (head.as_str(), text.clone()));
    lines.extend(sums.chain(working).map(|(head, text)| plain(&format!("{head} {text}"))));
    lines.extend(diagnostic.because.as_deref().map(plain));
    lines.extend(diagnostic.notes.iter().map(|note| format!("note: {}", plain(note))));
    if !diagnostic.also.is_empty() {
        lines.push(format!("also: {}", plain(&diagnostic.also.join(", "))));
    }
    lines
}

/// The same, and the edits that mend it.
pub(super) fn said(sources: &Sources, diagnostic: &Diagnostic) -> Vec<String> {
    let home = diagnostic.primary.span.file;
    let mends = diagnostic.fixes.iter().map(|fix| format!("mend: {}", way(sources, fix, home)));
    finding(diagnostic).into_iter().chain(mends).collect()
}

/// A fix on one line: what the statement says then, and what that brings about.
#[must_use]
pub fn way(sources: &Sources, fix: &Fix, home: FileId) -> String {
    let edit = mend::describe(sources, fix, home, Look::plain());
    let title = plain(&fix.title);
    match (edit.is_empty(), title.is_empty()) {
        (true, _) => title,
        (_, true) => edit,
        _ => format!("{edit} ({title})"),
    }
}
