//! A tenon that leaves no wood beside its mortise.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{JointKind, Piece};
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "tenon-too-thick",
    severity: Severity::Error,
    finds: "The tenons of a frame are so thick that less than 1/8 in (3 mm) is left on either side of the mortise.",
    why: "The walls of the mortise break out while you cut it, or they split as the tenon goes in.",
    source: "Common practice; no published source: a tenon is about a third of the thickness.",
    formula: "Half of what is left when the tenon's thickness is taken from the frame's.",
    accept: "",
    example: Example {
        base: Base::Press,
        sound: "joint tenon { long 25; thick 7 }",
        wrong: "joint tenon { long 25; thick 15 }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    let least = trade::least_wall(tape.unit);
    for case in &piece.cases {
        let Some(frame) = case.frame.as_ref().filter(|f| f.joint.kind == JointKind::Tenon) else {
            continue;
        };
        let (Some(tenon), Some(stock)) = (&frame.joint.thick, piece.stock(frame.stock)) else {
            continue;
        };
        let thick = stock.thickness.length;
        let wall = (thick - tenon.length).half();
        if wall >= least {
            continue;
        }
        let written = piece.facts.written(tenon);
        let at = written.or(frame.joint.span).unwrap_or(frame.span);
        let third = tape.print(thick / 3).shown;
        let fits = third.is_positive() && (thick - third).half() >= least;
        let mut diagnostic = RULE
            .finding(
                format!(
                    "a tenon {} thick leaves {} on each side of its mortise in {}",
                    tape.figure(tenon.length),
                    tape.figure(wall.max(Length::ZERO)),
                    case.name
                ),
                at,
                format!("{} thick", tape.figure(tenon.length)),
            )
            .label(stock.thickness_span, format!("{} thick", tape.figure(thick)))
            .sum(
                Sum::new("both walls", thick - tenon.length, tape)
                    .plus(thick, "frame", tape)
                    .minus(tenon.length, "tenon", tape),
            )
            .because("the walls of the mortise break out")
            .subject(&case.path);
        if !fits {
            diagnostic = diagnostic.note(format!(
                "no tenon fits into {}; use stock at least {} thick, where a third leaves enough, or another joint",
                tape.figure(thick),
                tape.figure(tape.up(least * 3))
            ));
        } else if written.is_some() {
            diagnostic = diagnostic.fix(Fix::new(
                Grade::Choice,
                "make it about a third of the thickness",
                at,
                format!("thick {}", tape.source(third)),
            ));
        }
        sink.push(diagnostic);
    }
}
