//! How an assembly comes apart: whatever comes off in a straight line goes on by
//! the same line the other way round. Where no single part comes off, several that
//! hang together do, and they are taken apart by themselves.

use std::cell::Cell;
use std::cmp::Reverse;
use std::collections::BTreeMap;

use crate::parts::{Assembly, Cuboid, Joint, JointSort, Part, PartId, Parts, Role};

use super::linked::{Linked, Picked};
use super::motion::{Leg, Move, Side};
use super::solid::solid;
use super::ways::is_shaping;

/// Parts that are fixed to each other already.
pub(super) struct Group {
    pub(super) parts: Vec<PartId>,
    pub(super) wood: Vec<(PartId, Cuboid)>,
    /// The box round all of it; `None` where nothing is left of it.
    pub(super) around: Option<Cuboid>,
}

/// What was put together by itself: which groups, and how.
pub(super) struct Lot {
    groups: Picked,
    pub(super) moves: Vec<Move>,
}

impl Lot {
    pub(super) fn has(&self, group: Option<usize>) -> bool {
        group.is_some_and(|group| self.groups.has(group))
    }
}

/// The finished assembly, to be taken apart.
pub(super) struct Scene<'a> {
    pub(super) parts: &'a Parts,
    pub(super) groups: Vec<Group>,
    group_of: BTreeMap<PartId, usize>,
    /// The joints of each group, in their order.
    joints_of: Vec<Vec<Jointed<'a>>>,
    /// One of the joints of each group lets go to some sides only.
    pub(super) shapes: Vec<bool>,
    linked: Linked,
    /// What was last found to stop each group on its way to each side: as long as that is
    /// there, nothing else need be asked.
    pub(super) stoppers: Vec<[Cell<Option<usize>>; 6]>,
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
            let wood: Vec<(PartId, Cuboid)> = own
                .iter()
                .filter_map(|part| Some((*part, parts.get(*part)?)))
                .flat_map(|(id, part)| solid(part).into_iter().map(move |wood| (id, wood)))
                .collect();
            let around = wood.iter().map(|(_, wood)| *wood).reduce(|all, wood| all.union(&wood));
            groups.push(Group { parts: own, wood, around });
        }
        let mut joints_of = vec![Vec::new(); groups.len()];
        for joint in joints {
            let ends = [joint.part, joint.into].map(|id| group_of.get(&id).copied());
            let jointed = Jointed { joint, ends, shapes: is_shaping(joint) };
            for (place, end) in ends.into_iter().enumerate() {
                if let Some(end) = end.filter(|_| place == 0 || ends[0] != ends[1]) {
                    joints_of[end].push(jointed);
                }
            }
        }
        let is_shaped = |own: &Vec<Jointed<'_>>| own.iter().any(|own| own.shapes);
        let shapes = joints_of.iter().map(is_shaped).collect();
        let pairs = joints_of.iter().flatten().map(|own| own.ends);
        let pairs = pairs.filter_map(|[one, other]| Some([one?, other?]));
        let linked = Linked::new(groups.len(), pairs);
        let stoppers = vec![Default::default(); groups.len()];
        Self { parts, groups, group_of, joints_of, shapes, linked, stoppers }
    }

    /// The joints of a group.
    pub(super) fn joints_of(&self, index: usize) -> &[Jointed<'a>] {
        &self.joints_of[index]
    }

    pub(super) fn group_of(&self, id: PartId) -> Option<usize> {
        self.group_of.get(&id).copied()
    }

    /// All that is put together: the whole last, and before it what goes into it as
    /// one.
    pub(super) fn apart(&self) -> Vec<Lot> {
        self.taken_apart(Picked::all_of(self.groups.len()))
    }

    fn taken_apart(&self, all: Picked) -> Vec<Lot> {
        let stays = self.stays(&all);
        let mut left = all.clone();
        let mut off: Vec<Move> = Vec::new();
        let mut lots: Vec<Lot> = Vec::new();
        // Loose shelves hold nothing and are in nobody's way: each by itself.
        for index in all.iter() {
            if Some(index) != stays && self.is_laid(index) {
                let straight = self.straight(index, &left, &[Side::Front]);
                let tilted = straight.is_none();
                let leg = straight.unwrap_or(Leg { from: Side::Front, by: None });
                left.remove(index);
                off.push(Move { parts: self.groups[index].parts.clone(), legs: vec![leg], tilted });
            }
        }
        loop {
            if let Some((index, legs)) = self.single(&left, stays) {
                left.remove(index);
                off.push(Move { parts: self.groups[index].parts.clone(), legs, tilted: false });
            } else if let Some((several, from)) = self.several(&left, stays) {
                left = left.without(&several);
                let parts = self.parts_of(&several);
                off.push(Move { parts, legs: vec![Leg { from, by: None }], tilted: false });
                lots.extend(self.taken_apart(several));
            } else {
                break;
            }
        }
        off.reverse();
        let lies = |index: usize| Move {
            parts: self.groups[index].parts.clone(),
            legs: Vec::new(),
            tilted: false,
        };
        let moves = left.iter().map(lies).chain(off).collect();
        lots.push(Lot { groups: all, moves });
        lots
    }

    fn parts_of(&self, groups: &Picked) -> Vec<PartId> {
        let mut parts: Vec<PartId> =
            groups.iter().flat_map(|index| self.groups[index].parts.iter().copied()).collect();
        parts.sort_unstable();
        parts
    }

    /// The joints among these groups that a group takes as a host or goes into as a
    /// guest. A panel that is loose in its grooves holds nothing.
    fn held(&self, index: usize, among: &Picked) -> Held {
        let mut held = Held { guests: 0, hosts: 0 };
        for Jointed { joint, ends, .. } in self.joints_of(index) {
            let is_firm = joint.sort != JointSort::Floating;
            if is_firm && ends.iter().flatten().all(|group| among.has(*group)) {
                held.hosts += usize::from(ends[0] == Some(index));
                held.guests += usize::from(ends[1] == Some(index));
            }
        }
        held
    }

    /// What most hangs together stays; of single boards the one with most joints,
    /// and rather a board within the assembly than one that closes it.
    fn stays(&self, all: &Picked) -> Option<usize> {
        all.iter().max_by_key(|index| {
            let own = &self.groups[*index].parts;
            let Held { guests, hosts } = self.held(*index, all);
            let all =
                |is: fn(&Part) -> bool| own.iter().all(|id| self.parts.get(*id).is_some_and(is));
            // What stands on the floor is not lifted onto the rest.
            let is_base = all(|part| matches!(part.assembly, Assembly::Base(_)));
            // A box or a front goes into the case, however few boards that has.
            let goes_in =
                all(|part| matches!(part.assembly, Assembly::DrawerBox(_) | Assembly::Front(_)));
            let within = hosts > 0 && guests > 0;
            // Nor is what another case stands on.
            let carries = self
                .joints_of(*index)
                .iter()
                .any(|own| self.parts.stacks(own.joint) && own.ends[1] == Some(*index));
            // A web frame is one board for all that it goes into.
            let boards = if all(|part| part.role.is_of_web()) { 1 } else { own.len() };
            (is_base || carries, !goes_in, boards, guests + hosts, within, guests, Reverse(*index))
        })
    }

    /// True for what a partition stands on, held there by no shape: it lies there before that
    /// comes, and so comes off after it where both can.
    fn is_stood_on(&self, index: usize, left: &Picked) -> bool {
        self.joints_of(index).iter().any(|own| {
            let stands = own.ends[1] == Some(index)
                && own.ends[0].is_some_and(|other| other != index && left.has(other))
                && !own.shapes;
            let [part, into] = [own.joint.part, own.joint.into].map(|id| self.parts.get(id));
            let on_top = part.zip(into).is_some_and(|(part, into)| {
                part.role == Role::Partition && part.cuboid().from.y == into.cuboid().to.y
            });
            stands && on_top
        })
    }

    /// The next group that comes off by itself, and its way back in. What closes
    /// the assembly goes on last, such as the stiles of a frame, and so comes off
    /// first; a loose panel is slid between the rails that are there.
    fn single(&self, left: &Picked, stays: Option<usize>) -> Option<(usize, Vec<Leg>)> {
        let mut order: Vec<(bool, bool, bool, usize, usize)> = left
            .iter()
            .filter(|index| Some(*index) != stays)
            .map(|index| {
                let Held { guests, hosts } = self.held(index, left);
                let free = !self.is_stood_on(index, left);
                (free, guests > 0 && hosts == 0, guests + hosts == 0, guests, index)
            })
            .collect();
        order.sort_unstable_by(|one, other| other.cmp(one));
        // Nothing is put where no joint holds it yet.
        let spare = self.linked.spare(left);
        let held = || order.iter().map(|(.., index)| *index).filter(|index| spare.has(*index));
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
    fn several(&self, left: &Picked, stays: Option<usize>) -> Option<(Picked, Side)> {
        let mut fewest: Option<(Picked, Side)> = None;
        for side in Side::ALL {
            let stopped: BTreeMap<usize, Vec<usize>> = left
                .iter()
                .map(|index| {
                    let hit = |other: &usize| self.is_stopped(index, *other, side);
                    let others = left.iter().filter(|other| *other != index);
                    (index, others.filter(hit).collect())
                })
                .collect();
            for index in left.iter() {
                let mut moved = Picked::none_of(self.groups.len());
                moved.add(index);
                let mut open = vec![index];
                // Where all of it moves, nothing comes off.
                while let Some(next) = open.pop().filter(|_| moved.len() < left.len()) {
                    let hit = stopped.get(&next).into_iter().flatten().copied();
                    open.extend(hit.filter(|other| moved.add(*other)));
                }
                let rest = left.without(&moved);
                // It is all the same which of the two moves.
                let ((several, stay), side) = match stays.is_some_and(|stays| moved.has(stays)) {
                    true => ((rest, moved), side.opposite()),
                    false => ((moved, rest), side),
                };
                let is_fewer =
                    fewest.as_ref().is_none_or(|(fewest, _)| several.len() < fewest.len());
                let both = [&several, &stay];
                if is_fewer
                    && both.iter().all(|own| own.len() > 0 && self.linked.hangs_together(own))
                {
                    fewest = Some((several, side));
                }
            }
        }
        fewest
    }
}

/// A joint of an assembly.
#[derive(Clone, Copy)]
pub(super) struct Jointed<'a> {
    pub(super) joint: &'a Joint,
    /// The groups of its part and of its host.
    pub(super) ends: [Option<usize>; 2],
    /// Its shape lets go to some sides only.
    pub(super) shapes: bool,
}

/// How many joints hold a group.
struct Held {
    /// What is let into it.
    guests: usize,
    /// What it is let into.
    hosts: usize,
}
