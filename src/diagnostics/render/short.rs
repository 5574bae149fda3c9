//! One line a finding, as editors' lists of places read it.

use super::plain;
use crate::diagnostics::{Diagnostic, Sources};

/// `path:line:col: severity[slug]: title`, one line each.
#[must_use]
pub fn short(sources: &Sources, diagnostics: &[Diagnostic]) -> String {
    let mut out = String::new();
    for diagnostic in diagnostics {
        let span = diagnostic.primary.span;
        let name = sources.get(span.file).map_or("", |source| source.name.as_str());
        let at = sources.position(span);
        out.push_str(&format!(
            "{}:{}:{}: {}[{}]: {}\n",
            plain(name),
            at.line,
            at.column,
            diagnostic.severity.word(),
            diagnostic.slug,
            plain(&diagnostic.title),
        ));
    }
    out
}
