//! The job: what stands at the head of every paper.

use crate::diagnostics::Diagnostic;
use crate::measure::{Length, Span, Tape, Unit};
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

pub(super) fn lower(entry: &Entry, ctx: &mut Lower) -> Option<Job> {
    let body = entry.body()?;
    let unit = body.word("units").and_then(|units| Unit::parse(&units.value)).unwrap_or(Unit::Inch);
    let mut tape = match unit {
        Unit::Inch => Tape::inches(),
        _ => Tape::millimetres(),
    };
    if let Some(mark) = body.length("tape") {
        let span = mark.span_or(entry.head);
        if !mark.value.is_positive() || mark.value > Length::mm(26) {
            ctx.sink.push(
                Diagnostic::error(
                    "absurd-size",
                    "a tape's finest mark lies between nothing and an inch",
                    span,
                    "no tape has this mark",
                )
                .note("usual marks are `tape 1/32` and `tape 0.5 mm`"),
            );
        } else {
            tape.mark = mark.value;
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
