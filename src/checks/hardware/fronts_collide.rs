//! Fronts that lie over each other, or have no gap between them.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::parts::{Direction, Front};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "fronts-collide",
    severity: Severity::Error,
    finds: "Two fronts overlap or touch. Overlay fronts do so when they reach over more than half of the member between them.",
    why: "One of them can't be hung or can't be closed. Two fronts that touch rub from the first day.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example { base: Base::First, sound: "set inset;", wrong: "set overlay { by 7/8 };" },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    let tape = piece.tape();
    let mut fronts: Vec<&Front<'_>> = work.fronts().iter().collect();
    // Sorted by their left edge, a front meets only those that begin before it ends.
    fronts.sort_by_key(|front| front.space.from.x);
    for (i, front) in fronts.iter().enumerate() {
        let space = &front.space;
        for other in fronts[i + 1..].iter().take_while(|o| o.space.from.x <= space.to.x) {
            let along = |direction| space.overlap_along(&other.space, direction);
            let (x, y) = (along(Direction::X), along(Direction::Y));
            let by = x.min(y);
            // Corners may touch.
            let beside = x.max(y).is_positive() && along(Direction::Z).is_positive();
            if by.is_negative() || !beside {
                continue;
            }
            let case = piece.case(front.case);
            let at = case
                .and_then(|case| case.fronts.as_ref())
                .map_or(front.span(), |fronts| fronts.span);
            let how = match by.is_positive() {
                true => format!("overlap by {}", tape.figure(by)),
                false => "touch, with no gap between them".to_owned(),
            };
            let title = format!("{} and {} {how}", front.path, other.path);
            let found = RULE.finding(title, at, "this is set here")
                .label(front.span(), "this front")
                .note("two overlay fronts share the member between them; each may reach over half of it, less half the gap")
                .subject(&front.path);
            sink.push(match by.is_positive() {
                true => found.sum(Sum::new("over by", by, tape)),
                false => found,
            });
            return;
        }
    }
}
