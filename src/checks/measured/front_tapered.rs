//! An opening out of square, and how its front is planed to fit it.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink};
use crate::model::Piece;
use crate::plans::square::leaning;
use crate::trade::least_gap;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "front-tapered",
    severity: Severity::Note,
    finds: "An opening whose measured diagonals differ by more than the tape may be off: a square front in it has uneven reveals. The note says how much to plane off at which corner.",
    why: "A reveal that narrows by 1/32 over a door is seen across the room. Planed to its opening, the front hides it.",
    source: "plane geometry (Pythagoras): the squares of the diagonals differ by four times width times lean.",
    formula: "lean = difference of the diagonals × diagonal / twice the width; a front set in the middle loses half of it at two corners.",
    accept: "You plane every front to its opening anyway.",
    example: Example {
        base: Base::First,
        sound: "finish oil { hardwax-oil; coats 2; cure 24 h }",
        wrong: "finish oil { hardwax-oil; coats 2; cure 24 h }\nmeasured { opening store { diagonals { rising 38-23/32; falling 38-21/32 } } }",
    },
    check: Check::Piece(check),
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for leaning in leaning(piece).iter().filter(|leaning| leaning.least() >= least_gap()) {
        let name = &leaning.opening.path;
        let title = format!(
            "{name} is out of square: plane {} off two corners of its front",
            super::fine(tape, leaning.each())
        );
        let note = Diagnostic::new(
            RULE.slug,
            Severity::Note,
            title,
            leaning.diagonals.span,
            format!("they differ by {}", tape.figure(leaning.diagonals.differ())),
        );
        sink.push(super::planing(note, tape, leaning));
    }
}
