//! How an opening came out in the shop.

use crate::measure::{Length, Span};

use super::size::Size;

/// What a tape read in an opening, where that is not as drawn.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CameOut {
    /// Its width.
    pub wide: Option<Size>,
    /// Its height.
    pub high: Option<Size>,
    /// Its diagonals, where they differ by more than the tape may be off.
    pub diagonals: Option<Diagonals>,
    /// Diagonals that its sides can't have.
    pub odd: Option<Diagonals>,
    /// A width and a height too far off to be made up for, and where they are
    /// read: they don't count.
    pub refused: [Option<(Length, Span)>; 2],
}

/// The two diagonals of an opening, seen from the front.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Diagonals {
    /// From the lower left corner to the upper right.
    pub rising: Length,
    /// From the upper left corner to the lower right.
    pub falling: Length,
    /// How true the tape reads.
    pub with: Length,
    /// The statement.
    pub span: Span,
}

impl Diagonals {
    /// By how much they differ.
    #[must_use]
    pub fn differ(&self) -> Length {
        (self.rising - self.falling).abs()
    }

    /// By how much they differ at least: each may be off by as much as the tape.
    #[must_use]
    pub fn differ_surely(&self) -> Length {
        (self.differ() - self.with.twice()).max(Length::ZERO)
    }
}
