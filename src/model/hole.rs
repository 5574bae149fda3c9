//! Round holes that are bored through boards.

use crate::measure::{Length, Span};
use crate::vocabulary::{Entries, Origin, Sourced, Word, takes, words};

use super::lower::Lower;
use super::piece::Piece;
use super::size::Size;

/// The edge of a board that a hole is measured from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HoleEdge {
    /// The left one.
    Left,
    /// The right one.
    Right,
    /// The front one.
    Front,
    /// The back one.
    Back,
    /// The lower one.
    Bottom,
    /// The upper one.
    Top,
}

/// A round hole right through a board.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hole {
    /// Its diameter.
    pub across: Size,
    /// From these edges of the finished board to its center.
    pub from: [(HoleEdge, Size); 2],
    /// The statement.
    pub span: Span,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

/// How the board lies that a hole goes through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Through {
    /// A countertop or a shelf.
    Lying,
    /// A back.
    Back,
    /// An end.
    End,
}

/// Every hole that a block gives its board.
pub(super) fn read(body: &Entries, through: Through, ctx: &mut Lower) -> Vec<Hole> {
    let word: Word<takes::Length> = match through {
        Through::Lying => words::HOLE_LYING,
        Through::Back => words::HOLE_ACROSS,
        Through::End => words::HOLE_UPRIGHT,
    };
    let mut holes = Vec::new();
    for said in body.all(word) {
        let Some((inner, value)) = said.body().zip(said.value()) else { continue };
        let origin = Origin::Written(said.head);
        let across = Sourced { value: *value.value, origin };
        let across = ctx.facts.said(across, "hole", word.spelling());
        let Some(from) = places(inner, through, ctx) else { continue };
        holes.push(Hole { across, from, span: said.head, notes: inner.notes() });
    }
    holes
}

/// From which two edges, and how far.
fn places(body: &Entries, through: Through, ctx: &mut Lower) -> Option<[(HoleEdge, Size); 2]> {
    use words::{hole_across, hole_lying, hole_upright};

    let mut size = |word: Word<takes::Length>| ctx.size(body, word, "place of the hole");
    let across = |own: hole_lying::Across| match own {
        hole_lying::Across::Left => HoleEdge::Left,
        hole_lying::Across::Right => HoleEdge::Right,
    };
    let across_back = |own: hole_across::Across| match own {
        hole_across::Across::Left => HoleEdge::Left,
        hole_across::Across::Right => HoleEdge::Right,
    };
    let deep = |own: hole_lying::Deep| match own {
        hole_lying::Deep::Front => HoleEdge::Front,
        hole_lying::Deep::Back => HoleEdge::Back,
    };
    let deep_end = |own: hole_upright::Deep| match own {
        hole_upright::Deep::Front => HoleEdge::Front,
        hole_upright::Deep::Back => HoleEdge::Back,
    };
    let up = |own: hole_across::Up| match own {
        hole_across::Up::Bottom => HoleEdge::Bottom,
        hole_across::Up::Top => HoleEdge::Top,
    };
    let up_end = |own: hole_upright::Up| match own {
        hole_upright::Up::Bottom => HoleEdge::Bottom,
        hole_upright::Up::Top => HoleEdge::Top,
    };
    Some(match through {
        Through::Lying => {
            let (one, other) = (body.which::<hole_lying::Across>()?.0, body.which()?.0);
            [(across(one), size(one.handle())?), (deep(other), size(other.handle())?)]
        }
        Through::Back => {
            let (one, other) = (body.which::<hole_across::Across>()?.0, body.which()?.0);
            [(across_back(one), size(one.handle())?), (up(other), size(other.handle())?)]
        }
        Through::End => {
            let (one, other) = (body.which::<hole_upright::Deep>()?.0, body.which()?.0);
            [(deep_end(one), size(one.handle())?), (up_end(other), size(other.handle())?)]
        }
    })
}

impl Piece {
    /// Every hole that the maker wrote.
    pub fn holes(&self) -> impl Iterator<Item = &Hole> {
        let of_cases = self.cases.iter().flat_map(|case| {
            let shelves = case.openings.iter().filter_map(|opening| opening.shelves.as_ref());
            let ends = case.ends.iter().flat_map(|end| &end.holes);
            case.back_holes.iter().chain(ends).chain(shelves.flat_map(|own| &own.holes))
        });
        of_cases.chain(self.tops.iter().flat_map(|top| &top.spec.holes))
    }

    /// The hole that is written at a statement.
    #[must_use]
    pub fn hole_at(&self, span: Span) -> Option<&Hole> {
        self.holes().find(|hole| hole.span == span)
    }
}

impl Hole {
    /// Half of its diameter.
    #[must_use]
    pub fn radius(&self) -> Length {
        self.across.length.half()
    }
}
