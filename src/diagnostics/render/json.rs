//! One JSON object a line, for other programs.

use serde::Serialize;

use crate::diagnostics::{Diagnostic, Figure, Label, Sources};
use crate::measure::{Length, Span, Unit};

/// The version of the objects below; it changes when a field changes its
/// meaning or goes.
pub const SCHEMA: u32 = 1;

#[derive(Serialize)]
struct Line<'a> {
    schema: u32,
    slug: &'a str,
    severity: &'a str,
    title: &'a str,
    subject: Option<&'a str>,
    primary: Place<'a>,
    labels: Vec<Place<'a>>,
    sums: Vec<SumLine<'a>>,
    because: Option<&'a str>,
    notes: &'a [String],
    fixes: Vec<FixLine<'a>>,
}

/// Lines and columns count from 1, columns in characters; bytes from 0.
#[derive(Serialize)]
struct Place<'a> {
    file: &'a str,
    byte_start: u32,
    byte_end: u32,
    line: usize,
    column: usize,
    end_line: usize,
    end_column: usize,
    #[serde(skip_serializing_if = "Option::is_none")]
    text: Option<&'a str>,
}

#[derive(Serialize)]
struct SumLine<'a> {
    head: &'a str,
    text: String,
    terms: Vec<TermLine<'a>>,
    total: FigureLine<'a>,
    divided_by: u32,
}

#[derive(Serialize)]
struct TermLine<'a> {
    minus: bool,
    times: u32,
    figure: FigureLine<'a>,
    name: &'a str,
}

#[derive(Serialize)]
struct FigureLine<'a> {
    /// Exact, as a fraction of millimetres.
    mm: String,
    text: &'a str,
}

#[derive(Serialize)]
struct FixLine<'a> {
    title: &'a str,
    grade: &'a str,
    edits: Vec<EditLine<'a>>,
}

#[derive(Serialize)]
struct EditLine<'a> {
    at: Place<'a>,
    replacement: &'a str,
}

/// Every finding as a JSON object on a line of its own.
#[must_use]
pub fn json(sources: &Sources, diagnostics: &[Diagnostic]) -> String {
    let mut text = String::new();
    for d in diagnostics {
        let line = Line {
            schema: SCHEMA,
            slug: d.slug,
            severity: d.severity.word(),
            title: &d.title,
            subject: d.subject.as_deref(),
            primary: labelled(sources, &d.primary),
            labels: d.labels.iter().map(|label| labelled(sources, label)).collect(),
            sums: d
                .sums
                .iter()
                .map(|sum| SumLine {
                    head: &sum.head,
                    text: sum.text(),
                    terms: sum
                        .terms
                        .iter()
                        .map(|term| TermLine {
                            minus: term.minus,
                            times: term.times,
                            figure: figure(&term.figure),
                            name: &term.name,
                        })
                        .collect(),
                    total: figure(&sum.total),
                    divided_by: sum.over,
                })
                .collect(),
            because: d.because.as_deref(),
            notes: &d.notes,
            fixes: d
                .fixes
                .iter()
                .map(|fix| FixLine {
                    title: &fix.title,
                    grade: fix.grade.word(),
                    edits: fix
                        .edits
                        .iter()
                        .map(|edit| EditLine {
                            at: place(sources, edit.span, None),
                            replacement: &edit.text,
                        })
                        .collect(),
                })
                .collect(),
        };
        // These types hold nothing that JSON can't.
        if let Ok(line) = serde_json::to_string(&line) {
            text.push_str(&line);
            text.push('\n');
        }
    }
    text
}

fn labelled<'a>(sources: &'a Sources, label: &'a Label) -> Place<'a> {
    place(sources, label.span, Some(&label.text))
}

fn place<'a>(sources: &'a Sources, span: Span, text: Option<&'a str>) -> Place<'a> {
    let (start, end) = (sources.position(span), sources.end_position(span));
    Place {
        file: sources.get(span.file).map_or("", |source| source.name.as_str()),
        byte_start: span.start,
        byte_end: span.end,
        line: start.line,
        column: start.column,
        end_line: end.line,
        end_column: end.column,
        text,
    }
}

fn figure(figure: &Figure) -> FigureLine<'_> {
    FigureLine { mm: fraction(figure.exact), text: &figure.text }
}

fn fraction(length: Length) -> String {
    let mm = length.in_unit(Unit::Millimetre);
    format!("{}/{}", mm.numer(), mm.denom())
}
