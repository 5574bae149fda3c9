//! The screws, pins and clips that a maker buys by the count.

use crate::measure::Length;
use crate::model::{CaseId, JointKind};
use crate::parts::{Direction, JointSort, Part, Parts, Role, ScrewRow, screw_rows};
use crate::plans::Workings;
use crate::trade;

use super::fronts::ScrewLength;
use super::pins::holes_in;
pub use super::purpose::{Long, Purpose};
use super::screw_lengths::{bought, into_edge, into_end, through};
use super::screw_lines::{self, ScrewLine};
use super::screws_apart::Meeting;
use super::{Drawer, HungAt, OntoBox, Stop};
use super::{
    backs, driver_room, false_fronts, leg_blocks, pockets, screws_apart, stacked, ties, wide_holes,
};

/// So many of one kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Screws<'a> {
    /// What for.
    pub purpose: Purpose,
    /// How long; of the screws of plates and of shelf pins, how wide.
    pub long: Long,
    /// How wide the holes in what they go through are, where that moves under their heads, or
    /// where they go through the holes of a pull.
    pub hole: Option<Length>,
    /// How many.
    pub count: u32,
    /// The packers or blocks that they go through; none for all others.
    pub through: Vec<&'a Part>,
}

/// Screws, pins or clips at one place: what they hold, and what they go into.
#[derive(Clone, Debug)]
pub struct Fastening<'a> {
    /// What for.
    pub purpose: Purpose,
    /// How long; of the screws of plates and of shelf pins, how wide.
    pub long: Long,
    /// How many.
    pub count: u32,
    /// What they hold.
    pub part: &'a Part,
    /// What they go into.
    pub into: Vec<&'a Part>,
    /// The joint that is closed when they go in, by its place among all.
    pub joint: Option<usize>,
    /// How wide the holes in what they go through are, where that moves under their heads, or
    /// where they go through the holes of a pull.
    pub hole: Option<Length>,
    /// The lines that they stand on, where no hole of the sheet or of a part has their
    /// place.
    pub lines: Vec<ScrewLine<'a>>,
}

pub(super) fn plan<'a>(
    work: &Workings<'a>,
    drawers: &[Drawer<'a>],
    hinges: &[HungAt<'a>],
    fronts: &[OntoBox<'a>],
    stops: &[Stop<'a>],
) -> (Vec<Fastening<'a>>, Vec<Meeting<'a>>) {
    let joints: Vec<Joined<'a>> = joined(work.parts);
    // Joints follow each other case by case, as parts do.
    let cases = || joints.chunk_by(|a, b| a.part.case == b.part.case);
    let of_case = |case: CaseId| {
        let from = joints.partition_point(|own| own.part.case < case);
        let own = joints.get(from..).unwrap_or(&[]).iter();
        own.take_while(move |own| own.part.case == case)
    };
    let of = |part: &Part, sort: JointSort| {
        of_case(part.case).find(move |own| own.sort == sort && std::ptr::eq(own.part, part))
    };
    let mut found: Vec<Fastening<'a>> = Vec::new();
    cases().for_each(|joints| pockets::screws(work, joints, &mut found));
    cases().for_each(|joints| found.extend(boards(work, joints)));
    found.extend(ties::ties(work, drawers));
    for hung in hinges.iter().filter(|hung| !hung.butt) {
        let wide = hung.plate.map(|plate| plate.hole);
        found.push(Fastening {
            purpose: Purpose::Plates,
            long: wide.map_or(Long::BySheet, Long::Is),
            count: 2,
            part: hung.leaf,
            into: vec![hung.plate.map_or(hung.holder, |plate| plate.part)],
            joint: of(hung.leaf, JointSort::Hung).map(|own| own.index),
            hole: None,
            lines: Vec::new(),
        });
    }
    for drawer in fronts {
        let long = |screw: &ScrewLength| match screw.sold {
            Some(sold) => Long::Is(sold),
            None => Long::Between(screw.least, screw.most),
        };
        let fixed = of_case(drawer.front.case).find(|own| {
            own.sort == JointSort::FrontFixed && own.part.opening() == Some(drawer.opening.id)
        });
        let one = |purpose, screw: &ScrewLength, count, (hole, lines)| Fastening {
            purpose,
            long: long(screw),
            count,
            part: drawer.front,
            into: fixed.map(|own| own.into).into_iter().collect(),
            joint: fixed.map(|own| own.index),
            hole,
            lines,
        };
        let lines = drawer.lines.clone();
        found.push(one(Purpose::Fronts, &drawer.stay, drawer.staying(), (None, lines)));
        if let Some(wide) = drawer.passes {
            let holes = u32::try_from(drawer.into_box).unwrap_or(u32::MAX);
            found.push(one(Purpose::Setting, &drawer.hold, holes, (Some(wide), Vec::new())));
        }
    }
    for shelf in work.parts.all.iter().filter(|part| part.role == Role::AdjustableShelf) {
        let Some(case) = work.piece.case(shelf.case) else { continue };
        let laid = of_case(shelf.case)
            .filter(|own| own.sort == JointSort::Laid && std::ptr::eq(own.part, shelf));
        found.push(Fastening {
            purpose: Purpose::ShelfPins,
            long: Long::Is(case.shelves.pins.hole),
            count: 4,
            part: shelf,
            into: laid.map(|own| own.into).collect(),
            joint: of(shelf, JointSort::Laid).map(|own| own.index),
            hole: None,
            lines: Vec::new(),
        });
    }
    for drawer in drawers.iter().filter(|drawer| drawer.hardware.undermount) {
        let of_box = |part: &Part| part.opening() == Some(drawer.opening.id);
        let case = drawer.opening.id.case;
        let slid = of_case(case).find(|own| own.sort == JointSort::Slid && of_box(own.part));
        let mut parts = work.parts.of_case(case).iter();
        let front = parts.find(|part| part.role == Role::DrawerFront && of_box(part));
        let Some(part) = front.or(drawer.back) else { continue };
        found.push(Fastening {
            purpose: Purpose::Clips,
            long: Long::BySheet,
            count: 2,
            part,
            into: Vec::new(),
            joint: slid.map(|own| own.index),
            hole: None,
            lines: Vec::new(),
        });
    }
    for stop in stops {
        let Some((on, (count, long))) = stop.on.zip(stop.screws(work.piece.tape().unit)) else {
            continue;
        };
        found.push(Fastening {
            purpose: Purpose::Stops,
            long,
            count,
            part: on,
            into: Vec::new(),
            joint: None,
            hole: None,
            lines: Vec::new(),
        });
    }
    let meetings = screws_apart::keep_apart(&mut found, work.piece.tape());
    wide_holes::widen(work, &mut found);
    (found, meetings)
}

/// What is to be bought: those of one purpose and length together.
pub(super) fn count<'a>(fastenings: &[Fastening<'a>]) -> Vec<Screws<'a>> {
    let mut found: Vec<Screws<'a>> = Vec::new();
    for own in fastenings {
        let (purpose, long, hole, count) = (own.purpose, own.long, own.hole, own.count);
        let kind = (purpose, long, hole);
        // Each packer and each block has its own length of screw.
        let own = matches!(
            purpose,
            Purpose::Packers | Purpose::Strips | Purpose::Blocks | Purpose::Holding
        )
        .then_some(own.part);
        match found.iter_mut().find(|known| (known.purpose, known.long, known.hole) == kind) {
            Some(known) => {
                known.count = known.count.saturating_add(count);
                known.through.extend(own);
            }
            None => {
                let through = own.into_iter().collect();
                found.push(Screws { purpose, long, hole, count, through });
            }
        }
    }
    found.sort_by_key(|screws| (screws.purpose, screws.long, screws.hole));
    found
}

/// A joint with its parts.
pub(super) struct Joined<'a> {
    pub(super) index: usize,
    pub(super) sort: JointSort,
    pub(super) part: &'a Part,
    pub(super) into: &'a Part,
}

fn joined(parts: &Parts) -> Vec<Joined<'_>> {
    let joints = parts.joints.iter().enumerate();
    let own = joints.filter_map(|(index, joint)| {
        let (part, into) = (parts.get(joint.part)?, parts.get(joint.into)?);
        Some(Joined { index, sort: joint.sort, part, into })
    });
    own.collect()
}

/// What holds board to board, joint by joint of a case.
fn boards<'a>(work: &Workings<'a>, joints: &[Joined<'a>]) -> Vec<Fastening<'a>> {
    let unit = work.piece.tape().unit;
    let mut found: Vec<Fastening<'a>> = Vec::new();
    for own in joints {
        let (part, into) = (own.part, own.into);
        let fastening = |purpose, long, count, lines: Vec<ScrewLine<'a>>| Fastening {
            purpose,
            long,
            // Cuts part a line, and then there may be more.
            count: match lines.is_empty() {
                true => count,
                false => lines.iter().map(|line| line.count).sum(),
            },
            part,
            into: vec![into],
            joint: Some(own.index),
            hole: None,
            lines,
        };
        let line = |through, into, count| -> Vec<ScrewLine<'a>> {
            screw_lines::between(through, into, Some(count), unit)
        };
        match (own.sort, part.role) {
            (JointSort::Wood(JointKind::Screw), Role::Packer) => {
                let count = trade::screws_along(part.length.length);
                // The holes of the slide lie along the middle of a packer.
                let pins = holes_in(work, into);
                let lines = screw_lines::beside_middle(part, into, count, &pins, unit);
                found.push(fastening(Purpose::Packers, through(part, into, unit), count, lines));
            }
            (JointSort::Wood(JointKind::Screw), role) if role.is_of_runs() => {
                let along = part.cuboid().overlap_along(&into.cuboid(), part.placement.length);
                let count = trade::screws_along(along);
                let lines = line(part, into, count);
                found.push(fastening(Purpose::Strips, through(part, into, unit), count, lines));
            }
            (JointSort::Wood(JointKind::Screw), Role::HingeBlock) => {
                let lines = screw_lines::before_plate(part, into, 2, unit);
                found.push(fastening(Purpose::Blocks, through(part, into, unit), 2, lines));
            }
            (JointSort::Wood(JointKind::Screw), Role::HoldingBlock) => {
                let count = trade::screws_along(part.length.length);
                let lines = screw_lines::into_side(part, into, count, unit);
                let long = false_fronts::into_side(part, into, unit);
                found.push(fastening(Purpose::Holding, long, count, lines));
            }
            (JointSort::FrontFixed, _) if into.role == Role::HoldingBlock => {
                let (long, count, lines) = false_fronts::from_behind(work, part, into);
                found.push(fastening(Purpose::FalseFronts, long, count, lines));
            }
            (JointSort::Wood(JointKind::Screw), Role::Countertop) => {
                let (least, usual) = trade::countertop_bite(unit);
                let below = into.thickness.length;
                let through = below + part.thickness.length - trade::short_of_face(unit);
                let long = bought(below + least, through.min(below + usual), unit);
                let rows = countertop_rows(work, into);
                let round = rows.iter().filter(|row| row.slot.is_none());
                let lines = round.flat_map(|row| {
                    screw_lines::upright([into, part], false, (row.z, &row.screws))
                });
                let count = rows.iter().map(ScrewRow::count).sum::<usize>();
                found.push(Fastening {
                    count: u32::try_from(count).unwrap_or(u32::MAX),
                    lines: lines.collect(),
                    ..fastening(Purpose::Countertops, long, 0, Vec::new())
                });
            }
            (JointSort::Wood(JointKind::Screw), Role::Bottom) if part.case != into.case => {
                found.push(stacked::screwed(work, own));
            }
            (JointSort::Wood(JointKind::Screw), Role::Batten | Role::Cover) => {
                let count = trade::screws_along(part.length.length);
                // It goes on when the plates of the doors are on already.
                let hinges = driver_room::hinges_on(work.parts, into);
                let blocks = [driver_room::before_face(work, into, part), hinges].concat();
                let (purpose, lines) = match part.role {
                    Role::Cover => {
                        let inside = (&*blocks, work.parts.of_case(into.case));
                        let purpose = match into.role == Role::Back {
                            true => Purpose::BackCovers,
                            false => Purpose::Covers,
                        };
                        (purpose, screw_lines::along_edges(into, part, inside, unit))
                    }
                    _ => {
                        let lines = screw_lines::clear_of(into, part, Some(count), &blocks, unit);
                        (Purpose::Fillers, lines)
                    }
                };
                found.push(fastening(purpose, through(into, part, unit), count, lines));
            }
            (JointSort::Wood(JointKind::Butt), Role::DrawerFront | Role::DrawerBack) => {
                // Glue on end grain holds next to nothing: screws hold the corner.
                let least = into.thickness.length + into_end(unit);
                let sold = trade::shortest_sold(least, least + into_end(unit), unit);
                let long = sold.map_or(Long::AtLeast(least), Long::Is);
                let high = part.cuboid().overlap_along(&into.cuboid(), Direction::Y);
                let lines = line(into, part, corner_screws(high));
                found.push(fastening(Purpose::Corners, long, 0, lines));
            }
            (JointSort::Planted, Role::Back) => {
                // A back is joined to several boards: it has a line in each that it lies on.
                let known = found.iter_mut().find(|known| {
                    known.purpose == Purpose::Backs && std::ptr::eq(known.part, part)
                });
                if let Some(known) = known {
                    known.into.push(into);
                    continue;
                }
                let least = part.thickness.length + trade::into_face(unit);
                let most = part.thickness.length + backs::goes_in(unit);
                let joined = joints.iter().filter(|other| std::ptr::eq(other.part, part));
                let lines = backs::lines(work, part, joined.map(|other| other.into));
                let long = bought(least, most, unit);
                found.push(fastening(Purpose::Backs, long, 0, lines));
            }
            (JointSort::Planted, Role::Leg) => {
                let lines = leg_blocks::lines(work.parts, part, into, unit);
                if lines.is_empty() {
                    let block = leg_blocks::under(work.parts, part, into, unit);
                    let count = block.screws.saturating_mul(2);
                    found.push(fastening(Purpose::Boards, block.screw, count, lines));
                } else {
                    let high = part.cuboid().size(Direction::Y);
                    let long = into_edge(into.thickness.length, high, unit);
                    found.push(fastening(Purpose::Boards, long, 0, lines));
                }
            }
            (JointSort::Wood(JointKind::Screw) | JointSort::Planted, _) => {
                // What lies in a notch lies on it with its face.
                let axis = part.touching(into).unwrap_or(match own.sort {
                    JointSort::Planted => part.placement.thickness,
                    _ => into.placement.thickness,
                });
                let outer = if into.placement.thickness == axis { into } else { part };
                let inner = if std::ptr::eq(outer, part) { into } else { part };
                let along = part.cuboid();
                let shared = |d: &Direction| along.overlap_along(&into.cuboid(), *d);
                let others = Direction::ALL.into_iter().filter(|d| *d != axis);
                let long = others.map(|d| shared(&d)).max().unwrap_or_default();
                let count = trade::screws_along(long);
                let deep = inner.cuboid().size(axis);
                let long = into_edge(outer.thickness.length, deep, unit);
                let purpose = match part.role {
                    Role::DrawerBottom => Purpose::Bottoms,
                    _ => Purpose::Boards,
                };
                let lines = match (own.sort, part.role) {
                    // Down into the base from inside, where no board stands.
                    (JointSort::Planted, Role::Bottom) => {
                        let standing = driver_room::standing_on(work.parts, part);
                        let clear =
                            screw_lines::clear_of(outer, inner, Some(count), &standing, unit);
                        // Where a board stands all along them, they go where they would and
                        // `driver-reach` tells of it.
                        if clear.is_empty() { line(outer, inner, count) } else { clear }
                    }
                    _ => line(outer, inner, count),
                };
                found.push(fastening(purpose, long, count, lines));
            }
            _ => {}
        }
    }
    found
}

/// The rows of screws that hold a countertop to a board under it.
fn countertop_rows(work: &Workings<'_>, board: &Part) -> Vec<ScrewRow> {
    let Some(top) = work.piece.top_over(board.case) else { return Vec::new() };
    let mut rows = screw_rows(work.piece, top, &work.parts.under(top));
    rows.retain(|row| work.parts.get(row.board).is_some_and(|own| std::ptr::eq(own, board)));
    rows
}

/// How many screws hold the corner of a drawer box so high: one each 3 in (75 mm), two at
/// least (common practice, no source).
fn corner_screws(high: Length) -> u32 {
    let each = Length::inches(3, 1);
    u32::try_from((high / each).ceil().clamp(2, 100)).unwrap_or(2)
}
