//! How surfaces and what goes on them are told.

use crate::measure::{Exact, Tape};

/// Square feet in a square meter.
const SQUARE_FEET: f64 = 1.0 / (0.3048 * 0.3048);

/// Liters in a quart of the United States, and milliliters in its fluid ounce.
const QUART: f64 = 0.946_352_946;
const OUNCE: f64 = QUART * 1000.0 / 32.0;

/// Areas as they are printed, and what they come to: each is rounded for itself, to a
/// tenth of a square meter or to a square foot, so that the same boards have the same
/// figure at every coat; the sum is that of the printed figures.
#[must_use]
pub fn added(tape: &Tape, areas: &[f64]) -> (Vec<String>, String) {
    let parts = if tape.unit.is_metric() { 10.0 } else { SQUARE_FEET };
    let rounded: Vec<f64> = areas.iter().map(|area| (area * parts).round()).collect();
    let whole: f64 = rounded.iter().sum();
    match tape.unit.is_metric() {
        true => {
            let text = |tenths: f64| format!("{:.1}", tenths / 10.0);
            (rounded.iter().map(|own| text(*own)).collect(), format!("{} m2", text(whole)))
        }
        false => {
            let own = rounded.iter().map(|own| format!("{own:.0}")).collect();
            (own, format!("{whole:.0} sq ft ({:.1} m2)", areas.iter().sum::<f64>()))
        }
    }
}

/// `7.5 m2`, in an inch job with square feet before it.
#[must_use]
pub fn told(tape: &Tape, square_meters: f64) -> String {
    added(tape, &[square_meters]).1
}

/// What a liter covers, in square meters to a tenth, `9 m2`, `8.5 m2`; in an inch job what
/// a quart covers, in square feet rounded down to tens, unless the spec says it in meters.
#[must_use]
pub fn covering(tape: &Tape, square_meters: Exact, is_written: bool) -> String {
    if in_quarts(tape, is_written) {
        let feet = square_meters.to_f64() * SQUARE_FEET * QUART;
        return format!("{:.0} sq ft", (feet / 10.0).floor() * 10.0);
    }
    let tenths = (square_meters * Exact::int(10)).round();
    format!("{} m2", in_tenths(tenths))
}

/// Tenths as they are told: `3.5`, and `3` for thirty.
fn in_tenths(tenths: i64) -> String {
    match tenths % 10 {
        0 => (tenths / 10).to_string(),
        rest => format!("{}.{rest}", tenths / 10),
    }
}

/// True where a coverage is told of a quart.
#[must_use]
pub fn in_quarts(tape: &Tape, is_written: bool) -> bool {
    !tape.unit.is_metric() && !is_written
}

/// So many milliliters; in an inch job with fluid ounces before them, or from 1-1/2 quarts
/// on with quarts, to the nearest tenth: both figures say the same.
#[must_use]
pub fn measured_out(tape: &Tape, milliliters: i64) -> String {
    if tape.unit.is_metric() {
        return format!("{milliliters} ml");
    }
    let ounces = milliliters as f64 / OUNCE;
    match ounces > 48.0 {
        true => format!("{:.1} quarts ({milliliters} ml)", ounces / 32.0),
        false => {
            let told = in_tenths((ounces * 10.0).round() as i64);
            format!("{told} fl oz ({milliliters} ml)")
        }
    }
}
