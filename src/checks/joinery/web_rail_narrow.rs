//! A rail of a web frame that its groove goes nearly through.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::model::Piece;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "web-rail-narrow",
    severity: Severity::Error,
    finds: "The groove for the tenons of a web frame leaves less than 3/8 in (10 mm) of the width of a rail.",
    why: "The rail splits along its groove when a full drawer runs on the tenons in it.",
    source: "Common practice; no published source.",
    formula: "Width of the rail less the depth of its groove, which is the length of the tenons and the room before them.",
    accept: "",
    example: Example {
        base: Base::Chest,
        sound: "build web { panel-stock thin }",
        wrong: "build web { wide 1-1/4; tenon 1; panel-stock thin }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    let least = trade::least_behind_groove(tape.unit);
    for member in piece.cases.iter().flat_map(|case| &case.members) {
        let Some(web) = member.lying_board().and_then(|board| board.web.as_deref()) else {
            continue;
        };
        let back = [false, true].into_iter().max_by_key(|back| web.groove(*back).length);
        let back = back.unwrap_or_default();
        let deep = web.groove(back).length;
        let left = web.wide.length - deep;
        if left >= least {
            continue;
        }
        let rail = if back && web.free.is_some() { "back rail" } else { "rail" };
        sink.push(
            RULE.finding(
                format!(
                    "the groove leaves {} of each {rail} of the web frame of {}",
                    tape.figure(left),
                    member.path
                ),
                web.span,
                "this frame",
            )
            .sum(
                Sum::new("left", left, tape)
                    .plus(web.wide.length, rail, tape)
                    .minus(deep, "groove", tape),
            )
            .because(format!("less than {} splits along the groove", tape.figure_with_unit(least)))
            .note(format!(
                "make its rails {} wide or more, or its `tenon` shorter",
                tape.figure(tape.up(deep + least))
            ))
            .subject(&member.path),
        );
    }
}
