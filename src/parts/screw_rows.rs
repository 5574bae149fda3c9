//! The rows of screws that hold a countertop from below.

use crate::measure::Length;
use crate::model::{Climate, HowHeld, OnTop, Piece};
use crate::trade;

use super::feature::FeatureKind;
use super::id::{PartId, Role};
use super::part::Part;
use super::space::{Cuboid, Direction};

/// A row of screws through a board under a countertop.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ScrewRow {
    /// The board that they go through.
    pub board: PartId,
    /// How far behind the foremost face of the piece they are.
    pub z: Length,
    /// Where they are from upright to upright, from the left side of the piece.
    pub screws: Vec<Vec<Length>>,
    /// How long their slots are, up to a mark of the tape; `None` in round holes.
    pub slot: Option<Length>,
}

impl ScrewRow {
    /// How many screws it has.
    #[must_use]
    pub fn count(&self) -> usize {
        self.screws.iter().map(Vec::len).sum()
    }
}

/// The rows of a countertop from the front back, from the parts of the cases under it.
///
/// They run along the middle of each stretcher; in a whole top near its front and its
/// back edge, and in its middle where the piece stands free. Solid wood is held fast by
/// the front row at a wall, so that its overhang stays what it is; else by one along
/// the middle, where there is one.
#[must_use]
pub fn screw_rows(piece: &Piece, top: &OnTop, own: &[(PartId, &Part)]) -> Vec<ScrewRow> {
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
        let bays = bays(own, (*board, part), true).into_iter();
        let pocketed = part.features.iter().any(|own| matches!(own.kind, FeatureKind::Pockets(..)));
        let screws: Vec<Vec<Length>> =
            bays.map(|bay| trade::countertop_screws(bay, pocketed, unit)).collect();
        let row = |z| ScrewRow { board: *board, z, screws: screws.clone(), slot: None };
        rows.extend(places.into_iter().map(row));
    }
    rows.sort_by_key(|row| row.z);
    // Cases side by side have their rows in one line.
    let mut lines: Vec<Length> = rows.iter().map(|row| row.z).collect();
    lines.dedup();
    let fast = if fixed || lines.len().is_multiple_of(2) { 0 } else { lines.len() / 2 };
    let held = lines.get(fast).copied();
    let stock = piece.stock(top.spec.stock).filter(|stock| stock.wood.is_some());
    let slotted = top.spec.held == HowHeld::Slots;
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

/// What is clear under a board or over it, from upright to upright: there a driver gets at
/// it.
pub(super) fn bays(
    own: &[(PartId, &Part)],
    (id, board): (PartId, &Part),
    below: bool,
) -> Vec<(Length, Length)> {
    let space = board.cuboid();
    let meets = |other: &Cuboid| match below {
        true => other.to.y >= space.from.y,
        false => other.from.y <= space.to.y,
    };
    let mut uprights: Vec<(Length, Length)> = own
        .iter()
        .filter(|(other, part)| *other != id && matches!(part.role, Role::End(_) | Role::Partition))
        .map(|(_, part)| part.cuboid())
        .filter(|other| meets(other) && other.overlaps_along(&space, Direction::Z))
        .filter(|other| other.overlaps_along(&space, Direction::X))
        .map(|other| (other.from.x, other.to.x))
        .collect();
    uprights.sort_unstable();
    let (mut bays, mut at) = (Vec::new(), space.from.x);
    for (from, to) in uprights {
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
