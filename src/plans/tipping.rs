//! What tips a case forward: every drawer out and full, every door open.
//!
//! Cases that are screwed to each other or stand on each other, or that share a base or
//! a countertop, tip as one; every other case is judged by itself.
//! Drawers are out by the whole length of their slides and hold their load;
//! doors stand square to the front; the case itself is empty. A hand or foot
//! on an open drawer and what stands on top are not counted.

use std::collections::BTreeMap;

use crate::measure::{Exact, Length, Mass, Moment};
use crate::model::{Case, CaseId, FrontId, OpeningKind, Piece};
use crate::parts::{Assembly, FeatureKind, Part, Parts, Role};

use super::Workings;
use super::beside;
use super::on_legs::front_of_feet;
use super::weights::{Body, Lifted, Weights};

/// A group of weights that stand together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// The case itself with its base, and with its countertop and what else goes on where it
    /// stands, unless that comes after its wall screws.
    Case,
    /// So many drawers, out.
    Drawers(usize),
    /// What they hold.
    Contents,
    /// So many door leaves, open.
    Doors(usize),
}

/// A weight and its arm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pull {
    /// What it is.
    pub what: What,
    /// Its weight.
    pub mass: Mass,
    /// How far behind the edge it balances; below nought before it.
    pub arm: Length,
    /// What it does about the edge; below nought where it pulls forward.
    pub moment: Moment,
}

/// A case, or several that tip as one, on its front edge.
#[derive(Clone, Debug, PartialEq)]
pub struct Tipping {
    /// The cases, left to right.
    pub cases: Vec<CaseId>,
    /// From the foremost face of the piece back to the front edge of what the
    /// case stands on.
    pub edge: Length,
    /// From the foremost face of the deepest case back to that edge.
    pub behind: Length,
    /// What holds it back.
    pub holds: Vec<Pull>,
    /// What pulls it over, as moments above nought.
    pub pulls: Vec<Pull>,
}

impl Tipping {
    /// What holds back and what pulls over, added up.
    #[must_use]
    pub fn moments(&self) -> (Moment, Moment) {
        let sum = |pulls: &[Pull]| Moment(pulls.iter().map(|pull| pull.moment.0).sum());
        (sum(&self.holds), sum(&self.pulls))
    }

    /// True where something opens, and so may tip it.
    #[must_use]
    pub fn opens(&self) -> bool {
        self.pulls.iter().any(|pull| matches!(pull.what, What::Drawers(_) | What::Doors(_)))
    }

    /// What its drawers hold when they are full; `None` where it has none.
    #[must_use]
    pub fn load(&self) -> Option<Mass> {
        let all = self.pulls.iter().chain(&self.holds);
        let held = all.filter(|pull| pull.what == What::Contents).map(|pull| pull.mass.0);
        held.reduce(|one, other| one + other).map(Mass)
    }

    /// True where it goes over.
    #[must_use]
    pub fn tips(&self) -> bool {
        let (holds, pulls) = self.moments();
        pulls > holds
    }
}

/// Every case on its front edge; one that stands on nothing is left out.
pub(super) fn plan(work: &Workings<'_>) -> Vec<Tipping> {
    let (piece, parts, weights) = (work.piece, work.parts, work.weights());
    let mut all = Vec::new();
    // All backs stand at one wall: a shallower case begins further back.
    let wall = piece.wall();
    for cases in bodies(piece, parts) {
        let own = || cases.iter().flat_map(|case| parts.of_case(case.id));
        let deepest = cases.iter().map(|case| case.deep.length).max();
        let feet = cases.iter().filter_map(|case| front_of_feet(piece, parts, case));
        let stands = own().filter_map(|part| stands_from(piece, part)).chain(feet).min();
        if let (Some(edge), Some(deep)) = (stands, deepest) {
            let behind = edge - (wall - deep);
            let own: Vec<&Part> = own().collect();
            let (holds, pulls) = of_body(piece, &cases, &own, edge, weights);
            let cases = cases.iter().map(|case| case.id).collect();
            all.push(Tipping { cases, edge, behind, holds, pulls });
        }
    }
    all
}

/// The cases that tip as one: they are screwed to each other, or lie under one countertop,
/// or stand on one base or on each other.
fn bodies<'p>(piece: &'p Piece, parts: &Parts) -> Vec<Vec<&'p Case>> {
    let tied: Vec<[CaseId; 2]> = beside::pairs(piece, parts).iter().map(|own| own.cases).collect();
    let mut bodies: Vec<Vec<&Case>> = Vec::new();
    for case in &piece.cases {
        let joined = |left: &&Case| {
            let based = piece.base_row(case.id).is_some_and(|row| row.has(left.id));
            // One that is screwed to the wall gets its countertop after that.
            let topped =
                !piece.site.fixed && piece.top_over(case.id).is_some_and(|top| top.has(left.id));
            based || topped || tied.contains(&[left.id, case.id])
        };
        if !case.is_in_row() {
            continue;
        }
        match bodies.last_mut().filter(|body| body.last().is_some_and(joined)) {
            Some(body) => body.push(case),
            None => bodies.push(vec![case]),
        }
    }
    // What stands on a case goes over with it.
    for (upper, _) in piece.stacked() {
        let below: Vec<CaseId> = piece.cases_below(upper).map(|case| case.id).collect();
        let carries = |body: &&mut Vec<&Case>| body.iter().any(|case| below.contains(&case.id));
        if let Some(body) = bodies.iter_mut().find(carries) {
            body.push(upper);
        }
    }
    bodies
}

/// Where what a part stands on begins; `None` for one that is off the floor. A
/// notch for the toe space takes the front of an end off the floor.
fn stands_from(piece: &Piece, part: &Part) -> Option<Length> {
    let space = part.cuboid();
    // A cover is scribed to the floor and carries nothing. A kick carries something once it
    // is on; on a case that is screwed to the wall it comes after the screws, and until then
    // the case stands on what is behind it.
    let is_off = part.role == Role::Cover || (part.role == Role::Kick && piece.site.fixed);
    if !space.from.y.is_zero() || is_off {
        return None;
    }
    let notch = part.features.iter().find(|feature| {
        matches!(part.role, Role::End(_))
            && feature.kind == FeatureKind::Notch
            && feature.u.0.is_zero()
            && feature.v.0.is_zero()
    });
    Some(space.from.z + notch.map_or(Length::ZERO, |notch| notch.v.1))
}

fn of_body(
    piece: &Piece,
    cases: &[&Case],
    own: &[&Part],
    edge: Length,
    weights: &Weights,
) -> (Vec<Pull>, Vec<Pull>) {
    let about = edge.to_mm_f64();
    // The front face of every leaf, the front of every drawer box.
    let mut faces: BTreeMap<Assembly, Length> = BTreeMap::new();
    for part in own {
        if matches!(part.assembly, Assembly::Front(_) | Assembly::DrawerBox(_)) {
            let z = part.placement.origin.z;
            faces.entry(part.assembly).and_modify(|least| *least = z.min(*least)).or_insert(z);
        }
    }
    let of = |lifted: &Lifted| weights.of(lifted);
    let mut own: Vec<fn(CaseId) -> Lifted> = vec![Lifted::Case, Lifted::Shelves, Lifted::Base];
    // On a case that is screwed to the wall these come after its screws, and until then it
    // may go over.
    if !piece.site.fixed {
        own.extend([Lifted::Covers as fn(CaseId) -> Lifted, Lifted::Countertop]);
    }
    let own = cases.iter().flat_map(|case| own.iter().map(|lifted| lifted(case.id)));
    let stands = own.fold(Body::default(), |sum, lifted| sum.with(of(&lifted)));
    let (mut drawers, mut contents, mut doors) =
        (Body::default(), Body::default(), Body::default());
    let (mut drawer_count, mut door_count) = (0, 0);
    for (case, opening) in
        cases.iter().flat_map(|case| case.openings.iter().map(move |own| (*case, own)))
    {
        match opening.kind {
            // A tray behind doors has no front, and slides out all the same.
            OpeningKind::Drawer { .. } => {
                let (Some(own), Some(face)) =
                    (piece.drawer_box(case, opening), faces.get(&Assembly::DrawerBox(opening.id)))
                else {
                    continue;
                };
                let travel = own.deep.length.to_mm_f64();
                let drawer = of(&Lifted::Drawer(opening.id));
                drawers = drawers.with(drawer.moved(-travel));
                // Its contents lie in its middle, which is half its length out.
                let middle = face.to_mm_f64() - travel / 2.0;
                let held = grams(super::drawers::contents(piece, case, opening));
                contents = contents.with(Body::at(held, [0.0, 0.0, middle]));
                drawer_count += 1;
            }
            _ if opening.is_door() => {
                let Some(fronts) = &opening.front else { continue };
                let half = opening.leaf(fronts).0.length.half().to_mm_f64();
                for leaf in opening.leaves() {
                    let front = FrontId { opening: opening.id, leaf: *leaf };
                    let Some(face) = faces.get(&Assembly::Front(front)) else { continue };
                    let door = of(&Lifted::Door(front));
                    let Some([.., closed]) = door.center() else { continue };
                    doors = doors.with(door.moved(face.to_mm_f64() - half - closed));
                    door_count += 1;
                }
            }
            _ => {}
        }
    }
    let (mut holds, mut pulls) = (Vec::new(), Vec::new());
    for (what, body) in [
        (What::Case, stands),
        (What::Drawers(drawer_count), drawers),
        (What::Contents, contents),
        (What::Doors(door_count), doors),
    ] {
        let Some([.., z]) = body.center() else { continue };
        let turns = body.about(about);
        let pull = Pull {
            what,
            mass: body.mass(),
            arm: Length::mm(1) * Exact::ratio(((z - about) * 10.0).round() as i64, 10),
            moment: Moment(Exact::ratio(turns.abs().round() as i64, 1_000_000)),
        };
        if turns < 0.0 { pulls.push(pull) } else { holds.push(pull) }
    }
    (holds, pulls)
}

fn grams(mass: Mass) -> i64 {
    (mass.0 * Exact::int(1000)).round()
}
