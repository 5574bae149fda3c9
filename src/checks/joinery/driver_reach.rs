//! A screw that no driver gets at when it is to be driven.

use std::collections::BTreeSet;

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink};
use crate::measure::Length;
use crate::model::{CaseId, JointKind, OpeningKind};
use crate::parts::{
    Assembly, Cuboid, Direction, Feature, FeatureKind, Joint, JointSort, Part, PartId, Role,
};
use crate::plans::Workings;
use crate::plans::operations::{Doing, Move};
use crate::trade::{self, Block, ScrewWay};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "driver-reach",
    severity: Severity::Warning,
    finds: "In the step of the assembly order that drives a screw, a board stands where its driver must go.",
    why: "The glue is on and the clamps wait, and the screw can't be driven. A low or narrow opening leaves no room behind a pocket hole, and two boards that meet one upright at one height from both sides shut each other's screws in.",
    source: "A drill with a long bit takes 14 in (350 mm) behind the screw and is 2-1/2 in (64 mm) thick. A right-angle driver takes 5-1/2 in (140 mm), and its arm of 8 in (200 mm) goes to any side. Pocket screws lean 15 degrees. All of it is common practice, no source.",
    formula: "The drill, and then the right-angle driver with its arm to each of four sides, is laid along the axis of each screw, among the boards that are there by then. Screws square through a board may be driven from either side, through up to 2 in (50 mm).",
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
        for joint in joints {
            let there = there(moves, joint);
            if let Some(stands) = room.stopped(joint, there.iter().copied(), |_| true) {
                sink.push(report(work, joint, stands, step));
            }
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

/// The boards of a piece as boxes.
struct Room<'w, 'a> {
    work: &'w Workings<'a>,
    blocks: Vec<Block>,
}

impl<'w, 'a> Room<'w, 'a> {
    fn of(work: &'w Workings<'a>) -> Self {
        let blocks = work.parts.all.iter().map(|part| block(&part.cuboid())).collect();
        Self { work, blocks }
    }

    /// The joints whose screws no driver gets at when all stands that may stand by then:
    /// an assembly is put together by itself, and what joins two of them, or is screwed
    /// on by itself, may find both cases whole.
    fn shut(&self) -> BTreeSet<usize> {
        let parts = self.work.parts;
        let is_shut = |joint: &Joint| {
            let both = [parts.get(joint.part)?, parts.get(joint.into)?];
            let mut cases = both.map(|part| part.case);
            cases.sort_unstable();
            let own = if cases[0] == cases[1] { &cases[..1] } else { &cases[..] };
            let every: Vec<CaseId>;
            let cases = match both[0].role {
                // A filler between two cases is screwed on when both stand.
                Role::Batten => {
                    every = self.work.piece.cases.iter().map(|case| case.id).collect();
                    &every
                }
                _ => own,
            };
            let own = both[0].assembly;
            let alone = own == both[1].assembly && !matches!(own, Assembly::Loose(_));
            // A nailer goes in from behind, before the back and the countertop.
            let nailed = both[0].role.is_nailer();
            let closes = |part: &Part| matches!(part.role, Role::Back | Role::Countertop);
            let is_there =
                |part: &Part| !(nailed && closes(part)) && (!alone || part.assembly == own);
            let all = cases.iter().flat_map(|case| parts.iter_case(*case).map(|(id, _)| id));
            self.stopped(joint, all, is_there)
        };
        let screwed = parts.joints.iter().enumerate().filter(|(_, joint)| is_screwed(joint.sort));
        screwed.filter(|(_, joint)| is_shut(joint).is_some()).map(|(index, _)| index).collect()
    }

    fn block(&self, id: PartId) -> Option<&Block> {
        self.blocks.get(id.0)
    }

    /// The board of those of `all` that are there that is in the way of the screws of a
    /// joint, from each side that they can be driven from.
    fn stopped(
        &self,
        joint: &Joint,
        all: impl Iterator<Item = PartId> + Clone,
        is_there: impl Fn(&Part) -> bool,
    ) -> Option<&'a Part> {
        let parts = self.work.parts;
        let (part, into) = (parts.get(joint.part)?, parts.get(joint.into)?);
        // A drawer is pulled out, and a hand driver gets into its open box.
        if joint.sort == JointSort::FrontFixed && into.role == Role::DrawerFront {
            return None;
        }
        let both = [joint.part, joint.into];
        // The drill stands over its own board, and in front of the other.
        let (sides, own) = match joint.sort {
            JointSort::Wood(JointKind::Pocket) => {
                (vec![pocketed(part, self.block(joint.into)?)], &both[..1])
            }
            // A front is screwed on from behind, and only there.
            JointSort::FrontFixed => (vec![self.struck([part, into])], &both[..]),
            _ => (through(&part.cuboid(), &into.cuboid()), &both[..]),
        };
        let stands = |sides: &[Vec<ScrewWay>]| -> Option<&'a Part> {
            // Nearly all boards stand where no driver of these screws reaches.
            let screws = sides.iter().flatten().map(ScrewWay::reach);
            let reach = screws.reduce(|all, own| trade::block_round(&all, &own))?;
            let others = all.clone().filter_map(|id| Some((id, self.block(id)?)));
            let others = others.filter(|(_, block)| trade::blocks_meet(&reach, block));
            let others = others.filter(|(id, _)| !own.contains(id));
            let others = others.filter_map(|(id, block)| Some((parts.get(id)?, *block)));
            let others = others.filter(|(other, _)| is_there(other));
            let others = others.filter(|(other, _)| !self.opens(other, [part, into]));
            let (others, blocks): (Vec<&Part>, Vec<Block>) = others.unzip();
            let first =
                |screws: &Vec<ScrewWay>| screws.iter().find_map(|screw| screw.stopped(&blocks));
            let sides = sides.iter().filter(|screws| !screws.is_empty());
            let stops: Option<Vec<usize>> = sides.map(first).collect();
            others.get(*stops?.first()?).copied()
        };
        let found = stands(&sides)?;
        if joint.sort == JointSort::FrontFixed {
            return Some(found);
        }
        // On their printed lines all of them may be in reach.
        let struck = self.struck([part, into]);
        (struck.is_empty() || stands(&[struck]).is_some()).then_some(found)
    }

    /// The screws of the printed lines between two boards.
    fn struck(&self, both: [&Part; 2]) -> Vec<ScrewWay> {
        let is_one = |own: &Part| both.iter().any(|part| std::ptr::eq(*part, own));
        let lines = self.work.fastened().fastenings.iter().flat_map(|own| &own.lines);
        let own = lines.filter(|line| is_one(line.through) && is_one(line.into));
        let screws = own.flat_map(|line| {
            let place = &line.through.placement;
            let (axis, long) = (place.direction(line.face), place.direction(line.end));
            let to_end = !line.face.is_start();
            line.heads().into_iter().map(move |head| {
                let at = Direction::ALL.map(|own| head.along(own));
                ScrewWay::square(at, (index(axis), to_end), index(long))
            })
        });
        screws.collect()
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
        JointSort::Wood(JointKind::Pocket | JointKind::Screw) | JointSort::FrontFixed => true,
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
        | JointSort::Planted
        | JointSort::Hung
        | JointSort::Slid
        | JointSort::Laid => false,
    }
}

fn block(space: &Cuboid) -> Block {
    trade::block(Direction::ALL.map(|axis| [space.from.along(axis), space.to.along(axis)]))
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
            let (along, away) = ((index(run), at_start), (index(out), !face_at_start));
            ScrewWay::pocket(end, along, away, part.thickness.length)
        };
        feature.pocket_places(count).into_iter().map(screw).collect()
    });
    screws.collect()
}

fn index(direction: Direction) -> usize {
    match direction {
        Direction::X => 0,
        Direction::Y => 1,
        Direction::Z => 2,
    }
}

/// The screws square through one board into another: near both ends of where they meet
/// and in the middle, through either of them that is no thicker than a screw is long.
fn through(part: &Cuboid, into: &Cuboid) -> Vec<Vec<ScrewWay>> {
    let overlaps = Direction::ALL.map(|axis| part.overlap_along(into, axis));
    let shared = |axis: Direction| overlaps[index(axis)];
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
            ScrewWay::square(at, (index(axis), to_end), index(long))
        };
        [1, 5, 9].map(screw).to_vec()
    };
    let most = trade::screwed_through();
    let both = [(into, part), (part, into)].into_iter();
    both.filter(|(passed, _)| passed.size(axis) <= most)
        .map(|(passed, other)| way(passed, other))
        .collect()
}

fn report(work: &Workings<'_>, joint: &Joint, stands: &Part, step: usize) -> Diagnostic {
    let Workings { piece, parts, .. } = *work;
    let path = |id: PartId| parts.get(id).map_or("", |part| part.path.as_str());
    let (part, into, other) = (path(joint.part), path(joint.into), &stands.path);
    let mut found = RULE.finding(
        format!("no driver gets at the screws of {part} in {into}"),
        joint.span,
        "these screws",
    );
    if stands.span != joint.span {
        found = found.label(stands.span, "this board is in the way");
    }
    let mend = match joint.sort {
        JointSort::Wood(JointKind::Pocket) => {
            "make the opening larger, join the board another way, or use a driver that is shorter than 5-1/2 in (140 mm)"
        }
        _ => {
            "move one of the boards, join it another way, or use a driver that is shorter than 5-1/2 in (140 mm)"
        }
    };
    let case = parts.get(joint.part).and_then(|part| piece.case(part.case));
    if let Some(at) = case.and_then(|case| super::screwed_by(case, joint.span)) {
        let fix = Fix::new(
            Grade::Choice,
            "join it with dowels, which ask for no driver",
            at,
            "joint dowel",
        );
        found = found.fix(fix);
    }
    found
        .because(format!("in step {step} of the assembly order {other} is in the way"))
        .note(format!("drive them before {other} goes in, where the order allows it; else {mend}"))
        .subject(part)
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
