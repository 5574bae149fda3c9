//! Fronts that lie over each other.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink, Sum};
use crate::model::Piece;
use crate::parts::{Assembly, Cuboid, Direction, Part, Parts};

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
    let mut fronts: Vec<(&str, Cuboid, &Part)> = Vec::new();
    for part in &parts.all {
        let Assembly::Front(path) = &part.assembly else { continue };
        let own = part.cuboid();
        // The parts of one front follow each other.
        match fronts.last_mut().filter(|(known, ..)| known == path) {
            Some((_, space, _)) => *space = space.union(&own),
            None => fronts.push((path, own, part)),
        }
    }
    // Sorted by their left edge, a front meets only those that begin before it ends.
    fronts.sort_by_key(|(_, space, _)| space.from.x);
    for (i, (path, space, part)) in fronts.iter().enumerate() {
        for (other, beside, _) in
            fronts[i + 1..].iter().take_while(|(_, o, _)| o.from.x < space.to.x)
        {
            if !space.overlaps(beside) {
                continue;
            }
            let by = space
                .overlap_along(beside, Direction::X)
                .min(space.overlap_along(beside, Direction::Y));
            let case = piece.cases.get(part.case);
            let at =
                case.and_then(|case| case.fronts.as_ref()).map_or(part.span, |fronts| fronts.span);
            sink.push(
                Diagnostic::error(RULE.slug, format!("{path} and {other} overlap by {}", tape.text(by)), at, "set here")
                    .label(part.span, "this front")
                    .sum(Sum::new("over by", by, tape))
                    .note("two overlay fronts share the member between them: each may reach over half of it, less half the gap")
                    .subject(*path),
            );
            return;
        }
    }
}
