//! What carries the base of a hand-held router where it would hang off the work:
//! strips as thick as the work, clamped beside it.
//!
//! The base is carried where wood lies, across the cut, under half of what it has
//! on each side of the bit, and along the cut, under half of it at each end of the
//! stroke and under all of it somewhere between (common practice, no source). Where
//! it is not, a strip carries all of it.

use crate::measure::{Length, Unit};
use crate::parts::Face;
use crate::trade;

/// A strip beside the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Support {
    /// The edge or end of the work that it lies along.
    pub side: Face,
    /// How wide it is at least. It is as long as the work and the strips beside it.
    pub wide: Length,
}

/// A cut as its router sees it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stand {
    /// The base plate is so far across.
    pub(super) base: Length,
    /// The centers of the bit nearest to the datum and farthest from it.
    pub(super) centers: (Length, Length),
    /// The edge or end that they count from.
    pub(super) datum: Face,
    /// The face across the run of the cut, and along it.
    pub(super) size: (Length, Length),
    /// The edges or ends that the run lies between.
    pub(super) ends: (Face, Face),
    /// The board is turned round under the same settings, and its straight-edge
    /// stands on the far side of the cut wherever that comes to.
    pub(super) turned: bool,
}

impl Stand {
    /// The strips that carry the base.
    pub(super) fn supports(&self, unit: Unit) -> Vec<Support> {
        let half = self.base.half();
        let short = |room: Length| match room < trade::carried_beside(self.base) {
            true => half - room,
            false => Length::ZERO,
        };
        let (across, run) = self.size;
        let (mut near, mut far) = (short(self.centers.0), short(across - self.centers.1));
        if self.turned {
            let edge = self.centers.1 + half + trade::narrowest_routed(unit);
            near = near.max(edge - across);
            far = near;
        }
        let beyond = if run < self.base { half } else { Length::ZERO };
        let sides = [
            (self.datum, near),
            (self.datum.opposite(), far),
            (self.ends.0, beyond),
            (self.ends.1, beyond),
        ];
        sides
            .into_iter()
            .filter(|(_, wide)| wide.is_positive())
            .map(|(side, wide)| Support { side, wide: trade::strip_width(wide, unit) })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn strips(center: i64, across: i64, run: i64, turned: bool) -> Vec<(Face, Length)> {
        let stand = Stand {
            base: Length::mm(150),
            centers: (Length::mm(center), Length::mm(center)),
            datum: Face::LengthStart,
            size: (Length::mm(across), Length::mm(run)),
            ends: (Face::WidthStart, Face::WidthEnd),
            turned,
        };
        let supports = stand.supports(Unit::Millimetre);
        supports.into_iter().map(|own| (own.side, own.wide)).collect()
    }

    /// Worked by hand, with 75 of the base on each side of the bit. At 33 from the
    /// end, 33 of it lie on the board, less than 37.5, and a strip carries the other
    /// 42: 45 wide. At 38 there is no need of one.
    #[test]
    fn a_base_that_hangs_off_the_datum_has_a_strip_there() {
        assert_eq!(strips(33, 1820, 560, false), [(Face::LengthStart, Length::mm(45))]);
        assert_eq!(strips(38, 1820, 560, false), []);
        assert_eq!(strips(1800, 1820, 560, false), [(Face::LengthEnd, Length::mm(55))]);
    }

    /// A board 100 wide is narrower than the base.
    #[test]
    fn a_narrow_board_lies_between_two_strips() {
        let both = [(Face::WidthStart, Length::mm(75)), (Face::WidthEnd, Length::mm(75))];
        assert_eq!(strips(600, 1500, 100, false), both);
        assert_eq!(strips(600, 1500, 150, false), []);
    }

    /// A flute 60 from the edge of a front 120 wide: the straight-edge stands at
    /// 60 + 75 and lies on 50 behind that, 185, which is 65 beyond the front; so
    /// it does again when the front is turned round.
    #[test]
    fn a_straight_edge_beside_a_narrow_front_lies_on_a_strip() {
        let both = [(Face::LengthStart, Length::mm(65)), (Face::LengthEnd, Length::mm(65))];
        assert_eq!(strips(60, 120, 560, true), both);
    }
}
