//! Openings that came out of square, and what that takes off their fronts.

use crate::measure::Length;
use crate::model::{Axis, Diagonals, FrontId, Fronts, Leaf, Opening, Piece, Set, Side, Size};
use crate::parts::{Direction, Of, Part, PartId, Parts, Role, Which};
use crate::trade;

use super::ledger::{self, Differs, Ledger, State};

/// A corner of a front, seen from the front.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Corner {
    /// The front.
    pub front: FrontId,
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

    /// The board whose edge is planed: the front itself, or a stile of it.
    #[must_use]
    pub fn board<'a>(&self, parts: &'a Parts) -> Option<(PartId, &'a Part)> {
        let own = |part: &Part| match part.role {
            Role::Slab => true,
            Role::FrontStile => part.which == Which::At(self.side),
            _ => false,
        };
        parts.iter().find(|(_, part)| part.of == Of::Front(self.front) && own(part))
    }
}

fn level(upper: bool) -> &'static str {
    if upper { "upper" } else { "lower" }
}

/// An opening with an inset front whose sides lean: rails level, both sides
/// off plumb by the same, as a frame that was racked in the clamps.
///
/// Its front is to have the drawn reveal all the way up, so each edge beside
/// a side leans as far as that side: the whole lean goes off it at its tight
/// corner, running out to nothing at the other. A front cut to its drawn
/// width would be narrower by half the lean at each of these edges, so it is
/// left that much wider first. The two leaves of a pair keep the edges where
/// they meet square: only their outer edges are planed.
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
    /// How far they lean at least, whatever the tape is off.
    pub surely: Length,
    /// The two corners at which a square front comes near the frame.
    pub tight: [Corner; 2],
}

impl Leaning<'_> {
    /// What is left of the gap at the tight corners of a square front that is
    /// set in the middle: it loses half of the lean there.
    #[must_use]
    pub fn least(&self) -> Length {
        self.fronts.gap.length - self.lean.half()
    }

    /// The same, however much of the lean is the tape's.
    #[must_use]
    pub fn least_surely(&self) -> Length {
        self.fronts.gap.length - self.surely.half()
    }

    /// By how much the front, or each leaf of a pair, is left wider for its
    /// edges to be planed.
    #[must_use]
    pub fn wider(&self) -> Length {
        if self.opening.leaf_count() == 2 { self.lean.half() } else { self.lean }
    }

    /// The width of the front or leaf before it is planed.
    #[must_use]
    pub fn blank(&self) -> Length {
        self.opening.leaf(self.fronts).0.length + self.wider()
    }

    /// What a planed board is cut to before, with the word for it: a drawer
    /// front is planed at its ends.
    #[must_use]
    pub fn board_blank(&self, part: &Part) -> (Length, &'static str) {
        let wider = if part.role == Role::Slab { self.wider() } else { self.lean.half() };
        match part.placement.width {
            Direction::X => (part.width.length + wider, "wide"),
            _ => (part.length.length + wider, "long"),
        }
    }

    /// The reveal at both sides, all the way up, of a front that was cut to its
    /// drawn width and planed nevertheless.
    #[must_use]
    pub fn even_as_drawn(&self) -> Length {
        self.fronts.gap.length + self.lean.half()
    }

    /// The same beside the board at a tight corner, as wide as it was cut;
    /// `None` where it is not cut. One that was left as wide as it is to be,
    /// to what the papers round, has the drawn reveal.
    #[must_use]
    pub fn even_as_cut(
        &self,
        corner: &Corner,
        parts: &Parts,
        ledger: &Ledger<'_>,
    ) -> Option<Length> {
        let (id, part) = corner.board(parts)?;
        let State::Cut(cut) = ledger.state(id) else { return None };
        let (drawn, was) = match part.placement.width {
            Direction::X => (&part.width, &cut.wide),
            _ => (&part.length, &cut.long),
        };
        let was = was.as_ref().map_or(drawn.length, |was| was.value);
        // A front of one board is planed at two edges.
        let edges = if part.role == Role::Slab { 3 - self.opening.leaf_count() } else { 1 };
        let short = self.lean.half() - (was - drawn.length) / i64::from(edges);
        let short = if short > rounding() { short } else { Length::ZERO };
        Some(self.fronts.gap.length + short)
    }
}

/// What the blank is rounded by on paper at most.
fn rounding() -> Length {
    Length::inches(1, 1000)
}

/// What is to be trimmed off cut parts, but for the wood that fronts have for
/// their planing: a front is trimmed to its blank. Nothing says that one is
/// planed, so it is taken as still to be.
pub(super) fn before_planing<'a>(
    piece: &Piece,
    parts: &Parts,
    trims: Vec<Differs<'a>>,
) -> Vec<Differs<'a>> {
    let leaning = leaning(piece);
    let least = piece.shop.tolerance.cut.max(rounding());
    let boards = leaning.iter().flat_map(|one| {
        let boards = one.tight.iter().filter_map(|corner| corner.board(parts));
        boards.map(move |(_, part)| (part, one.board_blank(part).0))
    });
    let boards: Vec<(&Part, Length)> = boards.collect();
    let left = |trim: Differs<'a>| {
        let planed = |part: &Part| match part.placement.width {
            Direction::X => ledger::Dimension::Width,
            _ => ledger::Dimension::Length,
        };
        let blank = boards
            .iter()
            .find(|(part, _)| part.key() == trim.part.key() && planed(part) == trim.dimension);
        let Some((_, blank)) = blank else { return Some(trim) };
        let needs = Size::from_terms(blank.as_measured(), trim.needs.terms().to_vec());
        (trim.was - *blank > least).then_some(Differs { needs, to_blank: true, ..trim })
    };
    trims.into_iter().filter_map(left).collect()
}

/// What the boards are cut to that are planed to openings out of square, with the
/// word for it: `wide`, `long`.
#[must_use]
pub fn blanks(piece: &Piece, parts: &Parts) -> Vec<(PartId, (Length, &'static str))> {
    let leaning = leaning(piece);
    let boards = leaning.iter().flat_map(|one| {
        let boards = one.tight.iter().filter_map(|corner| corner.board(parts));
        boards.map(|(id, part)| {
            let (blank, word) = one.board_blank(part);
            (id, (blank.as_measured(), word))
        })
    });
    boards.collect()
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
        let leaves = opening.leaves();
        let leaf = if side == Side::Left { leaves.first() } else { leaves.last() };
        let leaf = leaf.copied().unwrap_or(Leaf::Front);
        Corner { front: FrontId { opening: opening.id, leaf }, side, upper }
    };
    Some(Leaning {
        opening,
        fronts,
        diagonals,
        lean: trade::lean(wide, high, diagonals.differ()),
        surely: trade::lean(wide, high, diagonals.differ_surely()),
        tight: [corner(Side::Left, to_right), corner(Side::Right, !to_right)],
    })
}
