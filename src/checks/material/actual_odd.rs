//! A sheet whose measured thickness does not go with what it is sold as.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::measure::Length;
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "actual-odd",
    severity: Severity::Warning,
    finds: "The `actual` thickness of a sheet is more than 1/32 in (0.8 mm) over its nominal one, or more than 1/16 in (1.6 mm) under it.",
    why: "Every dado and groove is cut to this figure. A slip of the pen here makes all of them wrong.",
    source: "ANSI/HPVA HP-1 allows nothing over and 3/64 in under for hardwood plywood. Sheets as sold run up to 1/16 in under (shop measurements, common practice).",
    formula: "",
    accept: "Accept it if that is what the caliper reads.",
    example: Example {
        base: Base::First,
        sound: "plywood 1/4; actual 13/64",
        wrong: "plywood 1/4; actual 5/16",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    for stock in super::used(piece, parts) {
        let (actual, nominal) = (stock.thickness.length, stock.nominal);
        let over = actual - nominal;
        let fits = over <= Length::inches(1, 32) && over >= -Length::inches(1, 16);
        if stock.is_solid() || fits {
            continue;
        }
        let (word, by) = if over.is_positive() { ("over", over) } else { ("under", -over) };
        sink.push(
            RULE.finding(
                format!(
                    "{} is {} thick, which is {} {word} what it is sold as",
                    stock.name,
                    tape.figure(actual),
                    tape.figure(by)
                ),
                stock.thickness_span,
                tape.figure(actual),
            )
            .label(stock.span, format!("sold as {}", tape.figure(nominal)))
            .sum(Sum::new("differ by", by, tape))
            .because("every dado and groove for it is cut to this figure")
            .subject(&stock.name),
        );
    }
}
