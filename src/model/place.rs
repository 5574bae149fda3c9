//! What is settled of a case before it is solved.

use crate::measure::Span;

use super::case::Exposure;
use super::id::{CaseId, RunId};
use super::size::Size;
use super::stacked::Stacking;

/// What is settled of a case before it is solved.
pub(super) struct Place {
    pub(super) id: CaseId,
    /// Its whole name.
    pub(super) path: String,
    pub(super) run: Option<RunId>,
    pub(super) exposure: [Exposure; 2],
    /// What stands beside it reaches as far forward as its fronts: a filler, or a case that
    /// has none before it.
    pub(super) level: [bool; 2],
    /// The countertop of its run lies on it.
    pub(super) is_covered: bool,
    /// What it stands on, where that is another case.
    pub(super) on: Option<Stacking>,
    /// The width that its run gives it.
    pub(super) wide: Option<Width>,
}

/// A width that is settled.
pub(super) struct Width {
    pub(super) size: Size,
    /// The word that it is written behind, where it is a plain figure.
    pub(super) word: Option<&'static str>,
    /// The statement that gives it.
    pub(super) span: Span,
}
