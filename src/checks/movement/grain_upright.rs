//! A drawer front of solid wood with its grain upright.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink};
use crate::model::Piece;
use crate::parts::{Direction, Front, Part, Role};
use crate::plans::Workings;
use crate::plans::seasons::Climate;

use super::moved;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "grain-upright",
    severity: Severity::Warning,
    finds: "A drawer front or a false front is of solid wood and wider than it is high, and its grain runs up and down. It moves with the seasons from side to side.",
    why: "Across its grain a board moves a hundred times as much as along it. The box behind the front, or the case, keeps its width, so the screws hold the front where it wants to move, and it cups or splits. Its gaps at the sides close and open. Of a wide front the ends chip, and short grain breaks at the pull.",
    source: "Wood Handbook (FPL-GTR-190), Table 13-5 and Eq. 13-2. That the grain of solid drawer fronts lies level is common practice; no published source.",
    formula: "Width of the front × coefficient × points of moisture from driest to dampest.",
    accept: "Accept it if the screws of the front sit in slots, but for those in the middle, and the gaps at its sides have room for the figure.",
    example: Example {
        base: Base::First,
        sound: "high 5 }",
        wrong: "high 11-1/4; front { grain vertical } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    for front in work.fronts() {
        // A front that is higher than wide would move more with its grain level.
        let upright = |part: &&&Part| {
            part.role == Role::Slab
                && part.placement.length == Direction::Y
                && part.width.length > part.length.length
        };
        let Some(part) = front.parts.iter().find(upright).filter(|_| front.hung.is_none()) else {
            continue;
        };
        if let Some(found) = finding(work.piece, work.climate(), front, part) {
            sink.push(found);
        }
    }
}

fn finding(piece: &Piece, climate: &Climate, front: &Front<'_>, part: &Part) -> Option<Diagnostic> {
    let tape = piece.tape();
    let stock = piece.stock(part.stock).filter(|stock| stock.is_solid())?;
    let grain = front.fronts.grain?;
    let wide = part.width.length;
    let own = climate.swelling(stock, wide);
    let found = RULE
        .finding(
            format!(
                "the grain of {} runs up and down, and the front moves {} over its {} from driest to dampest",
                part.path,
                tape.fine(own.range()),
                tape.text(wide)
            ),
            grain.span,
            "grain up and down",
        )
        .label(stock.span, format!("{}, {}sawn", stock.wood_name(), stock.sawn.word()))
        .because("what it is screwed to keeps its width")
        .note("plywood may have its grain upright, as in a row of fronts cut from one sheet")
        .subject(&part.path)
        .fix(Fix::new(Grade::Choice, "lay the grain level", grain.span, "grain horizontal"));
    Some(moved(found, piece, climate, wide, &own))
}
