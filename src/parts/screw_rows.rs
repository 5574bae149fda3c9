//! The rows of screws that hold a countertop from below.

use crate::measure::Length;
use crate::model::{Climate, HowHeld, Piece};
use crate::trade;

use super::id::{PartId, Role};
use super::part::Part;
use super::space::Direction;

/// A row of screws through a board under a countertop.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ScrewRow {
    /// The board that they go through.
    pub board: PartId,
    /// How far behind the foremost face of the piece they are.
    pub z: Length,
    /// Where they are, from the left side of the piece.
    pub screws: Vec<Length>,
    /// How long their slots are, up to a mark of the tape; `None` in round holes.
    pub slot: Option<Length>,
}

/// The rows of a case from the front back, from its parts; none where it has no
/// countertop.
///
/// They run along the middle of each stretcher; in a whole top near its front and its
/// back edge, and in its middle where the piece stands free. Solid wood is held fast by
/// the front row at a wall, so that its overhang stays what it is; else by one along
/// the middle, where there is one.
#[must_use]
pub fn screw_rows(piece: &Piece, own: &[(PartId, &Part)]) -> Vec<ScrewRow> {
    let Some((_, countertop)) = own.iter().find(|(_, part)| part.role == Role::Countertop) else {
        return Vec::new();
    };
    let spec = piece.case(countertop.case).and_then(|case| case.countertop.as_ref());
    let (unit, fixed) = (piece.tape().unit, piece.site.fixed);
    let mut rows = Vec::new();
    for (board, part) in own.iter().filter(|(_, part)| is_carrier(part)) {
        let (from, to) = part.extent(Direction::Z);
        let middle = (from + to).half();
        let places = match part.role {
            Role::Top => {
                let edge = trade::row_from_edge(unit).min((to - from) / 4);
                let mut places = vec![from + edge, to - edge];
                places.extend((!fixed).then_some(middle));
                places
            }
            _ => vec![middle],
        };
        let bays = bays(own, (*board, part)).into_iter();
        let screws: Vec<Length> =
            bays.flat_map(|bay| trade::countertop_screws(bay, unit)).collect();
        let row = |z| ScrewRow { board: *board, z, screws: screws.clone(), slot: None };
        rows.extend(places.into_iter().map(row));
    }
    rows.sort_by_key(|row| row.z);
    let fast = if fixed || rows.len() % 2 == 0 { 0 } else { rows.len() / 2 };
    let held = rows.get(fast).map(|row| row.z);
    let stock = piece.stock(countertop.stock).filter(|stock| stock.wood.is_some());
    let slotted = spec.is_some_and(|spec| spec.held == HowHeld::Slots);
    if let (Some(held), Some(stock), true) = (held, stock, slotted) {
        let (climate, tape) = (Climate::of(piece), piece.tape());
        for row in rows.iter_mut().filter(|row| row.z != held) {
            let moves = climate.swelling(stock, (row.z - held).abs());
            let most = moves.driest.abs().max(moves.dampest.abs());
            row.slot = Some(tape.up(trade::slot_long(most, unit)));
        }
    }
    rows
}

/// True for a board that a countertop is screwed down through.
pub(super) fn is_carrier(part: &Part) -> bool {
    matches!(part.role, Role::Stretcher | Role::Top)
}

/// What is clear under a board, from upright to upright: there a driver gets at it.
fn bays(own: &[(PartId, &Part)], (id, board): (PartId, &Part)) -> Vec<(Length, Length)> {
    let space = board.cuboid();
    let mut under: Vec<(Length, Length)> = own
        .iter()
        .filter(|(other, part)| *other != id && matches!(part.role, Role::End(_) | Role::Partition))
        .map(|(_, part)| part.cuboid())
        .filter(|other| other.to.y >= space.from.y && other.overlaps_along(&space, Direction::Z))
        .map(|other| (other.from.x, other.to.x))
        .collect();
    under.sort_unstable();
    let (mut bays, mut at) = (Vec::new(), space.from.x);
    for (from, to) in under {
        if at < from {
            bays.push((at, from.min(space.to.x)));
        }
        at = at.max(to);
    }
    if at < space.to.x {
        bays.push((at, space.to.x));
    }
    bays
}
