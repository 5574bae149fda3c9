//! What was measured.

mod front_tapered;
mod lean_too_much;
mod measured_far;
mod measured_odd;

use crate::checks::rule::Rule;
use crate::diagnostics::{Diagnostic, Sum};
use crate::measure::{Length, Tape, Unit};
use crate::plans::square::Leaning;

/// The rules of this subject, in the order they are listed.
pub(super) const RULES: &[&Rule] =
    &[&front_tapered::RULE, &lean_too_much::RULE, &measured_far::RULE, &measured_odd::RULE];

/// Finer than the tape, with the nearest 64th of an inch beside it.
fn fine(tape: &Tape, length: Length) -> String {
    let mark = Length::inches(1, 64);
    let near = mark * (length / mark).round();
    match tape.unit {
        Unit::Inch if near.is_positive() => {
            format!("{} (about {})", tape.fine(length), tape.exact(near))
        }
        _ => tape.fine(length),
    }
}

/// By how much a reading is off, the larger figure first.
fn off_by(tape: &Tape, measured: Length, other: Length, word: &str) -> Sum {
    let sum = Sum::new("off by", (measured - other).abs(), tape);
    match measured > other {
        true => sum.plus(measured, "measured", tape).minus(other, word, tape),
        false => sum.plus(other, word, tape).minus(measured, "measured", tape),
    }
}

/// The diagonals, the gap, and what the one leaves of the other.
fn out_of_square(rule: &Rule, title: String, tape: &Tape, leaning: &Leaning<'_>) -> Diagnostic {
    let differ = tape.figure(leaning.diagonals.differ());
    let gap = tape.figure(leaning.fronts.gap.length);
    let (lean, least) = (tape.fine(leaning.lean), tape.fine(leaning.least()));
    let [one, other] = &leaning.tight;
    let span = leaning.diagonals.span;
    rule.finding(title, span, format!("they differ by {differ}"))
        .label(leaning.fronts.gap_span, format!("gap {gap}"))
        .working(
            "lean",
            format!("the diagonals differ by {differ}, so it leans {lean} over its height"),
        )
        .working(
            "square",
            format!(
                "{gap} − half of {lean} = {least} at the {} and {} corners",
                one.word(),
                other.word()
            ),
        )
        .subject(&leaning.opening.path)
}
