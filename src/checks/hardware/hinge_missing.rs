//! A door that nothing hangs.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::Piece;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "hinge-missing",
    severity: Severity::Warning,
    finds: "The spec names no hinge for a door.",
    why: "Without the hinge's figures, the door's gap and cups can't be checked, and no sheet lists the hinge.",
    source: "Our own rule.",
    formula: "",
    accept: "Accept it if the door lifts out on pegs, or if it slides in a track that you will buy later.",
    example: Example { base: Base::First, sound: "hinge cup-hinge; pull knob", wrong: "pull knob" },
    check: Check::Piece(check),
    sometimes: None,
};

/// How many hinges are offered.
const MOST: usize = 3;

fn check(piece: &Piece, sink: &mut Sink) {
    for (_, opening, fronts) in super::doors(piece) {
        if fronts.hinge.is_none() {
            let mut found = RULE
                .finding(
                    format!("{} has no hinge", opening.path),
                    opening.span,
                    "what is it hung on?",
                )
                .label(fronts.span, "there is no `hinge` here")
                .subject(&opening.path);
            for hinge in piece.hinges.iter().take(MOST) {
                let title = format!("hang them on {}", hinge.name);
                found = found.fix(fronts.hinge_at.says(&format!("hinge {}", hinge.name), title));
            }
            sink.push(found);
        }
    }
}
