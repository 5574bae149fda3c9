//! A board that is made of banding.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::Stock;
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "edge-as-board",
    severity: Severity::Error,
    finds: "A board is to be made of edge banding.",
    why: "Banding comes as a strip on a roll. It covers the edge of a sheet and is no board itself.",
    source: "Common practice, no published source.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "plywood 1/4; actual 13/64;",
        wrong: "banding 1/32;",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    for part in &work.parts.all {
        let Some(stock) = work.piece.stock(part.stock).filter(|own| own.is_banding()) else {
            continue;
        };
        let sheets = work.piece.stocks.iter().filter(|own| !Stock::is_banding(own));
        let names: Vec<&str> = sheets.map(|own| own.name.as_str()).collect();
        let found = RULE
            .finding(
                format!("{} can't be made of {}, which is banding", part.path, stock.name),
                stock.nominal_span,
                "strips for edges, by the roll",
            )
            .label(part.span, "a board")
            .note(format!(
                "name another stock for it ({}), or say what sheet {} is",
                names.join(", "),
                stock.name
            ))
            .subject(&part.path);
        sink.push(found);
    }
}
