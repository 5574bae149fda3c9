//! How parts come together: in which order, and from which side each. Found by
//! taking the finished assembly apart: whatever comes off in a straight line
//! goes on by the same line the other way round.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

use crate::measure::Length;
use crate::model::JointKind;
use crate::parts::{Assembly, Cuboid, Direction, Joint, JointSort, PartId, Parts};

use super::solid::solid;

/// A side of the standing piece, seen from the front.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Left.
    Left,
    /// Right.
    Right,
    /// Below.
    Below,
    /// Above.
    Above,
    /// The front.
    Front,
    /// The back.
    Back,
}

impl Side {
    const ALL: [Self; 6] =
        [Self::Front, Self::Above, Self::Left, Self::Right, Self::Back, Self::Below];

    /// Its name in a sentence: comes in `from the left`.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
            Self::Below => "below",
            Self::Above => "above",
            Self::Front => "front",
            Self::Back => "back",
        }
    }

    /// The axis that leads to it, and whether that axis begins there.
    fn axis(self) -> (Direction, bool) {
        match self {
            Self::Left => (Direction::X, true),
            Self::Right => (Direction::X, false),
            Self::Below => (Direction::Y, true),
            Self::Above => (Direction::Y, false),
            Self::Front => (Direction::Z, true),
            Self::Back => (Direction::Z, false),
        }
    }
}

/// A straight stretch of the way in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Leg {
    /// The side that it comes from.
    pub from: Side,
    /// How far; from outside the piece where nothing is said.
    pub by: Option<Length>,
}

/// What comes in as one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Move {
    /// Its parts.
    pub parts: Vec<PartId>,
    /// Its way in, the first leg first; none for what lies there already.
    pub legs: Vec<Leg>,
    /// It is tilted in, because no straight way leads to its place.
    pub tilted: bool,
}

/// Parts that are fixed to each other already.
struct Group {
    parts: Vec<PartId>,
    wood: Vec<(PartId, Cuboid)>,
}

/// The way in which these joints are closed. `fixed` gives all the parts that a
/// part is one with already.
pub(super) fn moves(
    parts: &Parts,
    joints: &[&Joint],
    fixed: &dyn Fn(PartId) -> Vec<PartId>,
) -> Vec<Move> {
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
    let Apart { base, mut off } = Apart::of(parts, joints, &groups, &group_of);
    off.reverse();
    let lies = |index: &usize| Move {
        parts: groups[*index].parts.clone(),
        legs: Vec::new(),
        tilted: false,
    };
    base.iter().map(lies).chain(off).collect()
}

/// An assembly, taken apart.
struct Apart {
    /// What stays where it is.
    base: Vec<usize>,
    /// What comes off, in that order.
    off: Vec<Move>,
}

impl Apart {
    fn of(
        parts: &Parts,
        joints: &[&Joint],
        groups: &[Group],
        group_of: &BTreeMap<PartId, usize>,
    ) -> Self {
        // A panel that is loose in its grooves holds nothing.
        let firm = || joints.iter().filter(|joint| joint.sort != JointSort::Floating);
        let hosts =
            |index: usize| firm().filter(|joint| group_of.get(&joint.into) == Some(&index)).count();
        let guests =
            |index: usize| firm().filter(|joint| group_of.get(&joint.part) == Some(&index)).count();
        // What most hangs together stays; of single boards the one with most
        // joints, and rather a board within the assembly than one that closes it.
        let stays = (0..groups.len()).max_by_key(|index| {
            let (own, held, holds) = (groups[*index].parts.len(), guests(*index), hosts(*index));
            // What stands on the floor is not lifted onto the rest.
            let is_base = groups[*index].parts.iter().all(|id| {
                parts.get(*id).is_some_and(|part| matches!(part.assembly, Assembly::Base(_)))
            });
            (is_base, own, held + holds, held > 0 && holds > 0, holds, Reverse(*index))
        });
        let mut left: BTreeSet<usize> = (0..groups.len()).collect();
        let mut off = Vec::new();
        let shaping = joints.iter().copied().filter(|joint| is_shaping(joint)).collect();
        let scene = Scene { parts, joints, shaping, groups, group_of };
        // Loose shelves hold nothing and are in nobody's way: each by itself.
        for index in left.clone() {
            if Some(index) != stays && scene.is_laid(index) {
                let straight = scene.straight(index, &left, &[Side::Front]);
                let tilted = straight.is_none();
                let leg = straight.unwrap_or(Leg { from: Side::Front, by: None });
                left.remove(&index);
                off.push(Move { parts: groups[index].parts.clone(), legs: vec![leg], tilted });
            }
        }
        loop {
            // What holds others goes on last, and so comes off first.
            let mut order: Vec<usize> =
                left.iter().copied().filter(|index| Some(*index) != stays).collect();
            order.sort_by_key(|index| Reverse((hosts(*index), *index)));
            // Nothing is put where no joint holds it yet.
            let held = |index: &&usize| scene.hangs_together(**index, stays, &left);
            let straight = |only_along_joints: bool| {
                order.iter().filter(held).find_map(|index| {
                    let sides = match only_along_joints {
                        true => scene.sides_of_joints(*index, &left),
                        false => scene.sides(*index, &left),
                    };
                    scene.straight(*index, &left, &sides).map(|leg| (*index, vec![leg]))
                })
            };
            let bent = || {
                order
                    .iter()
                    .filter(held)
                    .find_map(|index| scene.bent(*index, &left).map(|legs| (*index, legs)))
            };
            let found = straight(true).or_else(|| straight(false)).or_else(bent);
            let Some((index, legs)) = found else { break };
            left.remove(&index);
            off.push(Move { parts: groups[index].parts.clone(), legs, tilted: false });
        }
        Self { base: left.into_iter().collect(), off }
    }
}

/// The finished assembly, to be taken apart.
struct Scene<'a> {
    parts: &'a Parts,
    joints: &'a [&'a Joint],
    /// Those of the joints whose shape lets go to some sides only.
    shaping: Vec<&'a Joint>,
    groups: &'a [Group],
    group_of: &'a BTreeMap<PartId, usize>,
}

impl Scene<'_> {
    /// A straight way out for a group among those that are left.
    fn straight(&self, index: usize, left: &BTreeSet<usize>, sides: &[Side]) -> Option<Leg> {
        sides
            .iter()
            .find(|side| self.is_free(index, left, **side, None, None))
            .map(|from| Leg { from: *from, by: None })
    }

    /// True where all that is left without a group is joined, one by the other,
    /// to what stays.
    fn hangs_together(&self, without: usize, stays: Option<usize>, left: &BTreeSet<usize>) -> bool {
        let mut reached: BTreeSet<usize> = stays.into_iter().collect();
        let mut open: Vec<usize> = reached.iter().copied().collect();
        while let Some(index) = open.pop() {
            for joint in self.joints {
                let ends = [joint.part, joint.into].map(|id| self.group_of.get(&id).copied());
                let other = match ends {
                    [Some(one), Some(other)] if one == index => other,
                    [Some(other), Some(one)] if one == index => other,
                    _ => continue,
                };
                if other != without && left.contains(&other) && reached.insert(other) {
                    open.push(other);
                }
            }
        }
        reached.len() + 1 == left.len()
    }

    /// A way out round one corner: first so far to one side, then straight out.
    fn bent(&self, index: usize, left: &BTreeSet<usize>) -> Option<Vec<Leg>> {
        let sides = self.sides(index, left);
        for first in &sides {
            let (axis, start) = first.axis();
            for by in self.clearances(index, left, *first) {
                if !self.is_free(index, left, *first, None, Some(by)) {
                    break;
                }
                let off = (axis, if start { -by } else { by });
                let out = Side::ALL
                    .into_iter()
                    .filter(|side| side.axis().0 != axis)
                    .find(|side| self.is_free(index, left, *side, Some(off), None));
                if let Some(out) = out {
                    let last = Leg { from: *first, by: Some(by) };
                    return Some(vec![Leg { from: out, by: None }, last]);
                }
            }
        }
        None
    }

    /// How far a group has to move to a side to be clear of each other board,
    /// the least first.
    fn clearances(&self, index: usize, left: &BTreeSet<usize>, side: Side) -> Vec<Length> {
        let (axis, start) = side.axis();
        let own = &self.groups[index].wood;
        let from = own.iter().map(|(_, wood)| wood.from.along(axis)).min().unwrap_or_default();
        let to = own.iter().map(|(_, wood)| wood.to.along(axis)).max().unwrap_or_default();
        let mut found: Vec<Length> = self
            .others(index, left)
            .map(|(_, wood)| match start {
                true => to - wood.from.along(axis),
                false => wood.to.along(axis) - from,
            })
            .filter(|by| by.is_positive() && *by <= to - from)
            .collect();
        found.sort_unstable();
        found.dedup();
        found
    }

    fn others<'s>(
        &'s self,
        index: usize,
        left: &'s BTreeSet<usize>,
    ) -> impl Iterator<Item = &'s (PartId, Cuboid)> + use<'s> {
        left.iter()
            .filter(move |other| **other != index)
            .flat_map(|other| &self.groups[*other].wood)
    }

    /// The sides along which the joints of a group with what is left pull
    /// together, the most joints first.
    fn sides_of_joints(&self, index: usize, left: &BTreeSet<usize>) -> Vec<Side> {
        let own = &self.groups[index].parts;
        let is_there =
            |id: &PartId| self.group_of.get(id).is_some_and(|group| left.contains(group));
        let crossing = || {
            self.joints
                .iter()
                .filter(|joint| own.contains(&joint.part) != own.contains(&joint.into))
                .filter(|joint| is_there(&joint.part) && is_there(&joint.into))
        };
        // Firm joints say how a part goes on; a loose panel only where there is none.
        let firm = || crossing().filter(|joint| joint.sort != JointSort::Floating);
        let mut axes: Vec<Direction> = firm().filter_map(|joint| self.axis(joint)).collect();
        if axes.is_empty() {
            axes = crossing().filter_map(|joint| self.axis(joint)).collect();
        }
        let count = |side: &Side| axes.iter().filter(|own| **own == side.axis().0).count();
        let mut sides: Vec<Side> = Side::ALL.into_iter().filter(|side| count(side) > 0).collect();
        sides.sort_by_key(|side| Reverse(count(side)));
        sides
    }

    /// Every side, those along its joints first.
    fn sides(&self, index: usize, left: &BTreeSet<usize>) -> Vec<Side> {
        let mut sides = self.sides_of_joints(index, left);
        let rest = Side::ALL.into_iter().filter(|side| !sides.contains(side)).collect::<Vec<_>>();
        sides.extend(rest);
        sides
    }

    /// The axis along which a joint pulls together.
    fn axis(&self, joint: &Joint) -> Option<Direction> {
        let (part, into) = (self.parts.get(joint.part)?, self.parts.get(joint.into)?);
        Some(match joint.sort {
            JointSort::Wood(JointKind::Dovetail) => into.placement.thickness,
            JointSort::Wood(_) | JointSort::Floating => {
                let takes = into.features.iter().find(|cut| cut.takes == Some(joint.part));
                match takes {
                    Some(cut) => into.placement.direction(cut.face),
                    None => part.touching(into).unwrap_or(part.placement.length),
                }
            }
            JointSort::Planted => part.touching(into).unwrap_or(part.placement.thickness),
            JointSort::Miter
            | JointSort::Hung
            | JointSort::Slid
            | JointSort::Laid
            | JointSort::FrontFixed => Direction::Z,
        })
    }

    /// True for a shelf that lies on pins.
    fn is_laid(&self, index: usize) -> bool {
        let own = &self.groups[index].parts;
        self.joints.iter().any(|joint| joint.sort == JointSort::Laid && own.contains(&joint.part))
    }

    /// True where a group that stands at its place, or `off` it along an axis,
    /// meets nothing on its way to a side, so far or until it is out.
    fn is_free(
        &self,
        index: usize,
        left: &BTreeSet<usize>,
        side: Side,
        off: Option<(Direction, Length)>,
        by: Option<Length>,
    ) -> bool {
        let own = &self.groups[index].wood;
        if let Some((axis, by_so_far)) = off {
            let moved: Vec<Cuboid> =
                own.iter().map(|(_, wood)| wood.shifted(axis, by_so_far)).collect();
            return self
                .others(index, left)
                .all(|(_, wood)| moved.iter().all(|moved| !meets(moved, wood, side, by)));
        }
        self.others(index, left).all(|(other, wood)| {
            own.iter().all(|(id, moved)| {
                self.shaped(*id, *other, side).unwrap_or_else(|| !meets(moved, wood, side, by))
            })
        })
    }

    /// What the shape of a joint says of a way out: free to this side for what
    /// the two share, or held. Nothing where no such joint holds the two.
    fn shaped(&self, one: PartId, other: PartId, side: Side) -> Option<bool> {
        let joint = self.shaping.iter().find(|joint| {
            (joint.part, joint.into) == (one, other) || (joint.part, joint.into) == (other, one)
        })?;
        let (part, into) = (self.parts.get(joint.part)?, self.parts.get(joint.into)?);
        let axis = side.axis().0;
        match joint.sort {
            // Tails slide onto their pins through the thickness of their board.
            JointSort::Wood(JointKind::Dovetail) => {
                let is_out = self.is_outward(one, other, side);
                Some(axis == into.placement.thickness && is_out)
            }
            // A stile and an end part to the front and to its side.
            JointSort::Miter => {
                let is_stile = one == joint.part;
                let out = match side {
                    Side::Front => is_stile,
                    Side::Back => !is_stile,
                    Side::Left | Side::Right => self.is_outward(one, other, side),
                    Side::Above | Side::Below => false,
                };
                Some(out)
            }
            JointSort::Wood(JointKind::Dowel) => (axis != part.placement.length).then_some(false),
            _ => None,
        }
    }

    /// True where the middle of a part lies further to a side than the other's.
    fn is_outward(&self, one: PartId, other: PartId, side: Side) -> bool {
        let (axis, start) = side.axis();
        let middle = |id: PartId| {
            self.parts.get(id).map(|part| {
                let (from, to) = part.extent(axis);
                from + to
            })
        };
        match (middle(one), middle(other)) {
            (Some(one), Some(other)) if start => one < other,
            (Some(one), Some(other)) => one > other,
            _ => false,
        }
    }
}

/// True for a joint that can't be closed from every side where there is room.
fn is_shaping(joint: &Joint) -> bool {
    match joint.sort {
        JointSort::Miter => true,
        JointSort::Wood(kind) => match kind {
            JointKind::Dovetail | JointKind::Dowel => true,
            JointKind::Dado
            | JointKind::Rabbet
            | JointKind::Pocket
            | JointKind::Screw
            | JointKind::Tenon
            | JointKind::Butt => false,
        },
        JointSort::Floating
        | JointSort::Planted
        | JointSort::Hung
        | JointSort::Slid
        | JointSort::Laid
        | JointSort::FrontFixed => false,
    }
}

/// True where a board that moves to a side, so far or on and on, meets another.
fn meets(moved: &Cuboid, wood: &Cuboid, side: Side, by: Option<Length>) -> bool {
    let (axis, start) = side.axis();
    let others = Direction::ALL.into_iter().filter(|other| *other != axis);
    if !others.into_iter().all(|other| moved.overlaps_along(wood, other)) {
        return false;
    }
    let (from, to) = (moved.from.along(axis), moved.to.along(axis));
    let (near, far) = (wood.from.along(axis), wood.to.along(axis));
    match (start, by) {
        (true, None) => near < to,
        (false, None) => far > from,
        (true, Some(by)) => near < to && far > from - by,
        (false, Some(by)) => far > from && near < to + by,
    }
}
