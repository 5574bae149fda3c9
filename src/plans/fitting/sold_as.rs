//! What screws, pins, and clips are sold as.

use crate::measure::Length;
use crate::vocabulary::Supply;

use super::screws::{Long, Purpose};

impl Purpose {
    /// What they are sold as.
    #[must_use]
    pub fn supply(self) -> Supply {
        match self {
            Self::Pockets => Supply::PocketScrews,
            Self::HardPockets => Supply::FinePocketScrews,
            Self::Boards
            | Self::Packers
            | Self::Strips
            | Self::Corners
            | Self::Fillers
            | Self::Covers
            | Self::Ties
            | Self::Bottoms
            | Self::Blocks
            | Self::Holding
            | Self::Stops => Supply::WoodScrews,
            Self::Countertops
            | Self::Stacked
            | Self::FalseFronts
            | Self::BackCovers
            | Self::Setting => Supply::PanHeadScrews,
            Self::Backs => Supply::FlatHeadScrews,
            Self::Plates => Supply::PlateScrews,
            Self::Fronts => Supply::LargeHeadScrews,
            Self::ShelfPins => Supply::ShelfPins,
            Self::Clips => Supply::Clips,
        }
    }
}

impl Long {
    /// True for what is as long as is asked for.
    #[must_use]
    pub fn takes(self, long: Length) -> bool {
        match self {
            Self::BySheet => true,
            Self::Is(own) => own == long,
            Self::AtLeast(least) => least <= long,
            Self::Between(least, most) => least <= long && long <= most,
        }
    }
}
