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
    /// How many pieces it may still try on a board.
    steps: usize,
}

/// What is on a board: the places of its lengths, the longest first.
type Board = Vec<usize>;

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

    /// The pieces of each of so many boards; `None` where so many steps found none.
    pub(super) fn on(&self, boards: i64, steps: usize) -> Option<Vec<Vec<usize>>> {
        let spare = boards * self.long - self.all;
        if spare < 0 {
            return None;
        }
        let tries = WAYS.iter().flat_map(|most| [false, true].map(|by_count| (*most, by_count)));
        let filled = tries.into_iter().find_map(|(most, by_count)| {
            let mut left: Vec<usize> = self.lengths.iter().map(|(_, own)| own.len()).collect();
            let mut filled = Vec::new();
            let mut may = May { most, by_count, steps: steps / WAYS.len() / 2 };
            self.fill(&mut left, spare, &mut filled, &mut may).then_some(filled)
        })?;
        let mut rest: Vec<_> = self.lengths.iter().map(|(_, own)| own.iter()).collect();
        let mut take = |at: usize| rest.get_mut(at)?.next().copied();
        Some(
            filled.into_iter().map(|own| own.into_iter().filter_map(&mut take).collect()).collect(),
        )
    }

    /// Fills board after board until no piece is left.
    fn fill(&self, left: &mut [usize], spare: i64, filled: &mut Vec<Board>, may: &mut May) -> bool {
        let is_left = |count: &usize| *count > 0;
        let Some(longest) = left.iter().position(is_left) else { return true };
        if may.steps == 0 {
            return false;
        }
        let last = left.iter().rposition(is_left).unwrap_or(longest);
        let mut begun = Begun {
            rows: self,
            left,
            spare,
            shortest: self.lengths[last].0,
            own: vec![longest],
            ways: Vec::new(),
        };
        begun.fill_up(longest, self.long - self.lengths[longest].0, &mut may.steps);
        let mut ways = begun.ways;
        let count = |own: &Board| if may.by_count { own.len() } else { 0 };
        ways.sort_unstable_by(|(waste, own), (other_waste, other)| {
            (count(own), waste, own).cmp(&(count(other), other_waste, other))
        });
        for (waste, way) in ways.into_iter().take(may.most) {
            way.iter().for_each(|at| left[*at] -= 1);
            filled.push(way);
            if self.fill(left, spare - waste, filled, may) {
                return true;
            }
            let way = filled.pop().unwrap_or_default();
            way.iter().for_each(|at| left[*at] += 1);
        }
        false
    }
}

/// A board that is being filled up.
struct Begun<'r> {
    rows: &'r Rows,
    /// How many of each length are left.
    left: &'r [usize],
    /// No more than this may be wasted on it.
    spare: i64,
    /// The shortest length that is left.
    shortest: i64,
    own: Board,
    /// Every way to fill it that was found, with what it wastes.
    ways: Vec<(i64, Board)>,
}

impl Begun<'_> {
    /// Finds every way to go on, with lengths from a place on, that wastes no more than is to
    /// spare and leaves no room for a piece that is left.
    fn fill_up(&mut self, from: usize, room: i64, steps: &mut usize) {
        if self.ways.len() >= FOUND || *steps == 0 {
            return;
        }
        *steps -= 1;
        let mut is_full = true;
        for at in from..self.left.len() {
            let rest = room - self.rows.lengths[at].0;
            if rest < 0 || !self.has(at) {
                continue;
            }
            is_full = false;
            // Where nothing fits in behind it, that must not waste too much.
            if rest > self.spare && rest < self.shortest {
                continue;
            }
            self.own.push(at);
            self.fill_up(at, rest, steps);
            self.own.pop();
        }
        // What is longer than the last one taken may still have room.
        let fits = |at: usize| self.rows.lengths[at].0 <= room && self.has(at);
        if is_full && room <= self.spare && !(0..from).any(fits) {
            self.ways.push((room, self.own.clone()));
        }
    }

    /// True where one of a length is left beside those on the board.
    fn has(&self, at: usize) -> bool {
        self.left[at] > 0 && self.own.iter().filter(|own| **own == at).count() < self.left[at]
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
        assert_eq!(rows.on(1, 1000), None);
        let boards = rows.on(2, 1000).expect("two full boards");
        let long = |own: &Vec<usize>| own.iter().map(|at| order.pieces[*at].size[0]).sum::<i64>();
        assert_eq!(boards.iter().map(long).collect::<Vec<_>>(), [13, 13]);
        let narrow = Order { kinds: vec![Kind { size: [13, 8], ..order.kinds[0] }], ..order };
        assert!(Rows::of(&narrow, &all).is_none());
    }
}
