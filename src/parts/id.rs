//! Which part is meant, and what tells it from the others.

use crate::model::{CaseId, FrontId, MemberId, OpeningId, RailSide, Side};

/// A part among its [`Parts`](super::Parts).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PartId(pub usize);

/// What a part is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// An end of the case.
    End(Side),
    /// A corner post at this side, at the front or at the back.
    Post(Side),
    /// A rail of the paneled end at this side.
    EndRail(Side),
    /// The panel of the end at this side.
    EndPanel(Side),
    /// The bottom.
    Bottom,
    /// A whole top.
    Top,
    /// What is laid on top of a case.
    Countertop,
    /// A stretcher.
    Stretcher,
    /// The back.
    Back,
    /// A board on edge before the back that carries the wall screws.
    Nailer(RailSide),
    /// An upright board inside the case.
    Partition,
    /// A lying board between openings of a frame-less case.
    Divider,
    /// A shelf joined to the case.
    FixedShelf,
    /// The front or the back rail of a web frame.
    WebRail,
    /// What runs from front to back in a web frame, and carries the drawers.
    WebRunner,
    /// What closes a web frame between two runners.
    DustPanel,
    /// A shelf on pins.
    AdjustableShelf,
    /// An upright under the bottom.
    Leg,
    /// The board behind the toe space.
    Kick,
    /// A member of a separate base.
    BaseMember,
    /// A leg that stands in a separate base, as one of its sleepers.
    BaseLeg,
    /// A stile of the face frame.
    Stile,
    /// A rail of the face frame.
    Rail,
    /// A front of one board: door leaf, drawer front, false front.
    Slab,
    /// A stile of a frame-and-panel front.
    FrontStile,
    /// A rail of a frame-and-panel front.
    FrontRail,
    /// The panel of a frame-and-panel front.
    FrontPanel,
    /// A bead that holds the glass of a framed front.
    Bead,
    /// A side of a drawer box.
    DrawerSide,
    /// The front of a drawer box.
    DrawerFront,
    /// The back of a drawer box.
    DrawerBack,
    /// The bottom of a drawer box.
    DrawerBottom,
    /// A block that brings a slide flush with its opening.
    Packer,
    /// A block that brings the plate of a hinge flush with its opening.
    HingeBlock,
    /// A block beside the opening of a false front that holds it from behind.
    HoldingBlock,
    /// A strip beside a drawer on wood that keeps it straight.
    Guide,
    /// A strip over a drawer on wood that keeps it from tipping when it is pulled out.
    Kicker,
    /// A strip under a side of a drawer on wood, where the board below lies lower than
    /// the opening.
    Runner,
    /// A block behind the front of a drawer on wood that stops it.
    Stop,
    /// A strip beside an end of a case, at a wall or before the next case.
    Filler,
    /// A panel over the outside of an end.
    Cover,
    /// What a filler is glued to, and by which it is screwed to its case.
    Batten,
}

impl Role {
    /// True for what a drawer on wood runs between, and for what stops it.
    #[must_use]
    pub fn is_of_runs(self) -> bool {
        matches!(self, Self::Guide | Self::Kicker | Self::Runner | Self::Stop)
    }

    /// The side of the paneled end that it is a part of.
    #[must_use]
    pub fn end_side(self) -> Option<Side> {
        match self {
            Self::Post(side) | Self::EndRail(side) | Self::EndPanel(side) => Some(side),
            _ => None,
        }
    }

    /// True for a part of a web frame.
    #[must_use]
    pub fn is_of_web(self) -> bool {
        matches!(self, Self::WebRail | Self::WebRunner | Self::DustPanel)
    }

    /// True for a board on edge that the wall screws go through.
    #[must_use]
    pub fn is_nailer(self) -> bool {
        matches!(self, Self::Nailer(_))
    }

    /// True for a block or strip that is planed to the room that it fills.
    #[must_use]
    pub fn fills(self) -> bool {
        let packs = matches!(self, Self::Packer | Self::HingeBlock);
        packs || self.is_of_runs() && self != Self::Stop
    }
}

/// What a part is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Of {
    /// A case as a whole.
    Case(CaseId),
    /// Several cases of a run that share what is made once, by the first of them.
    Row(CaseId),
    /// A member between two openings: itself, or the board behind it.
    Member(MemberId),
    /// An opening: its shelves, its drawer box, what its hardware stands on.
    Opening(OpeningId),
    /// A front.
    Front(FrontId),
}

impl Of {
    /// The case it belongs to.
    #[must_use]
    pub fn case(self) -> CaseId {
        match self {
            Self::Case(case) | Self::Row(case) => case,
            Self::Member(member) => member.case,
            Self::Opening(opening) => opening.case,
            Self::Front(front) => front.opening.case,
        }
    }

    /// The opening it belongs to, if it is one's.
    #[must_use]
    pub fn opening(self) -> Option<OpeningId> {
        match self {
            Self::Opening(opening) => Some(opening),
            Self::Front(front) => Some(front.opening),
            Self::Case(_) | Self::Row(_) | Self::Member(_) => None,
        }
    }
}

/// Which part it is of several that are the same otherwise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Which {
    /// There is one.
    Only,
    /// The left or the right one.
    At(Side),
    /// The upper one.
    Top,
    /// The lower one.
    Bottom,
    /// The one at the front.
    Front,
    /// The one at the back.
    Back,
    /// Numbered from the left, the bottom or the front.
    Number(u32),
    /// Numbered at the left or right.
    AtNumber(Side, u32),
}

/// What tells a part from every other of its piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Key {
    /// What it is of.
    pub of: Of,
    /// What it is.
    pub role: Role,
    /// Which of several.
    pub which: Which,
}
