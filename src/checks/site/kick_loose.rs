//! A kick that stands before the ends that it is fixed to.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::Piece;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "kick-loose",
    severity: Severity::Error,
    finds: "A toe kick under a face frame is set back so little that all of it stands in front of the ends of its case.",
    why: "The toe kick is screwed to the ends in their notches. In front of them it meets no wood.",
    source: "Plane geometry.",
    formula: "The set-back and the thickness of the toe kick together are more than the frame is thick.",
    accept: "",
    example: Example { base: Base::First, sound: "set-back 3;", wrong: "set-back 0;" },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for case in &piece.cases {
        let (Some(base), Some(frame)) = (&case.base, &case.frame) else { continue };
        if base.separate {
            continue;
        }
        let back = &base.set_back;
        let (thick, before) = (piece.thickness(base.stock), piece.thickness(frame.stock));
        let behind = back + &thick;
        if behind.length > before.length {
            continue;
        }
        let sum = Sum::new("lacks", before.length - behind.length, tape)
            .plus(before.length, "face frame", tape)
            .minus(thick.length, "kick", tape)
            .minus(back.length, "set back", tape);
        let written = piece.facts.written(back);
        let title = format!("the toe kick of {} stands in front of its ends", case.name);
        let mut found = RULE
            .finding(title, written.unwrap_or(base.span), tape.figure(back.length))
            .sum(sum)
            .because("it is fixed to the ends in their notches, but here the notches would take no wood from the ends")
            .note("set it back farther, or write `separate` for a base that the case stands on")
            .subject(&case.path);
        if let Some(at) = written {
            let usual = tape.unit.either(Length::inches(3, 1), Length::mm(75));
            found = found.fix(Fix::new(
                Grade::Choice,
                "the usual room for the toes",
                at,
                format!("set-back {}", tape.source(usual)),
            ));
        }
        sink.push(found);
    }
}
