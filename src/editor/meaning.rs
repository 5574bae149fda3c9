//! What a word in a spec may be the name of.

use crate::measure::Span;
use crate::parts::PartId;
use crate::vocabulary::words::{file, run_list};
use crate::vocabulary::{Thing as _, takes};

/// What a name is the name of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum NameKind {
    /// A stock.
    Stock,
    /// A wood with figures of the spec's own.
    Species,
    /// A hinge.
    Hinge,
    /// A slide.
    Slide,
    /// A pull.
    Pull,
    /// A bought leg.
    Leg,
    /// A router bit.
    Bit,
    /// A finish.
    Finish,
    /// A keep-out.
    KeepOut,
    /// A run of cases.
    Run,
    /// A case.
    Case,
    /// A filler or a space in a run.
    Between,
    /// An opening, or a list of them.
    Opening,
    /// A stile, rail or divider with a name of its own.
    Member,
}

impl NameKind {
    /// True for what stands in the piece, under a dotted name.
    pub(super) fn has_sizes(self) -> bool {
        matches!(self, Self::Run | Self::Case | Self::Between | Self::Opening | Self::Member)
    }

    /// The kind of the things that this word makes, or that a reference to it
    /// means.
    pub(super) fn of(word: &str) -> Option<Self> {
        let kinds = [
            (takes::Stock::WHAT, Self::Stock),
            (file::SPECIES.spelling(), Self::Species),
            (takes::Hinge::WHAT, Self::Hinge),
            (takes::Slide::WHAT, Self::Slide),
            (takes::Pull::WHAT, Self::Pull),
            (takes::Leg::WHAT, Self::Leg),
            (takes::Bit::WHAT, Self::Bit),
            (takes::Finish::WHAT, Self::Finish),
            (takes::KeepOut::WHAT, Self::KeepOut),
            (file::RUN.spelling(), Self::Run),
            (file::CASE.spelling(), Self::Case),
            (run_list::FILLER.spelling(), Self::Between),
            (run_list::SPACE.spelling(), Self::Between),
        ];
        kinds.into_iter().find(|(own, _)| *own == word).map(|(_, kind)| kind)
    }
}

/// A name in its [`Names`](super::Names).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct NameId(pub(super) usize);

/// What a word in a spec means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meaning {
    /// A name that the spec gives.
    Name(NameId),
    /// A part, whose name follows from others or which is meant by its mark.
    Part {
        /// The part.
        id: PartId,
        /// The statement that asks for it.
        statement: Span,
    },
}
