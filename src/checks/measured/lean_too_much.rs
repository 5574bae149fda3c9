//! An opening so far out of square that its front touches the frame.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink};
use crate::model::Piece;
use crate::plans::square::leaning;
use crate::trade::least_gap;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "lean-too-much",
    severity: Severity::Warning,
    finds: "A measured opening so far out of square that a square front set in its middle has less than 1/64 in (0.4 mm) of reveal at two corners.",
    why: "The front jams at those corners before it is home. What has to be planed off is more than an even reveal can hide.",
    source: "plane geometry (Pythagoras). That a gap under 1/64 in rubs: common practice, no source.",
    formula: "lean = difference of the diagonals × diagonal / twice the width; reveal less half the lean.",
    accept: "The front is planed to its opening, and the taper may show.",
    example: Example {
        base: Base::First,
        sound: "finish oil { hardwax-oil; coats 2; cure 24 h }",
        wrong: "finish oil { hardwax-oil; coats 2; cure 24 h }\nmeasured { opening store { diagonals { rising 38-17/32; falling 38-27/32 } } }",
    },
    check: Check::Piece(check),
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for leaning in leaning(piece).iter().filter(|leaning| leaning.least() < least_gap()) {
        let gap = leaning.fronts.gap.length;
        let title = format!(
            "{} is too far out of square for its reveal: it leans {} over its height, the reveal is {}",
            leaning.opening.path,
            tape.fine(leaning.lean),
            tape.figure(gap)
        );
        let warning = Diagnostic::new(
            RULE.slug,
            Severity::Warning,
            title,
            leaning.diagonals.span,
            format!("they differ by {}", tape.figure(leaning.diagonals.differ())),
        );
        sink.push(
            super::planing(warning, tape, leaning)
                .because("a square front jams at two corners before it is home")
                .note("or pull the frame square with a clamp along its longer diagonal, if the case is not glued to it yet, and measure again"),
        );
    }
}
