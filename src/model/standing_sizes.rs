//! The sizes that are known of a piece with errors.

use crate::measure::Span;

use super::id::OpeningId;
use super::opening::Axis;
use super::size::Size;

/// The sizes of one thing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StandingSizes {
    /// Its name, dotted from the case.
    pub path: String,
    /// The statement.
    pub span: Span,
    /// The opening; `None` for a case.
    pub opening: Option<OpeningId>,
    /// Its width and height.
    pub sizes: [Option<StandingSize>; 2],
}

/// A size that is known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StandingSize {
    /// The size.
    pub size: Size,
    /// True where it follows without any of the statements that contradict each
    /// other; false where one of those gives it.
    pub holds: bool,
}

/// The sizes of a case that did not come out cleanly.
#[derive(Debug)]
pub(super) struct CaseSizes {
    /// The statement of the case.
    pub(super) span: Span,
    pub(super) all: Vec<StandingSizes>,
}

impl StandingSizes {
    /// True where both of its sizes are known and hold.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.sizes.iter().all(|size| size.as_ref().is_some_and(|size| size.holds))
    }

    /// The size along an axis.
    #[must_use]
    pub fn along(&self, axis: Axis) -> Option<&StandingSize> {
        self.sizes[usize::from(axis == Axis::Down)].as_ref()
    }
}
