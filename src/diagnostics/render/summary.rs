//! The closing line of a run: what was found, as a person would say it.

use super::plain;
use crate::diagnostics::{Diagnostic, Severity, counted};

/// `2 errors, 1 warning in hall-console.case`; without an error, that the
/// piece can be built.
#[must_use]
pub fn summary(name: &str, diagnostics: &[Diagnostic]) -> String {
    let name = plain(name);
    let count = |severity| diagnostics.iter().filter(|d| d.severity == severity).count();
    let found = [Severity::Error, Severity::Warning, Severity::Note]
        .into_iter()
        .map(|severity| (count(severity), severity.word()))
        .filter(|(count, _)| *count > 0)
        .map(|(count, word)| counted(count, word))
        .collect::<Vec<_>>()
        .join(", ");
    if found.is_empty() {
        format!("{name} is sound")
    } else if count(Severity::Error) > 0 {
        format!("{found} in {name}")
    } else {
        format!("{name} can be built, with {found}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Span;

    fn closing(severities: &[Severity]) -> String {
        let found: Vec<Diagnostic> = severities
            .iter()
            .map(|severity| Diagnostic::new("slug", *severity, "", Span::default(), ""))
            .collect();
        summary("a.case", &found)
    }

    #[test]
    fn counts_as_a_person_would() {
        use Severity::{Error, Warning};
        assert_eq!(closing(&[Error, Error, Warning]), "2 errors, 1 warning in a.case");
        assert_eq!(closing(&[Error]), "1 error in a.case");
        assert_eq!(closing(&[Warning]), "a.case can be built, with 1 warning");
        assert_eq!(closing(&[]), "a.case is sound");
    }
}
