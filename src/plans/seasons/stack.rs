//! How far a gap may be off on the day it is made: cutting, squareness and
//! placing added up.

use crate::measure::{Exact, Length};
use crate::model::{Edge, OpeningKind, Piece, Set, Side, Slide};
use crate::parts::Front;
use crate::trade;

use crate::plans::squareness;

/// One thing that may be off.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Term {
    /// What it is.
    pub what: &'static str,
    /// By how much it moves this gap, to either side.
    pub by: Length,
}

/// All that may be off about a gap.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Stack {
    /// One by one.
    pub terms: Vec<Term>,
}

impl Stack {
    /// Everything off the same way: no gap can be further off.
    #[must_use]
    pub fn worst(&self) -> Length {
        self.terms.iter().map(|term| term.by).sum()
    }

    /// The root of the sum of squares: what is to be expected, since errors
    /// that have nothing to do with each other rarely add up.
    #[must_use]
    pub fn likely(&self) -> Length {
        let all: Vec<Length> = self.terms.iter().map(|term| term.by).collect();
        trade::root_sum_square(&all)
    }
}

/// What may be off about the gap at an edge of a front.
///
/// A front that is set by hand (with shims, or by a hinge that adjusts) shares
/// the error of its size and of its opening's among the gaps on its line; one
/// on fixed hinges has all of it at the lead edge. What the hardware adjusts
/// is taken off the error of placing.
pub(super) fn of(
    piece: &Piece,
    front: &Front<'_>,
    edge: Edge,
    (fitted, meeting): (Length, bool),
) -> Stack {
    let tolerance = &piece.shop.tolerance;
    let adjust = adjustment(piece, front);
    let leaves = i64::from(front.opening.leaf_count());
    let sideways = matches!(edge, Edge::Left | Edge::Right);
    let mut terms = Vec::new();
    let mut add = |what, by: Length| {
        if by.is_positive() {
            terms.push(Term { what, by });
        }
    };
    let fixed = front.hung.is_some() && adjust.is_zero();
    let hinge_side = matches!(
        (front.hung, edge),
        (Some(Side::Left), Edge::Left) | (Some(Side::Right), Edge::Right)
    );
    let share = match (sideways, fixed) {
        (true, true) if hinge_side => Exact::ZERO,
        (true, true) => Exact::ONE,
        (true, false) => Exact::ratio(1, leaves + 1),
        (false, _) => Exact::ratio(1, 2),
    };
    if front.fronts.set == Set::Inset {
        add("opening", tolerance.cut * share);
        for _ in 0..if sideways { leaves } else { 1 } {
            add("front", tolerance.cut * share);
        }
        if sideways && !meeting {
            let differ = squareness::borne(piece, front.opening, fitted);
            add("squareness", lean(front, differ).half());
        }
        add("placing", (tolerance.place - adjust).max(Length::ZERO));
    } else {
        for _ in 0..2 {
            add("front", tolerance.cut.half());
            add("placing", (tolerance.place - adjust).max(Length::ZERO));
        }
    }
    Stack { terms }
}

/// How far what the front hangs on can be adjusted.
fn adjustment(piece: &Piece, front: &Front<'_>) -> Length {
    let adjust = match front.opening.kind {
        OpeningKind::Drawer { slide: Some(slide), .. } => {
            piece.slide(slide).and_then(Slide::hardware).map(|slide| slide.adjust)
        }
        _ => front.fronts.hinge.and_then(|(hinge, _)| piece.hinge(hinge)).map(|h| h.adjust),
    };
    adjust.unwrap_or_default()
}

/// How far a side of the opening leans over its height when its two diagonals
/// differ by this much.
fn lean(front: &Front<'_>, differ: Length) -> Length {
    trade::lean(front.opening.wide.length, front.opening.high.length, differ)
}
