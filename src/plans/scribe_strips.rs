//! Strips that close the gap between a toe kick and a wall: made on site from offcuts
//! of the kick's stock, scribed to the wall, and glued to the kick's end.

use crate::measure::Length;
use crate::model::{Piece, Side, StockId};
use crate::parts::{Part, PartId, Parts, Role, Which};

/// A strip at one end of a toe kick.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ScribeStrip {
    /// The kick that it lengthens.
    pub kick: PartId,
    /// The end that it is glued to.
    pub side: Side,
    /// It stands under a filler.
    pub filled: bool,
    /// From the kick's end to the wall as drawn: the most that the gap is wide.
    pub wide: Length,
    /// As high as the kick is cut: the two are scribed to the floor as one.
    pub high: Length,
    /// The kick's own.
    pub stock: StockId,
}

/// True for what stands behind a toe space: a kick, or the front of a separate base.
fn closes_toe_space(part: &Part) -> bool {
    part.role == Role::Kick || (part.role, part.which) == (Role::BaseMember, Which::Front)
}

/// The strips of every case of a piece whose toe kick ends beside a wall, or beside the
/// filler before one.
#[must_use]
pub fn scribe_strips(piece: &Piece, parts: &Parts) -> Vec<ScribeStrip> {
    let mut strips = Vec::new();
    for (kick, part) in parts.iter().filter(|(_, part)| closes_toe_space(part)) {
        for side in Side::BOTH {
            // A kick over several cases ends at the outer side of the last of them.
            let row = piece.base_row(part.case);
            let outer = row.map_or(part.case, |row| *side.of(&[row.first, row.last]));
            let Some(case) = piece.case(outer) else { continue };
            let filler = case.filler(side).filter(|filler| filler.scribe.is_some());
            let wide = match filler {
                Some(filler) => filler.wide.length,
                None => side.of(&case.exposure).scribe().length,
            };
            if wide.is_positive() {
                let (high, stock) = (part.as_made()[1].length, part.stock);
                let filled = filler.is_some();
                strips.push(ScribeStrip { kick, side, filled, wide, high, stock });
            }
        }
    }
    strips
}
