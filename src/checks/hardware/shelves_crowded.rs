//! More shelves than there is room for.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::Piece;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "shelves-crowded",
    severity: Severity::Warning,
    finds: "The shelves of one opening leave less than 2 in (50 mm) of clear height between them.",
    why: "A hand hardly fits between them. The figure is usually a slip of the pen.",
    source: "Common practice; no published source.",
    formula: "The opening's height less the thickness of its shelves, divided by one more than the number of shelves.",
    accept: "Accept it if the shelves hold papers, prints, or trays.",
    example: Example {
        base: Base::First,
        sound: "shelf { adjustable 1 }",
        wrong: "shelf { adjustable 9 }",
    },
    check: Check::Piece(check),
    sometimes: Some((
        Severity::Error,
        "The shelves fill the opening, or they leave too little wood for the pins under a loose shelf: half a pin hole and 1/8 in (3 mm) below it.",
    )),
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    let least = tape.unit.either(Length::inches(2, 1), Length::mm(50));
    for case in &piece.cases {
        for opening in &case.openings {
            let Some(set) = &opening.shelves else { continue };
            let Some(stocks) = set.stocks(case.shelves.stock) else { continue };
            let [fixed, loose] = stocks.map(|stock| piece.thickness(stock).length);
            let count = i64::from(set.count());
            let taken = fixed * i64::from(set.fixed) + loose * (count - i64::from(set.fixed));
            let clear = (opening.high.length - taken) / (count + 1);
            if clear >= least || count == 0 {
                continue;
            }
            // A hole as high as the underside of its shelf, with wood below it.
            let wood = tape.unit.either(Length::inches(1, 8), Length::mm(3));
            let pin = case.shelves.pins.hole.half() + wood;
            let is_pinned = set.loose > 0;
            let mut sum = Sum::new("clear", clear, tape)
                .plus(opening.high.length, "opening", tape)
                .minus(taken, format!("thickness of {count} shelves"), tape);
            sum.over = set.count() + 1;
            let found = RULE
                .finding(
                    format!(
                        "{count} shelves leave {} of clear height between them in {}",
                        tape.text(clear.max(Length::ZERO)),
                        opening.path
                    ),
                    set.span,
                    format!("{count} shelves"),
                )
                .label(opening.span, format!("{} high", tape.text(opening.high.length)))
                .sum(sum)
                .subject(&opening.path);
            sink.push(match is_pinned {
                true if clear < pin => RULE.at_times(found).note(format!(
                    "a pin under a shelf takes {} above the board below it",
                    tape.figure(tape.up(pin))
                )),
                false if !clear.is_positive() => RULE.at_times(found),
                _ => found,
            });
        }
    }
}
