//! The job: what stands at the head of every paper.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{Length, Span, Tape};
use crate::vocabulary::{Entries, Said, Units, Word, takes, words};

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
    /// How far what is written may give where that saves a sheet, a board, or a setting.
    pub give: Give,
    /// Notes for the papers.
    pub notes: Vec<String>,
    /// Where it is written.
    pub span: Span,
}

/// How far written sizes may come out otherwise: cases smaller, members, joints, and openings
/// either way. The usual half an inch, 12 mm, and the eighth of an inch, 3 mm, of joints are common
/// practice, no source.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Give {
    /// Widths of cases, stretchers, and nailers.
    pub wide: Length,
    /// Depths of cases.
    pub deep: Length,
    /// Heights of cases.
    pub high: Length,
    /// Widths of rails and stiles.
    pub members: Length,
    /// Depths of dadoes, grooves, and rabbets.
    pub joints: Length,
    /// Widths and heights of openings.
    pub openings: Length,
}

impl Give {
    fn read(body: &Entries, ctx: &Lower) -> Self {
        use words::give::{BLOCK, DEEP, HIGH, JOINTS, MEMBERS, OPENINGS, WIDE};
        let empty = ctx.empty(&BLOCK);
        let body = body.one(words::job::GIVE).and_then(Said::body).unwrap_or(&empty);
        let length = |word: Word<takes::Length>| body.get(word).map_or(Length::ZERO, |it| it.value);
        Self {
            wide: length(WIDE),
            deep: length(DEEP),
            high: length(HIGH),
            members: length(MEMBERS),
            joints: length(JOINTS),
            openings: length(OPENINGS),
        }
    }
}

fn no_such_mark(units: Units, span: Span) -> Diagnostic {
    let (title, usual) = match units {
        Units::Inches => (
            "an inch job is printed to 1/2, 1/4, 1/8, 1/16, 1/32, 1/64 or 1/128",
            [("tape 1/16", "most tapes"), ("tape 1/32", "a steel rule")],
        ),
        Units::Millimetres => (
            "a metric job is printed to 1, 0.5 or 0.1 mm",
            [("tape 1 mm", "most tapes"), ("tape 0.5 mm", "a steel rule")],
        ),
    };
    let error = Diagnostic::error("absurd-size", title, span, "no tape has this mark");
    usual.into_iter().fold(error, |error, (mark, what)| {
        error.fix(Fix::new(Grade::Choice, format!("write `{mark}`, as on {what}"), span, mark))
    })
}

pub(super) fn lower(entry: Said<'_, takes::Text>, ctx: &mut Lower) -> Option<Job> {
    use words::job::{CURRENCY, REVISION, TAPE, UNITS};

    let body = entry.body()?;
    let units = body.get(UNITS).map_or(Units::Inches, |units| units.value);
    let mut tape = match units {
        Units::Inches => Tape::inches(),
        Units::Millimetres => Tape::millimetres(),
    };
    if let Some(mark) = body.get(TAPE) {
        let span = mark.span_or(entry.head);
        if Tape::marks(units.unit()).contains(&mark.value) {
            tape.mark = mark.value;
        } else {
            ctx.sink.push(no_such_mark(units, span));
        }
    }
    ctx.tape = tape;
    Some(Job {
        name: entry.value().map(|text| text.value.to_owned()).unwrap_or_default(),
        revision: body.get(REVISION).map(|r| r.value).unwrap_or_default(),
        tape,
        currency: body.get(CURRENCY).map(|c| c.value),
        give: Give::read(body, ctx),
        notes: body.notes(),
        span: entry.head,
    })
}
