//! Flutes that can't be cut as they are asked for.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink, Sum};
use crate::model::{BitShape, Build, Piece};
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "flutes-none",
    severity: Severity::Error,
    finds: "Flutes can't be cut as written. Their pitch leaves less land between them than the spec asks for, they would be cut with a straight bit, or they are on a frame-and-panel front.",
    why: "Where flutes are too close together, the land between them breaks out under the bit.",
    source: "Plane geometry: a flute is 2·√(2rd − d²) wide.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::Console,
        sound: "pitch 3/4; land 3/16",
        wrong: "pitch 1/2; land 3/16",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    let fronts = piece
        .cases
        .iter()
        .flat_map(|case| &case.openings)
        .filter_map(|o| o.front.as_ref().map(|f| (o, f)));
    for (opening, front) in fronts {
        let Some(flutes) = &front.flutes else { continue };
        let Some(bit) = piece.bit(flutes.bit) else { continue };
        if matches!(front.build, Build::Panel(_)) {
            sink.push(
                Diagnostic::error(
                    "not-supported-yet",
                    "flutes on a frame-and-panel front are not supported yet",
                    flutes.span,
                    "not supported yet",
                )
                .label(front.span, "these fronts are frame and panel")
                .subject(&opening.path),
            );
            continue;
        }
        if bit.shape != BitShape::RoundNose {
            sink.push(
                RULE.finding(
                    format!(
                        "{} is a straight bit, but flutes are cut with a round-nose bit",
                        bit.name
                    ),
                    flutes.span,
                    "flutes",
                )
                .label(bit.span, "a straight bit")
                .subject(&opening.path),
            );
            continue;
        }
        let flute = trade::flute_width(bit.diameter, flutes.deep);
        let land = flutes.pitch - flute;
        if land < flutes.land {
            sink.push(
                RULE.finding(
                    format!(
                        "the land between flutes is {}, but the spec asks for at least {}",
                        tape.text(land),
                        tape.figure(flutes.land)
                    ),
                    flutes.span,
                    format!("pitch {}", tape.figure(flutes.pitch)),
                )
                .label(bit.span, format!("cuts {} wide", tape.text(flute)))
                .sum(
                    Sum::new("land", tape.print(land).shown, tape)
                        .plus(flutes.pitch, "pitch", tape)
                        .minus(tape.print(flute).shown, "flute", tape),
                )
                .note("a wider pitch, a shallower flute, or a smaller bit leaves more land")
                .subject(&opening.path),
            );
        }
    }
}
