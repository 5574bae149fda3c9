//! What a router bit's shank carries.

use crate::measure::{Length, Unit};

/// The widest bit that a shank of this diameter carries; `None` where any does. Common
/// practice, from bit makers' catalogs: bits over 1 in are not sold on 1/4 in or 6 mm, nor over
/// 1-3/8 in on 8 mm.
#[must_use]
pub fn widest_on_shank(shank: Length) -> Option<Length> {
    match shank {
        thin if thin < Length::mm(7) => Some(Length::inches(1, 1)),
        middling if middling < Length::mm(9) => Some(Length::inches(11, 8)),
        _ => None,
    }
}

/// The shank that a wide bit is sold on: 1/2 in or 12 mm, a narrow one 1/4 in or 8 mm.
#[must_use]
pub fn shank_for(diameter: Length, unit: Unit) -> Length {
    match diameter > Length::inches(1, 2) {
        true => unit.either(Length::inches(1, 2), Length::mm(12)),
        false => unit.either(Length::inches(1, 4), Length::mm(8)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A catalog's rabbeting bit of 1-1/4 in is sold on 1/2 in and on 8 mm, a straight one
    /// of 1 in also on 1/4 in (from memory).
    #[test]
    fn a_shank_carries_what_is_sold_on_it() {
        let quarter = widest_on_shank(Length::inches(1, 4));
        assert_eq!(quarter, Some(Length::inches(1, 1)));
        assert_eq!(widest_on_shank(Length::mm(6)), quarter);
        assert!(widest_on_shank(Length::mm(8)) > Some(Length::inches(5, 4)));
        assert_eq!(widest_on_shank(Length::inches(1, 2)), None);
        assert_eq!(shank_for(Length::inches(5, 4), Unit::Inch), Length::inches(1, 2));
        assert_eq!(shank_for(Length::mm(10), Unit::Millimetre), Length::mm(8));
    }
}
