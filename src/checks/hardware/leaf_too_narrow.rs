//! A door too narrow for its own hinge.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::model::{Axis, HingeKind, Piece};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "leaf-too-narrow",
    severity: Severity::Error,
    finds: "A door, or one leaf of a pair, is less than twice as wide as the room that its hinge cup takes up, or it is lower than the cup with its distance from the edge above and below it.",
    why: "The cup and the hinge's wings need their width of door. On a narrower leaf the hinge screws reach the latch edge.",
    source: "Common practice; no published source.",
    formula: "",
    accept: "",
    example: Example { base: Base::First, sound: "wide 36; deep 18", wrong: "wide 9-1/2; deep 18" },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for (_, opening, fronts) in super::doors(piece) {
        let Some((hinge, span)) = fronts.hinge else { continue };
        let Some(hinge) = piece.hinge(hinge) else { continue };
        let HingeKind::Cup { diameter, from_edge, .. } = hinge.kind else { continue };
        let least = (diameter + from_edge).twice();
        let pair = opening.leaf_count() == 2;
        let (wide, high) = opening.leaf(fronts);
        let (wide, high) = (wide.length, high.length);
        let lowest = diameter + from_edge.twice();
        if high < lowest {
            sink.push(
                RULE.finding(
                    format!(
                        "the door of {} is {} high, and its hinge needs {}",
                        opening.path,
                        tape.text(high),
                        tape.text(lowest)
                    ),
                    opening.span,
                    format!("opening {}", tape.text(opening.as_built(Axis::Down).length)),
                )
                .label(span, "hung on this hinge")
                .sum(Sum::new("needs", lowest, tape).plus(diameter, "cup", tape).plus(
                    from_edge.twice(),
                    "two edges",
                    tape,
                ))
                .note("make the opening higher")
                .subject(&opening.path),
            );
            continue;
        }
        if wide >= least {
            continue;
        }
        let what = if pair { "each leaf" } else { "the door" };
        sink.push(
            RULE.finding(
                format!(
                    "{what} of {} is {} wide, and its hinge needs {}",
                    opening.path,
                    tape.text(wide),
                    tape.text(least)
                ),
                opening.span,
                format!("opening {}", tape.figure(opening.as_built(Axis::Across).length)),
            )
            .label(span, "hung on this hinge")
            .sum(Sum::new("needs", least, tape).plus(diameter.twice(), "two cups", tape).plus(
                from_edge.twice(),
                "two edges",
                tape,
            ))
            .note("make the opening wider, or hang one door instead of a pair")
            .subject(&opening.path),
        );
    }
}
