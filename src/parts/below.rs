//! What lies below the ends of cases: kicks, and the long boards of bases.

use crate::model::{Piece, Side};

use super::id::{PartId, Role, Which};
use super::part::{Part, Parts};
use super::space::Direction;

impl Part {
    /// True for a board behind the toe space that runs from one side of the piece, or of a
    /// base, to the other.
    #[must_use]
    pub fn is_below(&self) -> bool {
        let is_long = matches!(self.which, Which::Front | Which::Back);
        self.role == Role::Kick || self.role == Role::BaseMember && is_long
    }
}

impl Parts {
    /// The ends of cases that are seen, and whose outside faces the ends of a part below
    /// them are flush with; each with the side of the part.
    #[must_use]
    pub fn seen_over(&self, piece: &Piece, part: &Part) -> Vec<(Side, PartId)> {
        let (from, to) = part.extent(Direction::X);
        let over = |(id, other): (PartId, &Part)| {
            let (Role::End(side), Some(case)) = (other.role, piece.case(other.case)) else {
                return None;
            };
            let (left, right) = other.extent(Direction::X);
            let is_flush = match side {
                Side::Left => left == from,
                Side::Right => right == to,
            };
            (is_flush && case.is_on_floor() && case.shows_end(side)).then_some((side, id))
        };
        self.iter().filter_map(over).collect()
    }
}
