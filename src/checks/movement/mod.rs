//! What the seasons do to solid wood.

mod milled_off;
mod grain_upright;
mod cross_grain;
mod screwed_across;
mod gap_closes;
mod panel_room;
mod wood_jams;

use crate::checks::rule::Rule;
use crate::diagnostics::{Diagnostic, Edit, Fix, Grade};
use crate::measure::{Length, Span, Tape};
use crate::model::{Piece, Sawn, Stock};
use crate::plans::seasons::{Air, Climate, Swelling};

/// The rules of this subject, in the order they are listed.
pub(super) const RULES: &[&Rule] = &[
    &cross_grain::RULE,
    &gap_closes::RULE,
    &grain_upright::RULE,
    &milled_off::RULE,
    &panel_room::RULE,
    &wood_jams::RULE,
];

/// `milled  at 40 % humidity (7.7 % moisture), dampest day 65 % (12.0 %): 4.3 points`
fn weather(diagnostic: Diagnostic, piece: &Piece, climate: &Climate, damp: bool) -> Diagnostic {
    let (day, air) = day(climate, damp);
    let milled = climate.milled;
    let points = (air.moisture - milled.moisture).abs();
    let diagnostic = match piece.site.humidity_span {
        Some(span) => {
            let [low, high] = [climate.driest, climate.dampest].map(|air| air.humidity.0);
            diagnostic.label(span, format!("the room: {low} to {high} %"))
        }
        None => diagnostic.note(
            "the figures are those of a usual heated room; give yours with `humidity` in `site`",
        ),
    };
    diagnostic.working(
        "milled",
        format!(
            "at {} % humidity ({:.1} % moisture), {day} day {} % ({:.1} %): {points:.2} points",
            milled.humidity.0, milled.moisture, air.humidity.0, air.moisture
        ),
    )
}

fn day(climate: &Climate, damp: bool) -> (&'static str, Air) {
    if damp { ("dampest", climate.dampest) } else { ("driest", climate.driest) }
}

/// Tells how far wood so wide moves on the day on which it moves most, and how damp that is.
fn moved(
    found: Diagnostic,
    piece: &Piece,
    climate: &Climate,
    wide: Length,
    own: &Swelling,
) -> Diagnostic {
    let tape = piece.tape();
    let damp = own.dampest.abs() >= own.driest.abs();
    let change = if damp { own.dampest } else { own.driest };
    let product = product(tape, climate, damp, wide, own.coefficient);
    weather(found, piece, climate, damp)
        .working(day(climate, damp).0, format!("{product} = {}", tape.fine(change.abs())))
}

/// `13-3/32 × 0.00248 × 4.28`: what a board's change of width is a product of.
fn product(tape: &Tape, climate: &Climate, damp: bool, wide: Length, coefficient: u32) -> String {
    let points = (day(climate, damp).1.moisture - climate.milled.moisture).abs();
    format!("{} × {:.5} × {points:.2}", tape.figure(wide), f64::from(coefficient) / 1e6)
}

/// The edit that has a flat- or rift-sawn stock sawn on the quarter; `None`
/// where it is already.
fn quartered(stock: &Stock) -> Option<Edit> {
    if stock.sawn == Sawn::Quarter {
        return None;
    }
    Some(match stock.sawn_span {
        Some(span) => Edit { span, text: "sawn quarter".to_owned() },
        None => {
            let end = stock.thickness_span.end;
            let span = Span { start: end, ..stock.thickness_span };
            Edit { span, text: "; sawn quarter".to_owned() }
        }
    })
}

/// A fix that has all these stocks sawn on the quarter.
fn quarter_fix(stocks: &[&Stock]) -> Option<Fix> {
    let edits: Vec<Edit> = stocks.iter().filter_map(|stock| quartered(stock)).collect();
    let names: Vec<&str> = stocks
        .iter()
        .filter(|stock| stock.sawn != Sawn::Quarter)
        .map(|stock| stock.name.as_str())
        .collect();
    let title = format!("use quartersawn {}", names.join(" and "));
    (!edits.is_empty()).then_some(Fix { title, grade: Grade::Choice, edits })
}
