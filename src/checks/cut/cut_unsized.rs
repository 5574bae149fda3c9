//! A cut part of which no size is written.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Edit, Fix, Grade, Severity, Sink};
use crate::model::Cut;
use crate::parts::{Part, PartId};
use crate::plans::Workings;
use crate::plans::ledger::State;

use super::together;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "cut-unsized",
    severity: Severity::Warning,
    finds: "Parts are recorded as cut without their length or width.",
    why: "They were cut as the drawing stood that day. Once the drawing changes, nobody can tell what lies on the bench, and a part that no longer fits passes for a good one. `casewright record` writes the sizes.",
    source: "Our own rule.",
    formula: "",
    accept: "Accept it if the drawing of these parts will never change.",
    example: Example {
        base: Base::First,
        sound: "finish oil { hardwax-oil; coats 2; cure 24 h }",
        wrong: "finish oil { hardwax-oil; coats 2; cure 24 h }\ncut 2026-03-14 { cupboard.kick }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let ledger = work.ledger();
    let (piece, parts) = (ledger.piece, ledger.parts);
    let bare = |(id, part): (PartId, _)| {
        let State::Cut(cut) = ledger.state(id) else { return None };
        (cut.long.is_none() || cut.wide.is_none()).then_some((part, cut))
    };
    let bare: Vec<(&Part, &Cut)> = parts.iter().filter_map(bare).collect();
    let Some(((part, cut), rest)) = bare.split_first() else { return };
    let are = match rest.is_empty() {
        true => "is cut, but its size is",
        false => "are cut, but their sizes are",
    };
    let mut diagnostic = RULE
        .finding(
            format!("{} {are} not recorded", together(&part.path, rest.len())),
            cut.name.span,
            format!("cut on {}", cut.date),
        )
        .because("if the drawing changes, nobody can tell what was cut");
    for (_, cut) in rest.iter().take(2) {
        diagnostic = diagnostic.label(cut.name.span, "the same here");
    }
    let tape = piece.tape();
    let edits = bare.iter().map(|(part, cut)| {
        let [long, wide] = part.as_made();
        let sizes = [("long", &cut.long, long), ("wide", &cut.wide, wide)];
        let words = sizes.into_iter().filter(|(_, written, _)| written.is_none());
        let words = words.map(|(word, _, size)| format!("{word} {}", tape.recorded(size.length)));
        let (span, before, after) = cut.add;
        Edit { span, text: format!("{before}{}{after}", words.collect::<Vec<_>>().join("; ")) }
    });
    let fix = Fix {
        title: match rest.is_empty() {
            true => "record it as it is drawn now".to_owned(),
            false => "record them as they are drawn now".to_owned(),
        },
        grade: Grade::Choice,
        edits: edits.collect(),
    };
    sink.push(diagnostic.fix(fix));
}
