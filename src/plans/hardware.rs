//! The hardware that a piece takes: how many of each.

use crate::model::{OpeningKind, Piece};

/// What is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A hinge: an index into the piece's hinges.
    Hinge(usize),
    /// A pair of slides: an index into the piece's slides.
    Slide(usize),
    /// A pull: an index into the piece's pulls.
    Pull(usize),
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
        if let OpeningKind::Drawer { slide: Some(slide), .. } = opening.kind {
            add(Kind::Slide(slide), 1);
        }
        let Some(front) = &opening.front else { continue };
        if let Some((hinge, _)) = front.hinge.filter(|_| opening.is_door()) {
            add(Kind::Hinge(hinge), piece.hinges_on(opening, front) * opening.leaves());
        }
        if let Some(pull) = front.pull {
            add(Kind::Pull(pull), opening.leaves());
        }
    }
    counts
}
