//! Flutes that leave too little of the front.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink, Sum};
use crate::model::Piece;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "flute-too-deep",
    severity: Severity::Error,
    finds: "Flutes are deeper than half the thickness of their front.",
    why: "The front bends and splits along its thinnest line. It warps because one side has lost more wood than the other.",
    source: "Common practice; no published source.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::Console,
        sound: "bit round-nose-half; deep 1/8; pitch 3/4; land 3/16",
        wrong: "bit round-nose-half; deep 9/16; pitch 3/4; land 3/16",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for opening in piece.cases.iter().flat_map(|case| &case.openings) {
        let Some(front) = &opening.front else { continue };
        let (Some(flutes), Some(stock)) = (&front.flutes, piece.stock(front.stock)) else {
            continue;
        };
        let thick = stock.thickness.length;
        if flutes.deep <= thick.half() {
            continue;
        }
        let shallow = tape.down(thick / 4);
        let mut diagnostic = RULE
            .finding(
                format!(
                    "flutes {} deep leave {} of the thickness of the fronts of {}",
                    tape.figure(flutes.deep),
                    tape.figure(thick - flutes.deep),
                    opening.path
                ),
                flutes.deep_span.unwrap_or(flutes.span),
                format!("{} deep", tape.figure(flutes.deep)),
            )
            .label(stock.thickness_span, format!("{} thick", tape.figure(thick)))
            .sum(Sum::new("leaves", thick - flutes.deep, tape).plus(thick, "front", tape).minus(
                flutes.deep,
                "flute",
                tape,
            ))
            .subject(&opening.path);
        if let Some(span) = flutes.deep_span.filter(|_| shallow.is_positive()) {
            diagnostic = diagnostic.fix(Fix::new(
                Grade::Choice,
                "make them a quarter of the thickness",
                span,
                format!("deep {}", tape.source(shallow)),
            ));
        }
        sink.push(diagnostic);
    }
}
