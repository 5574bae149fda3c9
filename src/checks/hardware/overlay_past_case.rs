//! A front that reaches past its case.

use crate::checks::once::Once;
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::measure::Length;
use crate::parts::Front;
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "overlay-past-case",
    severity: Severity::Error,
    finds: "An overlay front reaches past the side or the top of its case, or down to the floor.",
    why: "It strikes what stands beside the case, or the floor, and its edge is in nobody's drawing.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "set inset;",
        wrong: "set overlay { by 1/2; left 2 };",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    let tape = piece.tape();
    let mut once = Once::default();
    for front in work.fronts() {
        let Some((where_, by)) = past(work, front) else { continue };
        if !once.is_first((&front.opening.path, front.fronts.span)) {
            continue;
        }
        let reaches = match where_ {
            "floor" => "reaches down to the floor".to_owned(),
            _ => format!("stands {} past the {where_} of the case", tape.text(by)),
        };
        sink.push(
            RULE.finding(
                format!("the front of {} {reaches}", front.opening.path),
                front.fronts.span,
                format!("{} too far", tape.text(by)),
            )
            .label(front.opening.span, "before this opening")
            .note("an overlay may have a figure of its own at each edge, such as `set overlay { by 1/2; left 1/4 }`")
            .subject(&front.opening.path),
        );
    }
}

/// Where a front reaches past its case, and how far.
fn past(work: &Workings<'_>, front: &Front<'_>) -> Option<(&'static str, Length)> {
    let case = work.piece.case(front.case)?;
    let space = &front.space;
    let all = [
        ("left side", case.x - space.from.x),
        ("right side", space.to.x - case.x - case.wide.length),
        ("top", space.to.y - case.high.length),
        ("floor", -space.from.y),
    ];
    let over = all.into_iter().filter(|(_, by)| by.is_positive());
    over.max_by_key(|(_, by)| *by)
}
