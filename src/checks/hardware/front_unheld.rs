//! A door or false front with nothing beside it to hang on or to be fixed to.

use std::collections::HashSet;

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::{FrontId, OpeningKind};
use crate::parts::{Assembly, JointSort};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "front-unheld",
    severity: Severity::Error,
    finds: "A door has no stile or board at its hinge side, or a false front has none at either side.",
    why: "A hinge needs wood to be screwed to, and so do the blocks that hold a false front.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "doors store { share 1; shelf { adjustable 1 } }",
        wrong: "across { share 1; door one { share 1; hung right }; open other { share 1 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let parts = work.parts;
    let held: HashSet<FrontId> = parts
        .joints
        .iter()
        .filter(|joint| holds_a_front(joint.sort))
        .filter_map(|joint| match parts.get(joint.part)?.assembly {
            Assembly::Front(front) => Some(front),
            Assembly::Base(_)
            | Assembly::Carcass(_)
            | Assembly::Frame(_)
            | Assembly::DrawerBox(_)
            | Assembly::Countertop(_)
            | Assembly::Filler(..)
            | Assembly::Loose(_) => None,
        })
        .collect();
    for front in work.fronts() {
        let (what, side) = match (&front.opening.kind, front.hung) {
            (_, Some(side)) if front.fronts.hinge.is_some() => ("hang on", side.word()),
            (OpeningKind::False, None) => ("be fixed to", "left or right"),
            _ => continue,
        };
        if held.contains(&front.id) {
            continue;
        }
        let word = if work.piece.case(front.case).is_some_and(|case| case.frame.is_some()) {
            "stile"
        } else {
            "divider"
        };
        sink.push(
            RULE.finding(
                format!("{} has nothing to {what} at its {side}", front.name()),
                front.opening.span,
                "no wood is beside this",
            )
            .note(format!("put a `{word}` between it and the opening beside it"))
            .subject(&front.path),
        );
    }
}

fn holds_a_front(sort: JointSort) -> bool {
    match sort {
        JointSort::Hung | JointSort::FrontFixed => true,
        JointSort::Wood(_)
        | JointSort::Miter
        | JointSort::Planted
        | JointSort::Laid
        | JointSort::Slid
        | JointSort::Floating => false,
    }
}
