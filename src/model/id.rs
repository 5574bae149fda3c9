//! Which thing of a piece is meant: a number that can't be taken for that of
//! another kind. Names are for the spec and the papers; between them, ids say
//! what belongs to what.

use crate::vocabulary::Side;

macro_rules! ids {
    ($($(#[$doc:meta])* $name:ident)+) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(pub usize);
    )+};
}

ids! {
    /// A case among those of its piece.
    CaseId
    /// A stock among those of its piece.
    StockId
    /// A hinge among those of its piece.
    HingeId
    /// A slide among those of its piece.
    SlideId
    /// A pull among those of its piece.
    PullId
    /// A bought leg among those of its piece.
    LegId
    /// A router bit among those of its piece.
    BitId
    /// A finish among those of its piece.
    FinishId
    /// A run among those of its piece.
    RunId
    /// What must be kept clear, among all that its site has.
    KeepOutId
}

/// An opening or a list of them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct OpeningId {
    /// Its case.
    pub case: CaseId,
    /// Its place among the openings of the case.
    pub at: usize,
}

/// A free place in a run.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SpaceId {
    /// Its run.
    pub run: RunId,
    /// Its place among the spaces of the run.
    pub at: usize,
}

/// A stile, rail or divider between two openings.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct MemberId {
    /// Its case.
    pub case: CaseId,
    /// Its place among the members of the case.
    pub at: usize,
}

/// Which of the fronts of an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Leaf {
    /// The front of a drawer, or one that does not open.
    Front,
    /// A single door.
    Door,
    /// The left leaf of a pair.
    LeftDoor,
    /// The right leaf of a pair.
    RightDoor,
}

impl Leaf {
    /// Its name behind that of its opening.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Door => "door",
            Self::LeftDoor => "left-door",
            Self::RightDoor => "right-door",
        }
    }

    /// The side of the pair that it is on.
    #[must_use]
    pub fn side(self) -> Option<Side> {
        match self {
            Self::LeftDoor => Some(Side::Left),
            Self::RightDoor => Some(Side::Right),
            Self::Front | Self::Door => None,
        }
    }
}

/// A front: a door leaf, a drawer front or a false front.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FrontId {
    /// The opening it stands before.
    pub opening: OpeningId,
    /// Which of its fronts.
    pub leaf: Leaf,
}
