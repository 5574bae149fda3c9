//! A door on a butt hinge whose inner corner strikes as it swings.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::model::{HingeKind, Piece, Set};
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "door-binds",
    severity: Severity::Error,
    finds: "An inset door on a butt hinge whose inner corner needs more room at its lead edge than the gap leaves.",
    why: "The door's inner corner lies further from the pin than its outer edge. As the door opens that corner swings out through the gap; where the gap is smaller it strikes the stile, or the other leaf.",
    source: "plane geometry: the corner's distance from the pin, √(W² + t² + 2pt), less the door's width W.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "  cup 35 mm; bore 12.5 mm; from-edge 4 mm; swing 105 deg\n  gap 1.5 mm; door-thickness 16 mm to 26 mm\n}",
        wrong: "  butt; pin-ahead 4; gap 1.5 mm\n}",
    },
    check: Check::Piece(check),
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for (_, opening, fronts) in super::doors(piece) {
        let Some((hinge, span)) = fronts.hinge else { continue };
        let Some(hinge) = piece.hinges.get(hinge) else { continue };
        let HingeKind::Butt { pin_ahead } = hinge.kind else { continue };
        if fronts.set != Set::Inset {
            continue;
        }
        let thick = piece.thickness(fronts.stock).length;
        let wide = opening.leaf(fronts).0.length;
        let (gap, gap_span, what) = match opening.leaves() {
            2 => (fronts.meeting.length, fronts.meeting_span, "meeting"),
            _ => (fronts.gap.length, fronts.gap_span, "gap"),
        };
        let needs = trade::butt_gap(wide, thick, pin_ahead);
        if needs <= gap {
            continue;
        }
        let up = tape.mark * (needs / tape.mark).ceil();
        // The bevel that takes the corner off: its tangent is the excess over the thickness.
        let degrees =
            ((needs - gap).to_mm_f64() / thick.to_mm_f64()).atan().to_degrees().ceil().max(2.0);
        sink.push(
            Diagnostic::error(
                RULE.slug,
                format!(
                    "the inner corner of {} strikes: it needs {}, the {what} is {}",
                    opening.path,
                    tape.figure(up),
                    tape.figure(gap)
                ),
                gap_span,
                tape.figure(gap),
            )
            .label(span, "on a butt hinge")
            .label(opening.span, format!("leaf {} wide", tape.text(wide)))
            .sum(
                Sum::new("short by", up - gap, tape)
                    .plus(up, "needed", tape)
                    .minus(gap, what, tape),
            )
            .because("the corner lies further from the pin than the door's face is wide")
            .note(format!(
                "or plane the lead edge {degrees} degrees off square, so that its back clears"
            ))
            .subject(&opening.path)
            .fix(Fix::new(
                Grade::Choice,
                format!("a {what} of {}", tape.figure(up)),
                gap_span,
                format!("{what} {}", tape.source(up)),
            )),
        );
    }
}
