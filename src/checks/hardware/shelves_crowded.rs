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
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    let least = tape.unit.either(Length::inches(2, 1), Length::mm(50));
    for case in &piece.cases {
        let Some(thick) = case.shelves.stock.map(|stock| piece.thickness(stock).length) else {
            continue;
        };
        for opening in &case.openings {
            let Some(set) = &opening.shelves else { continue };
            let count = i64::from(set.count());
            let taken = thick * count;
            let clear = (opening.high.length - taken) / (count + 1);
            if clear >= least || count == 0 {
                continue;
            }
            let mut sum = Sum::new("clear", clear, tape)
                .plus(opening.high.length, "opening", tape)
                .minus(taken, format!("thickness of {count} shelves"), tape);
            sum.over = set.count() + 1;
            sink.push(
                RULE.finding(
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
                .subject(&opening.path),
            );
        }
    }
}
