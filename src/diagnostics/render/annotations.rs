//! Workflow commands, by which a code host marks findings at their lines:
//! `::error file=a.case,line=3,endLine=3,col=5,title=sag::message`.

use super::plain;
use super::said::said;
use crate::diagnostics::{Diagnostic, Severity, Sources};

/// One command a finding, each with its line end.
#[must_use]
pub fn annotations(sources: &Sources, diagnostics: &[Diagnostic]) -> Vec<String> {
    diagnostics.iter().map(|diagnostic| command(sources, diagnostic)).collect()
}

/// A command for a spec that can't be read.
#[must_use]
pub fn annotation_unread(name: &str, why: &str) -> String {
    format!("::error file={},title=casewright::{}\n", property(&plain(name)), data(&plain(why)))
}

fn command(sources: &Sources, diagnostic: &Diagnostic) -> String {
    let span = diagnostic.primary.span;
    let name = sources.get(span.file).map_or("", |source| source.name.as_str());
    let (start, end) = (sources.position(span), sources.end_position(span));
    // A span that holds a line's end stops before the first letter of the next.
    let last = if end.column == 1 { end.line.saturating_sub(1) } else { end.line };
    format!(
        "::{} file={},line={},endLine={},col={},title={}::{}\n",
        level(diagnostic.severity),
        property(&plain(name)),
        start.line,
        last.max(start.line),
        start.column,
        property(diagnostic.slug),
        data(&said(sources, diagnostic).join("\n")),
    )
}

fn level(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Note => "notice",
    }
}

/// A message, in which `%` and line ends are written out.
fn data(text: &str) -> String {
    text.replace('%', "%25").replace('\r', "%0D").replace('\n', "%0A")
}

/// A property, which ends at `,` and `:` as well.
fn property(text: &str) -> String {
    data(text).replace(':', "%3A").replace(',', "%2C")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostics::Sum;
    use crate::measure::{Length, Span, Tape};

    #[test]
    fn what_would_end_a_property_or_the_command_is_written_out() {
        let mut sources = Sources::new();
        let file = sources.add("50%,a:b.case", "one\ntwo three\n");
        let tape = Tape::inches();
        let found =
            Diagnostic::warning("gap-wide", "42 % more, or: less", Span::new(file, 8, 13), "")
                .sum(Sum::new("over by", Length::inches(1, 32), &tape))
                .because("it rattles\r\n::error::x.")
                .note("100%");
        assert_eq!(
            annotations(&sources, &[found]),
            [
                "::warning file=50%25%2Ca%3Ab.case,line=2,endLine=2,col=5,title=gap-wide::42 %25 more, \
              or: less%0Aover by 1/32%0Ait rattles<U+000D><U+000A>::error::x.%0Anote: 100%25\n"
            ]
        );
    }

    #[test]
    fn a_block_ends_on_the_line_of_its_brace() {
        let mut sources = Sources::new();
        let file = sources.add("a.case", "base {\n  high 4\n}\nwide 3\n");
        let ends = |start: usize, end: usize| {
            let found = Diagnostic::error("s", "t", Span::new(file, start, end), "");
            annotations(&sources, &[found]).concat()
        };
        assert!(ends(0, 17).contains(",line=1,endLine=3,col=1,"));
        assert!(ends(0, 18).contains(",line=1,endLine=3,col=1,"));
        assert!(ends(18, 18).contains(",line=4,endLine=4,col=1,"));
    }

    #[test]
    fn a_spec_that_can_not_be_read_has_its_own() {
        let command = annotation_unread("a,b.case", "there is no file\na,b.case");
        assert_eq!(
            command,
            "::error file=a%2Cb.case,title=casewright::there is no file<U+000A>a,b.case\n"
        );
    }
}
