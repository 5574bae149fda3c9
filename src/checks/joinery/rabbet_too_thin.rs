//! A rabbet that leaves the back too little to hold on to.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink, Sum};
use crate::measure::Length;
use crate::parts::{FeatureKind, Role};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "rabbet-too-thin",
    severity: Severity::Error,
    finds: "The rabbet for the back has a ledge narrower than 6 mm (about 1/4 in), or it leaves less than that of the end beside it.",
    why: "The pins or screws of the back need a ledge to go into, and the lip that hides the back's edge must not break off.",
    source: "6 mm: common practice; no published source. Half to two thirds of the thickness as the usual depth: American Furniture Design, Rabbet & Dado Joints.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "back { stock thin; joint rabbet { deep 3/8 } }",
        wrong: "back { stock thin; joint rabbet { deep 5/8 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    let least = Length::mm(6);
    for part in parts.all.iter().filter(|part| matches!(part.role, Role::End(_))) {
        for rabbet in
            part.features.iter().filter(|f| f.kind == FeatureKind::Rabbet && f.takes.is_none())
        {
            let thick = part.thickness.length;
            let lip = thick - rabbet.deep;
            if rabbet.deep >= least && lip >= least {
                continue;
            }
            let good = tape.print(thick.half()).shown;
            let title = if rabbet.deep < least {
                format!(
                    "the rabbet's ledge is {}, which is too narrow to fix the back to",
                    tape.figure(rabbet.deep)
                )
            } else if !lip.is_positive() {
                format!(
                    "the rabbet is {} deep, and {} is only {} thick",
                    tape.figure(rabbet.deep),
                    part.path,
                    tape.figure(thick)
                )
            } else {
                format!("the rabbet leaves a lip of {} on {}", tape.figure(lip), part.path)
            };
            let at = rabbet.deep_at.unwrap_or(rabbet.span);
            let deep = tape.figure(rabbet.deep);
            let mut diagnostic = RULE
                .finding(title, at, format!("{deep} deep"))
                .sum(Sum::new("lip", lip, tape).plus(thick, part.word(), tape).minus(
                    rabbet.deep,
                    "rabbet",
                    tape,
                ))
                .because(format!(
                    "the back's fasteners need {} of ledge, and the lip needs as much to stay on",
                    tape.figure_with_unit(tape.up(least))
                ))
                .subject(&part.path)
                .urgency(-rabbet.deep.min(lip) / Length::mm(1));
            if good < least || thick - good < least {
                diagnostic = diagnostic.note(format!(
                    "{} is too thin for both; screw the back on from behind (`joint screw`), or use thicker ends",
                    tape.figure(thick)
                ));
            } else if let Some(at) = rabbet.deep_at {
                diagnostic = diagnostic.fix(Fix::new(
                    Grade::Choice,
                    "make it about half the end, as is usual",
                    at,
                    format!("deep {}", tape.source(good)),
                ));
            }
            sink.push(diagnostic);
        }
    }
}
