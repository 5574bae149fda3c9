//! Ornament.

mod flute_too_deep;
mod flutes_none;
mod flutes_too_short;
mod flutes_uneven;
mod pull_in_flute;

use crate::checks::rule::Rule;
use crate::model::{Opening, Piece};
use crate::parts::{Assembly, Part};

/// The rules of this subject, in the order they are listed.
pub(super) const RULES: &[&Rule] = &[
    &flute_too_deep::RULE,
    &flutes_none::RULE,
    &flutes_too_short::RULE,
    &flutes_uneven::RULE,
    &pull_in_flute::RULE,
];

/// The opening that a front is made for.
fn opening_of<'a>(piece: &'a Piece, part: &Part) -> Option<&'a Opening> {
    let Assembly::Front(front) = part.assembly else { return None };
    piece.opening(front.opening)
}
