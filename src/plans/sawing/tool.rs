//! What a cut is made with.

use crate::measure::{Length, Unit};
use crate::model::Shop;
use crate::trade;

/// What guides the saw or the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Tool {
    /// The fence of the table saw.
    Fence,
    /// The crosscut sled, against a stop.
    Sled,
    /// A straight-edge that is clamped on the work, for a saw by hand.
    Guide,
}

impl Tool {
    /// What it is called.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Fence => "fence",
            Self::Sled => "sled",
            Self::Guide => "straight-edge",
        }
    }

    /// What makes a cut `long` from edge to edge that parts `off` from something as wide
    /// as `whole` that way.
    ///
    /// Against the fence goes what is no shorter along it than it is wide, or it turns away
    /// from the fence, and on the sled what does not hang over it too far (common practice,
    /// no source).
    #[must_use]
    pub fn of(shop: &Shop, unit: Unit, (long, off, whole): (Length, Length, Length)) -> Self {
        let holds = long >= whole && long >= trade::shortest_ripped(unit);
        if off <= shop.fence && holds {
            Self::Fence
        } else if long <= shop.sled && whole <= trade::longest_on_sled(unit) {
            Self::Sled
        } else {
            Self::Guide
        }
    }
}
