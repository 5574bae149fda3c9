//! A hinge that needs more gap than the reveal leaves.

use super::swings;
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{Piece, Set};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "hinge-gap",
    severity: Severity::Error,
    finds: "The hinge of an inset door needs a larger gap at the hinge side than the door has.",
    why: "A concealed hinge swings the door's edge toward the stile before the door comes out. If the gap is smaller than the hinge's least gap, the edge rubs or binds before the door is open.",
    source: "The hinge maker's own figure, as given in the spec.",
    formula: "",
    accept: "",
    example: Example { base: Base::First, sound: "gap 1.5 mm;", wrong: "gap 3 mm;" },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for (_, opening, fronts) in super::doors(piece) {
        let Some((hinge, span)) = fronts.hinge else { continue };
        let Some(hinge) = piece.hinge(hinge) else { continue };
        let (needs, leaves) = (hinge.gap.length, fronts.gap.length);
        if fronts.set != Set::Inset || needs <= leaves {
            continue;
        }
        let up = tape.up(needs);
        let diagnostic = RULE
            .finding(
                format!(
                    "{} needs a gap of {} at the hinge side, and the gap is {}",
                    hinge.name,
                    tape.figure(needs),
                    tape.figure(leaves)
                ),
                fronts.gap_span,
                tape.figure(leaves),
            )
            .label(hinge.gap_span, tape.figure(needs))
            .label(span, "hung on this hinge")
            .sum(
                Sum::new("short by", needs - leaves, tape)
                    .plus(needs, "needed", tape)
                    .minus(leaves, "gap", tape),
            )
            .because("the door's hinge edge rubs on the stile before the door is open")
            .subject(&opening.path)
            .urgency((needs - leaves) / Length::mm(1));
        let edit = format!("gap {}", tape.source(up));
        sink.push(match swings::written(piece, &fronts.gap) {
            Some(span) => {
                let title = format!("make the gap {}", tape.figure(up));
                diagnostic.fix(Fix::new(Grade::Choice, title, span, edit))
            }
            None => diagnostic.note(format!("write `{edit}` here")),
        });
    }
}
