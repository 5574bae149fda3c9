//! The hardware that a piece takes: how many of each.

use crate::measure::{Length, Unit};
use crate::model::{HingeId, OpeningKind, Piece, PullId, Slide, SlideId};
use crate::parts::{Assembly, Bore, Direction, FeatureKind, Parts, Role};

/// What is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A hinge.
    Hinge(HingeId),
    /// A pair of slides.
    Slide(SlideId),
    /// A pull.
    Pull(PullId),
}

/// So many of one thing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Count {
    /// What.
    pub kind: Kind,
    /// How many; of slides, pairs.
    pub number: u32,
}

/// Every hinge, slide and pull of a piece, counted.
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
    /// The thickness of the front of the drawer's box, where there is one.
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

/// The screws of every pull, those of one length together.
#[must_use]
pub fn pull_screws(piece: &Piece, parts: &Parts) -> Vec<PullScrews> {
    let mut found: Vec<PullScrews> = Vec::new();
    for part in &parts.all {
        let Assembly::Front(front) = part.assembly else { continue };
        let holes =
            part.features.iter().filter(|f| f.kind == FeatureKind::Bore(Bore::Pull)).count() as u32;
        if holes == 0 {
            continue;
        }
        let pull = piece.opening(front.opening).and_then(|o| o.front.as_ref()?.pull);
        let Some(pull) = pull else { continue };
        let box_front = parts.of_case(part.case).iter().find(|other| {
            other.role == Role::DrawerFront && other.assembly == Assembly::DrawerBox(front.opening)
        });
        let (_, back) = part.extent(Direction::Z);
        let hollow = box_front.map(|other| other.extent(Direction::Z).0 - back);
        let hollow = hollow.filter(|hollow| hollow.is_positive()).unwrap_or_default();
        let (front, box_front) =
            (part.thickness.length, box_front.map(|other| other.thickness.length));
        let same = |old: &&mut PullScrews| {
            (old.pull, old.front, old.hollow, old.box_front) == (pull, front, hollow, box_front)
        };
        match found.iter_mut().find(same) {
            Some(old) => old.number += holes,
            None => found.push(PullScrews { pull, front, hollow, box_front, number: holes }),
        }
    }
    found
}
