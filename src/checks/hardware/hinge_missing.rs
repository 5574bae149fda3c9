//! A door that nothing hangs.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink};
use crate::model::Piece;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "hinge-missing",
    severity: Severity::Warning,
    finds: "A door for which the spec names no hinge.",
    why: "Without the hinge's figures neither its gap nor its cups can be checked, and no paper lists it.",
    source: "Ours.",
    formula: "",
    accept: "The door is lifted out on pegs or slides in a track that is bought later.",
    example: Example { base: Base::First, sound: "hinge cup-hinge; pull knob", wrong: "pull knob" },
    check: Check::Piece(check),
};

fn check(piece: &Piece, sink: &mut Sink) {
    for (_, opening, fronts) in super::doors(piece) {
        if fronts.hinge.is_none() {
            sink.push(
                Diagnostic::warning(
                    RULE.slug,
                    format!("nothing says what {} is hung on", opening.path),
                    opening.span,
                    "no hinge",
                )
                .label(fronts.span, "no `hinge` in here")
                .subject(&opening.path),
            );
        }
    }
}
