//! A countertop that reaches too far past what carries it.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::measure::{Length, Span};
use crate::model::{OnTop, Piece, Side, Size};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "overhang",
    severity: Severity::Warning,
    finds: "A countertop reaches past its case by more than a third of what it measures that way.",
    why: "Whoever leans on it pries it off its screws, or tips the whole piece.",
    source: "Common practice; no published source: a third of its depth stands free, the rest asks for brackets or legs.",
    formula: "What reaches past the case, over the whole countertop in that direction.",
    accept: "Accept it where brackets, legs, or a wall that the spec does not know about carry it.",
    example: Example {
        base: Base::First,
        sound: "top { stretchers 2 { wide 4 }; joint pocket }",
        wrong: "top { stretchers 2 { wide 4 }; joint pocket }; countertop { stock maple; over 1 { front 12 } }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

/// A side that it reaches past: what it is called, how far, and how far it reaches past
/// the side across from it.
type Reach<'c> = (&'static str, &'c Size, &'c Size);

/// The sides of a countertop, each with the size of what it covers in that direction.
fn sides(top: &OnTop) -> [(Reach<'_>, Length); 4] {
    let over = &top.over;
    let [left, right] = Side::BOTH.map(|side| side.of(&over.sides));
    let (wide, deep) = (top.wide.length, top.deep.length);
    [
        (("front", &over.front, &over.back), deep),
        (("back", &over.back, &over.front), deep),
        (("left", left, right), wide),
        (("right", right, left), wide),
    ]
}

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for top in &piece.tops {
        let Some(case) = piece.case(top.row.first) else { continue };
        for ((side, by, across), carried) in sides(top) {
            let whole = by.length + across.length + carried;
            if by.length * 3 <= whole {
                continue;
            }
            let at: Option<Span> = piece.facts.written(by);
            let most = tape.down((across.length + carried).half());
            sink.push(
                RULE.finding(
                    format!(
                        "the countertop of {} reaches {} past its case at the {side}, which is more than a third of its {}",
                        piece.top_named(top),
                        tape.figure(by.length),
                        tape.figure(whole)
                    ),
                    at.unwrap_or(top.spec.span),
                    tape.figure(by.length),
                )
                .because("whoever leans on it pries it up, or tips the piece")
                .note(format!(
                    "write `{side} {}` or less, or carry it on brackets or legs",
                    tape.figure(most)
                ))
                .subject(&case.path),
            );
        }
    }
}
