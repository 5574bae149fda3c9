//! What was measured.

pub(super) mod front_tapered;
pub(super) mod lean_too_much;
pub(super) mod measured_far;
pub(super) mod measured_odd;

use crate::diagnostics::{Diagnostic, Sum};
use crate::measure::{Length, Tape, Unit};
use crate::plans::square::Leaning;

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

/// What to plane where, and the sums that lead to it.
fn planing(diagnostic: Diagnostic, tape: &Tape, leaning: &Leaning<'_>) -> Diagnostic {
    let opening = leaning.opening;
    let differ = leaning.diagonals.differ();
    let [one, other] = &leaning.tight;
    let off = fine(tape, leaning.each());
    let place = |corner: &crate::plans::square::Corner| {
        let leaf = corner.front.rsplit('.').next().unwrap_or_default().replace('-', " ");
        format!(
            "{off} off the {} corner of the {leaf}, running out to nothing at its {} corner",
            corner.word(),
            corner.other_end()
        )
    };
    diagnostic
        .label(
            leaning.fronts.gap_span,
            format!("reveal {}", tape.figure(leaning.fronts.gap.length)),
        )
        .working(
            "lean",
            format!(
                "the diagonals differ by {}: {} over its height",
                tape.figure(differ),
                tape.fine(leaning.lean)
            ),
        )
        .working(
            "reveal",
            format!(
                "{} − half of {} = {} at the {} and {} corners",
                tape.figure(leaning.fronts.gap.length),
                tape.fine(leaning.lean),
                tape.fine(leaning.least()),
                one.word(),
                other.word()
            ),
        )
        .note(format!("plane {}", place(one)))
        .note(format!("plane {}", place(other)))
        .subject(&opening.path)
}
