//! Lumber planed to no less than its rough thickness.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "planed-too-thick",
    severity: Severity::Error,
    finds: "The planed thickness of lumber is the same as its rough thickness or more.",
    why: "Both faces of a rough board must be planed until they are flat and clean. Here nothing is left to plane, so every part would come out thinner than drawn.",
    source: "Plane geometry. The boards named are those of the National Hardwood Lumber Association's table of surfaced lumber (S2S).",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "stock maple   { lumber 4/4; thickness 3/4;",
        wrong: "stock maple   { lumber 3/4; thickness 3/4;",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    for stock in super::boards(piece, parts) {
        let thick = stock.thickness.length;
        if thick < stock.nominal {
            continue;
        }
        let rough = super::rough_name(stock, tape);
        let diagnostic = RULE
            .finding(
                format!(
                    "{} can't be planed to {}, because its boards are {rough} rough",
                    stock.name,
                    tape.figure(thick)
                ),
                stock.thickness_span,
                format!("planed to {}", tape.figure(thick)),
            )
            .label(stock.nominal_span, format!("{rough} rough"))
            .because("nothing is left for planing the two faces flat")
            .subject(&stock.name);
        let diagnostic = match super::usually_planed(stock, tape) {
            Some(planed) => diagnostic.fix(Fix::new(
                Grade::Choice,
                format!("plane them to {}, as is usual", tape.figure(planed)),
                stock.thickness_span,
                format!("thickness {}", tape.source(planed)),
            )),
            None => diagnostic,
        };
        sink.push(super::thicker_board(diagnostic, stock));
    }
}
