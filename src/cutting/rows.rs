//! Orders of which no two pieces lie beside each other on a sheet, so that it holds them one
//! behind the other: what is left of the problem is lengths.
//!
//! Board by board the longest piece that is left is taken, with each set of others that fills
//! the board up; those that waste the least come first, and no more may be wasted than so many
//! boards have to spare (bin completion: R. Korf, A New Algorithm for Optimal Bin Packing, 2002;
//! without its rules of dominance).

use std::cmp::Reverse;

use super::{Kind, Order};

/// How many ways to fill a board are looked at, in one try after the other: few at first, so
/// that a wrong board at the beginning is soon given up.
const WAYS: [usize; 4] = [2, 4, 12, 40];
/// How many ways are found before the best of them are kept.
const FOUND: usize = 2000;

/// Pieces by their lengths, and the boards that they come from.
pub(super) struct Rows {
    /// Each length that is wanted, the longest first, and its pieces.
    lengths: Vec<(i64, Vec<usize>)>,
    /// How long a board is.
    long: i64,
    all: i64,
}

/// How a try goes about it.
struct May {
    /// By how many ways it fills each board.
    most: usize,
    /// Those of the fewest pieces come first.
    by_count: bool,
    /// How many looks it has left.
    looks: usize,
}

/// How many of each length are left, or on a board.
type Counts = Vec<usize>;

impl Rows {
    /// The pieces of an order that are not too large, where they lie one behind the other on
    /// boards of one kind.
    pub(super) fn of(order: &Order, placed: &[usize]) -> Option<Self> {
        let [Kind { size, count: None, above: None, .. }] = order.kinds.as_slice() else {
            return None;
        };
        let pieces = || placed.iter().filter_map(|index| order.pieces.get(*index));
        if pieces().any(|piece| piece.turns && piece.size[0] != piece.size[1]) {
            return None;
        }
        let lie = |along: usize| {
            let mut wide: Vec<i64> = pieces().map(|piece| piece.size[1 - along]).collect();
            wide.sort_unstable();
            matches!(*wide, [one, other, ..] if one + other > size[1 - along])
        };
        let along = [0, 1].into_iter().find(|along| lie(*along))?;
        let mut lengths: Vec<(i64, Vec<usize>)> = Vec::new();
        let mut sorted: Vec<(i64, usize)> = placed
            .iter()
            .filter_map(|index| Some((order.pieces.get(*index)?.size[along], *index)))
            .collect();
        sorted.sort_unstable_by_key(|(length, index)| (Reverse(*length), *index));
        for (length, index) in sorted {
            match lengths.last_mut() {
                Some((own, indices)) if *own == length => indices.push(index),
                _ => lengths.push((length, vec![index])),
            }
        }
        let all = lengths.iter().map(|(length, own)| length * own.len() as i64).sum();
        Some(Self { lengths, long: size[along], all })
    }

    /// The pieces of each of so many boards; `None` where so many looks found none.
    pub(super) fn on(&self, boards: i64, looks: usize) -> Option<Vec<Vec<usize>>> {
        let spare = boards * self.long - self.all;
        if spare < 0 {
            return None;
        }
        let tries = WAYS.iter().flat_map(|most| [false, true].map(|by_count| (*most, by_count)));
        let filled = tries.into_iter().find_map(|(most, by_count)| {
            let mut left: Counts = self.lengths.iter().map(|(_, own)| own.len()).collect();
            let (mut filled, looks) = (Vec::new(), looks / WAYS.len() / 2);
            let mut may = May { most, by_count, looks };
            self.fill(&mut left, spare, &mut filled, &mut may).then_some(filled)
        })?;
        let mut rest: Vec<_> = self.lengths.iter().map(|(_, own)| own.iter()).collect();
        let mut take = |(at, count): (usize, &usize)| -> Vec<usize> {
            rest.get_mut(at).map_or(Vec::new(), |own| own.by_ref().take(*count).copied().collect())
        };
        let boards = filled.iter().map(|own| own.iter().enumerate().flat_map(&mut take).collect());
        Some(boards.collect())
    }

    /// Fills board after board until no piece is left.
    fn fill(&self, left: &mut Counts, spare: i64, filled: &mut Vec<Counts>, may: &mut May) -> bool {
        let Some(longest) = left.iter().position(|count| *count > 0) else { return true };
        if may.looks == 0 {
            return false;
        }
        may.looks -= 1;
        let mut ways = Vec::new();
        let mut own = vec![0; left.len()];
        own[longest] = 1;
        let room = self.long - self.lengths[longest].0;
        self.ways(left, (longest, room), spare, &mut own, &mut ways);
        let count = |own: &Counts| if may.by_count { own.iter().sum() } else { 0 };
        ways.sort_by_cached_key(|(waste, own)| (count(own), *waste, Reverse(own.clone())));
        for (waste, way) in ways.into_iter().take(may.most) {
            way.iter().zip(left.iter_mut()).for_each(|(own, left)| *left -= own);
            filled.push(way);
            if self.fill(left, spare - waste, filled, may) {
                return true;
            }
            let way = filled.pop().unwrap_or_default();
            way.iter().zip(left.iter_mut()).for_each(|(own, left)| *left += own);
        }
        false
    }

    /// Every way to go on filling a board that wastes no more than is to spare, and leaves no
    /// room for a piece that is left; what each of them wastes.
    fn ways(
        &self,
        left: &Counts,
        (from, room): (usize, i64),
        spare: i64,
        own: &mut Counts,
        ways: &mut Vec<(i64, Counts)>,
    ) {
        if ways.len() >= FOUND {
            return;
        }
        let mut is_full = true;
        for at in from..left.len() {
            let length = self.lengths[at].0;
            if length > room || own[at] >= left[at] {
                continue;
            }
            is_full = false;
            own[at] += 1;
            self.ways(left, (at, room - length), spare, own, ways);
            own[at] -= 1;
        }
        // What is longer than the last one taken may still have room.
        let fits = |at: usize| self.lengths[at].0 <= room && own[at] < left[at];
        if is_full && room <= spare && !(0..from).any(fits) {
            ways.push((room, own.clone()));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Stages, Wanted};
    use super::*;

    /// Worked by hand: with the longest first, 7 + 5, 4 + 3 + 3 + 2, and 2 take three boards of
    /// 13; 7 + 4 + 2 and 5 + 3 + 3 + 2 fill two of them to the last.
    #[test]
    fn boards_are_filled_to_the_last() {
        let piece = |long: i64| Wanted { size: [long, 4], turns: false };
        let order = Order {
            kinds: vec![Kind { size: [13, 7], cost: 1, count: None, above: None }],
            pieces: [7, 5, 4, 3, 3, 2, 2].map(piece).to_vec(),
            kerf: 0,
            stages: Stages { most: None, first: None },
            floor: 0,
            rounds: [1, 0],
        };
        let all: Vec<usize> = (0..7).collect();
        let rows = Rows::of(&order, &all).expect("one behind the other");
        assert_eq!(rows.on(1, 100), None);
        let boards = rows.on(2, 100).expect("two full boards");
        let long = |own: &Vec<usize>| own.iter().map(|at| order.pieces[*at].size[0]).sum::<i64>();
        assert_eq!(boards.iter().map(long).collect::<Vec<_>>(), [13, 13]);
        let narrow = Order { kinds: vec![Kind { size: [13, 8], ..order.kinds[0] }], ..order };
        assert!(Rows::of(&narrow, &all).is_none());
    }
}
