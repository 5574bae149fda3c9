//! Parts brought together: each comes straight in along its side and hits
//! nothing, and every joint that is closed has both its halves there.

use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use super::board::{Board, Sort, whole};
use super::body::Body;
use super::packet::{Joint, JointKind, Leg, Packet, Side};
use super::solid::bodies;
use super::wood::{Space, common};

/// How far the two halves of a joint may be apart that only hangs or lies: a
/// hinge, a shelf pin, a slide with its packer (common practice, no source).
const HANGS: f64 = 30.0;
const LIES: f64 = 10.0;
const SLIDES: f64 = 100.0;

/// Who is fixed to whom.
#[derive(Debug)]
pub(super) struct Fixed {
    root: Vec<usize>,
}

impl Fixed {
    pub(super) fn new(count: usize) -> Self {
        Self { root: (0..count).collect() }
    }

    pub(super) fn join(&mut self, one: usize, other: usize) {
        let (from, to) = (self.root[one], self.root[other]);
        for root in &mut self.root {
            if *root == from {
                *root = to;
            }
        }
    }

    pub(super) fn are(&self, one: usize, other: usize) -> bool {
        self.root[one] == self.root[other]
    }

    /// All that moves along with these.
    pub(super) fn with(&self, parts: &[usize]) -> BTreeSet<usize> {
        let moved = |other: &usize| parts.iter().any(|part| self.are(*part, *other));
        (0..self.root.len()).filter(moved).collect()
    }
}

/// The room over which parts come together.
pub(super) struct Room<'a, 'p> {
    pub(super) packet: &'p Packet,
    pub(super) boards: &'a [Board<'p>],
    /// As much as the places of two joints may be off.
    pub(super) tolerance: f64,
    bodies: BTreeMap<usize, Rc<[Body]>>,
}

impl<'a, 'p> Room<'a, 'p> {
    pub(super) fn new(packet: &'p Packet, boards: &'a [Board<'p>], tolerance: f64) -> Self {
        Self { packet, boards, tolerance, bodies: BTreeMap::new() }
    }

    fn bodies(&mut self, part: usize) -> Rc<[Body]> {
        let boards = self.boards;
        Rc::clone(self.bodies.entry(part).or_insert_with(|| bodies(&boards[part], None).into()))
    }

    /// The part of two that has the dovetails by which they lie in each other,
    /// and its box.
    fn dovetailed(&self, one: usize, other: usize) -> Option<(usize, Space)> {
        let joined = self.packet.joints.iter().any(|joint| {
            let pair = [&joint.part, &joint.into];
            let marks = [one, other].map(|part| &self.boards[part].part.mark);
            joint.kind == JointKind::Dovetails && (pair == marks || pair == [marks[1], marks[0]])
        });
        if !joined {
            return None;
        }
        [(one, other), (other, one)].into_iter().find_map(|(own, guest)| {
            let there = self.boards[guest].placed(&whole(self.boards[guest].exact));
            let cut = self.boards[own].cuts.iter().find(|cut| {
                cut.sort == Sort::Dovetails
                    && common(&self.boards[own].placed(&cut.space), &there).is_some()
            })?;
            Some((own, cut.space))
        })
    }

    /// What one part hits of another, as it comes in by its legs or, with none,
    /// where it stands.
    pub(super) fn hit(&mut self, moved: usize, fixed: usize, legs: &[Leg]) -> Option<String> {
        // Mostly the one is nowhere near the other.
        let [all, there] = [moved, fixed].map(|part| {
            let board = &self.boards[part];
            Body::new(&board.placed(&whole(board.exact)))
        });
        let ways = if legs.is_empty() { vec![all] } else { swept(&all, legs) };
        if !ways.iter().any(|way| way.hits(&there, self.tolerance)) {
            return None;
        }
        let [own, other] = [moved, fixed].map(|part| self.bodies(part));
        let hits = match self.dovetailed(moved, fixed) {
            None => self.meet(&own, &other, legs),
            Some((part, space)) => {
                let board = &self.boards[part];
                // Whatever way it took until then.
                if legs.last().is_some_and(|leg| leg.from.axis() != board.along(2)) {
                    return Some(format!("the dovetails of {} hold it back", board.part.mark));
                }
                let guest = &self.boards[if part == moved { fixed } else { moved }];
                // Where tails and pins are, they lie in each other and pass
                // nothing but each other.
                let socket = bodies(board, Some(&space));
                let beyond = bodies(guest, Some(&guest.own(&board.placed(&space))));
                match part == moved {
                    true => self.meet(&socket, &other, legs) || self.meet(&own, &beyond, legs),
                    false => self.meet(&own, &socket, legs) || self.meet(&beyond, &other, legs),
                }
            }
        };
        hits.then(|| format!("it hits {}", self.boards[fixed].name()))
    }

    fn meet(&self, moved: &[Body], fixed: &[Body], legs: &[Leg]) -> bool {
        let hits = |one: &Body| fixed.iter().any(|two| one.hits(two, self.tolerance));
        match legs.is_empty() {
            true => moved.iter().any(hits),
            false => moved.iter().flat_map(|body| swept(body, legs)).any(|body| hits(&body)),
        }
    }

    /// What keeps a shelf from being tilted in: it goes through the opening in
    /// front of it, or behind, with one end up, and must then come level between
    /// its boards.
    pub(super) fn stuck(&self, shelf: usize, there: &[usize], from: Side) -> Option<String> {
        let board = &self.boards[shelf];
        let own = board.placed(&whole(board.exact));
        let middle = own.map(|range| f64::midpoint(range[0], range[1]));
        let others: Vec<Space> = there
            .iter()
            .map(|part| self.boards[*part].placed(&whole(self.boards[*part].exact)))
            .collect();
        // From a point to what stands nearest, along one axis.
        let clear = |point: [f64; 2], axis: usize, among: &dyn Fn(&Space) -> bool| {
            let beside = |other: &&Space| {
                let across = 1 - axis;
                among(other) && other[across][0] < point[across] && point[across] < other[across][1]
            };
            let beside: Vec<&Space> = others.iter().filter(beside).collect();
            let before = beside.iter().filter(|other| other[axis][1] <= point[axis]);
            let behind = beside.iter().filter(|other| other[axis][0] >= point[axis]);
            let from = before.map(|other| other[axis][1]).fold(f64::MIN, f64::max);
            behind.map(|other| other[axis][0]).fold(f64::MAX, f64::min) - from
        };
        let on_way = |other: &Space| match from {
            Side::Front => other[2][0] < own[2][0],
            Side::Back => own[2][1] < other[2][1],
            Side::Left | Side::Right | Side::Below | Side::Above => true,
        };
        let covers = |point: [f64; 2], other: &Space| {
            on_way(other)
                && (0..2).all(|axis| other[axis][0] < point[axis] && point[axis] < other[axis][1])
        };
        // A shelf may lie behind several openings; it goes in through any.
        let mut edges: Vec<f64> =
            others.iter().filter(|other| on_way(other)).flat_map(|other| other[0]).collect();
        edges.extend(own[0]);
        edges.retain(|edge| own[0][0] <= *edge && *edge <= own[0][1]);
        edges.sort_by(f64::total_cmp);
        let openings: Vec<[f64; 2]> = edges
            .windows(2)
            .map(|pair| [f64::midpoint(pair[0], pair[1]), middle[1]])
            .filter(|point| !others.iter().any(|other| covers(*point, other)))
            .collect();
        if openings.is_empty() {
            return Some("there is no opening to tilt it through".to_owned());
        }
        // What it only touches, such as a frame that has swollen, is not beside it.
        let touch = self.tolerance;
        let level_with =
            |other: &Space| other[2][0] + touch < own[2][1] && own[2][0] + touch < other[2][1];
        // Once in, it lies between what is joined there, still with one end up.
        let is_loose = |mark: &str| {
            let mut joints = self.packet.joints.iter();
            joints.any(|joint| joint.kind == JointKind::Laid && joint.part == mark)
        };
        let fixed: Vec<Space> = there
            .iter()
            .zip(&others)
            .filter(|(part, other)| !is_loose(&self.boards[**part].part.mark) && level_with(other))
            .map(|(_, other)| *other)
            .collect();
        let room = fixed.iter().filter(|other| other[0][0] < middle[0] && middle[0] < other[0][1]);
        let above = room.clone().filter(|other| other[1][0] >= middle[1]);
        let below = room.filter(|other| other[1][1] <= middle[1]);
        let room = above.map(|other| other[1][0]).fold(f64::MAX, f64::min)
            - below.map(|other| other[1][1]).fold(f64::MIN, f64::max);
        let [long, thick] = [0, 1].map(|axis| own[axis][1] - own[axis][0]);
        let passes = openings.into_iter().any(|point| {
            let (wide, high) = (clear(point, 0, &on_way), clear(point, 1, &on_way).min(room));
            // In fiftieths of a degree: a shelf may pass by a hair at one angle alone.
            (0..=4500).map(|turned| (f64::from(turned) / 50.0).to_radians()).any(|turned| {
                long * turned.cos() + thick * turned.sin() <= wide + self.tolerance
                    && long * turned.sin() + thick * turned.cos() <= high + self.tolerance
            })
        });
        if !passes {
            return Some("it can't be tilted through its opening".to_owned());
        }
        let turns = long.hypot(thick) <= clear([middle[0], middle[1]], 0, &level_with);
        (!turns).then(|| "it can't be turned level between its boards".to_owned())
    }

    /// What keeps the two halves of a joint from meeting.
    pub(super) fn parted(&mut self, joint: &Joint, part: usize, into: usize) -> Option<String> {
        let mm = |millimeters| self.packet.job.unit.mm(millimeters);
        let reach = match joint.kind {
            JointKind::Hung => mm(HANGS),
            // A false front is held by blocks across its gap.
            JointKind::Laid | JointKind::FrontFixed => mm(LIES),
            JointKind::Slid => mm(SLIDES),
            JointKind::Dado
            | JointKind::Rabbet
            | JointKind::PocketScrews
            | JointKind::Screws
            | JointKind::Dowels
            | JointKind::Tenon
            | JointKind::Dovetails
            | JointKind::Butt
            | JointKind::Miter
            | JointKind::Floating
            | JointKind::Glazed
            | JointKind::Pinned
            | JointKind::Planted => self.tolerance,
        };
        // Two halves that meet cover each other by more than a line.
        let cover = mm(1.0);
        let (own, other) = (self.bodies(part), self.bodies(into));
        let meets = own.iter().any(|one| {
            other.iter().any(|two| {
                let mut over = [0, 1, 2].map(|axis| {
                    let (one, two) = (one.extent(axis), two.extent(axis));
                    one[1].min(two[1]) - one[0].max(two[0])
                });
                over.sort_by(f64::total_cmp);
                over[0] >= -reach && over[1] > cover
            })
        });
        (!meets).then(|| {
            format!("{} doesn't meet {}", self.boards[part].name(), self.boards[into].name())
        })
    }
}

/// Farther than any part is moved.
const AWAY: f64 = 1e5;

/// What a body passes through, leg by leg. The last leg ends in place, each one
/// before it where the next one starts; the first starts outside.
fn swept(body: &Body, legs: &[Leg]) -> Vec<Body> {
    let mut end = [0.0; 3];
    let mut all = Vec::new();
    for (number, leg) in legs.iter().enumerate().rev() {
        let by = leg.by.filter(|_| number > 0).map_or(AWAY, |by| by.exact);
        let start = leg.from.out(by);
        all.push(body.moved(end).swept(start));
        for (end, start) in end.iter_mut().zip(start) {
            *end += start;
        }
    }
    all
}
