//! How small a piece may be on a machine.

use crate::measure::{Length, Unit};

/// The least wood that stands beside a mortise or groove: 1/8 in or 3 mm
/// (common practice, no source).
#[must_use]
pub fn least_wall(unit: Unit) -> Length {
    unit.either(Length::inches(1, 8), Length::mm(3))
}

/// The shortest board to plane or joint by itself: 12 in, or 300 mm where the
/// shop counts in millimetres (common practice, no source; a planer's rollers
/// must always hold one end, its book may ask for more).
#[must_use]
pub fn shortest_planed(unit: Unit) -> Length {
    unit.either(Length::inches(12, 1), Length::mm(300))
}

/// The narrowest strip to rip by itself: 3/4 in or 19 mm (common practice, no
/// source).
#[must_use]
pub fn narrowest_ripped(unit: Unit) -> Length {
    unit.either(Length::inches(3, 4), Length::mm(19))
}

/// The shortest piece to rout by itself: 6 in or 150 mm (common practice, no
/// source).
#[must_use]
pub fn shortest_routed(unit: Unit) -> Length {
    unit.either(Length::inches(6, 1), Length::mm(150))
}

/// The narrowest face that bears the base of a router: 2 in or 50 mm (common
/// practice, no source).
#[must_use]
pub fn narrowest_routed(unit: Unit) -> Length {
    unit.either(Length::inches(2, 1), Length::mm(50))
}

/// The farthest that the fence of a router table stands from the bit: 12 in or
/// 300 mm (common practice, no source).
#[must_use]
pub fn farthest_fence(unit: Unit) -> Length {
    unit.either(Length::inches(12, 1), Length::mm(300))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Common practice, no source.
    #[test]
    fn a_foot_of_board_may_be_planed() {
        assert_eq!(shortest_planed(Unit::Inch), Length::inches(12, 1));
        assert_eq!(shortest_planed(Unit::Millimetre), Length::mm(300));
        assert!(narrowest_ripped(Unit::Millimetre) < Length::inches(3, 4));
        assert!(shortest_routed(Unit::Inch) > narrowest_routed(Unit::Inch));
    }
}
