//! Which part of one revision is which of the other: by what it is of, then by
//! role and place, then by being alike.

use std::collections::BTreeMap;

use crate::model::{Case, Piece};
use crate::parts::{Direction, Key, Part, Parts};

use super::features;
use super::matching::{Match, Pairs, pair_left_over, same_place};

/// Matches every part that is on both sides.
pub(super) fn parts(old: (&Piece, &Parts), new: (&Piece, &Parts), matched: &Match) -> Pairs {
    let (old_piece, old) = old;
    let (new_piece, new) = new;
    let mut pairs = Pairs::new(old.all.len(), new.all.len());
    let keys: BTreeMap<Key, usize> = new.iter().map(|(id, part)| (part.key(), id.0)).collect();
    for (id, part) in old.iter() {
        if let Some(now) = matched.key(part.key()).and_then(|key| keys.get(&key)) {
            pairs.pair(id.0, *now);
        }
    }
    // What remains was renamed together with its neighbours, or is as good as
    // what it takes the place of.
    let alike = |was: usize, now: usize, test: fn(&Compared<'_>) -> bool| {
        let (Some(a), Some(b)) = (old.all.get(was), new.all.get(now)) else { return false };
        let (Some(old_case), Some(new_case)) = (old_piece.case(a.case), new_piece.case(b.case))
        else {
            return false;
        };
        let sides = Compared { old_piece, a, old_case, new_piece, b, new_case };
        matched.case(a.case) == Some(b.case)
            && a.role == b.role
            && matched.stocks.new_of(a.stock.0) == Some(b.stock.0)
            && test(&sides)
    };
    pair_left_over(&mut pairs, |was, now| alike(was, now, at_one_place));
    pair_left_over(&mut pairs, |was, now| alike(was, now, interchangeable));
    pairs
}

/// Two parts with what they are measured in.
struct Compared<'a> {
    old_piece: &'a Piece,
    a: &'a Part,
    old_case: &'a Case,
    new_piece: &'a Piece,
    b: &'a Part,
    new_case: &'a Case,
}

/// The same way up at nearly the same place of its case.
fn at_one_place(sides: &Compared<'_>) -> bool {
    let Compared { a, b, old_case, new_case, .. } = sides;
    let extent = |part: &Part, case: &Case, direction| {
        let (from, to) = part.extent(direction);
        if direction == Direction::X { (from - case.x, to - case.x) } else { (from, to) }
    };
    same_way_up(a, b)
        && Direction::ALL.into_iter().all(|direction| {
            same_place(extent(a, old_case, direction), extent(b, new_case, direction))
        })
}

/// Cut alike, so that one will do for the other.
fn interchangeable(sides: &Compared<'_>) -> bool {
    let Compared { a, b, old_piece, new_piece, .. } = sides;
    let size = |part: &Part| [&part.length, &part.width, &part.thickness].map(|s| s.length);
    same_way_up(a, b)
        && size(a) == size(b)
        && features::unlike((old_piece, a), (new_piece, b)).is_empty()
}

pub(super) fn same_way_up(a: &Part, b: &Part) -> bool {
    let axes = |part: &Part| (part.placement.length, part.placement.width);
    axes(a) == axes(b)
}
