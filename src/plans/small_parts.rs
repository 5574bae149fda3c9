//! Solid parts too small to be machined one by one.

use crate::model::{Piece, Stock};
use crate::parts::Part;
use crate::trade;

/// True for a solid part whose rough length is too short to be planed and
/// jointed by itself.
#[must_use]
pub fn is_short(piece: &Piece, part: &Part) -> bool {
    is_solid(piece, part) && part.rough.length < trade::shortest_planed(piece.tape().unit)
}

/// True for a solid part too narrow to be ripped by itself.
#[must_use]
pub fn is_narrow(piece: &Piece, part: &Part) -> bool {
    is_solid(piece, part) && part.width.length < trade::narrowest_ripped(piece.tape().unit)
}

fn is_solid(piece: &Piece, part: &Part) -> bool {
    piece.stock(part.stock).is_some_and(Stock::is_solid)
}
