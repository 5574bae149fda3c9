//! An opening so far out of square that no front fits it with its reveals in
//! range.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::Piece;
use crate::plans::square::{Leaning, leaning};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "lean-too-much",
    severity: Severity::Error,
    finds: "A measured opening leans by more than its two gaps, even if the tape is off by all it may be.",
    why: "A square front won't go in at all. A front planed to fit is no longer a rectangle, and everything that hangs on it or runs behind it is made for a rectangle. The frame you built is not the frame that is drawn.",
    source: "Plane geometry (Pythagoras). That a front may be planed by its two gaps and no more is our own rule.",
    formula: "Lean = difference of the diagonals × diagonal / twice the width, and half of the lean comes off each gap. Twice what the tape may be off is taken from the difference first.",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "finish oil { hardwax-oil; coats 2; cure 24 h }",
        wrong: "finish oil { hardwax-oil; coats 2; cure 24 h }\nmeasured { opening store { diagonals { rising 38-13/32; falling 38-31/32 } } }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

/// True where no front gets reveals in range.
pub(super) fn is_beyond(leaning: &Leaning<'_>) -> bool {
    leaning.least_surely().is_negative()
}

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for leaning in leaning(piece).iter().filter(|leaning| is_beyond(leaning)) {
        let title = format!(
            "{} is too far out of square for a front; it leans {} over its height, and its two gaps come to {}",
            leaning.opening.path,
            tape.fine(leaning.lean),
            tape.figure(leaning.fronts.gap.length.twice())
        );
        sink.push(
            super::out_of_square(&RULE, title, tape, leaning)
                .because("a square front won't go in, and a front planed to fit is no longer a rectangle")
                .note("measure both diagonals again; if they are right and the case is not glued to the frame yet, pull the frame square with a clamp along the longer diagonal"),
        );
    }
}
