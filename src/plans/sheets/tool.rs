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
    /// What makes a cut `long` from edge to edge that parts `off` from something as wide
    /// as `whole` that way.
    ///
    /// Against the fence goes what is longer along it than what comes off is wide, and
    /// than half of what hangs over on the other side of the blade: shorter edges turn
    /// away from the fence (common practice, no source).
    #[must_use]
    pub fn of(shop: &Shop, unit: Unit, (long, off, whole): (Length, Length, Length)) -> Self {
        let holds = long >= off && long.twice() >= whole && long >= trade::shortest_ripped(unit);
        if off <= shop.fence && holds {
            Self::Fence
        } else if long <= shop.sled {
            Self::Sled
        } else {
            Self::Guide
        }
    }
}
