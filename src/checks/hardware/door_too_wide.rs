//! A door wider than its hinges can hold it straight.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::Piece;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "door-too-wide",
    severity: Severity::Warning,
    finds: "A door, or a leaf of a pair, is over 24 in (610 mm) wide, and wider than its hinges can be apart.",
    why: "A wide, low door hangs on two hinges that are near each other, and its weight pulls at them like a long lever. The latch edge sags and drags, the screws work loose, and a wide slab or panel warps. Open, it reaches far into the room.",
    source: "24 in: the width up to which makers stand by their doors (a trade forum, \"Maximum Cabinet Door Width\", 2006). That hinges are at least as far apart as a door is wide is common practice, from hinge makers' catalogs.",
    formula: "Hinges can be apart by the height of the leaf less 3 in (75 mm) at each end.",
    accept: "Accept it if the door is light and rests on something when it is closed, or if it is hung some other way than on its side.",
    example: Example {
        base: Base::First,
        sound: "doors store { share 1; shelf { adjustable 1 } }",
        wrong: "door store {\n        share 1; hung left; shelf { adjustable 1 }\n        front { build panel { stile 2-1/2; rail 2-1/2; panel-stock thin; groove 3/8 } }\n      }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    let most = tape.unit.either(Length::inches(24, 1), Length::mm(610));
    let end = tape.unit.either(Length::inches(3, 1), Length::mm(75));
    for (_, opening, fronts) in super::doors(piece) {
        let (wide, high) = opening.leaf(fronts);
        let (wide, high) = (wide.length, high.length);
        let apart = high - end.twice();
        if wide <= most || apart >= wide {
            continue;
        }
        let (what, mend) = match opening.is_pair() {
            true => (
                "each leaf of",
                "part the opening with a stile or a divider, and hang a door on each side of it",
            ),
            false => ("the door of", "hang two leaves there: write `doors` in place of `door`"),
        };
        let title = format!(
            "{what} {} is {} wide and {} high, too wide for hinges at its side",
            opening.path,
            tape.text(wide),
            tape.text(high)
        );
        let label = format!("a leaf {} wide", tape.text(wide));
        sink.push(
            RULE.finding(title, opening.span, label)
                .sum(Sum::new("hinges apart", apart, tape).plus(high, "high", tape).minus(
                    end.twice(),
                    "both ends",
                    tape,
                ))
                .because(
                    "its weight pulls at hinges that are near each other, and the latch edge sags",
                )
                .note(mend)
                .subject(&opening.path)
                .urgency((wide - apart) / Length::mm(1)),
        );
    }
}
