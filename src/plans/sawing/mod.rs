//! What is sawn from sheets and boards, cut by cut, in exact lengths.

mod bevel;
mod sawn;
mod tool;

use crate::measure::{Exact, Length, between};
use crate::parts::PartId;

pub use bevel::Bevel;
pub use sawn::{Area, Cut, Gives, Laid, Sawn};
pub(super) use sawn::{Clear, Saw};
pub use tool::Tool;

/// In how many parts of a millimeter sizes are told to the search at the most: so many that
/// every size is a whole number of them, if that is no more. Else what is no whole number of
/// them is rounded so that it fits all the more.
const FINEST: i64 = 1_000_000_000_000;

/// A rectangle that is sawn from a sheet or a board.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Blank {
    /// What comes of it; of a stick, the first of what is crosscut from it.
    pub part: PartId,
    /// The strips for edges that are ripped from it, each by its part and its place among the
    /// strips of that; none but for lips.
    pub strips: Vec<(PartId, usize)>,
    /// Along the grain and across it.
    pub size: [Length; 2],
    /// It may lie across the sheet.
    pub turns: bool,
    /// It is sawn larger than the cut list has it, and comes to its size in a step of the
    /// assembly order.
    pub later: bool,
}

/// A sheet or board, or a piece on hand, as it lies: along what is long in a sheet.
#[derive(Clone, Debug)]
pub(super) struct Source {
    pub(super) on_hand: bool,
    pub(super) size: [Length; 2],
    /// What is trimmed off each edge of a sheet.
    pub(super) trim: Length,
    /// The stretches along a board that are lost, its ends among them. Each but one at its far
    /// end is longer than the cuts that part it from what is sound.
    pub(super) lost: Vec<(Length, Length)>,
}

impl Source {
    pub(super) fn inside(&self) -> [Length; 2] {
        self.size.map(|side| side - self.trim.twice())
    }

    /// The stretches along a board between what is lost.
    pub(super) fn clear(&self) -> Vec<(Length, Length)> {
        between((Length::ZERO, self.size[0]), self.lost.iter().copied())
    }
}

/// In how many parts of a millimeter all of these are whole numbers, as far as that goes.
pub(super) fn grid(sizes: impl Iterator<Item = Length>) -> i64 {
    let denominators = sizes.map(|size| (size / Length::mm(1)).denom());
    let joined = |all: i64, own: i64| {
        let shared = Exact::ratio(all, own);
        // The fraction is in its lowest terms: what is left above is what the two don't share.
        let least = i128::from(all) * i128::from(shared.denom());
        i64::try_from(least).ok().filter(|least| *least <= FINEST).unwrap_or(all)
    };
    denominators.filter(|own| *own > 0).fold(1, joined)
}

/// A length in such parts.
pub(super) fn on(grid: i64, length: Length) -> Exact {
    length / Length::mm(1) * Exact::int(grid)
}

#[cfg(test)]
mod tests {
    use super::grid;
    use crate::measure::Length;

    /// Worked by hand: 1/64 in is 127/320 mm, and a third of an inch 127/15 mm; 960 is the
    /// least that 320 and 15 go into.
    #[test]
    fn all_sizes_are_whole_numbers_on_the_grid() {
        let sizes = [Length::inches(1, 64), Length::inches(1, 3), Length::mm(5)];
        assert_eq!(grid(sizes.into_iter()), 960);
    }
}
