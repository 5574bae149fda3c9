//! A case that hangs and stands at once.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::Piece;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "hangs-and-stands",
    severity: Severity::Error,
    finds: "A case has `hung`, and a base or a leg to stand on.",
    why: "Only one of the two can be built: what hangs clear of the floor has nothing under it.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "base { toe-kick; high 4; set-back 3; cut-into ends }",
        wrong: "base { toe-kick; high 4; set-back 3; cut-into ends }\n  hung { up 18 }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for case in &piece.cases {
        let Some(hung) = &case.hung else { continue };
        let base = case.base.as_ref().map(|base| (base.span, "this base"));
        let legs = case.legs.iter().map(|leg| (leg.span, "this leg"));
        for (span, what) in base.into_iter().chain(legs) {
            sink.push(
                RULE.finding(
                    format!(
                        "{} hangs {} off the floor, and {what} stands on it",
                        case.name,
                        tape.figure(hung.up.length)
                    ),
                    hung.span,
                    "it hangs here",
                )
                .label(span, format!("{what} stands on the floor"))
                .note("take out one of the two")
                .subject(&case.path),
            );
        }
    }
}
