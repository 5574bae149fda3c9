//! The room the piece is fitted in.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{Exact, Length, Percent, Span, Temperature};
use crate::vocabulary::{Entries, Value};

use super::lower::Lower;
use super::place::Place;
use super::size::Size;

/// The room.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Site {
    /// What the left side of the piece meets.
    pub left: Boundary,
    /// What its right side meets.
    pub right: Boundary,
    /// It is screwed to the wall behind it.
    pub fixed: bool,
    /// Where that is said; `None` where the spec has no site.
    pub fixed_at: Option<Place>,
    /// The driest and dampest air through the year.
    pub humidity: (Percent, Percent),
    /// The statement that gives it; `None` where it is the usual room's.
    pub humidity_span: Option<Span>,
    /// The usual temperature.
    pub temperature: Temperature,
    /// What no part may touch.
    pub keep_outs: Vec<KeepOut>,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

/// What one side of the piece meets.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Boundary {
    /// The side is seen.
    Open,
    /// A wall that may not be straight.
    Wall {
        /// How far the outer stile reaches past the carcass.
        scribe: Size,
        /// Where the wall is written.
        span: Span,
    },
}

/// A box against the wall behind the piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeepOut {
    /// What it is.
    pub name: String,
    /// From the left side of the piece to its left side.
    pub from_left: Length,
    /// From the floor to its underside.
    pub up: Length,
    /// Its width.
    pub wide: Length,
    /// Its height.
    pub high: Length,
    /// How far it stands out from the wall.
    pub deep: Length,
    /// Notes for the papers.
    pub notes: Vec<String>,
    /// Where it is written.
    pub span: Span,
}

pub(super) fn lower(body: Option<&Entries>, ctx: &mut Lower) -> Site {
    let written = body;
    let empty = ctx.empty("site");
    let body = body.unwrap_or(&empty);
    let keep_outs = body
        .all("keep-out")
        .filter_map(|entry| {
            let inner = entry.body()?;
            let length = |word| inner.length(word).map(|value| value.value);
            Some(KeepOut {
                name: entry.text(0)?.value.to_owned(),
                from_left: length("from-left")?,
                up: length("up")?,
                wide: length("wide")?,
                high: length("high")?,
                deep: length("deep")?,
                notes: inner.notes(),
                span: entry.head,
            })
        })
        .collect();
    let humidity = body.any("humidity").and_then(|value| match value.value {
        Value::PercentRange(low, high) => Some((low, high)),
        _ => None,
    });
    let temperature = body.any("temperature").and_then(|value| match value.value {
        Value::Temperature(temperature) => Some(temperature),
        _ => None,
    });
    if let Some(warm) = temperature {
        habitable(warm, body, ctx);
    }
    // Both words have defaults, so there always is one.
    let humidity = humidity.unwrap_or((Percent(Exact::int(30)), Percent(Exact::int(55))));
    let temperature = temperature.unwrap_or(Temperature::fahrenheit(Exact::int(70)));
    Site {
        left: boundary(body, "left", ctx),
        right: boundary(body, "right", ctx),
        fixed: body.word("fixing").is_some_and(|fixing| fixing.value == "wall"),
        fixed_at: written.map(|body| Place::of(body, "fixing")),
        humidity,
        humidity_span: body.one("humidity").map(|entry| entry.head),
        temperature,
        keep_outs,
        notes: body.notes(),
    }
}

/// A room between −10 and 45 °C; a figure beyond that is in the other unit.
fn habitable(warm: Temperature, body: &Entries, ctx: &mut Lower) {
    if (Exact::int(-10)..=Exact::int(45)).contains(&warm.0) {
        return;
    }
    let Some(entry) = body.one("temperature") else { return };
    let mut diagnostic = Diagnostic::error(
        "absurd-size",
        format!("nobody lives in a room of {} °C", warm.0.round()),
        entry.head,
        "the room's temperature",
    );
    let meant = Temperature::fahrenheit(warm.0);
    if (Exact::ZERO..=Exact::int(40)).contains(&meant.0) {
        let text = format!("temperature {} F", warm.0);
        diagnostic = diagnostic.fix(Fix::new(Grade::Choice, "Fahrenheit", entry.head, text));
    }
    ctx.sink.push(diagnostic);
}

fn boundary(body: &Entries, side: &str, ctx: &mut Lower) -> Boundary {
    let Some(entry) = body.one(side) else { return Boundary::Open };
    if entry.text(0).is_none_or(|word| word.value != "wall") {
        return Boundary::Open;
    }
    let scribe = entry
        .body()
        .and_then(|wall| ctx.size(wall, "scribe", &format!("{side} scribe")))
        .unwrap_or_default();
    Boundary::Wall { scribe, span: entry.head }
}
