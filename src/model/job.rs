//! The job: what stands at the head of every paper.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{Span, Tape, Unit};
use crate::vocabulary::Entry;

use super::lower::Lower;

/// The job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Job {
    /// Its name.
    pub name: String,
    /// The revision of this drawing.
    pub revision: String,
    /// How figures are printed.
    pub tape: Tape,
    /// The currency of all prices.
    pub currency: Option<String>,
    /// Notes for the papers.
    pub notes: Vec<String>,
    /// Where it is written.
    pub span: Span,
}

fn no_such_mark(unit: Unit, span: Span) -> Diagnostic {
    let (title, usual) = match unit {
        Unit::Inch => (
            "an inch job is printed to 1/2, 1/4, 1/8, 1/16, 1/32, 1/64 or 1/128",
            [("tape 1/16", "most tapes"), ("tape 1/32", "a steel rule")],
        ),
        _ => (
            "a metric job is printed to 1, 0.5 or 0.1 mm",
            [("tape 1 mm", "most tapes"), ("tape 0.5 mm", "a steel rule")],
        ),
    };
    let error = Diagnostic::error("absurd-size", title, span, "no tape has this mark");
    usual.into_iter().fold(error, |error, (mark, what)| {
        error.fix(Fix::new(Grade::Choice, format!("write `{mark}`, as on {what}"), span, mark))
    })
}

pub(super) fn lower(entry: &Entry, ctx: &mut Lower) -> Option<Job> {
    let body = entry.body()?;
    let unit = body.word("units").and_then(|units| Unit::parse(&units.value)).unwrap_or(Unit::Inch);
    let mut tape = match unit {
        Unit::Inch => Tape::inches(),
        _ => Tape::millimetres(),
    };
    if let Some(mark) = body.length("tape") {
        let span = mark.span_or(entry.head);
        if Tape::marks(unit).contains(&mark.value) {
            tape.mark = mark.value;
        } else {
            ctx.sink.push(no_such_mark(unit, span));
        }
    }
    ctx.tape = tape;
    Some(Job {
        name: entry.text(0).map(|text| text.value.to_owned()).unwrap_or_default(),
        revision: body.word("revision").map(|r| r.value).unwrap_or_default(),
        tape,
        currency: body.word("currency").map(|c| c.value),
        notes: body.notes(),
        span: entry.head,
    })
}
