//! The hardware that a piece takes: how many of each.

use crate::measure::{Length, Unit};
use crate::model::{HingeId, LegId, OpeningKind, Piece, PullId, Slide, SlideId};
use crate::parts::{Assembly, Bore, Cuboid, Direction, FeatureKind, Part, Parts, Role};

/// What is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A hinge.
    Hinge(HingeId),
    /// A pair of slides.
    Slide(SlideId),
    /// A pull.
    Pull(PullId),
    /// A bought leg.
    Leg(LegId),
}

/// So many of one thing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Count {
    /// What.
    pub kind: Kind,
    /// How many; of slides, pairs.
    pub number: u32,
}

/// Every hinge, slide, pull, and bought leg of a piece, counted.
#[must_use]
pub fn count(piece: &Piece) -> Vec<Count> {
    let mut counts: Vec<Count> = Vec::new();
    let mut add = |kind, number| match counts.iter_mut().find(|count| count.kind == kind) {
        Some(count) => count.number += number,
        None => counts.push(Count { kind, number }),
    };
    for opening in piece.cases.iter().flat_map(|case| &case.openings) {
        // Nothing is bought for a drawer on wood.
        if let OpeningKind::Drawer { slide: Some(slide), .. } = opening.kind
            && piece.slide(slide).and_then(Slide::hardware).is_some()
        {
            add(Kind::Slide(slide), 1);
        }
        let Some(front) = &opening.front else { continue };
        if let Some((hinge, _)) = front.hinge.filter(|_| opening.is_door()) {
            add(Kind::Hinge(hinge), piece.hinges_on(opening, front) * opening.leaf_count());
        }
        if let Some(pull) = front.pull {
            let many = if opening.is_door() { 1 } else { front.pull_place.count };
            add(Kind::Pull(pull), opening.leaf_count() * many);
        }
    }
    for legs in piece.cases.iter().filter_map(|case| case.on_legs.as_deref()) {
        add(Kind::Leg(legs.leg), legs.count());
    }
    counts
}

/// The screws of a pull: what they pass through, and how long they must be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PullScrews {
    /// The pull.
    pub pull: PullId,
    /// The thickness of the front at the hole.
    pub front: Length,
    /// From the back of the front at the hole to the box: behind a panel.
    pub hollow: Length,
    /// The thickness of the front of the drawer's box, where the holes go on through one.
    pub box_front: Option<Length>,
    /// How many.
    pub number: u32,
}

impl PullScrews {
    /// Their least length: all they pass through, and 1/4 in or 6 mm of thread in
    /// the pull (common practice, no source).
    #[must_use]
    pub fn length(&self, unit: Unit) -> Length {
        let thread = unit.either(Length::inches(1, 4), Length::mm(6));
        self.front + self.hollow + self.box_front.unwrap_or_default() + thread
    }
}

/// True where a hole of a front goes on through the front of its box, and not past it.
#[must_use]
pub fn goes_through(hole: &Cuboid, box_front: &Part) -> bool {
    let own = box_front.cuboid();
    own.from.x <= hole.from.x
        && hole.to.x <= own.to.x
        && own.from.y <= hole.from.y
        && hole.to.y <= own.to.y
}

/// The holes for a pull in a board of a front, in the piece.
pub fn pull_holes(part: &Part) -> impl Iterator<Item = Cuboid> + '_ {
    let bored = part.features.iter().filter(|own| own.kind == FeatureKind::Bore(Bore::Pull));
    bored.flat_map(|own| part.hollows(own))
}

/// The screws of every pull, those of one length together.
#[must_use]
pub fn pull_screws(piece: &Piece, parts: &Parts) -> Vec<PullScrews> {
    let mut found: Vec<PullScrews> = Vec::new();
    for part in &parts.all {
        let Assembly::Front(front) = part.assembly else { continue };
        let pull = piece.opening(front.opening).and_then(|o| o.front.as_ref()?.pull);
        let Some(pull) = pull else { continue };
        let box_front = parts.of_case(part.case).iter().find(|other| {
            other.role == Role::DrawerFront && other.assembly == Assembly::DrawerBox(front.opening)
        });
        let (_, back) = part.extent(Direction::Z);
        for hole in pull_holes(part) {
            let through = box_front.filter(|other| goes_through(&hole, other));
            let hollow = through.map(|other| other.extent(Direction::Z).0 - back);
            let hollow = hollow.filter(|hollow| hollow.is_positive()).unwrap_or_default();
            let (front, through) =
                (part.thickness.length, through.map(|other| other.thickness.length));
            let same = |old: &&mut PullScrews| {
                (old.pull, old.front, old.hollow, old.box_front) == (pull, front, hollow, through)
            };
            match found.iter_mut().find(same) {
                Some(old) => old.number += 1,
                None => {
                    let own = PullScrews { pull, front, hollow, box_front: through, number: 1 };
                    found.push(own);
                }
            }
        }
    }
    found
}
