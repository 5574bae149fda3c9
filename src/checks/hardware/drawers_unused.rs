//! A `drawers` block in a case that has no drawer.

use std::collections::BTreeSet;

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::measure::Span;
use crate::model::{Case, OpeningKind};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "drawers-unused",
    severity: Severity::Note,
    finds: "A case or a run says how its drawer boxes are made, and has no drawer. A block in a used file does not count.",
    why: "Either a drawer was forgotten, or the block and its slide are left over from an earlier plan, and nothing of them is on any paper.",
    source: "None is needed: the papers have no such boxes.",
    formula: "",
    accept: "Accept it if the drawers come with a later revision.",
    example: Example {
        base: Base::First,
        sound: "drawer upper { high 5 }",
        wrong: "false upper { high 5 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    // While something is wrong, a drawer may yet come or go.
    if sink.has_findings() {
        return;
    }
    let has_drawer = |case: &&Case| {
        case.openings.iter().any(|own| matches!(own.kind, OpeningKind::Drawer { .. }))
    };
    // What a run says serves all its cases.
    let span = |case: &Case| case.drawers.as_ref().map(|own| own.span);
    let used: BTreeSet<Span> = piece.cases.iter().filter(has_drawer).filter_map(span).collect();
    let mut told: BTreeSet<Span> = BTreeSet::new();
    for case in &piece.cases {
        let Some(at) = span(case).filter(|at| crate::checks::in_spec(*at)) else { continue };
        if used.contains(&at) || !told.insert(at) {
            continue;
        }
        sink.push(
            RULE.finding(
                format!("{} has no drawers, but this says how they are made", case.path),
                at,
                "nothing is built from this",
            )
            .note("take it out, or write the drawer that it is for")
            .subject(&case.path),
        );
    }
}
