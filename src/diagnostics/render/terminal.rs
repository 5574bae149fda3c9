//! The message as a page: the statements with their figures, the sum, the edit.

use std::fmt::Write as _;

use miette::{
    GraphicalReportHandler, GraphicalTheme, LabeledSpan, NamedSource, ThemeCharacters, ThemeStyles,
};

use super::plain::{is_hostile, plain};
use crate::diagnostics::{Diagnostic, Label, Severity, Sources};
use crate::measure::FileId;

/// How the page looks; decided by whoever knows the terminal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Look {
    /// With colour.
    pub colour: bool,
    /// With lines drawn in Unicode; else ASCII.
    pub unicode: bool,
    /// How many columns there are.
    pub width: usize,
}

impl Look {
    /// For logs and tests: no colour, 80 columns.
    #[must_use]
    pub fn plain() -> Self {
        Self { colour: false, unicode: true, width: 80 }
    }
}

/// How many findings of one slug are shown in full.
const MOST_OF_A_KIND: usize = 12;

/// Every finding as a page of its own, an empty line between them.
#[must_use]
pub fn terminal(sources: &Sources, diagnostics: &[Diagnostic], look: Look) -> String {
    let mut text = String::new();
    let mut shown: Vec<(&str, usize)> = Vec::new();
    for d in diagnostics {
        let at = match shown.iter().position(|(slug, _)| *slug == d.slug) {
            Some(at) => at,
            None => {
                shown.push((d.slug, 0));
                shown.len() - 1
            }
        };
        shown[at].1 += 1;
        if shown[at].1 <= MOST_OF_A_KIND {
            page(&mut text, sources, d, look);
            text.push('\n');
        }
    }
    for (slug, count) in shown.iter().filter(|(_, count)| *count > MOST_OF_A_KIND) {
        let more = count - MOST_OF_A_KIND;
        let _ = writeln!(text, "and {more} more of {slug}; `--format short` lists them all\n");
    }
    text
}

fn page(text: &mut String, sources: &Sources, d: &Diagnostic, look: Look) {
    let (on, off) = colours(d.severity, look);
    let title = wrap(&plain(&d.title), look.width, "  ");
    let _ = writeln!(text, "{on}{}[{}]{off}: {title}", d.severity.word(), d.slug);
    let own = d.primary.span.file;
    snippet(text, sources, own, std::iter::once(&d.primary).chain(&d.labels), look);
    let mut others: Vec<FileId> =
        d.labels.iter().map(|label| label.span.file).filter(|file| *file != own).collect();
    others.dedup();
    for file in others {
        snippet(text, sources, file, d.labels.iter(), look);
    }
    for sum in &d.sums {
        row(text, &sum.head, &plain(&sum.text()), look);
    }
    if let Some(because) = &d.because {
        row(text, "why", &plain(because), look);
    }
    for note in &d.notes {
        row(text, "note", &plain(note), look);
    }
    for (number, fix) in d.fixes.iter().enumerate() {
        let head = if number == 0 { "mend" } else { "or" };
        row(text, head, &mend(sources, fix), look);
    }
    row(text, "more", &format!("casewright explain {}", d.slug), look);
}

/// `line 98: write `high 9` (make middle 9)`.
fn mend(sources: &Sources, fix: &crate::diagnostics::Fix) -> String {
    let Some(edit) = fix.edits.first() else { return plain(&fix.title) };
    let line = sources.position(edit.span).line;
    let put = plain(edit.text.trim());
    let taken = plain(sources.text(edit.span).trim());
    let title = plain(&fix.title);
    match (put.is_empty(), taken.is_empty()) {
        (true, _) => format!("line {line}: take `{taken}` away"),
        (false, true) => format!("line {line}: add `{put}`"),
        (false, false) if title.contains(&put) => format!("line {line}: `{put}`"),
        (false, false) => format!("line {line}: `{put}` ({title})"),
    }
}

/// A line of the foot: its head in a column of its own.
fn row(text: &mut String, head: &str, body: &str, look: Look) {
    let indent = " ".repeat(11);
    let _ = writeln!(text, "  {head:<8} {}", wrap(body, look.width.saturating_sub(11), &indent));
}

/// Breaks a line at spaces so that it fits; later lines start with `indent`.
fn wrap(line: &str, width: usize, indent: &str) -> String {
    use unicode_width::UnicodeWidthStr as _;
    let width = width.max(30);
    let mut wrapped = String::new();
    let mut column = 0;
    for word in line.split(' ') {
        let wide = word.width();
        if column > 0 && column + 1 + wide > width {
            wrapped.push('\n');
            wrapped.push_str(indent);
            column = 0;
        } else if column > 0 {
            wrapped.push(' ');
            column += 1;
        }
        wrapped.push_str(word);
        column += wide;
    }
    wrapped
}

fn colours(severity: Severity, look: Look) -> (&'static str, &'static str) {
    if !look.colour {
        return ("", "");
    }
    let on = match severity {
        Severity::Error => "\u{1b}[1;31m",
        Severity::Warning => "\u{1b}[1;33m",
        Severity::Note => "\u{1b}[1;36m",
    };
    (on, "\u{1b}[0m")
}

/// What miette draws: the lines of one file with their labels.
#[derive(Debug)]
struct Snippet {
    source: NamedSource<String>,
    labels: Vec<LabeledSpan>,
}

impl std::fmt::Display for Snippet {
    fn fmt(&self, _: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        Ok(())
    }
}

impl std::error::Error for Snippet {}

impl miette::Diagnostic for Snippet {
    fn source_code(&self) -> Option<&dyn miette::SourceCode> {
        Some(&self.source)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        Some(Box::new(self.labels.iter().cloned()))
    }
}

fn snippet<'a>(
    text: &mut String,
    sources: &Sources,
    file: FileId,
    labels: impl Iterator<Item = &'a Label>,
    look: Look,
) {
    let Some(source) = sources.get(file) else { return };
    let (safe, moved) = safe(&source.text);
    let mut spans: Vec<LabeledSpan> = Vec::new();
    for label in labels.filter(|label| label.span.file == file) {
        let (start, end) = (moved(label.span.start), moved(label.span.end));
        let known = spans.iter().any(|span| span.offset() == start && span.len() == end - start);
        if !known {
            let words = (!label.text.is_empty()).then(|| plain(&label.text));
            spans.push(LabeledSpan::new(words, start, end - start));
        }
    }
    // One label stands first in miette's header line: the leftmost primary.
    if let Some(first) = spans.first_mut() {
        *first =
            LabeledSpan::new_primary_with_span(first.label().map(str::to_owned), *first.inner());
    }
    let snippet = Snippet { source: NamedSource::new(plain(&source.name), safe), labels: spans };
    let theme = GraphicalTheme {
        characters: if look.unicode {
            ThemeCharacters::unicode()
        } else {
            ThemeCharacters::ascii()
        },
        styles: if look.colour { ThemeStyles::ansi() } else { ThemeStyles::none() },
    };
    let handler = GraphicalReportHandler::new_themed(theme)
        .with_width(look.width)
        .with_links(false)
        .without_cause_chain()
        .tab_width(2);
    let mut drawn = String::new();
    if handler.render_report(&mut drawn, &snippet).is_ok() {
        // miette opens with a line for the title, which we print ourselves.
        let lines: Vec<&str> = drawn.lines().skip_while(|line| !opens(line)).collect();
        elide(text, &lines);
    }
}

/// Writes the lines of a drawing, with one mark for every run of lines that no
/// label belongs to.
fn elide(text: &mut String, lines: &[&str]) {
    let numbered = |line: &&str| line.trim_start().starts_with(|c: char| c.is_ascii_digit());
    let mut at = 0;
    while let Some(line) = lines.get(at) {
        let run = lines[at..].iter().take_while(|line| numbered(line)).count();
        // The last line of a run carries the label that follows it, unless the
        // drawing ends there.
        let ends =
            lines.get(at + run).is_none_or(|next| next.contains("╰──") || next.contains("`--"));
        let bare = if ends { run } else { run.saturating_sub(1) };
        if bare > 2 || bare > 0 && ends {
            if !ends {
                let _ = writeln!(text, "     …");
            }
            at += bare;
            continue;
        }
        let _ = writeln!(text, "{}", line.trim_end());
        at += 1;
    }
}

/// True for the line of a drawing that names the file.
fn opens(line: &str) -> bool {
    line.contains("╭─") || line.contains(",-[") || line.contains("─[")
}

/// The text with hostile characters replaced by marks of one column, and the
/// way from an old byte to its new place.
fn safe(text: &str) -> (String, impl Fn(u32) -> usize) {
    let hostile = |c: char| is_hostile(c) && !matches!(c, '\n' | '\r' | '\t');
    let mut shifts: Vec<(u32, i64)> = Vec::new();
    let mut safe = text.to_owned();
    if text.chars().any(hostile) {
        safe.clear();
        let mut shift = 0;
        for (at, c) in text.char_indices() {
            if hostile(c) {
                safe.push('\u{FFFD}');
                shift += 3 - c.len_utf8() as i64;
                shifts.push((at as u32, shift));
            } else {
                safe.push(c);
            }
        }
    }
    let moved = move |at: u32| {
        let shift = shifts.iter().rev().find(|(from, _)| *from < at).map_or(0, |(_, shift)| *shift);
        usize::try_from(i64::from(at) + shift).unwrap_or(0)
    };
    (safe, moved)
}
