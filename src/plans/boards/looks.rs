//! What is seen most goes first: which blanks are of fronts, and which of these lie in one
//! board one after another.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use crate::model::{OpeningId, OpeningKind, Piece};
use crate::parts::{Direction, Part, PartId, Role};

use super::super::Workings;
use super::super::sawing::Blank;

/// How much a part is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Looks {
    /// A front, a panel, or another broad face that is seen.
    Front,
    /// A member of a frame, whose grain is to be straight.
    Frame,
    /// A shelf in a niche that stays open, or a board that is seen through glass.
    Shelf,
    /// None of these.
    Plain,
}

impl Looks {
    /// All of them, in the order in which boards are chosen for them.
    pub const ALL: [Self; 4] = [Self::Front, Self::Frame, Self::Shelf, Self::Plain];

    /// Of a blank.
    #[must_use]
    pub fn of(work: &Workings<'_>, blank: &Blank) -> Self {
        // A lip lies along an edge that is seen.
        if !blank.strips.is_empty() {
            return Self::Frame;
        }
        match work.parts.get(blank.part) {
            Some(part) if is_in_the_open(work.piece, part) || is_behind_glass(work, part) => {
                Self::Shelf
            }
            Some(part) => of_role(part.role),
            None => Self::Plain,
        }
    }
}

/// True for a shelf in an opening that has no front, and no door before it.
fn is_in_the_open(piece: &Piece, part: &Part) -> bool {
    let opening = part.opening().filter(|id| piece.door_before(*id).is_none());
    matches!(part.role, Role::FixedShelf | Role::AdjustableShelf)
        && opening.and_then(|id| piece.opening(id)).is_some_and(|own| own.front.is_none())
}

/// True for a board that whoever stands before the piece sees through the glass of a door.
fn is_behind_glass(work: &Workings<'_>, part: &Part) -> bool {
    let inside = matches!(
        part.role,
        Role::Back
            | Role::Bottom
            | Role::Partition
            | Role::Divider
            | Role::FixedShelf
            | Role::AdjustableShelf
            | Role::Nailer(_)
    );
    inside
        && work.lights().iter().any(|light| {
            let pane = work.parts.get(light.pane).map(Part::cuboid);
            pane.is_some_and(|pane| {
                let own = part.cuboid();
                own.overlaps_along(&pane, Direction::X) && own.overlaps_along(&pane, Direction::Y)
            })
        })
}

fn of_role(role: Role) -> Looks {
    match role {
        Role::End(_)
        | Role::EndPanel(_)
        | Role::Top
        | Role::Countertop
        | Role::Slab
        | Role::FrontPanel
        | Role::Cover => Looks::Front,
        Role::Post(_)
        | Role::EndRail(_)
        | Role::Leg
        | Role::Kick
        | Role::BaseMember
        | Role::Stile
        | Role::Rail
        | Role::FrontStile
        | Role::FrontRail
        | Role::Filler => Looks::Frame,
        Role::Bottom
        | Role::Stretcher
        | Role::Back
        | Role::Nailer(_)
        | Role::Partition
        | Role::Divider
        | Role::FixedShelf
        | Role::WebRail
        | Role::WebRunner
        | Role::DustPanel
        | Role::AdjustableShelf
        | Role::BaseLeg
        | Role::Bead
        | Role::DrawerSide
        | Role::DrawerFront
        | Role::DrawerBack
        | Role::DrawerBottom
        | Role::Packer
        | Role::HingeBlock
        | Role::HoldingBlock
        | Role::Guide
        | Role::Kicker
        | Role::Runner
        | Role::Stop
        | Role::Batten => Looks::Plain,
    }
}

/// The blanks of one broad part, by their places among all.
pub(super) type Broad = Vec<usize>;

/// What belongs together to the eye: the fronts of a bank from the top down, those of a pair
/// or a row from left to right, and what is in one panel.
pub(super) fn sequences(work: &Workings<'_>, blanks: &[Blank]) -> Vec<Vec<Broad>> {
    let mut groups: BTreeMap<Together, BTreeMap<PartId, Broad>> = BTreeMap::new();
    for (index, blank) in blanks.iter().enumerate() {
        let Some(part) = work.parts.get(blank.part) else { continue };
        if Looks::of(work, blank) != Looks::Front {
            continue;
        }
        let together = together(work.piece, blank.part, part);
        groups.entry(together).or_default().entry(blank.part).or_default().push(index);
    }
    let in_order = |group: BTreeMap<PartId, Broad>| {
        let mut group: Vec<(PartId, Broad)> = group.into_iter().collect();
        let place = |id: &PartId| {
            work.parts
                .get(*id)
                .map(|part| (Reverse(part.extent(Direction::Y).1), part.extent(Direction::X).0))
        };
        group.sort_by_key(|(id, _)| (place(id), *id));
        group.into_iter().map(|(_, blanks)| blanks).collect()
    };
    groups.into_values().map(in_order).collect()
}

/// By what parts belong together.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::plans) enum Together {
    /// The list or the opening of fronts.
    Fronts(OpeningId),
    /// A part by itself.
    Part(PartId),
}

pub(in crate::plans) fn together(piece: &Piece, id: PartId, part: &Part) -> Together {
    let is_of_front = matches!(part.role, Role::Slab | Role::FrontPanel);
    match part.opening().filter(|_| is_of_front) {
        Some(opening) => Together::Fronts(bank(piece, opening).unwrap_or(opening)),
        None => Together::Part(id),
    }
}

/// The list that a drawer or a false front of a bank or a row stands in.
fn bank(piece: &Piece, opening: OpeningId) -> Option<OpeningId> {
    let own = piece.opening(opening)?;
    match own.kind {
        OpeningKind::Drawer { .. } | OpeningKind::False => own.parent,
        OpeningKind::List(..) | OpeningKind::Door(_) | OpeningKind::Doors | OpeningKind::Open => {
            None
        }
    }
}
