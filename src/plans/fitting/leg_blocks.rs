//! Legs under the bottom of a case: their screws go down through the bottom where a driver
//! gets in over them; else a block in the corner below holds them.

use crate::measure::{Length, Unit};
use crate::model::Side;
use crate::parts::{Cuboid, Joint, JointSort, Part, Parts, Role};
use crate::trade;

use super::driver_room;
use super::screw_lengths::bought;
use super::screw_lines::{self, ScrewLine};
use super::screws::Long;

/// A block of square section that lies along a leg under the bottom, glued and screwed to
/// both from below.
#[derive(Clone, Debug)]
pub struct LegBlock<'a> {
    /// The leg.
    pub leg: &'a Part,
    /// The bottom that it stands under.
    pub bottom: &'a Part,
    /// On which side of the leg it lies.
    pub side: Side,
    /// How thick and high it is.
    pub square: Length,
    /// How long it is; it lies in the middle of the leg.
    pub long: Length,
    /// How many screws hold it to each of the two.
    pub screws: u32,
    /// How long these are.
    pub screw: Long,
}

/// The lines of the screws down into a leg, clear of the boards that stand on the bottom by
/// then; none where boards over them leave no room for a driver.
pub(super) fn lines<'a>(
    parts: &'a Parts,
    leg: &'a Part,
    bottom: &'a Part,
    unit: Unit,
) -> Vec<ScrewLine<'a>> {
    let along = leg.cuboid().overlap_along(&bottom.cuboid(), leg.placement.length);
    let count = trade::screws_along(along);
    let standing = driver_room::standing_on(parts, bottom);
    let lines = screw_lines::clear_of(bottom, leg, Some(count), &standing, unit);
    match driver_room::are_reached(parts, [bottom, leg], &lines) {
        true => lines,
        false => Vec::new(),
    }
}

/// The block of the leg that a joint plants under a bottom; `None` where its screws go down
/// through the bottom.
#[must_use]
pub fn of<'a>(parts: &'a Parts, joint: &Joint, unit: Unit) -> Option<LegBlock<'a>> {
    let (leg, bottom) = (parts.get(joint.part)?, parts.get(joint.into)?);
    let is_leg = leg.role == Role::Leg && joint.sort == JointSort::Planted;
    (is_leg && lines(parts, leg, bottom, unit).is_empty()).then(|| under(parts, leg, bottom, unit))
}

/// The block that holds a leg under a bottom.
pub(super) fn under<'a>(
    parts: &'a Parts,
    leg: &'a Part,
    bottom: &'a Part,
    unit: Unit,
) -> LegBlock<'a> {
    let square = trade::base_block(unit);
    let long = match leg.length.length {
        short if short < square * 4 => short,
        length => length - square,
    };
    let thin = bottom.thickness.length.min(leg.thickness.length);
    let most = square + thin - trade::short_of_face(unit);
    let block = |left: bool| {
        let mut space = leg.cuboid();
        let (from, to) = (space.from.x, space.to.x);
        (space.from.x, space.to.x) = if left { (from - square, from) } else { (to, to + square) };
        space
    };
    let own = parts.of_case(leg.case);
    let is_free = |space: &Cuboid| {
        own.iter()
            .filter(|part| !std::ptr::eq(*part, leg))
            .all(|part| !part.cuboid().overlaps(space))
    };
    LegBlock {
        leg,
        bottom,
        side: if is_free(&block(true)) { Side::Left } else { Side::Right },
        square,
        long,
        screws: trade::screws_along(long),
        screw: bought(square + trade::into_face(unit), most, unit),
    }
}
