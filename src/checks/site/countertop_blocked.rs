//! A countertop that would reach into a wall or over the next case.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::{Exposure, Piece, Side, Size};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "countertop-blocked",
    severity: Severity::Error,
    finds: "A countertop reaches past its case where the case stands at a wall or beside another case.",
    why: "It does not go in: the wall, or the case beside it, is where its edge would be.",
    source: "",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "top { stretchers 2 { wide 4 }; joint pocket }",
        wrong: "top { stretchers 2 { wide 4 }; joint pocket }; countertop { stock maple; over 1 { back 2 } }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for top in &piece.tops {
        let Some(case) = piece.case(top.row.first) else { continue };
        let mut find = |word: &str, by: &Size, meets: &str| {
            if !by.length.is_positive() {
                return;
            }
            let at = piece.facts.written(by).unwrap_or(top.spec.span);
            sink.push(
                RULE.finding(
                    format!(
                        "the countertop of {} reaches {} past its case at the {word}, where {meets} stands",
                        piece.top_named(top),
                        tape.figure(by.length)
                    ),
                    at,
                    tape.figure(by.length),
                )
                .note(format!("write `{word} 0`, or take it out"))
                .subject(&case.path),
            );
        };
        if piece.site.fixed {
            find("back", &top.over.back, "the wall that the piece is fixed to");
        }
        for side in Side::BOTH {
            let meets = match side.of(&top.exposure) {
                Exposure::Seen => continue,
                Exposure::Wall { .. } => "a wall",
                Exposure::Neighbour => "another case",
            };
            find(side.word(), side.of(&top.over.sides), meets);
        }
    }
}
