//! A drawer on wood that swells fast in its opening.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink};
use crate::measure::Length;
use crate::model::{Axis, Piece};
use crate::plans::seasons::Climate;

use super::{product, weather};
use crate::checks::hardware::written;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "wood-jams",
    severity: Severity::Warning,
    finds: "A drawer box that runs on wood is written so high that on the dampest day its sides swell by more than the room above them.",
    why: "The drawer sticks fast in its opening all through the damp season, and whoever pulls hard breaks the front off its box.",
    source: "Wood Handbook (FPL-GTR-190), Table 13-5 and Eq. 13-2.",
    formula: "Height of the box × its coefficient × points of moisture from milling to the dampest day, compared with the height of its opening less that of the box.",
    accept: "Accept it if you fit the drawer in the damp season, or if you plane it again when it first sticks.",
    example: Example {
        base: Base::Chest,
        sound: "drawer lower  { share 1 }",
        wrong: "drawer lower  { share 1; box { high 7-31/32 } }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let (climate, tape) = (Climate::of(piece), piece.tape());
    for case in &piece.cases {
        let Some(boxes) = &case.drawers else { continue };
        let Some(stock) = piece.stock(boxes.stock).filter(|own| own.wood.is_some()) else {
            continue;
        };
        for opening in case.openings.iter().filter(|opening| opening.on_wood.is_some()) {
            let Some(own) = piece.drawer_box(case, opening) else { continue };
            let (tall, high) = (opening.as_built(Axis::Down).length, own.high.length);
            let room = tall - high;
            let swell = climate.swelling(stock, high);
            // A box that is as high as its opening is another rule's.
            if !room.is_positive() || swell.dampest <= room {
                continue;
            }
            let said = opening.box_high().and_then(|high| written(piece, high));
            let mut found = RULE
                .finding(
                    format!(
                        "the box of {} swells by {} when it is damp, and it has {} above it",
                        opening.path,
                        tape.fine(swell.dampest),
                        tape.text(room)
                    ),
                    said.unwrap_or(opening.span),
                    format!("{} high in {}", tape.text(high), tape.text(tall)),
                )
                .label(stock.span, format!("{}, {}sawn", stock.wood_name(), stock.sawn.word()))
                .because("the drawer sticks fast until the wood dries again")
                .subject(&opening.path)
                .urgency((swell.dampest - room) / Length::mm(1));
            let product = product(tape, &climate, true, high, swell.coefficient);
            found = weather(found, piece, &climate, true)
                .working("dampest", format!("{product} = {}", tape.fine(swell.dampest)));
            let most = tape.down(own.most.length);
            sink.push(match said {
                Some(span) => found.fix(Fix::new(
                    Grade::Choice,
                    format!("make the box {} high", tape.figure(most)),
                    span,
                    format!("high {}", tape.source(most)),
                )),
                None => {
                    found.note("make the box of quartersawn wood, which swells about half as much")
                }
            });
        }
    }
}
