//! The bored holes of a row for shelf pins, as a hand counts them.

use crate::measure::Length;

use super::PinRows;

/// Two neighbors of a row between which holes are left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Leap {
    /// The lower of the two, counted among the bored holes.
    pub after: u32,
    /// How many holes are left out between them.
    pub left_out: u32,
    /// From center to center.
    pub up: Length,
}

impl PinRows<'_> {
    /// Which of the bored holes of a row lies at a place, or last below it, counted from 1 at
    /// the lowest: as a hand finds them.
    #[must_use]
    pub fn hole(&self, place: u32) -> u32 {
        (1..=place).map(|own| u32::from(!self.left_out.contains(&own))).sum()
    }

    /// The bored holes at these places.
    #[must_use]
    pub fn holes(&self, places: &[u32]) -> Vec<u32> {
        places.iter().map(|place| self.hole(*place)).collect()
    }

    /// The places at which holes are bored, the lowest first.
    pub(super) fn bored(&self) -> impl Iterator<Item = u32> {
        (1..=self.count).filter(|place| !self.left_out.contains(place))
    }

    /// Where a row goes on by more than one step, from the bottom.
    #[must_use]
    pub fn leaps(&self) -> Vec<Leap> {
        let bored: Vec<u32> = self.bored().collect();
        let wide = (1..).zip(bored.windows(2)).filter_map(|(after, two)| match two {
            [one, other] if other - one > 1 => Some(Leap {
                after,
                left_out: other - one - 1,
                up: self.pins.pitch * i64::from(other - one),
            }),
            _ => None,
        });
        wide.collect()
    }
}
