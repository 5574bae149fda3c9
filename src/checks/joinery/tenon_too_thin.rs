//! A tenon too thin for its stock.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink};
use crate::model::{JointKind, Piece};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "tenon-too-thin",
    severity: Severity::Warning,
    finds: "The tenons of a frame are thinner than a quarter of its stock.",
    why: "The shoulders carry nothing, so a thin tenon bears the whole strain, and it snaps off in its mortise.",
    source: "A school site's 'thirds rule': a third of the thickness, and up to a half. A quarter is ours.",
    formula: "",
    accept: "Accept it if the joint is glued along a long haunch, or a loose tongue only keeps the parts in line.",
    example: Example {
        base: Base::Press,
        sound: "joint tenon { long 25; thick 7 }",
        wrong: "joint tenon { long 25; thick 4.5 }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for case in &piece.cases {
        let Some(frame) = case.frame.as_ref().filter(|it| it.joint.kind == JointKind::Tenon) else {
            continue;
        };
        let (Some(tenon), Some(stock)) = (&frame.joint.thick, piece.stock(frame.stock)) else {
            continue;
        };
        let thick = stock.thickness.length;
        // Boards that can't be planed so thick are told of by themselves.
        if stock.is_solid() && thick >= stock.nominal {
            continue;
        }
        let Some(at) = piece.facts.written(tenon).filter(|_| tenon.length * 4 < thick) else {
            continue;
        };
        let third = tape.print(thick / 3).shown;
        sink.push(
            RULE.finding(
                format!(
                    "the tenons of {} are {} thick in stock of {}",
                    case.name,
                    tape.figure(tenon.length),
                    tape.figure(thick)
                ),
                at,
                format!("{} thick", tape.figure(tenon.length)),
            )
            .label(stock.thickness_span, format!("{} thick", tape.figure(thick)))
            .because("so thin a tenon snaps off in its mortise")
            .subject(&case.path)
            .fix(Fix::new(
                Grade::Choice,
                "make it about a third of the thickness",
                at,
                format!("thick {}", tape.source(third)),
            )),
        );
    }
}
