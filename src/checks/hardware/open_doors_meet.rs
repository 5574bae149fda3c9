//! Two doors hung back to back that strike each other when both stand open.

use std::cell::LazyCell;

use super::door_stopped;
use super::swings::{self, Door};
use crate::checks::once::Once;
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink, Sum};
use crate::model::{Piece, Side};
use crate::plans::Workings;
use crate::trade::Body;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "open-doors-meet",
    severity: Severity::Note,
    finds: "Two doors that hang back to back strike each other when both stand open 90 degrees. They hang at one stile, one divider, or the seam of two cases, and their pulls or leaves meet.",
    why: "You can't open the second door 90 degrees while the first one is open, and one pull strikes the other.",
    source: "Plane geometry. Where a cup hinge gives no poses, the door is taken to turn about the front corner of its hinge edge, with a tolerance of 1/16 in (common practice; no published source).",
    formula: "With both doors open 90 degrees, each pull reaches from its door's hinge edge as far as it stands off the face, less what the hinge has shifted the leaf. The two reaches together must fit between the hinge edges.",
    accept: "Accept it if the two doors are never open together, or if stops hold them short of each other.",
    example: Example {
        base: Base::First,
        sound: "doors store { share 1; shelf { adjustable 1 } }",
        wrong: "across {\n        door linen { share 1; hung right }\n        stile { wide 1-1/2 }\n        door china { same linen; hung left }\n      }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

const BODIES: [Body; 2] = [Body::Pull, Body::Leaf];

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let fronts = work.fronts();
    let doors = swings::doors(piece, fronts);
    // A door that something stops is another rule's.
    let room = LazyCell::new(|| door_stopped::room(piece, parts, fronts));
    let goes_free = |door: &Door<'_>| door_stopped::stopped(piece, door, &room).is_none();
    let mut facing: Vec<&Door<'_>> = doors.iter().filter(|d| d.hung == Side::Left).collect();
    facing.sort_by_key(|door| door.swing.x());
    for left in doors.iter().filter(|door| door.hung == Side::Right) {
        let first = facing.partition_point(|right| right.swing.x() < left.swing.x());
        let near = facing.iter().skip(first);
        let near = near.take_while(|right| left.is_near(right.swing.x(), right.swing.x()));
        for right in near {
            if let Some((own, other)) = meeting(left, right)
                && goes_free(left)
                && goes_free(right)
            {
                sink.push(report(piece, (left, own), (right, other)));
            }
        }
    }
}

/// What of two open doors meets.
fn meeting(left: &Door<'_>, right: &Door<'_>) -> Option<(Body, Body)> {
    // Fronts that lie over each other are another rule's.
    if left.front.space.overlaps(&right.front.space) {
        return None;
    }
    let mercy = left.mercy.max(right.mercy);
    BODIES.into_iter().flat_map(|own| BODIES.map(|other| (own, other))).find(|(own, other)| {
        let (Some(a), Some(b)) =
            (swings::body(left.front, *own), swings::body(right.front, *other))
        else {
            return false;
        };
        swings::level(a, b) && left.swing.meets_open(*own, &right.swing, *other, mercy)
    })
}

fn report(piece: &Piece, left: (&Door<'_>, Body), right: (&Door<'_>, Body)) -> Diagnostic {
    let tape = piece.tape();
    let ((left, own), (right, other)) = (left, right);
    let title = format!(
        "{} and {} strike each other when both are open, {} on {}",
        left.front.name(),
        right.front.name(),
        swings::word(own),
        swings::word(other)
    );
    let stile = swings::hinge_stile(piece, left);
    let (at, label) = match &stile {
        Some(stile) => (stile.span, format!("{} wide", tape.figure(stile.wide.length))),
        None => (left.front.opening.span, left.hung_told()),
    };
    let mut diagnostic = RULE.finding(title, at, label);
    if stile.is_some() {
        diagnostic = diagnostic.label(left.front.opening.span, left.hung_told());
    }
    diagnostic = diagnostic.label(right.front.opening.span, right.hung_told());
    let mut once = Once::default();
    for (door, body) in [(left, own), (right, other)] {
        let Some((span, label)) = door.pull_label(tape).filter(|_| body == Body::Pull) else {
            continue;
        };
        if once.is_first(span) {
            diagnostic = diagnostic.label(span, label);
        }
    }
    let between = right.swing.x() - left.swing.x();
    let short = left.reach(own).zip(right.reach(other)).map(|(a, b)| a + b - between);
    if let Some(short) = short.filter(|short| short.is_positive()) {
        let sum = left.add_reach(Sum::new("short by", short, tape), own, tape);
        let sum = right.add_reach(sum, other, tape).minus(between, "between the doors", tape);
        diagnostic = diagnostic.sum(sum);
        if let Some(fix) = stile.and_then(|stile| stile.widened(short, tape)) {
            diagnostic = diagnostic.fix(fix);
        }
    }
    let assumed = if left.is_assumed() { left } else { right };
    diagnostic = assumed.tell_assumed(diagnostic);
    // A leaf of a pair has its hinges where it has them.
    let single = [left, right].iter().filter(|door| door.front.opening.leaf_count() == 1).count();
    diagnostic = diagnostic
        .because("you can't open the second door 90 degrees while the first one is open")
        .subject(&right.front.opening.path);
    // A pull that strikes the other leaf strikes it at any height.
    let mercy = left.mercy.max(right.mercy);
    let strikes_leaf = |own, other| left.swing.meets_open(own, &right.swing, other, mercy);
    let only_pulls = !strikes_leaf(Body::Pull, Body::Leaf)
        && !strikes_leaf(Body::Leaf, Body::Pull)
        && !strikes_leaf(Body::Leaf, Body::Leaf);
    let hang = match single {
        0 => None,
        1 => Some("hang the single door on its other side"),
        _ => Some("hang one of the two on its other side"),
    };
    let heights = only_pulls.then_some("set their pulls at different heights");
    match (hang, heights) {
        (Some(hang), Some(heights)) => {
            diagnostic.note(format!("you can also {hang}, or {heights}"))
        }
        (Some(only), None) | (None, Some(only)) => diagnostic.note(format!("you can also {only}")),
        (None, None) => {
            diagnostic.note("you can also take pulls that stand out less, or a finger pull")
        }
    }
}
