//! An inset front that no hand gets hold of.

use crate::checks::once::Once;
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::{Beyond, Edge, OpeningKind, Set};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "no-grip",
    severity: Severity::Warning,
    finds: "An inset door or drawer front has neither a pull nor a finger pull, and the spec does not say that this is meant.",
    why: "It lies flush in its frame with a gap of a coin's thickness round it, and no finger gets behind it.",
    source: "Our own rule.",
    formula: "",
    accept: "Accept it if you settle later what opens it. Where a latch that is pushed does, write `pull none`, and there is nothing to accept.",
    example: Example {
        base: Base::First,
        sound: "hinge cup-hinge; pull knob",
        wrong: "hinge cup-hinge",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// How many pulls are offered.
const MOST: usize = 3;

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    let mut once = Once::default();
    for front in work.fronts() {
        let (own, opening) = (front.fronts, front.opening);
        let is_held = own.pull.is_some() || own.finger.is_some() || own.opens_without;
        let is_fixed = matches!(opening.kind, OpeningKind::False);
        if is_held || is_fixed || own.set != Set::Inset {
            continue;
        }
        let Some(case) = piece.case(front.case) else { continue };
        // Behind a door, or beside a place with nothing between, a hand takes it by its edge.
        let is_beside = |edge| matches!(case.beyond(opening.id, edge), Beyond::Opening(_));
        let edges = [Edge::Top, Edge::Bottom, Edge::Left, Edge::Right];
        if case.door_before(opening).is_some() || edges.into_iter().any(is_beside) {
            continue;
        }
        // What the fronts of a case lack is told once.
        if !once.is_first(own.span) {
            continue;
        }
        let mut found = RULE
            .finding(format!("nothing opens {}", front.name()), own.span, "no `pull` is given here")
            .label(opening.span, "it lies flush in its frame")
            .because("no finger gets behind an inset front")
            .note("write `pull NAME`, `finger { … }`, or `pull none` where a latch that is pushed opens it")
            .subject(&opening.path);
        for pull in piece.pulls.iter().take(MOST) {
            let says = format!("pull {}", pull.name);
            found = found.fix(own.pull_at.says(&says, format!("fit {}", pull.name)));
        }
        sink.push(found);
    }
}
