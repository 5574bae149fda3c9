//! Ends of kicks and bases of sheet goods that are seen beside the end of a case, and that
//! no strip covers: what hides their plies.

use crate::measure::Length;
use crate::model::{FinishKind, Piece, Side, Stock};
use crate::parts::{Direction, Face, PartId, Parts};
use crate::trade;

use super::finish;

/// What hides the plies of an end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hidden {
    /// Strips of veneer that match the end of the case, each so long and wide: the end with
    /// the wood that is left on to scribe, and what is trimmed flush.
    Veneer([Length; 2]),
    /// Filler, under paint.
    Filler,
}

/// The ends of one board that are seen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BareEnds {
    /// The board.
    pub part: PartId,
    /// Its ends.
    pub faces: Vec<Face>,
    /// The ends of cases that they are seen beside, in the same order.
    pub beside: Vec<PartId>,
    /// What hides their plies.
    pub by: Hidden,
}

/// Every board below cases that shows its plies, in the order of the parts.
#[must_use]
pub fn bare_ends(piece: &Piece, parts: &Parts) -> Vec<BareEnds> {
    parts.iter().filter_map(|(id, _)| bare_ends_of(piece, parts, id)).collect()
}

/// The ends of one board that show its plies; `None` where none does.
#[must_use]
pub fn bare_ends_of(piece: &Piece, parts: &Parts, id: PartId) -> Option<BareEnds> {
    let part = parts.get(id).filter(|part| part.is_below())?;
    if piece.stock(part.stock).is_none_or(Stock::is_solid) {
        return None;
    }
    let face = |side: Side| part.placement.face(Direction::X, side == Side::Left);
    let mut seen = parts.seen_over(piece, part);
    seen.retain(|(side, _)| !part.strips.iter().any(|strip| strip.face == face(*side)));
    let paints = finish::of_part(piece, part)
        .and_then(|id| piece.finish(id))
        .is_some_and(|own| own.kind == FinishKind::Paint);
    let spare: Length = part
        .spare
        .iter()
        .filter(|own| part.placement.direction(own.face) == Direction::Y)
        .map(|own| own.by.length)
        .sum();
    let high = part.cuboid().size(Direction::Y);
    (!seen.is_empty()).then(|| BareEnds {
        part: id,
        faces: seen.iter().map(|(side, _)| face(*side)).collect(),
        beside: seen.iter().map(|(_, end)| *end).collect(),
        by: match paints {
            true => Hidden::Filler,
            false => Hidden::Veneer(
                [high + spare, part.cuboid().size(Direction::Z)]
                    .map(|side| side + trade::veneer_over(piece.tape().unit)),
            ),
        },
    })
}
