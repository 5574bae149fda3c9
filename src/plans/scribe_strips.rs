//! Strips that close the gap between a toe kick and a wall: made on site from offcuts
//! of the kick's stock, scribed to the wall, and glued to the kick's end.

use crate::measure::Length;
use crate::model::{Piece, Side, StockId};
use crate::parts::{PartId, Parts, Role};

/// A strip at one end of a toe kick.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ScribeStrip {
    /// The kick that it lengthens.
    pub kick: PartId,
    /// The end that it is glued to.
    pub side: Side,
    /// From the kick's end to the wall as drawn: the most that the gap is wide.
    pub wide: Length,
    /// As high as the kick.
    pub high: Length,
    /// The kick's own.
    pub stock: StockId,
}

/// The strips of every case of a piece whose toe kick ends beside a wall, or beside the
/// filler before one.
#[must_use]
pub fn scribe_strips(piece: &Piece, parts: &Parts) -> Vec<ScribeStrip> {
    let mut strips = Vec::new();
    for (kick, part) in parts.iter().filter(|(_, part)| part.role == Role::Kick) {
        let Some(case) = piece.case(part.case) else { continue };
        for side in Side::BOTH {
            let filler = case.filler(side).filter(|filler| filler.scribe.is_some());
            let wide = match filler {
                Some(filler) => filler.wide.length,
                None => side.of(&case.exposure).scribe().length,
            };
            if wide.is_positive() {
                let (high, stock) = (part.width.length, part.stock);
                strips.push(ScribeStrip { kick, side, wide, high, stock });
            }
        }
    }
    strips
}
