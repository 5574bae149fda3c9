//! The ways out of an assembly that are free: straight, or round one corner.

use std::cmp::Reverse;

use crate::measure::Length;
use crate::model::JointKind;
use crate::parts::{Cuboid, Direction, Joint, JointSort, PartId};

use super::apart::{Jointed, Scene};
use super::linked::Picked;
use super::motion::{Leg, Side};

impl Scene<'_> {
    /// True where a group that moves to a side hits another.
    pub(super) fn is_stopped(&self, index: usize, other: usize, side: Side) -> bool {
        self.hits(index, other, side, None)
    }

    /// True where a group that moves to a side, so far or on and on, hits another.
    fn hits(&self, index: usize, other: usize, side: Side, by: Option<Length>) -> bool {
        let (own, others) = (&self.groups[index], &self.groups[other]);
        let (Some(around), Some(others_around)) = (&own.around, &others.around) else {
            return false;
        };
        // What passes the box round a group passes all of it, but for the joints that
        // hold by their shape.
        if !self.shapes[index] && !meets(around, others_around, side, by) {
            return false;
        }
        let joints = self.joints_of(index).iter();
        let shapes: Vec<&Joint> = joints
            .filter(|own| own.shapes && own.ends.contains(&Some(other)))
            .map(|own| own.joint)
            .collect();
        let near = |moved: &Cuboid| !shapes.is_empty() || meets(moved, others_around, side, by);
        near(around)
            && own.wood.iter().filter(|(_, moved)| near(moved)).any(|(id, moved)| {
                others.wood.iter().any(|(host, wood)| {
                    let free = self.shaped(&shapes, *id, *host, side);
                    !free.unwrap_or_else(|| !meets(moved, wood, side, by))
                })
            })
    }

    /// A straight way out for a group among those that are left.
    pub(super) fn straight(&self, index: usize, left: &Picked, sides: &[Side]) -> Option<Leg> {
        sides
            .iter()
            .find(|side| self.is_free(index, left, **side, None, None))
            .map(|from| Leg { from: *from, by: None })
    }

    /// A way out round one corner: first so far to one side, then straight out.
    pub(super) fn bent(&self, index: usize, left: &Picked) -> Option<Vec<Leg>> {
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
    fn clearances(&self, index: usize, left: &Picked, side: Side) -> Vec<Length> {
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
        left: &'s Picked,
    ) -> impl Iterator<Item = &'s (PartId, Cuboid)> + use<'s> {
        left.iter().filter(move |other| *other != index).flat_map(|other| &self.groups[other].wood)
    }

    /// The sides along which the joints of a group with what is left pull
    /// together, the most joints first.
    pub(super) fn sides_of_joints(&self, index: usize, left: &Picked) -> Vec<Side> {
        let is_there = |end: &Option<usize>| end.is_some_and(|group| left.has(group));
        let crossing = || {
            let crossing = self.joints_of(index).iter().filter(|own| own.ends[0] != own.ends[1]);
            crossing.filter(|own| own.ends.iter().all(is_there)).map(|own| own.joint)
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
    pub(super) fn sides(&self, index: usize, left: &Picked) -> Vec<Side> {
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
                let takes = into.features.iter().find(|cut| into.houses(cut, joint.part, part));
                match takes {
                    Some(cut) => into.placement.direction(cut.face),
                    None => part.touching(into).unwrap_or(part.placement.length),
                }
            }
            JointSort::Planted => part.touching(into).unwrap_or(part.placement.thickness),
            JointSort::Miter
            | JointSort::Glazed
            | JointSort::Pinned
            | JointSort::Hung
            | JointSort::Slid
            | JointSort::Laid
            | JointSort::FrontFixed => Direction::Z,
        })
    }

    /// True for a shelf that lies on pins.
    pub(super) fn is_laid(&self, index: usize) -> bool {
        let laid = |own: &Jointed<'_>| own.joint.sort == JointSort::Laid;
        self.joints_of(index).iter().any(|own| laid(own) && own.ends[0] == Some(index))
    }

    /// True where a group that stands at its place, or `off` it along an axis,
    /// meets nothing on its way to a side, so far or until it is out.
    fn is_free(
        &self,
        index: usize,
        left: &Picked,
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
        let stopper = &self.stoppers[index][side as usize];
        if by.is_none() && stopper.get().is_some_and(|other| left.has(other)) {
            return false;
        }
        let stops = |other: &usize| *other != index && self.hits(index, *other, side, by);
        // What it is joined to is the likeliest to be in its way.
        let beside = self.joints_of(index).iter().flat_map(|own| own.ends).flatten();
        let mut beside = beside.filter(|other| left.has(*other));
        let found = beside.find(stops).or_else(|| left.iter().find(stops));
        if by.is_none() {
            stopper.set(found);
        }
        found.is_none()
    }

    /// What the shape of a joint says of a way out: free to this side for what
    /// the two share, or held. Nothing where no such joint holds the two.
    fn shaped(&self, shaping: &[&Joint], one: PartId, other: PartId, side: Side) -> Option<bool> {
        let joint = shaping.iter().find(|joint| {
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
pub(super) fn is_shaping(joint: &Joint) -> bool {
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
        | JointSort::Glazed
        | JointSort::Pinned
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
