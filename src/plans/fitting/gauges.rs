//! How thick the screws are.

use crate::measure::{Length, Unit};
use crate::trade;

use super::screws::{Fastening, Purpose, Screws};

impl Screws<'_> {
    /// How thick they are.
    #[must_use]
    pub fn gauge(&self, unit: Unit) -> Option<trade::Gauge> {
        gauge(self.purpose, self.hole, unit)
    }
}

impl Fastening<'_> {
    /// How thick they are.
    #[must_use]
    pub fn gauge(&self, unit: Unit) -> Option<trade::Gauge> {
        gauge(self.purpose, self.hole, unit)
    }
}

/// How thick screws are: thin ones where a rabbet or an edge of thin stock would split
/// (common practice, no source), and what passes the hole of a pull.
fn gauge(purpose: Purpose, hole: Option<Length>, unit: Unit) -> Option<trade::Gauge> {
    match purpose {
        Purpose::Backs | Purpose::Bottoms | Purpose::Strips | Purpose::Stops => {
            Some(trade::Gauge::Six)
        }
        Purpose::Boards
        | Purpose::Packers
        | Purpose::Corners
        | Purpose::Fillers
        | Purpose::Covers
        | Purpose::BackCovers
        | Purpose::Ties
        | Purpose::Blocks
        | Purpose::Holding
        | Purpose::FalseFronts
        | Purpose::Countertops
        | Purpose::Stacked
        | Purpose::Fronts => Some(trade::Gauge::Eight),
        Purpose::Setting => hole.and_then(|hole| trade::Gauge::through(hole, unit)),
        Purpose::Pockets
        | Purpose::HardPockets
        | Purpose::Plates
        | Purpose::ShelfPins
        | Purpose::Clips => None,
    }
}
