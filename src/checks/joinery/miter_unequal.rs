//! A mitered seam of two boards that are not equally thick.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{Piece, Seam, Side};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "miter-unequal",
    severity: Severity::Warning,
    finds: "A mitered seam joins a stile and an end whose thicknesses differ by more than 1/16 in.",
    why: "Both miters start at the same outer corner. The thicker board's miter is longer, and its inner part has no wood to glue to. A step of up to 1/16 in on the hidden side does no harm.",
    source: "Plane geometry. The limit is common practice; no published source.",
    formula: "",
    accept: "Accept it if the step lies inside where nobody looks, and you reinforce the glue line with splines or blocks.",
    example: Example {
        base: Base::Console,
        sound: "plywood 3/4; actual 23/32; species black-cherry;",
        wrong: "plywood 5/8; actual 5/8; species black-cherry;",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for case in &piece.cases {
        let Some(frame) = &case.frame else { continue };
        for side in Side::BOTH {
            let end = side.of(&case.ends);
            if end.seam != Seam::Miter {
                continue;
            }
            let (stile, board) =
                (piece.thickness(frame.stock).length, piece.thickness(end.stock).length);
            let step = (stile - board).abs();
            if step <= Length::inches(1, 16) {
                continue;
            }
            let mut diagnostic = RULE.finding(format!("the mitered {} seam joins {} to {}, with a step of {}", side.word(), tape.figure(stile), tape.figure(board), tape.figure(step)),
                end.span,
                "mitered",
            )
            .sum(Sum::new("step", step, tape).plus(stile.max(board), "thicker", tape).minus(stile.min(board), "thinner", tape))
            .because("the inner part of the longer miter has nothing to glue to")
            .note("use stock of equal thickness for both, plane the stile to the end's thickness, or write `seam butt`")
            .subject(format!("{}.{}-end", case.path, side.word()));
            for (id, what) in [(frame.stock, "stile"), (end.stock, "end")] {
                if let Some(stock) = piece.stock(id) {
                    diagnostic = diagnostic.label(
                        stock.thickness_span,
                        format!("{what} {}", tape.figure(stock.thickness.length)),
                    );
                }
            }
            sink.push(diagnostic);
        }
    }
}
