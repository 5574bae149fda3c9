//! Hinges between the outer two of a door. They stand in even steps, and one steps aside
//! where a joint of its door, a board behind the door, or a joint under its plate is in
//! its way.

use std::collections::BTreeMap;

use crate::measure::Length;
use crate::model::{FrontId, Piece, Side};
use crate::parts::feature::{Bore, FeatureKind};
use crate::parts::id::{Of, Role, Which};
use crate::parts::part::{Assembly, Part, Parts};
use crate::parts::reach::{Reach, is_behind_hinges, reaches};
use crate::parts::space::{Cuboid, Direction};
use crate::trade;

/// How far each hinge stands above where even steps put it, of those that stand elsewhere;
/// by its door and its number from the bottom.
pub(super) type Aside = BTreeMap<(FrontId, u32), Length>;

/// As far beside the hinge edge of its door as a plate or its block reaches: 4 in.
fn beside() -> Length {
    Length::inches(4, 1)
}

/// The hinges that must step aside in what is built, and how far.
pub(super) fn of(piece: &Piece, parts: &Parts) -> Aside {
    let mut found = Aside::new();
    for door in &parts.all {
        let Assembly::Front(front) = door.assembly else { continue };
        let hinges = reaches(door);
        let [lowest, between @ .., highest] = hinges.as_slice() else { continue };
        let steps = i64::try_from(between.len()).unwrap_or_default() + 1;
        let step = (highest.center() - lowest.center()) / steps;
        for hinge in between {
            if let Some(by) = stepped(piece, parts, front, hinge, step) {
                found.insert((front, hinge.number), by);
            }
        }
    }
    found
}

/// How far up the nearest place of a hinge is that is clear of all; `None` where it is clear
/// already, or where no place is clear. It goes no farther than a third of the way to the
/// next hinge, and leaves that its own room.
fn stepped(
    piece: &Piece,
    parts: &Parts,
    front: FrontId,
    hinge: &Reach<'_>,
    step: Length,
) -> Option<Length> {
    let own = Own { piece, parts, front, hinge };
    let (blocked, room) = own.blocked();
    let is_clear = |by: &Length| !blocked.iter().any(|(from, to)| from < by && by < to);
    if is_clear(&Length::ZERO) {
        return None;
    }
    let tape = piece.tape();
    let most = (step / 3).min((step - room).half());
    let places = blocked.iter().flat_map(|(from, to)| [-tape.up(-*from), tape.up(*to)]);
    let places = places.filter(|by| by.abs() <= most && is_clear(by));
    places.min_by_key(|by| (by.abs(), *by))
}

/// One hinge, where even steps put it.
struct Own<'a> {
    piece: &'a Piece,
    parts: &'a Parts,
    front: FrontId,
    hinge: &'a Reach<'a>,
}

impl Own<'_> {
    /// From where to where it may not be moved up, and how much room it takes in height.
    fn blocked(&self) -> (Vec<(Length, Length)>, Length) {
        let door = self.hinge.part;
        let mut blocked = Vec::new();
        let mut room = Length::ZERO;
        let mut taken = |own: &Cuboid, others: &mut dyn Iterator<Item = Cuboid>, wall: Length| {
            room = room.max(own.size(Direction::Y));
            let beside = |other: &Cuboid| {
                own.overlaps_along(other, Direction::X) && own.overlaps_along(other, Direction::Z)
            };
            blocked.extend(
                others
                    .filter(beside)
                    .map(|other| (other.from.y - wall - own.to.y, other.to.y + wall - own.from.y)),
            );
        };
        // Hole and mortise are laid out to a mark each, half of it off at the most.
        let wall = trade::lasting_wall() + self.piece.tape().mark;
        for (part, hole) in self.holes() {
            let bore = if std::ptr::eq(part, door) { Bore::Cup } else { Bore::Plate };
            let cuts = part.features.iter().filter(|cut| cut.is_in_way_of(bore));
            taken(&hole, &mut cuts.flat_map(|cut| part.hollows(cut)), wall);
        }
        let case = self.parts.of_case(door.case);
        for space in self.block().into_iter().chain([self.hinge.space]) {
            let boards = case.iter().filter(|part| is_behind_hinges(self.piece, part));
            taken(&space, &mut boards.map(Part::cuboid), Length::ZERO);
        }
        (blocked, room)
    }

    /// Its cup, and the screws of its plate, each with the part that it is bored into.
    fn holes(&self) -> Vec<(&Part, Cuboid)> {
        let (door, center) = (self.hinge.part, self.hinge.center());
        let (from, to) = door.extent(Direction::X);
        let edge = if door.hung == Some(Side::Right) { to } else { from };
        let level = |hole: &Cuboid| (hole.from.y + hole.to.y).half();
        let cups = bores(door, |bore| bore == Bore::Cup);
        let mut found: Vec<_> = cups.filter(|(_, hole)| level(hole) == center).collect();
        let Some(half) = self.apart().map(Length::half) else { return found };
        let is_plate = |bore| matches!(bore, Bore::Plate | Bore::PlateBehind);
        let near = |hole: &Cuboid| {
            let off = (hole.from.x - edge).abs().min((hole.to.x - edge).abs());
            off < beside() && (level(hole) - center).abs() == half
        };
        let case = self.parts.of_case(door.case).iter();
        found.extend(case.flat_map(|part| bores(part, is_plate)).filter(|(_, hole)| near(hole)));
        found
    }

    /// How far apart the screws of its plate are, where it has one.
    fn apart(&self) -> Option<Length> {
        let opening = self.piece.opening(self.front.opening)?;
        let (hinge, _) = opening.front.as_ref()?.hinge?;
        self.piece.hinge(hinge)?.plate().map(|plate| plate.apart)
    }

    /// The block that carries its plate.
    fn block(&self) -> Option<Cuboid> {
        let (door, number) = (self.hinge.part, self.hinge.number);
        let side = door.hung?;
        let mut own = self.parts.of_case(door.case).iter();
        let block = own.find(|part| {
            part.role == Role::HingeBlock
                && part.of == Of::Opening(self.front.opening)
                && part.which == Which::AtNumber(side, number)
        })?;
        Some(block.cuboid())
    }
}

/// The holes of a part that are bored for this.
fn bores(part: &Part, is: impl Fn(Bore) -> bool) -> impl Iterator<Item = (&Part, Cuboid)> {
    let own = part.features.iter().filter(move |own| match own.kind {
        FeatureKind::Bore(bore) => is(bore),
        _ => false,
    });
    own.flat_map(move |own| part.hollows(own).map(move |hole| (part, hole)))
}
