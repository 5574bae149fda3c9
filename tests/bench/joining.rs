//! Parts brought together: each comes straight in along its side and hits
//! nothing, and every joint that is closed has both its halves there.

use std::collections::{BTreeMap, BTreeSet};

use super::board::{Board, Sort};
use super::body::Body;
use super::packet::{Joint, JointKind, Leg, Packet};
use super::solid::bodies;
use super::wood::common;

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
    bodies: BTreeMap<usize, Vec<Body>>,
}

impl<'a, 'p> Room<'a, 'p> {
    pub(super) fn new(packet: &'p Packet, boards: &'a [Board<'p>], tolerance: f64) -> Self {
        Self { packet, boards, tolerance, bodies: BTreeMap::new() }
    }

    fn bodies(&mut self, part: usize) -> Vec<Body> {
        let boards = self.boards;
        self.bodies.entry(part).or_insert_with(|| bodies(&boards[part], None)).clone()
    }

    /// The part of two that has the dovetails by which they lie in each other,
    /// and its box.
    fn dovetailed(&self, one: usize, other: usize) -> Option<(usize, super::wood::Space)> {
        let joined = self.packet.joints.iter().any(|joint| {
            let pair = [&joint.part, &joint.into];
            let marks = [one, other].map(|part| &self.boards[part].part.mark);
            joint.kind == JointKind::Dovetails && (pair == marks || pair == [marks[1], marks[0]])
        });
        if !joined {
            return None;
        }
        [(one, other), (other, one)].into_iter().find_map(|(own, guest)| {
            let there = self.boards[guest].placed(&super::board::whole(self.boards[guest].exact));
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
        let tails = self.dovetailed(moved, fixed);
        let mut own = self.bodies(moved);
        let mut other = self.bodies(fixed);
        if let Some((part, space)) = tails {
            let open = bodies(&self.boards[part], Some(&space));
            if part == moved {
                own = open;
            } else {
                other = open;
            }
            let thickness = self.boards[part].along(2);
            // Whatever way it took until then.
            if legs.last().is_some_and(|leg| leg.from.axis() != thickness) {
                return Some(format!(
                    "the dovetails of {} hold it back",
                    self.boards[part].part.mark
                ));
            }
        }
        if !legs.is_empty() {
            own = own.iter().flat_map(|body| swept(body, legs)).collect();
        }
        let hits = own.iter().any(|one| other.iter().any(|two| one.hits(two, self.tolerance)));
        hits.then(|| format!("it hits {}", self.boards[fixed].name()))
    }

    /// What keeps the two halves of a joint from meeting.
    pub(super) fn parted(&mut self, joint: &Joint, part: usize, into: usize) -> Option<String> {
        let mm = |millimeters| self.packet.job.unit.mm(millimeters);
        let reach = match joint.kind {
            JointKind::Hung => mm(HANGS),
            JointKind::Laid => mm(LIES),
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
            | JointKind::Planted
            | JointKind::FrontFixed => self.tolerance,
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
