//! What became of a piece between two revisions: it differs, or only one of
//! them has it.

use super::Named;
use super::difference::{Difference, Side, Verdict};
use super::side;

/// What became of a piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Comparison {
    /// Both revisions have it.
    Both(Box<Difference>),
    /// Only the later one has it.
    New(Side),
    /// Only the earlier one has it.
    Gone(Side),
}

impl Comparison {
    /// A piece that the earlier revision lacks.
    #[must_use]
    pub fn new_piece(now: Named<'_>) -> Self {
        Self::New(side::told(now))
    }

    /// A piece that the later revision lacks.
    #[must_use]
    pub fn gone(was: Named<'_>) -> Self {
        Self::Gone(side::told(was))
    }

    /// What it comes to.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        match self {
            Self::Both(difference) => difference.verdict(),
            Self::New(side) | Self::Gone(side) if !side.errors.is_empty() => Verdict::Untold,
            Self::New(_) | Self::Gone(_) => Verdict::Something,
        }
    }
}
