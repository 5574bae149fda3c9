//! Which case, opening, stock and part of one revision is which of the other:
//! by name first, then by kind and place, so that a new name is told as one.

use std::collections::BTreeMap;

use crate::measure::Length;
use crate::model::{Axis, Case, Item, MemberId, Opening, OpeningKind, Piece, Stock};
use crate::parts::Parts;

use super::part_places;

/// Pairs of indices: what stands at one index before stands at the other after.
#[derive(Clone, Debug, Default)]
pub(super) struct Pairs {
    /// By the index before.
    forward: Vec<Option<usize>>,
    /// By the index after.
    back: Vec<Option<usize>>,
}

impl Pairs {
    pub(super) fn new(old: usize, new: usize) -> Self {
        Self { forward: vec![None; old], back: vec![None; new] }
    }

    /// Pairs two that have no partner yet.
    pub(super) fn pair(&mut self, old: usize, new: usize) -> bool {
        match (self.forward.get_mut(old), self.back.get_mut(new)) {
            (Some(forward @ None), Some(back @ None)) => {
                (*forward, *back) = (Some(new), Some(old));
                true
            }
            _ => false,
        }
    }

    pub(super) fn new_of(&self, old: usize) -> Option<usize> {
        self.forward.get(old).copied().flatten()
    }

    pub(super) fn old_of(&self, new: usize) -> Option<usize> {
        self.back.get(new).copied().flatten()
    }

    /// Those without a partner, before and after.
    pub(super) fn left_over(&self) -> (Vec<usize>, Vec<usize>) {
        let free = |side: &[Option<usize>]| {
            side.iter().enumerate().filter(|(_, other)| other.is_none()).map(|(i, _)| i).collect()
        };
        (free(&self.forward), free(&self.back))
    }

    /// Every pair, in the order of the side after.
    pub(super) fn iter(&self) -> impl Iterator<Item = (usize, usize)> {
        self.back.iter().enumerate().filter_map(|(new, old)| Some(((*old)?, new)))
    }

    /// Pairs the best first. Read from the other side, the same ones are
    /// paired: equal candidates are taken by the sum of their indices.
    pub(super) fn pair_best<K: Ord>(&mut self, mut candidates: Vec<(K, usize, usize)>) {
        candidates.sort_by(|a, b| a.0.cmp(&b.0).then((a.1 + a.2).cmp(&(b.1 + b.2))));
        for (_, old, new) in candidates {
            self.pair(old, new);
        }
    }
}

/// Everything that was matched.
#[derive(Debug)]
pub(super) struct Match {
    pub(super) cases: Pairs,
    /// The openings of each pair of cases, by the case before.
    pub(super) openings: BTreeMap<usize, Pairs>,
    /// The members that are on both sides, by those before.
    pub(super) members: BTreeMap<MemberId, MemberId>,
    pub(super) stocks: Pairs,
    pub(super) parts: Pairs,
}

impl Match {
    pub(super) fn of(old: (&Piece, Option<&Parts>), new: (&Piece, Option<&Parts>)) -> Self {
        let cases = cases(&old.0.cases, &new.0.cases);
        let openings = cases
            .iter()
            .filter_map(|(was, now)| {
                let (before, after) = (old.0.cases.get(was)?, new.0.cases.get(now)?);
                Some((was, openings(before, after)))
            })
            .collect();
        let stocks = stocks(&old.0.stocks, &new.0.stocks);
        let (members, parts) = (BTreeMap::new(), Pairs::default());
        let mut matched = Self { cases, openings, members, stocks, parts };
        matched.pair_members(old.0, new.0);
        if let (Some(was), Some(now)) = (old.1, new.1) {
            matched.parts = part_places::parts((old.0, was), (new.0, now), &matched);
        }
        matched
    }

    /// Both sides of every case that is on both.
    pub(super) fn both_cases<'a>(
        &self,
        old: &'a Piece,
        new: &'a Piece,
    ) -> Vec<(&'a Case, &'a Case, &Pairs)> {
        let pair =
            |(was, now)| Some((old.cases.get(was)?, new.cases.get(now)?, self.openings.get(&was)?));
        self.cases.iter().filter_map(pair).collect()
    }
}

/// From and to.
pub(super) type Extent = (Length, Length);

/// True where two extents share more than half of the longer one. Of several
/// that do not overlap each other, at most one does.
pub(super) fn same_place(a: Extent, b: Extent) -> bool {
    let shared = a.1.min(b.1) - a.0.max(b.0);
    shared.twice() > (a.1 - a.0).max(b.1 - b.0)
}

fn cases(old: &[Case], new: &[Case]) -> Pairs {
    let mut pairs = Pairs::new(old.len(), new.len());
    let names: BTreeMap<&str, usize> =
        new.iter().enumerate().map(|(index, case)| (case.name.as_str(), index)).collect();
    for (was, case) in old.iter().enumerate() {
        if let Some(now) = names.get(case.name.as_str()) {
            pairs.pair(was, *now);
        }
    }
    let across = |case: &Case| (case.x, case.x + case.wide.length);
    pair_left_over(&mut pairs, |was, now| match (old.get(was), new.get(now)) {
        (Some(was), Some(now)) => same_place(across(was), across(now)),
        _ => false,
    });
    pair_left_over(&mut pairs, |was, now| match (old.get(was), new.get(now)) {
        (Some(was), Some(now)) => {
            let size =
                |case: &Case| [&case.wide, &case.deep, case.overall_high()].map(|s| s.length);
            size(was) == size(now)
        }
        _ => false,
    });
    pairs
}

/// Pairs in order whatever is left over and alike.
pub(super) fn pair_left_over(pairs: &mut Pairs, alike: impl Fn(usize, usize) -> bool) {
    let (old, new) = pairs.left_over();
    for was in old {
        let now = new.iter().find(|now| pairs.old_of(**now).is_none() && alike(was, **now));
        if let Some(now) = now {
            pairs.pair(was, *now);
        }
    }
}

/// The same wood under another name.
fn stocks(old: &[Stock], new: &[Stock]) -> Pairs {
    let mut pairs = Pairs::new(old.len(), new.len());
    for (was, stock) in old.iter().enumerate() {
        if let Some(now) = new.iter().position(|other| other.name == stock.name) {
            pairs.pair(was, now);
        }
    }
    let nature = |stock: &Stock| {
        (
            stock.kind,
            stock.nominal,
            stock.thickness.length,
            stock.species.clone(),
            stock.sawn.word(),
            stock.gravity,
        )
    };
    pair_left_over(
        &mut pairs,
        |was, now| matches!((old.get(was), new.get(now)), (Some(was), Some(now)) if nature(was) == nature(now)),
    );
    pairs
}

/// What an opening is, whatever it is called.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Sort {
    List(Axis),
    Drawer,
    Door,
    Doors,
    Open,
    False,
}

fn sort(opening: &Opening) -> Sort {
    match opening.kind {
        OpeningKind::List(axis, _) => Sort::List(axis),
        OpeningKind::Drawer { .. } => Sort::Drawer,
        OpeningKind::Door(_) => Sort::Door,
        OpeningKind::Doors => Sort::Doors,
        OpeningKind::Open => Sort::Open,
        OpeningKind::False => Sort::False,
    }
}

/// A sense in which two openings are alike.
type Alike = fn(&Opening, &Opening) -> bool;

/// By name first.
const ALIKE: [Alike; 2] = [same_name, same_kind];

/// List by list from the outermost in; then whatever moved to another list.
fn openings(old: &Case, new: &Case) -> Pairs {
    let mut pairs = Pairs::new(old.openings.len(), new.openings.len());
    let mut lists = vec![(0, 0)];
    pairs.pair(0, 0);
    while let Some((was, now)) = lists.pop() {
        let (before, after) = (children(old, was), children(new, now));
        for test in ALIKE {
            for was in &before {
                for now in &after {
                    let (Some(a), Some(b)) = (old.openings.get(*was), new.openings.get(*now))
                    else {
                        continue;
                    };
                    let holds = !a.is_leaf() || a.behind.is_some();
                    if test(a, b) && pairs.pair(*was, *now) && holds {
                        lists.push((*was, *now));
                    }
                }
            }
        }
    }
    for test in ALIKE {
        pair_left_over(&mut pairs, |was, now| {
            match (old.openings.get(was), new.openings.get(now)) {
                (Some(a), Some(b)) => test(a, b),
                _ => false,
            }
        });
    }
    pairs
}

fn children(case: &Case, list: usize) -> Vec<usize> {
    let own = case.openings.get(list);
    if let Some(behind) = own.and_then(|door| door.behind) {
        return vec![behind.at];
    }
    let items = match own.map(|opening| &opening.kind) {
        Some(OpeningKind::List(_, items)) => items.as_slice(),
        _ => &[],
    };
    let opening = |item: &Item| match item {
        Item::Opening(opening) => Some(opening.at),
        Item::Member(_) => None,
    };
    items.iter().filter_map(opening).collect()
}

/// Called alike; a list without a name is called like nothing.
fn same_name(a: &Opening, b: &Opening) -> bool {
    a.is_leaf() == b.is_leaf() && a.name() == b.name() && a.named && b.named
}

/// The same kind of thing at nearly the same place.
fn same_kind(a: &Opening, b: &Opening) -> bool {
    let across = |opening: &Opening| (opening.x, opening.x + opening.wide.length);
    let up = |opening: &Opening| (opening.y, opening.y + opening.high.length);
    sort(a) == sort(b) && same_place(across(a), across(b)) && same_place(up(a), up(b))
}
