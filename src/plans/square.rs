//! Openings that came out of square, and what that takes off their fronts.

use crate::measure::Length;
use crate::model::{Axis, Diagonals, Fronts, Opening, Piece, Set, Side};
use crate::trade;

/// A corner of a front, seen from the front.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Corner {
    /// The name of the front: `console.press.left-door`.
    pub front: String,
    /// Left or right.
    pub side: Side,
    /// The upper corner; else the lower one.
    pub upper: bool,
}

impl Corner {
    /// `upper left`
    #[must_use]
    pub fn word(&self) -> String {
        format!("{} {}", level(self.upper), self.side.word())
    }

    /// The corner at the other end of the same edge: `lower left`.
    #[must_use]
    pub fn other_end(&self) -> String {
        format!("{} {}", level(!self.upper), self.side.word())
    }
}

fn level(upper: bool) -> &'static str {
    if upper { "upper" } else { "lower" }
}

/// An opening with an inset front whose sides lean.
#[derive(Clone, Debug)]
pub struct Leaning<'a> {
    /// The opening.
    pub opening: &'a Opening,
    /// Its front.
    pub fronts: &'a Fronts,
    /// What was measured.
    pub diagonals: Diagonals,
    /// How far its sides lean over its height.
    pub lean: Length,
    /// The two corners at which a square front comes near the frame.
    pub tight: [Corner; 2],
}

impl Leaning<'_> {
    /// What the lean takes from the gap at each tight corner: a front set in
    /// the middle has half of it at each.
    #[must_use]
    pub fn each(&self) -> Length {
        self.lean.half()
    }

    /// What is left of the gap there.
    #[must_use]
    pub fn least(&self) -> Length {
        self.fronts.gap.length - self.each()
    }
}

/// Every opening whose measured diagonals differ and that has an inset front.
#[must_use]
pub fn leaning(piece: &Piece) -> Vec<Leaning<'_>> {
    let openings = piece.cases.iter().flat_map(|case| &case.openings);
    openings.filter_map(one).collect()
}

fn one(opening: &Opening) -> Option<Leaning<'_>> {
    let fronts = opening.front.as_ref().filter(|fronts| fronts.set == Set::Inset)?;
    let diagonals = opening.came_out.diagonals?;
    let wide = opening.as_built(Axis::Across).length;
    let high = opening.as_built(Axis::Down).length;
    // With the rising diagonal the longer, the top stands to the right: its
    // left side comes in at the top, its right one at the bottom.
    let to_right = diagonals.rising > diagonals.falling;
    let corner = |side: Side, upper| {
        let names = opening.leaf_names();
        let leaf = if side == Side::Left { names.first() } else { names.last() };
        let leaf = leaf.map_or("", |(name, _)| name);
        Corner { front: format!("{}.{leaf}", opening.path), side, upper }
    };
    Some(Leaning {
        opening,
        fronts,
        diagonals,
        lean: trade::lean(wide, high, diagonals.differ()),
        tight: [corner(Side::Left, to_right), corner(Side::Right, !to_right)],
    })
}
