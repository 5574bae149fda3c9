//! A door or false front with nothing beside it to hang on or to be fixed to, and a drawer
//! front that no screw from its box reaches.

use std::collections::{HashMap, HashSet};

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink};
use crate::model::{Build, FrontId, Opening, OpeningKind};
use crate::parts::{Assembly, JointSort};
use crate::plans::Workings;
use crate::plans::fitting::Purpose;

use super::{box_too_big, has_false_fronts};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "front-unheld",
    severity: Severity::Error,
    finds: "A door has no stile or board at its hinge side, or a false front does not have one at both of its sides. Or no screw from inside a drawer box, or through the blocks of a false front, meets the frame of its front.",
    why: "A hinge needs wood to be screwed to, and so do the two blocks that hold a false front: on one alone it turns. A front of frame and panel is held by its frame, since its panel floats.",
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
    let held =
        parts.joints.iter().filter(|joint| holds_a_front(joint.sort)).filter_map(
            |joint| match parts.get(joint.part)?.assembly {
                Assembly::Front(front) => Some(front),
                Assembly::Base(_)
                | Assembly::Carcass(_)
                | Assembly::Frame(_)
                | Assembly::DrawerBox(_)
                | Assembly::Countertop(_)
                | Assembly::Filler(..)
                | Assembly::Loose(_) => None,
            },
        );
    let mut sides: HashMap<FrontId, usize> = HashMap::new();
    for front in held {
        *sides.entry(front).or_default() += 1;
    }
    for front in work.fronts() {
        let held = sides.get(&front.id).copied().unwrap_or_default();
        // A door hangs on one side, and a false front is held at both.
        let (wants, what, side) = match (&front.opening.kind, front.hung) {
            (_, Some(side)) if front.fronts.hinge.is_some() => (1, "hang on", side.word()),
            (OpeningKind::False, None) if held == 0 => (2, "be fixed to", "left or right"),
            (OpeningKind::False, None) => (2, "be fixed to", "one of its sides"),
            _ => continue,
        };
        if held >= wants {
            continue;
        }
        let word = if work.piece.case(front.case).is_some_and(|case| case.frame.is_some()) {
            "stile"
        } else {
            "divider"
        };
        sink.push(
            RULE.finding(
                match held {
                    0 => format!("{} has nothing to {what} at its {side}", front.name()),
                    _ => format!("{} has nothing to {what} at {side}", front.name()),
                },
                front.opening.span,
                "no wood is beside this",
            )
            .note(format!("put a `{word}` between it and the opening beside it"))
            .subject(&front.path),
        );
    }
    from_behind(work, sink);
}

/// Fronts that no screw from a box, or through the blocks of a false front, reaches.
fn from_behind(work: &Workings<'_>, sink: &mut Sink) {
    // A box that does not go into its opening is told of already.
    let boxes = box_too_big::RULE.told(sink);
    for own in work.fitting().fronts.iter().filter(|own| own.lines.is_empty()) {
        if !boxes.contains(&own.opening.path) {
            sink.extend(unreached(own.opening, "from the box"));
        }
    }
    if !has_false_fronts(work) {
        return;
    }
    let blocks = work.fastened().fastenings.iter();
    let blocks = blocks.filter(|own| own.purpose == Purpose::FalseFronts && own.lines.is_empty());
    let mut told = HashSet::new();
    for own in blocks {
        let opening = own.into.iter().chain([&own.part]).find_map(|part| part.opening());
        let opening = opening.and_then(|id| work.piece.opening(id));
        if let Some(opening) = opening.filter(|opening| told.insert(opening.id)) {
            sink.extend(unreached(opening, "through the blocks"));
        }
    }
}

/// A front that no screw from behind reaches.
fn unreached(opening: &Opening, from: &str) -> Option<Diagnostic> {
    let fronts = opening.front.as_ref()?;
    let (what, why, note) = match fronts.build {
        Build::Panel(_) => (
            "the frame of its front",
            "nothing holds the front: its panel floats, and no screw can reach its frame",
            "make its stiles or rails wider, let it reach over its opening less, or make it a slab",
        ),
        Build::Slab => {
            ("its front", "nothing holds the front", "make the box larger, or move the pull")
        }
    };
    let title = format!("no screw {from} of {} reaches {what}", opening.path);
    Some(
        RULE.finding(title, opening.span, "this opening")
            .label(fronts.span, "its front")
            .because(why)
            .note(note)
            .subject(&opening.path),
    )
}

fn holds_a_front(sort: JointSort) -> bool {
    match sort {
        JointSort::Hung | JointSort::FrontFixed => true,
        JointSort::Wood(_)
        | JointSort::Miter
        | JointSort::Planted
        | JointSort::Laid
        | JointSort::Slid
        | JointSort::Glazed
        | JointSort::Pinned
        | JointSort::Floating => false,
    }
}
