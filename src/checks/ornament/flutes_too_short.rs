//! Stopped flutes whose stops meet.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::model::Run;
use crate::parts::Direction;
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "flutes-too-short",
    severity: Severity::Error,
    finds: "Stopped flutes come out shorter than they are wide, or they have no room to run at all.",
    why: "The bit drops in and comes out on the same spot, which leaves a row of dimples. Where the two stops overlap there is nothing to cut.",
    source: "Plane geometry.",
    formula: "The length of the front along the flutes, less the stop at both ends.",
    accept: "",
    example: Example {
        base: Base::Console,
        sound: "pitch 3/4; land 3/16 }",
        wrong: "pitch 3/4; land 3/16; stop 2-1/4 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    for part in &parts.all {
        let Some(opening) = super::opening_of(piece, part) else { continue };
        let Some(flutes) = opening.front.as_ref().and_then(|front| front.flutes.as_ref()) else {
            continue;
        };
        let Some(bit) = piece.bit(flutes.bit) else { continue };
        let (way, high) = match flutes.run {
            Run::Vertical => (Direction::Y, "high"),
            Run::Horizontal => (Direction::X, "wide"),
        };
        let long = part.cuboid().size(way);
        let wide = trade::flute_width(bit.diameter, flutes.deep);
        let left = long - flutes.stop.twice();
        if !flutes.are_too_short(long, wide) {
            continue;
        }
        sink.push(
            RULE.finding(
                format!(
                    "the flutes on {} have {} left to run, and each is {} wide",
                    part.path,
                    tape.text(left),
                    tape.text(wide)
                ),
                flutes.span,
                format!("stopped {} short of both ends", tape.figure(flutes.stop)),
            )
            .label(opening.span, format!("its front is {} {high}", tape.text(long)))
            .sum(
                Sum::new("left to run", tape.print(left).shown, tape)
                    .plus(tape.print(long).shown, high, tape)
                    .minus(tape.print(flutes.stop.twice()).shown, "two stops", tape),
            )
            .because("the bit would drop in and come out on the same spot")
            .note("use a shorter `stop`, or none on this front, to leave them room to run")
            .subject(&part.path),
        );
    }
}
