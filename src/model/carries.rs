//! What boards and drawers are to carry.

use crate::measure::{Load, Span};
use crate::trade;
use crate::vocabulary::{Entries, Word, takes, words};

/// A load, and whether the maker wrote it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Carries {
    /// What lies on each piece of its area.
    pub load: Load,
    /// The statement; `None` where the default holds.
    pub written: Option<Span>,
    /// It lies open, where books may stand on it.
    pub open: bool,
}

impl Carries {
    /// What is counted where nothing is written.
    #[must_use]
    pub fn usual() -> Self {
        Self { load: trade::usual_load(), written: None, open: false }
    }
}

/// The load of a block that has one in every case, by default if not written.
pub(super) fn read(body: &Entries) -> Carries {
    own(body).unwrap_or_else(Carries::usual)
}

/// The load that a block gives, where it gives one.
pub(super) fn own(body: &Entries) -> Option<Carries> {
    of(body, words::shelf::LOAD)
}

/// The load that a word gives, or its default.
pub(super) fn of(body: &Entries, word: Word<takes::Load>) -> Option<Carries> {
    let load = body.get(word)?;
    Some(Carries { load: load.value, written: load.origin.span(), open: false })
}
