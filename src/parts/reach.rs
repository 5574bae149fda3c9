//! The room that a hinge takes behind its closed door.

use crate::measure::{Length, Span};
use crate::model::Piece;

use super::feature::{Bore, FeatureKind};
use super::id::{Role, Which};
use super::part::{Assembly, Part};
use super::space::Cuboid;

/// How far the cup and the arm of a hinge reach above and below its center: 20 mm
/// (common practice, no source).
const BESIDE: Length = Length::mm(20);

/// How deep they reach behind the door: 60 mm (common practice, no source).
const BEHIND: Length = Length::mm(60);

/// The room of one hinge, or of the block that carries it.
#[derive(Clone, Copy, Debug)]
pub struct Reach<'a> {
    /// The door, or the block.
    pub part: &'a Part,
    /// The number of the hinge on its door, from the bottom.
    pub number: u32,
    /// The room, in the piece.
    pub space: Cuboid,
    /// The statement that asks for it.
    pub span: Span,
}

impl Reach<'_> {
    /// The height of its middle above the floor.
    #[must_use]
    pub fn center(&self) -> Length {
        (self.space.from.y + self.space.to.y).half()
    }
}

/// The rooms of the hinges of a door, or that of a hinge block; of all others none.
#[must_use]
pub fn reaches(part: &Part) -> Vec<Reach<'_>> {
    if part.role == Role::HingeBlock {
        let Which::AtNumber(_, number) = part.which else { return Vec::new() };
        return vec![Reach { part, number, space: part.cuboid(), span: part.span }];
    }
    let back = part.cuboid().to.z;
    let cups = part.features.iter().filter(|f| f.kind == FeatureKind::Bore(Bore::Cup));
    let mut found: Vec<Reach<'_>> = cups
        .flat_map(|cup| part.hollows(cup).map(move |hollow| (cup, hollow)))
        .map(|(cup, mut space)| {
            let center = (space.from.y + space.to.y).half();
            (space.from.y, space.to.y) = (center - BESIDE, center + BESIDE);
            (space.from.z, space.to.z) = (back, back + BEHIND);
            Reach { part, number: 0, space, span: cup.span }
        })
        .collect();
    found.sort_by_key(|reach| reach.space.from.y);
    for (number, reach) in (1..).zip(&mut found) {
        reach.number = number;
    }
    found
}

/// True for a board that stands fast right behind closed doors or beside them, so that no
/// hinge may reach into it.
#[must_use]
pub fn is_behind_hinges(piece: &Piece, part: &Part) -> bool {
    let stands = matches!(
        part.role,
        Role::FixedShelf
            | Role::WebRail
            | Role::WebRunner
            | Role::Divider
            | Role::Packer
            | Role::Bottom
            | Role::Top
            | Role::Stretcher
    );
    stands || part.role.is_of_runs() || is_of_drawer_behind(piece, part)
}

/// True for the box or front of a tray or drawer, which stands right behind the closed
/// door.
fn is_of_drawer_behind(piece: &Piece, part: &Part) -> bool {
    let opening = match part.assembly {
        Assembly::DrawerBox(opening) => opening,
        Assembly::Front(front) => front.opening,
        Assembly::Base(_)
        | Assembly::Carcass(_)
        | Assembly::Frame(_)
        | Assembly::Countertop(_)
        | Assembly::Filler(..)
        | Assembly::Loose(_) => return false,
    };
    piece.door_before(opening).is_some()
}
