//! The shop the piece is made in.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{Duration, Exact, Length, Percent, Span, Unit};
use crate::vocabulary::{Entries, Value};

use super::lower::Lower;

/// The shop.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shop {
    /// The air when the wood was milled and the fronts are fitted.
    pub humidity: Percent,
    /// The statement that says so.
    pub humidity_span: Option<Span>,
    /// How true the shop works.
    pub tolerance: Tolerance,
    /// One playing card used as a shim.
    pub card: Length,
    /// The width of the saw's cut.
    pub kerf: Length,
    /// Left on the length of solid parts cut rough.
    pub allow_length: Length,
    /// Left on their width.
    pub allow_width: Length,
    /// Trimmed off each factory edge of a sheet.
    pub edge_trim: Length,
    /// How long a glue-up stays in the clamps.
    pub clamp: Duration,
    /// How long glue cures before it is worked.
    pub cure: Duration,
    /// The working day.
    pub day: Duration,
    /// How many clamps there are.
    pub clamps: u32,
    /// The statement that says so.
    pub clamps_span: Option<Span>,
    /// How long the glue stays open once it is spread.
    pub open_time: Duration,
    /// The statement that says so.
    pub open_time_span: Option<Span>,
    /// Just behind the opening brace of its block, where a word can be added.
    pub start: Option<Span>,
    /// Across the router's base plate.
    pub base_plate: Length,
    /// How far the router is fed in a minute.
    pub feed: Length,
    /// How long a change of set-up takes.
    pub set_up: Duration,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

/// No saw cuts wider than 10 mm; the figure is mostly in the other unit.
fn wide_saw(body: &Entries, ctx: &mut Lower) {
    let Some(kerf) = body.length("kerf").filter(|kerf| kerf.value > Length::mm(10)) else { return };
    let count = kerf.value.in_unit(Unit::Inch);
    let at = kerf.span_or(body.open);
    let mut diagnostic = Diagnostic::error(
        "absurd-size",
        format!("no saw cuts {} wide", ctx.tape.figure_with_unit(kerf.value)),
        at,
        "the saw's cut",
    );
    if count.is_whole() && count <= Exact::int(6) {
        let text = format!("kerf {count} mm");
        diagnostic = diagnostic.fix(Fix::new(Grade::Choice, format!("{count} mm"), at, text));
    }
    ctx.sink.push(diagnostic);
}

/// How far a size may be off, to either side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tolerance {
    /// A part cut to a stop or fence.
    pub cut: Length,
    /// The difference of an opening's diagonals.
    pub square: Length,
    /// A front or hinge set by hand.
    pub place: Length,
}

pub(super) fn lower(
    body: Option<&Entries>,
    measured: Option<(Percent, Span)>,
    ctx: &mut Lower,
) -> Shop {
    let start = body.map(|body| Span { start: body.open.end, ..body.open });
    let empty;
    let body = match body {
        Some(body) => body,
        None => {
            empty = ctx.empty("shop");
            &empty
        }
    };
    let empty_allow = ctx.empty("allow");
    let allow = body.one("allow").and_then(|entry| entry.body()).unwrap_or(&empty_allow);
    let length = |entries: &Entries, word: &str| {
        entries.length(word).map_or(Length::ZERO, |value| value.value)
    };
    let humidity = body.any("humidity").and_then(|value| match value.value {
        Value::Percent(percent) => Some(percent),
        _ => None,
    });
    // The word has a default, so there always is one.
    let humidity = humidity.unwrap_or(Percent(Exact::int(40)));
    let written = body.one("humidity").map(|entry| entry.head);
    let (humidity, humidity_span) = match measured {
        Some((percent, span)) if percent != humidity => (percent, Some(span)),
        _ => (humidity, None),
    };
    let empty_tolerance = ctx.empty("tolerance");
    let tolerance =
        body.one("tolerance").and_then(|entry| entry.body()).unwrap_or(&empty_tolerance);
    let feed = body.any("feed").and_then(|value| match value.value {
        Value::Feed(feed) if feed.is_positive() => Some(feed),
        _ => None,
    });
    let day = body.duration("day").map(|day| day.value).unwrap_or_default();
    let clamps = body.count("clamps");
    let open_time = body.duration("open-time");
    wide_saw(body, ctx);
    let base_plate = ctx.positive(body, "base-plate", "router base").unwrap_or_default();
    Shop {
        humidity,
        humidity_span: humidity_span.or(written),
        tolerance: Tolerance {
            cut: length(tolerance, "cut"),
            square: length(tolerance, "square"),
            place: length(tolerance, "place"),
        },
        card: length(body, "card"),
        kerf: length(body, "kerf"),
        allow_length: length(allow, "length"),
        allow_width: length(allow, "width"),
        edge_trim: length(allow, "edge-trim"),
        clamp: body.duration("clamp").map(|d| d.value).unwrap_or_default(),
        cure: body.duration("cure").map(|d| d.value).unwrap_or_default(),
        day: if day.0.is_positive() { day } else { Duration::hours(Exact::int(8)) },
        clamps: clamps.map_or(0, |count| count.value),
        clamps_span: clamps.and_then(|count| count.origin.span()),
        open_time: open_time.map(|d| d.value).unwrap_or_default(),
        open_time_span: open_time.and_then(|d| d.origin.span()),
        start,
        base_plate: base_plate.length,
        feed: feed.unwrap_or_else(|| Length::new(Exact::int(100), Unit::Inch)),
        set_up: body.duration("set-up").map(|d| d.value).unwrap_or_default(),
        notes: body.notes(),
    }
}
