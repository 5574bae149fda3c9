//! Which parts are fixed to each other, step by step, and what that makes of the
//! joints that a task closes.

use std::collections::BTreeMap;

use crate::model::Side;
use crate::parts::{Joint, JointSort, PartId, Role};
use crate::plans::Workings;
use crate::plans::assembly::Task;
use crate::plans::shelves;

use super::{Doing, House, Leg, Move, Step, steps};

/// A shelf that can't be tilted in comes from behind, while the back is off; so does a nailer,
/// which is screwed on from there.
fn from_behind(work: &Workings<'_>, own: &mut Move) {
    let mut parts = own.parts.iter().filter_map(|id| work.parts.get(*id));
    let is_nailer = parts.clone().all(|part| part.role.is_nailer());
    let in_front = matches!(own.legs.as_slice(), [Leg { from: super::Side::Front, by: None }]);
    let stuck = own.tilted && parts.any(|part| shelves::is_stuck(work.piece, work.parts, part));
    if stuck || is_nailer && in_front && !own.tilted {
        own.tilted = false;
        own.legs = vec![Leg { from: super::Side::Back, by: None }];
    }
}

/// Which parts are fixed to each other so far. Doors and drawers stay loose: they
/// open.
pub(super) struct Together {
    /// For each part, the lot that it is in.
    lot: Vec<usize>,
    /// The parts of each lot; none for one that went into another.
    lots: Vec<Vec<PartId>>,
}

impl Together {
    pub(super) fn new(count: usize) -> Self {
        Self {
            lot: (0..count).collect(),
            lots: (0..count).map(|index| vec![PartId(index)]).collect(),
        }
    }

    fn of(&self, id: PartId) -> usize {
        self.lot.get(id.0).copied().unwrap_or(id.0)
    }

    /// All that a part is one with, in their order.
    fn all(&self, id: PartId) -> Vec<PartId> {
        let mut all = self.lots.get(self.of(id)).cloned().unwrap_or_default();
        all.sort_unstable();
        all
    }

    fn fix(&mut self, one: PartId, other: PartId) {
        let (mut keep, mut lose) = (self.of(one), self.of(other));
        if keep == lose {
            return;
        }
        let count = |lot: usize| self.lots.get(lot).map_or(0, Vec::len);
        if count(keep) < count(lose) {
            std::mem::swap(&mut keep, &mut lose);
        }
        let moved = self.lots.get_mut(lose).map(std::mem::take).unwrap_or_default();
        for part in &moved {
            if let Some(lot) = self.lot.get_mut(part.0) {
                *lot = keep;
            }
        }
        if let Some(lot) = self.lots.get_mut(keep) {
            lot.extend(moved);
        }
    }

    /// The joints that a task closes, those that hang together in one go.
    pub(super) fn close(&mut self, work: &Workings<'_>, task: &Task) -> Vec<Doing> {
        self.stood(work, task);
        let joint = |index: &usize| work.parts.joints.get(*index).map(|joint| (*index, joint));
        let closed: Vec<(usize, &Joint)> = task.closes.iter().filter_map(joint).collect();
        let mut doings = Vec::new();
        for own in self.clusters(&closed) {
            let steps = steps(work.parts, &own, &|id| self.all(id));
            doings.extend(steps.into_iter().map(|Step { joints, mut moves }| {
                moves.iter_mut().for_each(|own| from_behind(work, own));
                Doing::Join { joints, moves }
            }));
        }
        for (_, joint) in closed {
            let opens = matches!(joint.sort, JointSort::Hung | JointSort::Slid);
            if !opens {
                self.fix(joint.part, joint.into);
            }
        }
        self.tie(work, task);
        doings
    }

    /// Cases under one countertop stand fast when it is laid on them, on either side of a
    /// free place too.
    fn stood(&mut self, work: &Workings<'_>, task: &Task) {
        for doing in &task.does {
            let Doing::House(House::Lay(own)) = doing else { continue };
            let Some(top) =
                work.parts.get(own.part).and_then(|part| work.piece.top_over(part.case))
            else {
                continue;
            };
            let under = work.parts.under(top);
            let mut ends = under.iter().filter(|(_, part)| matches!(part.role, Role::End(_)));
            if let Some((first, _)) = ends.next() {
                ends.for_each(|(id, _)| self.fix(*first, *id));
            }
        }
    }

    /// Cases that are screwed to each other are one from then on, though no joint is
    /// drawn between them.
    fn tie(&mut self, work: &Workings<'_>, task: &Task) {
        let end = |case, side| {
            let mut own = work.parts.iter_case(case);
            own.find(|(_, part)| part.role == Role::End(side)).map(|(id, _)| id)
        };
        for doing in &task.does {
            let Doing::House(House::Beside(own)) = doing else { continue };
            let [left, right] = own.cases;
            if let (Some(one), Some(other)) = (end(left, Side::Right), end(right, Side::Left)) {
                self.fix(one, other);
            }
        }
    }

    /// Joints, parted into those that have a part in common, over all that is
    /// fixed already.
    fn clusters<'j>(&self, closed: &[(usize, &'j Joint)]) -> Vec<Vec<(usize, &'j Joint)>> {
        // A copy, in which whatever these joints join becomes one lot.
        let mut joined: BTreeMap<usize, usize> = BTreeMap::new();
        let first = |joined: &BTreeMap<usize, usize>, mut lot: usize| {
            while let Some(next) = joined.get(&lot).filter(|next| **next != lot) {
                lot = *next;
            }
            lot
        };
        for (_, joint) in closed {
            let one = first(&joined, self.of(joint.part));
            let other = first(&joined, self.of(joint.into));
            joined.insert(one.max(other), one.min(other));
        }
        let mut clusters: BTreeMap<usize, Vec<(usize, &'j Joint)>> = BTreeMap::new();
        for own in closed {
            clusters.entry(first(&joined, self.of(own.1.part))).or_default().push(*own);
        }
        let mut found: Vec<Vec<(usize, &Joint)>> = clusters.into_values().collect();
        for joints in &mut found {
            joints.sort_by_key(|(index, _)| *index);
        }
        found.sort_by_key(|joints| joints.first().map(|(index, _)| *index));
        found
    }
}
