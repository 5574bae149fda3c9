//! Fronts that lie over each other.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink, Sum};
use crate::model::Piece;
use crate::parts::{self, Direction, Parts};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "fronts-collide",
    severity: Severity::Error,
    finds: "Two fronts that take the same place, as overlay fronts do that reach further than half the member between them.",
    why: "Neither can be closed, or neither hung.",
    source: "plane geometry.",
    formula: "",
    accept: "",
    example: Example { base: Base::First, sound: "set inset;", wrong: "set overlay { by 7/8 };" },
    check: Check::Parts(check),
};

fn check(piece: &Piece, parts: &Parts, sink: &mut Sink) {
    let tape = piece.tape();
    let mut fronts = parts::fronts(piece, parts);
    // Sorted by their left edge, a front meets only those that begin before it ends.
    fronts.sort_by_key(|front| front.space.from.x);
    for (i, front) in fronts.iter().enumerate() {
        let space = &front.space;
        for other in fronts[i + 1..].iter().take_while(|o| o.space.from.x < space.to.x) {
            if !space.overlaps(&other.space) {
                continue;
            }
            let by = space
                .overlap_along(&other.space, Direction::X)
                .min(space.overlap_along(&other.space, Direction::Y));
            let case = piece.cases.get(front.case);
            let at = case
                .and_then(|case| case.fronts.as_ref())
                .map_or(front.span(), |fronts| fronts.span);
            let title = format!("{} and {} overlap by {}", front.path, other.path, tape.text(by));
            sink.push(
                Diagnostic::error(RULE.slug, title, at, "set here")
                    .label(front.span(), "this front")
                    .sum(Sum::new("over by", by, tape))
                    .note("two overlay fronts share the member between them: each may reach over half of it, less half the gap")
                    .subject(front.path),
            );
            return;
        }
    }
}
