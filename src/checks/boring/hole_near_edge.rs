//! A round hole with too little wood beside it.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::measure::Length;
use crate::parts::Bore;
use crate::plans::Workings;

use super::bores;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "hole-near-edge",
    severity: Severity::Error,
    finds: "A round hole leaves less than 1/8 in (3 mm) of wood up to an edge of its board.",
    why: "The bit breaks that edge out.",
    source: "Common practice, no source.",
    formula: "The distance from the center of the hole to the nearest edge, less half of the hole.",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "top { stretchers 2 { wide 4 }; joint pocket }",
        wrong: "top { stretchers 2 { wide 4 }; joint pocket }; countertop { stock maple; over 1/2 { front 3 }; hole 2 { from-left 12; from-front 1-1/16 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let tape = work.piece.tape();
    let least = tape.unit.either(Length::inches(1, 8), Length::mm(3));
    for part in &work.parts.all {
        for (hole, _) in bores(part).filter(|(_, kind)| *kind == Bore::Round) {
            let (long, wide) = part.face_size(hole.face);
            let left = hole.u.0.min(long - hole.u.1).min(hole.v.0).min(wide - hole.v.1);
            // One that runs over the edge is told by another rule.
            if left.is_negative() || left >= least {
                continue;
            }
            let across = hole.u.1 - hole.u.0;
            sink.push(
                RULE.finding(
                    format!(
                        "a round hole leaves {} of wood up to an edge of {}",
                        tape.figure(left),
                        part.path
                    ),
                    hole.span,
                    format!("{} across", tape.figure(across)),
                )
                .sum(
                    Sum::new("leaves", left, tape)
                        .plus(left + across.half(), "from the center", tape)
                        .minus(across.half(), "half of the hole", tape),
                )
                .because("the bit breaks the edge out")
                .note(format!("leave {} or more", tape.figure(least)))
                .subject(&part.path),
            );
        }
    }
}
