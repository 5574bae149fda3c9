//! Ornament.

pub(super) mod flute_too_deep;
pub(super) mod flutes_none;
pub(super) mod flutes_too_short;
pub(super) mod flutes_uneven;
pub(super) mod pull_in_flute;

use crate::model::{Opening, Piece};
use crate::parts::{Assembly, Part};

/// The opening that a front is made for.
fn opening_of<'a>(piece: &'a Piece, part: &Part) -> Option<&'a Opening> {
    let Assembly::Front(front) = part.assembly else { return None };
    piece.opening(front.opening)
}
