//! One line a finding, for editors; and the closing line of a run.

use std::fmt::Write as _;

use super::plain::plain;
use crate::diagnostics::{Diagnostic, Severity, Sources};

/// `path:line:col: severity[slug]: title`, one line each.
#[must_use]
pub fn short(sources: &Sources, diagnostics: &[Diagnostic]) -> String {
    let mut text = String::new();
    for d in diagnostics {
        let at = sources.position(d.primary.span);
        let name = sources.get(d.primary.span.file).map_or("", |source| source.name.as_str());
        let _ = writeln!(
            text,
            "{}:{}:{}: {}[{}]: {}",
            plain(name),
            at.line,
            at.column,
            d.severity.word(),
            d.slug,
            plain(&d.title)
        );
    }
    text
}

/// What a run comes to: `2 errors and 1 warning in hall-console.case`.
#[must_use]
pub fn summary(name: &str, diagnostics: &[Diagnostic]) -> String {
    let count = |severity| diagnostics.iter().filter(|d| d.severity == severity).count();
    let named = |number: usize, word: &str| match number {
        0 => None,
        1 => Some(format!("1 {word}")),
        n => Some(format!("{n} {word}s")),
    };
    let parts: Vec<String> = [
        named(count(Severity::Error), "error"),
        named(count(Severity::Warning), "warning"),
        named(count(Severity::Note), "note"),
    ]
    .into_iter()
    .flatten()
    .collect();
    let name = plain(name);
    match parts.as_slice() {
        [] => format!("{name} is sound"),
        [only] => format!("{only} in {name}"),
        [rest @ .., last] => format!("{} and {last} in {name}", rest.join(", ")),
    }
}
