//! A stock that parts were cut from, under a name that the spec does not have.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Edit, Fix, Grade, Severity, Sink};
use crate::measure::nearest;
use crate::model::Piece;
use crate::plans::Workings;
use crate::plans::ledger::Unnamed;

use super::together;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "cut-stock-gone",
    severity: Severity::Warning,
    finds: "A `cut` names a stock that the spec does not have or no longer has.",
    why: "The stock was renamed, its name is misspelled, or its parts now come from another stock. In the last case the parts must be made again, and only the maker can tell.",
    source: "Our own rule.",
    formula: "",
    accept: "Accept it if the parts are cut from the right stock, whatever it is called.",
    example: Example {
        base: Base::First,
        sound: "finish oil { hardwax-oil; coats 2; cure 24 h }",
        wrong: "finish oil { hardwax-oil; coats 2; cure 24 h }\ncut 2026-03-14 { cupboard.kick { long 36; wide 4; stock poplar-ply } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let ledger = work.ledger();
    let piece = ledger.piece;
    for unnamed in ledger.unnamed() {
        sink.extend(told(piece, &unnamed));
    }
}

fn told(piece: &Piece, unnamed: &Unnamed<'_>) -> Option<Diagnostic> {
    let spans = unnamed.cuts.iter().filter_map(|cut| cut.stock.as_ref().map(|name| name.span));
    let spans: Vec<_> = spans.collect();
    let (first, rest) = spans.split_first()?;
    let mut diagnostic = RULE
        .finding(
            format!("{} cut from {}, but no stock has that name", cut_parts(unnamed), unnamed.name),
            *first,
            "there is no such stock",
        )
        .subject(unnamed.name);
    for span in rest.iter().take(2) {
        diagnostic = diagnostic.label(*span, "here too");
    }
    let near = || nearest(unnamed.name, piece.stocks.iter().map(|stock| stock.name.as_str()));
    let name = unnamed.now.map(|stock| stock.name.as_str()).or_else(near);
    Some(match name {
        Some(name) => {
            let edits =
                spans.iter().map(|span| Edit { span: *span, text: name.to_owned() }).collect();
            let title = format!("it is the stock `{name}`");
            diagnostic.fix(Fix { title, grade: Grade::Choice, edits })
        }
        None => diagnostic,
    })
}

/// `kick was` or `kick and 3 other parts were`
fn cut_parts(unnamed: &Unnamed<'_>) -> String {
    let first = unnamed.cuts.first().map_or("", |cut| cut.name.value.as_str());
    let others = unnamed.cuts.len().saturating_sub(1);
    format!("{} {}", together(first, others), if others == 0 { "was" } else { "were" })
}
