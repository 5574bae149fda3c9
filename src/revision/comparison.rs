//! What became of a piece between two revisions: it differs, or only one of
//! them has it.

use crate::plans::Hands;

use super::Named;
use super::difference::{Difference, Revision, Verdict};
use super::side;

/// What became of a piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Comparison {
    /// Both revisions have it.
    Both(Box<Difference>),
    /// Only the later one has it.
    New(Revision),
    /// Only the earlier one has it.
    Gone(Revision),
}

impl Comparison {
    /// What became of a piece that one revision may lack; nothing of one that
    /// both do.
    #[must_use]
    pub fn of(was: Option<Named<'_>>, now: Option<Named<'_>>, hands: &impl Hands) -> Option<Self> {
        match (was, now) {
            (Some(was), Some(now)) => {
                Some(Self::Both(Box::new(super::compare_with(was, now, hands))))
            }
            (None, Some(now)) => Some(Self::New(side::told(now))),
            (Some(was), None) => Some(Self::Gone(side::told(was))),
            (None, None) => None,
        }
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
