//! Wood milled far damper or drier than its room.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::{Piece, Stock};
use crate::plans::seasons::Climate;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "milled-off",
    severity: Severity::Warning,
    finds: "The wood is milled in air that leaves it more than 2 points of moisture damper than the dampest day of its room, or drier than the driest.",
    why: "The wood never settles in that room at the size you made it. Gaps stay open or closed, panels shrink and show an unfinished edge, and joints work loose in the first year.",
    source: "Wood Handbook (FPL-GTR-190), Eq. 4-5. That members should agree within 2 points is common practice; ANSI/KCMA A161.1 asks for 10 % at most at fabrication.",
    formula: "Moisture in the shop's air, compared with moisture in the room's air, at the room's temperature.",
    accept: "Accept it if you dry the wood in the room itself before you mill it, so that `humidity` in `shop` is not what it is milled at.",
    example: Example {
        base: Base::Press,
        sound: "humidity 50%\n  kerf     3.2",
        wrong: "humidity 80%\n  kerf     3.2",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    if !piece.stocks.iter().any(Stock::is_solid) {
        return;
    }
    let climate = Climate::of(piece);
    let damper = climate.milled.moisture - climate.dampest.moisture;
    let drier = climate.driest.moisture - climate.milled.moisture;
    let (by, word, air, day) = match damper > drier {
        true => (damper, "damper", climate.dampest, "dampest"),
        false => (drier, "drier", climate.driest, "driest"),
    };
    // The figures as they are printed are what is judged.
    if by < 2.05 {
        return;
    }
    let Some(at) = piece.shop.humidity_span.or(piece.site.humidity_span) else { return };
    let mut diagnostic = RULE.finding(format!("the wood is milled {by:.1} points {word} than it will ever be in the room"),
        at,
        match piece.shop.humidity_span {
            Some(_) => format!("{} %: {:.1} % moisture", climate.milled.humidity.0, climate.milled.moisture),
            None => format!("the {day} day {} %: {:.1} % moisture", air.humidity.0, air.moisture),
        },
    )
    .working("milled", format!("at {} % humidity: {:.1} % moisture", climate.milled.humidity.0, climate.milled.moisture))
    .working("room", format!("{day} day {} %: {:.1} %", air.humidity.0, air.moisture))
    .because("the wood never settles in that room at the size you made it")
    .note("sticker the boards in air like the room's until a moisture meter agrees, and mill them then")
    .subject("shop");
    if let (Some(_), Some(room)) = (piece.shop.humidity_span, piece.site.humidity_span) {
        diagnostic = diagnostic.label(room, "the room");
    }
    sink.push(diagnostic);
}
