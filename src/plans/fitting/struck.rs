//! What a shelf on its pins would strike.

use crate::model::Case;
use crate::parts::{self, Cuboid, Direction, Part, Reach, Role};

use super::{Index, PinRows};

/// Places where a shelf would strike something.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Blocked<'a> {
    /// What it would strike.
    pub by: Struck<'a>,
    /// The places.
    pub places: Vec<u32>,
}

/// What a shelf would strike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Struck<'a> {
    /// A hinge of the door before it, by its number on that, from the bottom.
    Hinge(u32),
    /// A hinge of a door beside its opening, with the mark of what it is bored into.
    Beside(u32, &'a str),
    /// A nailer, by its mark.
    Nailer(&'a str),
    /// A block that carries a hinge or holds a false front beside its opening, by its mark.
    Block(&'a str),
}

/// The places where a shelf as thick and as deep as this one would strike a hinge
/// of a door before it, a nailer behind it, or a hinge or a block where it runs on
/// behind the opening beside it, each its own.
pub(super) fn blocked<'a>(
    rows: &PinRows<'_>,
    shelf: &Part,
    case: &Case,
    index: &Index<'a>,
) -> Vec<Blocked<'a>> {
    // Its own doors, or those that it stands behind.
    let before = case.door_before(rows.opening);
    let openings = std::iter::once(rows.opening).chain(before);
    let own = openings.flat_map(|opening| index.of_opening(opening.id).iter());
    let own = own.map(|(_, part)| *part);
    let hinges =
        own.flat_map(parts::reaches).map(|reach| (Struck::Hinge(reach.number), reach.space));
    let fast = index.parts.of_case(shelf.case).iter().flat_map(|part| {
        let by = match part.role.is_nailer() {
            true => Struck::Nailer(&part.mark),
            false if is_block(part) => Struck::Block(&part.mark),
            false => {
                let beside =
                    |reach: Reach<'_>| (Struck::Beside(reach.number, &part.mark), reach.space);
                return parts::reaches(part).into_iter().map(beside).collect();
            }
        };
        vec![(by, part.cuboid())]
    });
    let struck: Vec<(Struck<'a>, Cuboid)> = hinges.chain(fast).collect();
    let thick = shelf.cuboid().size(Direction::Y);
    let mut found: Vec<Blocked<'a>> = Vec::new();
    for number in rows.bored() {
        let mut lying = shelf.cuboid();
        lying.from.y = rows.height(number);
        lying.to.y = lying.from.y + thick;
        let Some((by, _)) = struck.iter().find(|(_, space)| space.overlaps(&lying)) else {
            continue;
        };
        match found.iter_mut().find(|known| known.by == *by) {
            Some(known) => known.places.push(number),
            None => found.push(Blocked { by: *by, places: vec![number] }),
        }
    }
    found
}

/// A block that stands beside an opening, behind its door or its false front.
pub(super) fn is_block(part: &Part) -> bool {
    matches!(part.role, Role::HingeBlock | Role::HoldingBlock)
}
