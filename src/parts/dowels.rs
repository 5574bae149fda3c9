//! Where the holes of a dowel joint lie on each of its halves.

use crate::measure::Length;
use crate::trade;

use super::feature::Feature;
use super::part::{Part, Parts};
use super::space::Face;

/// A row of dowel holes on a face.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DowelRow {
    /// The centers along the row, from where that axis of the part begins.
    pub places: Vec<Length>,
    /// Where the row lies on the other axis of its face.
    pub beside: Length,
}

impl Parts {
    /// True where the row of dowel holes runs along `u` of its face: along the
    /// width of the board whose end it holds.
    #[must_use]
    pub fn runs_along_u(&self, part: &Part, row: &Feature) -> bool {
        let Some(guest) = row.takes.and_then(|id| self.get(id)) else { return true };
        let first = match row.face {
            Face::LengthStart | Face::LengthEnd => part.placement.width,
            Face::WidthStart | Face::WidthEnd | Face::ThickStart | Face::ThickEnd => {
                part.placement.length
            }
        };
        first == guest.placement.width
    }

    /// The holes of a row of `count`, spaced like pocket holes.
    #[must_use]
    pub fn dowels(&self, part: &Part, row: &Feature, count: u32) -> DowelRow {
        let (along, across) =
            if self.runs_along_u(part, row) { (row.u, row.v) } else { (row.v, row.u) };
        let places = trade::pocket_places(along.1 - along.0, count).into_iter();
        DowelRow {
            places: places.map(|place| along.0 + place).collect(),
            beside: (across.0 + across.1).half(),
        }
    }
}
