//! A finding in plain lines, for places that have no page of their own.

use super::{Look, mend, plain};
use crate::diagnostics::{Diagnostic, Sources};

/// The title, then the sums, what happens at the bench, the notes and the
/// edits that mend it, a line each, made safe to print.
pub(super) fn said(sources: &Sources, diagnostic: &Diagnostic) -> Vec<String> {
    let mut lines = vec![plain(&diagnostic.title)];
    let sums = diagnostic.sums.iter().map(|sum| (sum.head.as_str(), sum.text()));
    let working = diagnostic.working.iter().map(|(head, text)| (head.as_str(), text.clone()));
    lines.extend(sums.chain(working).map(|(head, text)| plain(&format!("{head} {text}"))));
    lines.extend(diagnostic.because.as_deref().map(plain));
    lines.extend(diagnostic.notes.iter().map(|note| format!("note: {}", plain(note))));
    if !diagnostic.also.is_empty() {
        lines.push(format!("also: {}", plain(&diagnostic.also.join(", "))));
    }
    let home = diagnostic.primary.span.file;
    for fix in &diagnostic.fixes {
        let edit = mend::describe(sources, fix, home, Look::plain());
        let title = plain(&fix.title);
        lines.push(match (edit.is_empty(), title.is_empty()) {
            (true, _) => format!("mend: {title}"),
            (_, true) => format!("mend: {edit}"),
            _ => format!("mend: {edit} ({title})"),
        });
    }
    lines
}
