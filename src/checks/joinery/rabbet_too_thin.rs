//! A rabbet that leaves the back too little to hold on to.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::Piece;
use crate::parts::{FeatureKind, Parts, Role};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "rabbet-too-thin",
    severity: Severity::Error,
    finds: "A rabbet for the back whose ledge is narrower than 1/4 in, or that leaves less than 1/4 in of the end beside it.",
    why: "The pins or screws of the back need a ledge to go into, and the lip that hides the back's edge must not break off.",
    source: "common practice, no source.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "back { stock thin; joint rabbet { deep 3/8 } }",
        wrong: "back { stock thin; joint rabbet { deep 5/8 } }",
    },
    check: Check::Parts(check),
};

fn check(piece: &Piece, parts: &Parts, sink: &mut Sink) {
    let tape = piece.tape();
    let least = Length::inches(1, 4);
    let mut told = Vec::new();
    for part in parts.all.iter().filter(|part| matches!(part.role, Role::End(_))) {
        for rabbet in
            part.features.iter().filter(|f| f.kind == FeatureKind::Rabbet && f.takes.is_none())
        {
            let thick = part.thickness.length;
            let lip = thick - rabbet.deep;
            if told.contains(&rabbet.span) || rabbet.deep >= least && lip >= least {
                continue;
            }
            told.push(rabbet.span);
            let good = thick.half();
            let title = if rabbet.deep < least {
                format!(
                    "the rabbet's ledge is {}, too narrow to fix the back to",
                    tape.figure(rabbet.deep)
                )
            } else {
                format!("the rabbet leaves a lip of {} on {}", tape.figure(lip), part.path)
            };
            sink.push(
                Diagnostic::error(
                    RULE.slug,
                    title,
                    rabbet.span,
                    format!("{} deep", tape.figure(rabbet.deep)),
                )
                .sum(Sum::new("lip", lip, tape).plus(thick, part.name(), tape).minus(
                    rabbet.deep,
                    "rabbet",
                    tape,
                ))
                .because("the back's fixings need 1/4 in of ledge, and the lip 1/4 in to stay on")
                .note(format!(
                    "about half the end is usual: `joint rabbet {{ deep {} }}`",
                    tape.source(tape.print(good).shown)
                ))
                .subject(&part.path)
                .fix(Fix::new(
                    Grade::Sketch,
                    "choose a depth in between",
                    rabbet.span,
                    "joint rabbet { deep … }",
                )),
            );
        }
    }
}
