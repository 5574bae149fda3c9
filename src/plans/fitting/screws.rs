//! The screws, pins and clips that a maker buys by the count.

use std::collections::BTreeSet;

use crate::measure::{Length, Unit};
use crate::model::JointKind;
use crate::parts::{Direction, FeatureKind, JointSort, Part, PartId, Role};
use crate::plans::Workings;
use crate::trade;

use super::fronts::ScrewLength;
use super::{Drawer, HungAt, OntoBox};

/// What they are for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Purpose {
    /// Pocket holes.
    Pockets,
    /// Boards of the case and its base that are screwed together.
    Boards,
    /// Packers beside slides.
    Packers,
    /// Blocks behind hinges.
    Blocks,
    /// The back of a case.
    Backs,
    /// The plates of hinges.
    Plates,
    /// Drawer fronts, to stay.
    Fronts,
    /// Drawer fronts, while they are set.
    Setting,
    /// Loose shelves.
    ShelfPins,
    /// The clips of undermount slides.
    Clips,
}

/// How long they are.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Long {
    /// It does not matter, or their own sheet says.
    BySheet,
    /// This length, or of plates and pins this diameter.
    Is(Length),
    /// At least this length.
    AtLeast(Length),
    /// None is sold between these two.
    Between(Length, Length),
}

/// So many of one kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Screws {
    /// What for.
    pub purpose: Purpose,
    /// How long; of the screws of plates and of shelf pins, how wide.
    pub long: Long,
    /// How many.
    pub count: u32,
    /// The packers or blocks that they go through; none for all others.
    pub through: Vec<PartId>,
}

/// How far a screw goes into the end or edge of a board: 1 in, 25 mm (common
/// practice, no source).
fn into_end(unit: Unit) -> Length {
    unit.either(Length::inches(1, 1), Length::mm(25))
}

/// How far a screw that comes from behind a board, or through a thin one, goes
/// into what is before it: 3/8 in, 10 mm (common practice, no source).
fn into_face(unit: Unit) -> Length {
    unit.either(Length::inches(3, 8), Length::mm(10))
}

/// The most that the screw of a back goes in: 5/8 in, 16 mm (common practice, no
/// source).
fn behind_back(unit: Unit) -> Length {
    unit.either(Length::inches(5, 8), Length::mm(16))
}

pub(super) fn plan(
    work: &Workings<'_>,
    drawers: &[Drawer<'_>],
    hinges: &[HungAt<'_>],
    fronts: &[OntoBox<'_>],
) -> Vec<Screws> {
    let mut found: Vec<Screws> = Vec::new();
    pockets(work, &mut found);
    boards(work, &mut found);
    for hung in hinges.iter().filter(|hung| !hung.butt) {
        let wide = hung.plate.map(|plate| plate.hole);
        add(&mut found, Purpose::Plates, wide.map_or(Long::BySheet, Long::Is), 2);
    }
    for drawer in fronts {
        let long = |screw: &ScrewLength| match screw.sold {
            Some(sold) => Long::Is(sold),
            None => Long::Between(screw.least, screw.most),
        };
        add(&mut found, Purpose::Fronts, long(&drawer.stay), 4);
        if drawer.pull_holes > 0 {
            let holes = u32::try_from(drawer.pull_holes).unwrap_or(u32::MAX);
            add(&mut found, Purpose::Setting, long(&drawer.hold), holes);
        }
    }
    for shelf in work.parts.all.iter().filter(|part| part.role == Role::AdjustableShelf) {
        let Some(case) = work.piece.case(shelf.case) else { continue };
        add(&mut found, Purpose::ShelfPins, Long::Is(case.shelves.pins.hole), 4);
    }
    let under = drawers.iter().filter(|drawer| drawer.slide.undermount).count();
    if under > 0 {
        let clips = u32::try_from(under * 2).unwrap_or(u32::MAX);
        add(&mut found, Purpose::Clips, Long::BySheet, clips);
    }
    found.sort_by_key(|screws| (screws.purpose, screws.long));
    found
}

fn add(found: &mut Vec<Screws>, purpose: Purpose, long: Long, count: u32) {
    match found.iter_mut().find(|screws| (screws.purpose, screws.long) == (purpose, long)) {
        Some(screws) => screws.count = screws.count.saturating_add(count),
        None => found.push(Screws { purpose, long, count, through: Vec::new() }),
    }
}

/// The same for screws that go through a packer or a block, each of which has its
/// own length.
fn add_through(found: &mut Vec<Screws>, screws: Screws) {
    let same = |own: &&mut Screws| (own.purpose, own.long) == (screws.purpose, screws.long);
    match found.iter_mut().find(same) {
        Some(own) => {
            own.count = own.count.saturating_add(screws.count);
            own.through.extend(screws.through);
        }
        None => found.push(screws),
    }
}

fn pockets(work: &Workings<'_>, found: &mut Vec<Screws>) {
    for feature in work.parts.all.iter().flat_map(|part| &part.features) {
        if let FeatureKind::Pockets(count, screw) = feature.kind {
            add(found, Purpose::Pockets, screw.map_or(Long::BySheet, Long::Is), count);
        }
    }
}

/// What holds board to board, joint by joint.
fn boards(work: &Workings<'_>, found: &mut Vec<Screws>) {
    let unit = work.piece.tape().unit;
    let mut backs: BTreeSet<PartId> = BTreeSet::new();
    for joint in &work.parts.joints {
        let parts = (work.parts.get(joint.part), work.parts.get(joint.into));
        let (Some(part), Some(into)) = parts else { continue };
        match (joint.sort, part.role) {
            (JointSort::Wood(JointKind::Screw), Role::Packer) => {
                let (count, long) =
                    (trade::screws_along(part.length.length), through(part, into, unit));
                let through = vec![joint.part];
                let purpose = Purpose::Packers;
                add_through(found, Screws { purpose, long, count, through });
            }
            (JointSort::Wood(JointKind::Screw), Role::HingeBlock) => {
                let (long, through) = (through(part, into, unit), vec![joint.part]);
                add_through(found, Screws { purpose: Purpose::Blocks, long, count: 2, through });
            }
            // A back is joined to several boards and has one row round it.
            (JointSort::Planted, Role::Back) if !backs.insert(joint.part) => {}
            (JointSort::Planted, Role::Back) => {
                let along = |long: Length| trade::screws_along(long) * 2;
                let count = along(part.length.length) + along(part.width.length);
                let least = part.thickness.length + into_face(unit);
                let most = part.thickness.length + behind_back(unit);
                add(found, Purpose::Backs, bought(least, most, unit), count);
            }
            (JointSort::Wood(JointKind::Screw) | JointSort::Planted, _) => {
                let axis = part.touching(into).unwrap_or(into.placement.thickness);
                let outer = if into.placement.thickness == axis { into } else { part };
                let least = outer.thickness.length + into_end(unit);
                let along = part.cuboid();
                let shared = |d: &Direction| along.overlap_along(&into.cuboid(), *d);
                let others = Direction::ALL.into_iter().filter(|d| *d != axis);
                let long = others.map(|d| shared(&d)).max().unwrap_or_default();
                let count = trade::screws_along(long);
                add(found, Purpose::Boards, Long::AtLeast(least), count);
            }
            _ => {}
        }
    }
}

/// Through a block into the board that it lies on, short of its far face.
fn through(block: &Part, board: &Part, unit: Unit) -> Long {
    let axis = block.touching(board).unwrap_or(board.placement.thickness);
    let own = block.cuboid().size(axis);
    let most = own + board.cuboid().size(axis) - trade::short_of_face(unit);
    bought(own + into_face(unit), most, unit)
}

fn bought(least: Length, most: Length, unit: Unit) -> Long {
    let least = least.min(most);
    trade::screw_sold(least, most, unit).map_or(Long::Between(least, most), Long::Is)
}
