//! A door too thin or too thick for its hinge.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::Piece;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "door-thickness",
    severity: Severity::Error,
    finds: "A door is thinner or thicker than its hinge is made for.",
    why: "Outside the hinge's range the cup breaks through, or the door can't swing clear of the frame.",
    source: "The hinge maker's own figures, as given in the spec.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "door-thickness 16 mm to 26 mm",
        wrong: "door-thickness 20 mm to 26 mm",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for (_, opening, fronts) in super::doors(piece) {
        let Some((hinge, span)) = fronts.hinge else { continue };
        let Some(hinge) = piece.hinge(hinge) else { continue };
        let Some((least, most)) = hinge.door_thickness else { continue };
        let thick = piece.thickness(fronts.stock).length;
        if least <= thick && thick <= most {
            continue;
        }
        let Some(stock) = piece.stock(fronts.stock) else { continue };
        sink.push(
            RULE.finding(
                format!(
                    "{} is {} thick, but {} takes {} to {}",
                    opening.path,
                    tape.figure(thick),
                    hinge.name,
                    tape.source(least),
                    tape.source(most)
                ),
                span,
                "this hinge",
            )
            .label(stock.thickness_span, format!("{} thick", tape.figure(thick)))
            .label(hinge.span, format!("{} to {}", tape.source(least), tape.source(most)))
            .note("choose another hinge, or make the doors another thickness")
            .subject(&opening.path),
        );
    }
}
