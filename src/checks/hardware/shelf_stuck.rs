//! A loose shelf that can't be got in behind its frame.

use crate::checks::once::Once;
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::Piece;
use crate::parts::Part;
use crate::plans::Workings;
use crate::plans::shelves::{self, Through};
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "shelf-stuck",
    severity: Severity::Warning,
    finds: "An adjustable shelf is longer than its opening in the face frame is wide, and the opening is too low to tilt it in.",
    why: "The shelf reaches behind the stiles, so it goes in with one end up and is laid level inside. Where the opening is too low for that, the shelf can't go in once the frame is on, and it can't come out again.",
    source: "Plane geometry.",
    formula: "Tilted by an angle a, the shelf is long · cos a + thick · sin a wide, and long · sin a + thick · cos a high.",
    accept: "Accept it if the shelf may stay in for good. The assembly order then has you lay it in from behind, before the back goes on.",
    example: Example {
        base: Base::First,
        sound: "drawer upper { high 5 }\n      rail { wide 1-1/2 }\n      doors store { share 1; shelf { adjustable 1 } }",
        wrong: "doors upper { high 11-1/2; shelf { adjustable 1 } }\n      rail { wide 1-1/2 }\n      doors store { share 1 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let mut once = Once::default();
    for shelf in &parts.all {
        let Some(through) = shelves::through(piece, parts, shelf) else { continue };
        if through.is_too_low() && once.is_first(shelf.span) {
            sink.push(finding(piece, shelf, &through));
        }
    }
}

fn finding(piece: &Piece, shelf: &Part, through: &Through<'_>) -> Diagnostic {
    let Through { opening, size: [wide, high], needed, turns: _ } = *through;
    let tape = piece.tape();
    let long = shelf.length.length;
    let is_divided = opening.shelves.as_ref().is_some_and(|set| set.fixed > 0);
    let between = if is_divided { " between its fixed shelves" } else { "" };
    let mut found = RULE
        .finding(
            format!("the shelf of {} can't be tilted in through its opening", opening.path),
            shelf.span,
            format!("a shelf {} long", tape.text(long)),
        )
        .label(
            opening.span,
            format!("{} wide, and {} high{between}", tape.text(wide), tape.text(high)),
        )
        .because(
            "it reaches behind the frame on both sides, and the opening is too low to tilt it in",
        )
        .subject(&opening.path);
    if let Some(needed) = needed {
        let (needed, high) = (tape.print(needed).shown, tape.print(high).shown);
        found = found
            .sum(
                Sum::new("too low by", needed - high, tape)
                    .plus(needed, "height to tilt the shelf", tape)
                    .minus(high, "opening", tape),
            )
            .urgency((needed - high) / Length::mm(1));
    }
    let longest = tape.down(trade::longest_to_tilt(shelf.thickness.length, wide, high));
    found.note(format!(
        "a shelf {} long goes in; write a larger `clearance` for the shelves if your pins reach that far",
        tape.figure(longest)
    ))
    .note("as it is, the assembly order has you lay it in from behind before the back goes on, and it stays in for good")
    .note("otherwise make the opening higher, use narrower stiles, or write `fixed` for `adjustable`")
}
