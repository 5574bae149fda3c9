//! A screw that no driver gets at when it is to be driven.

mod report;

use std::cell::OnceCell;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::measure::Length;
use crate::model::{CaseId, JointKind, OpeningKind};
use crate::parts::{
    Assembly, Cuboid, Direction, Feature, FeatureKind, Joint, JointSort, Part, PartId, Role,
    screw_rows, stack_rows,
};
use crate::plans::Workings;
use crate::plans::fitting::{ScrewLine, block, blocks, places};
use crate::plans::operations::{Doing, Move};
use crate::trade::{self, Block, ScrewWay, block_round, blocks_meet};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "driver-reach",
    severity: Severity::Warning,
    finds: "In the step of the assembly order that drives a screw, a board stands where its driver must go.",
    why: "The glue is on and the clamps wait, and the screw can't be driven. A low or narrow opening leaves no room behind a pocket hole, and two boards that meet one upright at one height from both sides shut each other's screws in.",
    source: "A drill with a long bit takes 14 in (350 mm) behind the screw and is 2-1/2 in (64 mm) thick. A right-angle driver takes 5-1/2 in (140 mm), and its arm of 8 in (200 mm) goes to any side. A short screwdriver, which will do for a countertop, takes 3-1/2 in (90 mm). Pocket screws lean 15 degrees. All of it is common practice, no source.",
    formula: "The drill, and then the right-angle driver with its arm to each of four sides, is laid along the axis of each screw, among the boards that are there by then. Screws square through a board may be driven from either side, through up to 2 in (50 mm), and one on a printed line 1 in (25 mm) to either side of its place.",
    accept: "Accept it if you have a shorter driver, or if you drive these screws before the board in the way goes in.",
    example: Example {
        base: Base::First,
        sound: "drawer upper { high 5 }\n      rail { wide 1-1/2 }\n      doors store { share 1; shelf { adjustable 1 } }",
        wrong: "drawer upper { high 3-1/2 }\n      rail { wide 1-1/2; shelf }\n      across {\n        share 1\n        door left { share 1; hung left }\n        stile { wide 1-1/2; partition { joint screw } }\n        door right { share 1; hung right }\n      }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    // Where boards can't be made or overlap, nobody drives a screw.
    if sink.has_errors() {
        return;
    }
    let room = Room::of(work);
    // Where a driver gets in among all boards, it gets in among some of them.
    let shut = room.shut();
    if shut.is_empty() {
        return;
    }
    let assembly = work.assembly();
    for operation in &work.operations().all {
        let Doing::Join { joints, moves } = &operation.doing else { continue };
        let slot = assembly.schedule.slots.get(operation.task);
        let step = slot.map_or(0, |slot| slot.order + 1);
        let joints = joints.iter().filter(|index| shut.contains(*index));
        let joints = joints.filter_map(|index| work.parts.joints.get(*index));
        let mut found: Vec<(&Joint, &Part, Vec<&str>)> = Vec::new();
        for joint in joints {
            let there = there(moves, joint);
            let Some(stands) = room.stopped(joint, &|id, _| there.contains(&id)) else { continue };
            let into = work.parts.get(joint.into).map_or("", |part| part.path.as_str());
            // What one board keeps off is told once for all that a board is screwed to.
            let same = |(other, board, _): &&mut (&Joint, &Part, Vec<&str>)| {
                other.part == joint.part && other.span == joint.span && std::ptr::eq(*board, stands)
            };
            match found.iter_mut().find(same) {
                Some((.., all)) => all.push(into),
                None => found.push((joint, stands, vec![into])),
            }
        }
        for (joint, stands, into) in found {
            sink.push(report::told(work, joint, (stands, &into), step));
        }
    }
}

/// The boards that are there as soon as both boards of a joint are.
fn there(moves: &[Move], joint: &Joint) -> BTreeSet<PartId> {
    let mut there = BTreeSet::new();
    for own in moves {
        there.extend(own.parts.iter().copied());
        if there.contains(&joint.part) && there.contains(&joint.into) {
            break;
        }
    }
    there
}

/// The screws of a joint that are driven from one side, each with the places where it may be.
type Side = Vec<Vec<ScrewWay>>;

/// Screws that can't be moved.
fn fixed(screws: Vec<ScrewWay>) -> Side {
    screws.into_iter().map(|screw| vec![screw]).collect()
}

/// The screws of a row at this height, whose driver is above them or below.
fn square_in_row(
    bays: Vec<Vec<Length>>,
    (y, z): (Length, Length),
    above: bool,
) -> impl Iterator<Item = ScrewWay> {
    let (back, across) = ((Direction::Y.index(), above), Direction::X.index());
    bays.into_iter().flatten().map(move |x| ScrewWay::square([x, y, z], back, across))
}

/// Which boards are there.
type There<'r> = &'r dyn Fn(PartId, &Part) -> bool;

/// A board as a driver meets it.
struct Board {
    /// The box round it.
    around: Block,
    /// What is left of that between its notches.
    left: OnceCell<Vec<Block>>,
}

/// The boards of one case, which follow each other, and the box round them.
struct CaseBoards {
    ids: Range<usize>,
    around: Block,
    /// Where the farthest to the right of it and those before it ends.
    right: f64,
}

/// The boards of a piece as boxes.
struct Room<'w, 'a> {
    work: &'w Workings<'a>,
    boards: Vec<Board>,
    /// From left to right.
    cases: Vec<CaseBoards>,
    /// The printed lines of screws of each case, by what they go through and into.
    lines: OnceCell<BTreeMap<CaseId, Vec<&'w ScrewLine<'a>>>>,
}

impl<'w, 'a> Room<'w, 'a> {
    fn of(work: &'w Workings<'a>) -> Self {
        let board = |part: &Part| Board { around: block(&part.cuboid()), left: OnceCell::new() };
        let boards: Vec<Board> = work.parts.all.iter().map(board).collect();
        let (mut cases, mut first) = (Vec::new(), 0);
        for own in work.parts.all.chunk_by(|one, other| one.case == other.case) {
            let ids = first..first + own.len();
            let round = |all: Block, own: &Board| block_round(&all, &own.around);
            let of_case = boards.get(ids.clone()).unwrap_or(&[]);
            let around = of_case.iter().fold(trade::NOWHERE, round);
            first = ids.end;
            cases.push(CaseBoards { ids, around, right: 0.0 });
        }
        cases.sort_by(|one, other| one.around[0][0].total_cmp(&other.around[0][0]));
        let mut right = f64::NEG_INFINITY;
        for own in &mut cases {
            right = right.max(own.around[0][1]);
            own.right = right;
        }
        Self { work, boards, cases, lines: OnceCell::new() }
    }

    /// The joints whose screws no driver gets at when all stands that may stand by then:
    /// an assembly is put together by itself, and what joins two of them, or is screwed
    /// on by itself, may find both cases whole.
    fn shut(&self) -> BTreeSet<usize> {
        let parts = self.work.parts;
        let is_shut = |joint: &Joint| {
            let both = [parts.get(joint.part)?, parts.get(joint.into)?];
            // A filler between two cases is screwed on when both stand, and a kick when
            // all do.
            let of_all = matches!(both[0].role, Role::Batten | Role::Kick);
            let own = both[0].assembly;
            let alone = own == both[1].assembly && !matches!(own, Assembly::Loose(_));
            // A nailer goes in from behind, before the back and the countertop.
            let nailed = both[0].role.is_nailer();
            let closes = |part: &Part| matches!(part.role, Role::Back | Role::Countertop);
            let is_there = |_: PartId, part: &Part| {
                (of_all || both.iter().any(|own| own.case == part.case))
                    && !(nailed && closes(part))
                    && (!alone || part.assembly == own)
            };
            self.stopped(joint, &is_there)
        };
        let screwed = parts.joints.iter().enumerate().filter(|(_, joint)| is_screwed(joint.sort));
        screwed.filter(|(_, joint)| is_shut(joint).is_some()).map(|(index, _)| index).collect()
    }

    /// The boards that a box meets, in their order.
    fn within(&self, reach: &Block) -> Vec<PartId> {
        let [from, to] = reach[0];
        let first = self.cases.partition_point(|own| own.right <= from);
        let cases = self.cases.get(first..).unwrap_or(&[]).iter();
        let cases = cases.take_while(|own| own.around[0][0] < to);
        let cases = cases.filter(|own| blocks_meet(reach, &own.around));
        let meets =
            |id: &usize| self.boards.get(*id).is_some_and(|own| blocks_meet(reach, &own.around));
        let mut found: Vec<usize> = cases.flat_map(|own| own.ids.clone()).filter(meets).collect();
        found.sort_unstable();
        found.into_iter().map(PartId).collect()
    }

    /// What is left of a board between its notches.
    fn left(&self, id: PartId, part: &Part) -> &[Block] {
        let board = self.boards.get(id.0);
        board.map_or(&[], |own| own.left.get_or_init(|| blocks(part)).as_slice())
    }

    /// The board of those that are there that is in the way of the screws of a joint, from
    /// each side that they can be driven from.
    fn stopped(&self, joint: &Joint, is_there: There<'_>) -> Option<&'a Part> {
        let parts = self.work.parts;
        let both = [parts.get(joint.part)?, parts.get(joint.into)?];
        let [part, into] = both;
        // A drawer is pulled out, and a hand driver gets into its open box.
        if joint.sort == JointSort::FrontFixed && into.role == Role::DrawerFront {
            return None;
        }
        // Screws that stay loose enough for a countertop to slide are turned by hand.
        let from_below = part.role == Role::Countertop;
        // The drill stands over its own board, and in front of the other.
        let (sides, own) = match joint.sort {
            JointSort::Wood(JointKind::Pocket) => {
                let into = &self.boards.get(joint.into.0)?.around;
                (vec![fixed(pocketed(part, into))], vec![joint.part])
            }
            // A front is screwed on from behind, and only there.
            JointSort::FrontFixed => (vec![self.struck(both)], vec![joint.part, joint.into]),
            // What is planted has its screws on their lines, or nails.
            JointSort::Planted => {
                let struck = self.struck(both);
                if struck.is_empty() {
                    return None;
                }
                (vec![struck], vec![joint.part, joint.into])
            }
            // A countertop is seen from above.
            _ if from_below => (vec![self.rows_up(joint, into)], vec![joint.part, joint.into]),
            _ => {
                let ways = through(&part.cuboid(), &into.cuboid());
                (ways.into_iter().map(fixed).collect(), vec![joint.part, joint.into])
            }
        };
        let stands = |sides: &[Side]| -> Option<&'a Part> {
            let screws = || sides.iter().flatten().flatten();
            // Nearly all boards stand where no driver of these screws reaches, and at nearly
            // all screws none stands where a drill goes.
            let reach = screws().map(ScrewWay::reach).reduce(|all, own| block_round(&all, &own))?;
            let near = self.within(&reach).into_iter().filter_map(|id| Some((id, parts.get(id)?)));
            let others: Vec<(PartId, &Part)> = near
                .filter(|(id, other)| !own.contains(id) && is_there(*id, other))
                .filter(|(_, other)| !self.opens(other, both))
                .collect();
            let drills: Vec<Block> = screws().map(ScrewWay::drill).collect();
            let is_drilled = |(id, _): &(PartId, &Part)| {
                let around = self.boards.get(id.0).map(|own| own.around);
                around.is_some_and(|own| drills.iter().any(|drill| blocks_meet(&own, drill)))
            };
            if !others.iter().any(is_drilled) {
                return None;
            }
            let others = others
                .into_iter()
                .flat_map(|(id, other)| self.left(id, other).iter().map(move |own| (other, *own)));
            let (others, blocks): (Vec<&Part>, Vec<Block>) = others.unzip();
            let stops = |screw: &ScrewWay| match from_below {
                true => screw.stopped_by_hand(&blocks),
                false => screw.stopped(&blocks),
            };
            let stopped = |places: &Vec<ScrewWay>| {
                let stops: Option<Vec<usize>> = places.iter().map(stops).collect();
                stops?.first().copied()
            };
            let first = |screws: &Side| screws.iter().find_map(stopped);
            let sides = sides.iter().filter(|screws| !screws.is_empty());
            let stops: Option<Vec<usize>> = sides.map(first).collect();
            others.get(*stops?.first()?).copied()
        };
        let found = stands(&sides)?;
        if from_below || matches!(joint.sort, JointSort::FrontFixed | JointSort::Planted) {
            return Some(found);
        }
        // On their printed lines all of them may be in reach, and else what stands there is
        // in the way.
        let struck = match parts.stacks(joint) {
            true => self.rows_down(joint, part),
            false => self.struck(both),
        };
        if struck.is_empty() { Some(found) } else { stands(&[struck]) }
    }

    /// The printed lines of screws of a case.
    fn lines(&self, case: CaseId) -> impl Iterator<Item = &'w ScrewLine<'a>> {
        let lines = self.lines.get_or_init(|| {
            let mut lines: BTreeMap<CaseId, Vec<&ScrewLine<'a>>> = BTreeMap::new();
            for line in self.work.fastened().fastenings.iter().flat_map(|own| &own.lines) {
                let (one, other) = (line.through.case, line.into.case);
                lines.entry(one).or_default().push(line);
                if other != one {
                    lines.entry(other).or_default().push(line);
                }
            }
            lines
        });
        lines.get(&case).into_iter().flatten().copied()
    }

    /// The screws of the printed lines between two boards, each with the places that it may
    /// be moved to.
    fn struck(&self, both: [&Part; 2]) -> Side {
        let is_one = |own: &Part| both.iter().any(|part| std::ptr::eq(*part, own));
        let lines = self.lines(both[0].case);
        lines.filter(|line| is_one(line.through) && is_one(line.into)).flat_map(places).collect()
    }

    /// The screws up through a board into the countertop on it, in round holes and in slots.
    fn rows_up(&self, joint: &Joint, board: &Part) -> Side {
        let Workings { piece, parts, .. } = *self.work;
        let Some(top) = piece.top_over(board.case) else { return Vec::new() };
        let rows = screw_rows(piece, top, &parts.under(top)).into_iter();
        let rows = rows.filter(|row| row.board == joint.into);
        let under = board.cuboid().from.y;
        let screws = rows.flat_map(|row| square_in_row(row.screws, (under, row.z), false));
        fixed(screws.collect())
    }

    /// The screws down through the bottom of a case that stands on another: those in slots
    /// are on no printed line.
    fn rows_down(&self, joint: &Joint, bottom: &Part) -> Side {
        let Workings { piece, parts, .. } = *self.work;
        let Some(case) = piece.case(bottom.case) else { return Vec::new() };
        let rows = stack_rows(piece, parts, case).into_iter();
        let rows = rows.filter(|row| row.into == joint.into);
        let up = bottom.cuboid().to.y;
        let screws = rows.flat_map(|row| square_in_row(row.screws, (up, row.z), true));
        fixed(screws.collect())
    }

    /// True for a door, which stands open, and for a drawer, which is pulled out, unless
    /// the screws are its own.
    fn opens(&self, other: &Part, own: [&Part; 2]) -> bool {
        let opens = match other.assembly {
            Assembly::DrawerBox(_) => true,
            Assembly::Front(id) => {
                let opening = self.work.piece.opening(id.opening);
                opening.is_some_and(|opening| !matches!(opening.kind, OpeningKind::False))
            }
            Assembly::Carcass(_)
            | Assembly::Frame(_)
            | Assembly::Base(_)
            | Assembly::Countertop(_)
            | Assembly::Filler(..)
            | Assembly::Loose(_) => false,
        };
        opens && own.iter().all(|part| part.assembly != other.assembly)
    }
}

/// True for a joint that a driver closes.
fn is_screwed(sort: JointSort) -> bool {
    match sort {
        JointSort::Wood(JointKind::Pocket | JointKind::Screw)
        | JointSort::FrontFixed
        | JointSort::Planted => true,
        JointSort::Wood(
            JointKind::Dado
            | JointKind::Rabbet
            | JointKind::Dowel
            | JointKind::Dovetail
            | JointKind::Tenon
            | JointKind::Butt,
        )
        | JointSort::Miter
        | JointSort::Floating
        | JointSort::Glazed
        | JointSort::Pinned
        | JointSort::Hung
        | JointSort::Slid
        | JointSort::Laid => false,
    }
}

/// The pocket screws of a board that go into another, by the pockets next to it.
fn pocketed(part: &Part, into: &Block) -> Vec<ScrewWay> {
    const NEAR: f64 = 2.0;
    let near = |feature: &&Feature| {
        let hollow = block(&part.hollow(feature, feature.v));
        let mut axes = into.iter().zip(hollow);
        axes.all(|(host, own)| own[0] - NEAR < host[1] && host[0] < own[1] + NEAR)
    };
    let pockets = part.features.iter().filter(|own| matches!(own.kind, FeatureKind::Pockets(..)));
    let screws = pockets.filter(near).flat_map(|feature| {
        let FeatureKind::Pockets(count, _) = feature.kind else { return Vec::new() };
        let (place, space) = (&part.placement, part.cuboid());
        let (run, across, out) = (place.length, place.width, place.direction(feature.face));
        let at_start = feature.u.0.is_zero();
        let side = |axis: Direction, start: bool| match start {
            true => space.from.along(axis),
            false => space.to.along(axis),
        };
        let face_at_start = feature.face.is_start();
        let screw = |at: Length| {
            let end = Direction::ALL.map(|axis| match axis {
                own if own == run => side(run, at_start),
                own if own == out => side(out, face_at_start),
                _ => space.from.along(across) + at,
            });
            let (along, away) = ((run.index(), at_start), (out.index(), !face_at_start));
            ScrewWay::pocket(end, along, away, part.thickness.length)
        };
        feature.pocket_places(count).into_iter().map(screw).collect()
    });
    screws.collect()
}

/// The screws square through one board into another: near both ends of where they meet
/// and in the middle, through either of them that is no thicker than a screw is long.
fn through(part: &Cuboid, into: &Cuboid) -> Vec<Vec<ScrewWay>> {
    let overlaps = Direction::ALL.map(|axis| part.overlap_along(into, axis));
    let shared = |axis: Direction| overlaps[axis.index()];
    let from = |axis: Direction| part.from.along(axis).max(into.from.along(axis));
    let middle = |axis: Direction| from(axis) + shared(axis).half();
    let Some(axis) = Direction::ALL.into_iter().min_by_key(|axis| shared(*axis)) else {
        return Vec::new();
    };
    let others = Direction::ALL.into_iter().filter(|other| *other != axis);
    if !others.clone().all(|other| shared(other).is_positive()) {
        return Vec::new();
    }
    let Some(long) = others.max_by_key(|other| shared(*other)) else { return Vec::new() };
    let way = |passed: &Cuboid, other: &Cuboid| {
        let center = |own: &Cuboid| own.from.along(axis) + own.to.along(axis);
        let to_end = center(other) < center(passed);
        let screw = |tenths: i64| {
            let at = Direction::ALL.map(|own| match own {
                own if own == axis && to_end => passed.to.along(axis),
                own if own == axis => passed.from.along(axis),
                own if own == long => from(long) + shared(long) * tenths / 10,
                _ => middle(own),
            });
            ScrewWay::square(at, (axis.index(), to_end), long.index())
        };
        [1, 5, 9].map(screw).to_vec()
    };
    let most = trade::screwed_through();
    let both = [(into, part), (part, into)].into_iter();
    both.filter(|(passed, _)| passed.size(axis) <= most)
        .map(|(passed, other)| way(passed, other))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::model::MemoryFiles;
    use crate::pipeline;

    /// The findings where the drawer over the screwed partition is so high.
    fn found(high: &str, joint: &str) -> Vec<String> {
        let text = RULE.example.broken();
        let text = text.replace("high 3-1/2", &format!("high {high}"));
        let text = text.replace("joint screw", joint);
        let files = MemoryFiles::one("a.case", &text);
        let compiled = pipeline::check(&files, "a.case").expect("readable");
        compiled.diagnostics.iter().map(|own| format!("{}: {}", own.slug, own.title)).collect()
    }

    /// Worked by hand. The shelf lies level with the upper edge of its rail, and the
    /// stretchers 23/32 under the top of a rail of 1-1/2: over the shelf the drawer's
    /// height and 25/32 are free. A right-angle driver takes 140 mm, 5.51 in: under a
    /// drawer of 4-3/4 it has 5.53, and under one of 4-5/8 it has 5.41. A dowel needs none.
    #[test]
    fn a_driver_needs_its_room_over_a_shelf() {
        assert_eq!(found("4-3/4", "joint screw"), Vec::<String>::new());
        let low = found("4-5/8", "joint screw");
        let title = "driver-reach: no driver gets at the screws of cupboard.partition-left-right in cupboard.shelf-upper-left";
        assert_eq!(low, [title]);
        assert_eq!(found("3-1/2", "joint dowel"), Vec::<String>::new());
    }
}
