//! A toe kick that leaves no base to stand on.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::Piece;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "base-too-deep",
    severity: Severity::Error,
    finds: "A toe kick is set back by more than half the depth of its case.",
    why: "The case has hardly anything to stand on, and its ends are cut through.",
    source: "Common practice; no published source: 2-1/2 to 3-1/2 in.",
    formula: "",
    accept: "",
    example: Example { base: Base::First, sound: "set-back 3;", wrong: "set-back 12;" },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for case in &piece.cases {
        let Some(base) = &case.base else { continue };
        let (back, deep) = (base.set_back.length, case.deep.length);
        if back <= deep.half() {
            continue;
        }
        let at = piece.facts.written(&base.set_back);
        let usual = tape.unit.either(Length::inches(3, 1), Length::mm(75));
        let mend = at.filter(|_| usual <= deep.half()).map(|at| {
            let text = format!("set-back {}", tape.source(usual));
            Fix::new(Grade::Choice, "as most kicks are", at, text)
        });
        let found = RULE
            .finding(
                format!(
                    "the base of {} is set back {}, but the case is only {} deep",
                    case.name,
                    tape.figure(back),
                    tape.figure(deep)
                ),
                at.unwrap_or(base.span),
                tape.figure(back),
            )
            .label(case.deep_span, tape.figure(deep))
            .sum(
                Sum::new("stands on", deep - back, tape)
                    .plus(deep, "deep", tape)
                    .minus(back, "set back", tape),
            )
            .subject(&case.path);
        sink.push(mend.into_iter().fold(found, Diagnostic::fix));
    }
}
