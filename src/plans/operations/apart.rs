//! How an assembly comes apart: whatever comes off in a straight line goes on by
//! the same line the other way round. Where no single part comes off, several that
//! hang together do, and they are taken apart by themselves.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

use crate::parts::{Assembly, Cuboid, Joint, JointSort, PartId, Parts};

use super::motion::{Leg, Move, Side};
use super::solid::solid;
use super::ways::is_shaping;

/// Parts that are fixed to each other already.
pub(super) struct Group {
    pub(super) parts: Vec<PartId>,
    pub(super) wood: Vec<(PartId, Cuboid)>,
}

/// What was put together by itself: which groups, and how.
pub(super) struct Lot {
    groups: BTreeSet<usize>,
    pub(super) moves: Vec<Move>,
}

impl Lot {
    pub(super) fn has(&self, group: Option<usize>) -> bool {
        group.is_some_and(|group| self.groups.contains(&group))
    }
}

/// The finished assembly, to be taken apart.
pub(super) struct Scene<'a> {
    pub(super) parts: &'a Parts,
    pub(super) joints: Vec<&'a Joint>,
    /// The groups of the part and of the host of each joint.
    pub(super) ends: Vec<[Option<usize>; 2]>,
    /// Those of the joints whose shape lets go to some sides only.
    pub(super) shaping: Vec<&'a Joint>,
    pub(super) groups: Vec<Group>,
    group_of: BTreeMap<PartId, usize>,
    /// The groups that each one has a joint with.
    beside: Vec<BTreeSet<usize>>,
}

impl<'a> Scene<'a> {
    pub(super) fn new(
        parts: &'a Parts,
        joints: Vec<&'a Joint>,
        fixed: &dyn Fn(PartId) -> Vec<PartId>,
    ) -> Self {
        let mut groups: Vec<Group> = Vec::new();
        let mut group_of: BTreeMap<PartId, usize> = BTreeMap::new();
        for id in joints.iter().flat_map(|joint| [joint.into, joint.part]) {
            if group_of.contains_key(&id) {
                continue;
            }
            let own = fixed(id);
            group_of.extend(own.iter().map(|part| (*part, groups.len())));
            let wood = own
                .iter()
                .filter_map(|part| Some((*part, parts.get(*part)?)))
                .flat_map(|(id, part)| solid(part).into_iter().map(move |wood| (id, wood)))
                .collect();
            groups.push(Group { parts: own, wood });
        }
        let ends_of =
            |joint: &&Joint| [joint.part, joint.into].map(|id| group_of.get(&id).copied());
        let ends: Vec<[Option<usize>; 2]> = joints.iter().map(ends_of).collect();
        let mut beside = vec![BTreeSet::new(); groups.len()];
        for ends in &ends {
            if let [Some(one), Some(other)] = *ends {
                beside[one].insert(other);
                beside[other].insert(one);
            }
        }
        let shaping = joints.iter().copied().filter(|joint| is_shaping(joint)).collect();
        Self { parts, joints, ends, shaping, groups, group_of, beside }
    }

    pub(super) fn group_of(&self, id: PartId) -> Option<usize> {
        self.group_of.get(&id).copied()
    }

    /// All that is put together: the whole last, and before it what goes into it as
    /// one.
    pub(super) fn apart(&self) -> Vec<Lot> {
        self.taken_apart((0..self.groups.len()).collect())
    }

    fn taken_apart(&self, all: BTreeSet<usize>) -> Vec<Lot> {
        let stays = self.stays(&all);
        let mut left = all.clone();
        let mut off: Vec<Move> = Vec::new();
        let mut lots: Vec<Lot> = Vec::new();
        // Loose shelves hold nothing and are in nobody's way: each by itself.
        for index in left.clone() {
            if Some(index) != stays && self.is_laid(index) {
                let straight = self.straight(index, &left, &[Side::Front]);
                let tilted = straight.is_none();
                let leg = straight.unwrap_or(Leg { from: Side::Front, by: None });
                left.remove(&index);
                off.push(Move { parts: self.groups[index].parts.clone(), legs: vec![leg], tilted });
            }
        }
        loop {
            if let Some((index, legs)) = self.single(&left, stays) {
                left.remove(&index);
                off.push(Move { parts: self.groups[index].parts.clone(), legs, tilted: false });
            } else if let Some((several, from)) = self.several(&left, stays) {
                left.retain(|index| !several.contains(index));
                let parts = self.parts_of(&several);
                off.push(Move { parts, legs: vec![Leg { from, by: None }], tilted: false });
                lots.extend(self.taken_apart(several));
            } else {
                break;
            }
        }
        off.reverse();
        let lies = |index: &usize| Move {
            parts: self.groups[*index].parts.clone(),
            legs: Vec::new(),
            tilted: false,
        };
        lots.push(Lot { groups: all, moves: left.iter().map(lies).chain(off).collect() });
        lots
    }

    fn parts_of(&self, groups: &BTreeSet<usize>) -> Vec<PartId> {
        let mut parts: Vec<PartId> =
            groups.iter().flat_map(|index| self.groups[*index].parts.iter().copied()).collect();
        parts.sort_unstable();
        parts
    }

    /// The joints among these groups that a group takes as a host or goes into as a
    /// guest. A panel that is loose in its grooves holds nothing.
    fn held(&self, index: usize, among: &BTreeSet<usize>) -> Held {
        let mut held = Held { guests: 0, hosts: 0 };
        for (joint, ends) in self.joints.iter().zip(&self.ends) {
            let is_firm = joint.sort != JointSort::Floating && ends.contains(&Some(index));
            if is_firm && ends.iter().flatten().all(|group| among.contains(group)) {
                held.hosts += usize::from(ends[0] == Some(index));
                held.guests += usize::from(ends[1] == Some(index));
            }
        }
        held
    }

    /// What most hangs together stays; of single boards the one with most joints,
    /// and rather a board within the assembly than one that closes it.
    fn stays(&self, all: &BTreeSet<usize>) -> Option<usize> {
        all.iter().copied().max_by_key(|index| {
            let own = &self.groups[*index].parts;
            let Held { guests, hosts } = self.held(*index, all);
            // What stands on the floor is not lifted onto the rest.
            let is_base = own.iter().all(|id| {
                let part = self.parts.get(*id);
                part.is_some_and(|part| matches!(part.assembly, Assembly::Base(_)))
            });
            let within = hosts > 0 && guests > 0;
            (is_base, own.len(), guests + hosts, within, guests, Reverse(*index))
        })
    }

    /// The next group that comes off by itself, and its way back in. What closes
    /// the assembly goes on last, such as the stiles of a frame, and so comes off
    /// first; a loose panel is slid between the rails that are there.
    fn single(&self, left: &BTreeSet<usize>, stays: Option<usize>) -> Option<(usize, Vec<Leg>)> {
        let mut order: Vec<(bool, bool, usize, usize)> = left
            .iter()
            .filter(|index| Some(**index) != stays)
            .map(|index| {
                let Held { guests, hosts } = self.held(*index, left);
                (guests > 0 && hosts == 0, guests + hosts == 0, guests, *index)
            })
            .collect();
        order.sort_unstable_by(|one, other| other.cmp(one));
        // Nothing is put where no joint holds it yet.
        let held = || {
            order.iter().map(|(.., index)| *index).filter(|index| {
                let mut rest = left.clone();
                rest.remove(index);
                self.hangs_together(&rest)
            })
        };
        let straight = |only_along_joints: bool| {
            held().find_map(|index| {
                let sides = match only_along_joints {
                    true => self.sides_of_joints(index, left),
                    false => self.sides(index, left),
                };
                self.straight(index, left, &sides).map(|leg| (index, vec![leg]))
            })
        };
        let bent = || held().find_map(|index| self.bent(index, left).map(|legs| (index, legs)));
        straight(true).or_else(|| straight(false)).or_else(bent)
    }

    /// The fewest groups that hang together and come off as one, without what stays:
    /// what moves to a side takes along all that it would hit.
    fn several(
        &self,
        left: &BTreeSet<usize>,
        stays: Option<usize>,
    ) -> Option<(BTreeSet<usize>, Side)> {
        let mut found: Vec<(BTreeSet<usize>, Side)> = Vec::new();
        for side in Side::ALL {
            let stopped: BTreeMap<usize, Vec<usize>> = left
                .iter()
                .map(|index| {
                    let hit = |other: &usize| self.is_stopped(*index, *other, side);
                    let others = left.iter().copied().filter(|other| other != index);
                    (*index, others.filter(hit).collect())
                })
                .collect();
            for index in left {
                let mut moved = BTreeSet::from([*index]);
                let mut open = vec![*index];
                while let Some(next) = open.pop() {
                    let hit = stopped.get(&next).into_iter().flatten().copied();
                    open.extend(hit.filter(|other| moved.insert(*other)));
                }
                let rest: BTreeSet<usize> = left.difference(&moved).copied().collect();
                if rest.is_empty() || !self.hangs_together(&moved) || !self.hangs_together(&rest) {
                    continue;
                }
                // It is all the same which of the two moves.
                found.push(match stays.is_some_and(|stays| moved.contains(&stays)) {
                    true => (rest, side.opposite()),
                    false => (moved, side),
                });
            }
        }
        found.into_iter().min_by_key(|(several, _)| several.len())
    }

    /// True where these groups are joined, one by the other.
    fn hangs_together(&self, groups: &BTreeSet<usize>) -> bool {
        let mut reached: BTreeSet<usize> = groups.first().copied().into_iter().collect();
        let mut open: Vec<usize> = reached.iter().copied().collect();
        while let Some(index) = open.pop() {
            let next = self.beside[index].iter().copied();
            open.extend(next.filter(|other| groups.contains(other) && reached.insert(*other)));
        }
        reached.len() == groups.len()
    }
}

/// How many joints hold a group.
struct Held {
    /// What is let into it.
    guests: usize,
    /// What it is let into.
    hosts: usize,
}
