//! One hinge for doors that lie differently over their boards.

use std::collections::BTreeMap;

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::measure::Length;
use crate::model::{Edge, HingeKind, Side};
use crate::parts::Front;
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "overlays-differ",
    severity: Severity::Warning,
    finds: "Doors that lie over their boards by different amounts, or over one and inset in another, hang on one cup hinge.",
    why: "The arm of a cup hinge is bent for one overlay: full, half, or inset. A higher plate takes away about 1/8 in (3 mm) of it, so one hinge with several plates covers little. Order the wrong one, and the door stands beside its place and meets the next.",
    source: "Common practice; no published source: plates come in steps of about 3 mm.",
    formula: "The overlays at the hinge side of all doors on one hinge, the largest less the smallest: no more than one step of the plates.",
    accept: "Accept it if the hinge's sheet reaches all of these overlays with its plates.",
    example: Example {
        base: Base::Run,
        sound: "across { doors pots { share 1 } }",
        wrong: "across { door bin { wide 250; hung left }; divider; door pots { share 1; hung left } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// How far a door lies over the board on which it hangs, below nought where it is inset.
fn over(front: &Front<'_>) -> Option<Length> {
    let edge = match front.hung? {
        Side::Left => Edge::Left,
        Side::Right => Edge::Right,
    };
    Some(front.opening.reach.of(edge).length)
}

/// True where the other leaf of a pair is hung as most are.
fn same_beside(front: &Front<'_>, doors: &[(&Front<'_>, Length)], usual: Length) -> bool {
    let mut beside = doors.iter().filter(|(own, _)| own.opening.id == front.opening.id);
    beside.any(|(_, over)| *over == usual)
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    let tape = piece.tape();
    // An overlay that can't be is told of by itself.
    if sink.has_errors() {
        return;
    }
    let mut hung: BTreeMap<usize, Vec<(&Front<'_>, Length)>> = BTreeMap::new();
    for front in work.fronts() {
        let (Some((hinge, _)), Some(over)) = (front.fronts.hinge, over(front)) else { continue };
        hung.entry(hinge.0).or_default().push((front, over));
    }
    for (hinge, doors) in hung {
        let Some(hinge) = piece.hinges.get(hinge) else { continue };
        if !matches!(hinge.kind, HingeKind::Cup { .. }) {
            continue;
        }
        // What most of them have is what the hinge is bought for; of two alike the larger.
        let like = |over: Length| doors.iter().filter(|(_, own)| *own == over).count();
        let usual = doors.iter().map(|(_, over)| *over).max_by_key(|over| (like(*over), *over));
        let Some(usual) = usual else { continue };
        let Some((first, _)) = doors.iter().find(|(_, over)| *over == usual) else { continue };
        for (front, over) in &doors {
            let off = (*over - usual).abs();
            // The two leaves of a pair are one finding.
            if sink
                .all()
                .iter()
                .any(|it| it.slug == RULE.slug && it.subject.as_ref() == Some(&front.opening.path))
            {
                continue;
            }
            let Some((_, at)) = front.fronts.hinge else { continue };
            if off <= trade::plate_step() {
                continue;
            }
            let said = |over: Length| match over.is_positive() {
                true => format!("{} over its board", tape.text(over)),
                false => "inset".to_owned(),
            };
            // The front of a pair is for both of its leaves.
            let mend = match front.opening.is_pair() && same_beside(front, &doors, usual) {
                true => "both leaves of a pair use the hinge named in its front: have both leaves cover their boards alike, for example by giving each pair a case of its own in a `run`".to_owned(),
                false => format!(
                    "write a second `hinge`, with the figures from the sheet of the hinge for this overlay, and name it in the front: `front {{ hinge {}-half }}`",
                    hinge.name
                ),
            };
            sink.push(
                RULE.finding(
                    format!(
                        "{} is {}, and {} is {}, on the same hinge",
                        front.name(),
                        said(*over),
                        first.name(),
                        said(usual)
                    ),
                    at,
                    "hung on this hinge",
                )
                .label(front.opening.span, said(*over))
                .label(first.opening.span, said(usual))
                .because("the arm of a cup hinge is bent for one overlay")
                .note(mend)
                .subject(&front.opening.path)
                .urgency(off / Length::mm(1)),
            );
        }
    }
}
