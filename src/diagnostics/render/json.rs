//! JSON lines: one finding a line, for programs.
//!
//! Bytes count from 0 and end one past the last. Lines and columns count from
//! 1; columns are in characters (Unicode scalar values). Exact lengths are
//! fractions of a millimetre, `"127/5"`, beside the figure as printed.

use std::io;

use serde::Serialize;
use serde_json::ser::{Formatter, Serializer};

use super::visible::{is_plain, is_unseen};
use crate::diagnostics::{Diagnostic, Edit, Figure, Label, Sources, Sum};
use crate::measure::{Length, Span, Unit};

/// The version of the objects; goes up when a field changes or goes away.
pub const SCHEMA: u32 = 1;

#[derive(Serialize)]
struct Line<'a> {
    schema: u32,
    slug: &'a str,
    severity: &'a str,
    title: &'a str,
    subject: Option<&'a str>,
    also: &'a [String],
    #[serde(flatten)]
    at: Place<'a>,
    label: &'a str,
    labels: Vec<Marked<'a>>,
    sums: Vec<Arithmetic<'a>>,
    working: Vec<Worked<'a>>,
    because: Option<&'a str>,
    notes: &'a [String],
    fixes: Vec<Way<'a>>,
}

#[derive(Serialize)]
struct Place<'a> {
    file: &'a str,
    byte_start: u32,
    byte_end: u32,
    line: usize,
    column: usize,
    end_line: usize,
    end_column: usize,
}

#[derive(Serialize)]
struct Marked<'a> {
    #[serde(flatten)]
    at: Place<'a>,
    text: &'a str,
}

#[derive(Serialize)]
struct Arithmetic<'a> {
    head: &'a str,
    text: String,
    terms: Vec<Part<'a>>,
    shared_among: u32,
    total: Amount<'a>,
}

#[derive(Serialize)]
struct Worked<'a> {
    head: &'a str,
    text: &'a str,
}

#[derive(Serialize)]
struct Part<'a> {
    minus: bool,
    times: u32,
    #[serde(flatten)]
    amount: Amount<'a>,
    name: &'a str,
}

#[derive(Serialize)]
struct Amount<'a> {
    mm: Option<String>,
    text: &'a str,
}

#[derive(Serialize)]
struct Way<'a> {
    title: &'a str,
    grade: &'a str,
    edits: Vec<Marked<'a>>,
}

/// Every finding as a JSON object on a line of its own.
#[must_use]
pub fn json(sources: &Sources, diagnostics: &[Diagnostic]) -> String {
    diagnostics.iter().map(|diagnostic| json_line(&object(sources, diagnostic))).collect()
}

/// An object on a line of its own, harmless on a terminal.
#[must_use]
pub fn json_line(object: &impl Serialize) -> String {
    escaped(object).map_or(String::new(), |line| line + "\n")
}

/// The JSON of a value, on one line, harmless on a terminal.
pub(super) fn escaped(value: &impl Serialize) -> Option<String> {
    let mut bytes = Vec::new();
    value.serialize(&mut Serializer::with_formatter(&mut bytes, Escaped)).ok()?;
    String::from_utf8(bytes).ok()
}

fn object<'a>(sources: &'a Sources, diagnostic: &'a Diagnostic) -> Line<'a> {
    let marked = |label: &'a Label| Marked { at: place(sources, label.span), text: &label.text };
    let edit = |edit: &'a Edit| Marked { at: place(sources, edit.span), text: &edit.text };
    Line {
        schema: SCHEMA,
        slug: diagnostic.slug,
        severity: diagnostic.severity.word(),
        title: &diagnostic.title,
        subject: diagnostic.subject.as_deref(),
        also: &diagnostic.also,
        at: place(sources, diagnostic.primary.span),
        label: &diagnostic.primary.text,
        labels: diagnostic.labels.iter().map(marked).collect(),
        sums: diagnostic.sums.iter().map(arithmetic).collect(),
        working: diagnostic.working.iter().map(|(head, text)| Worked { head, text }).collect(),
        because: diagnostic.because.as_deref(),
        notes: &diagnostic.notes,
        fixes: diagnostic
            .fixes
            .iter()
            .map(|fix| Way {
                title: &fix.title,
                grade: fix.grade.word(),
                edits: fix.edits.iter().map(edit).collect(),
            })
            .collect(),
    }
}

fn place(sources: &Sources, span: Span) -> Place<'_> {
    let (start, end) = (sources.position(span), sources.end_position(span));
    Place {
        file: sources.get(span.file).map_or("", |source| source.name.as_str()),
        byte_start: span.start,
        byte_end: span.end,
        line: start.line,
        column: start.column,
        end_line: end.line,
        end_column: end.column,
    }
}

fn arithmetic(sum: &Sum) -> Arithmetic<'_> {
    Arithmetic {
        head: &sum.head,
        text: sum.text(),
        terms: sum
            .terms
            .iter()
            .map(|term| Part {
                minus: term.minus,
                times: term.times,
                amount: amount(&term.figure),
                name: &term.name,
            })
            .collect(),
        shared_among: sum.over,
        total: amount(&sum.total),
    }
}

fn amount(figure: &Figure) -> Amount<'_> {
    Amount { mm: figure.exact.and_then(fraction), text: &figure.text }
}

/// `127/5`; nothing for a length that arithmetic could not keep.
#[must_use]
pub fn fraction(length: Length) -> Option<String> {
    let mm = length.in_unit(Unit::Millimetre);
    (!mm.is_out_of_range()).then(|| format!("{}/{}", mm.numer(), mm.denom()))
}

/// Writes control characters and direction marks as `\u` escapes, so that the
/// lines are harmless on a terminal too; a reader gets the same text back.
struct Escaped;

impl Formatter for Escaped {
    fn write_string_fragment<W: ?Sized + io::Write>(
        &mut self,
        writer: &mut W,
        fragment: &str,
    ) -> io::Result<()> {
        // Nearly every text is of plain letters.
        if is_plain(fragment) {
            return writer.write_all(fragment.as_bytes());
        }
        let mut rest = fragment;
        while let Some(at) = rest.find(is_unseen) {
            let (before, after) = rest.split_at(at);
            writer.write_all(before.as_bytes())?;
            let mut chars = after.chars();
            let mut units = [0; 2];
            for unit in chars.next().map_or(&[][..], |c| c.encode_utf16(&mut units)) {
                write!(writer, "\\u{unit:04x}")?;
            }
            rest = chars.as_str();
        }
        writer.write_all(rest.as_bytes())
    }
}
