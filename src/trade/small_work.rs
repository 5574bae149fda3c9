//! How small a piece may be on a machine.

use crate::measure::{Exact, Length, Unit};

/// The least wood that stands beside a mortise or groove: 1/8 in or 3 mm
/// (common practice, no source).
#[must_use]
pub fn least_wall(unit: Unit) -> Length {
    unit.either(Length::inches(1, 8), Length::mm(3))
}

/// The wood beside a mortise or groove that lasts: 3/16 in (common practice, no
/// source). Less than that splits off easily; less than [`least_wall`] can't be cut.
#[must_use]
pub fn lasting_wall() -> Length {
    Length::inches(3, 16)
}

/// The wall between two cuts back to back that lasts in particleboard, whose chips hold far
/// less than wood or plies: 5/16 in (common practice, no source).
#[must_use]
pub fn chips_wall() -> Length {
    Length::inches(5, 16)
}

/// The shortest board to plane or joint by itself: 12 in, or 300 mm where the
/// shop counts in millimetres (common practice, no source; a planer's rollers
/// must always hold one end, its book may ask for more).
#[must_use]
pub fn shortest_planed(unit: Unit) -> Length {
    unit.either(Length::inches(12, 1), Length::mm(300))
}

/// The thinnest strip that a planer takes, on a sled: 1/8 in or 3 mm (common practice, no
/// source).
#[must_use]
pub fn thinnest_planed(unit: Unit) -> Length {
    unit.either(Length::inches(1, 8), Length::mm(3))
}

/// The longest stick that several short parts are sawn from, where the stock doesn't say
/// how long its boards are: 6 ft, or 1800 mm (common practice, no source; one pair of
/// hands keeps it straight on the saw).
#[must_use]
pub fn longest_stick(unit: Unit) -> Length {
    unit.either(Length::inches(72, 1), Length::mm(1800))
}

/// The narrowest strip to rip by itself: 3/4 in or 19 mm (common practice, no
/// source).
#[must_use]
pub fn narrowest_ripped(unit: Unit) -> Length {
    unit.either(Length::inches(3, 4), Length::mm(19))
}

/// The shortest edge that runs along the fence of a table saw: 12 in or 300 mm (common
/// practice, no source).
#[must_use]
pub fn shortest_ripped(unit: Unit) -> Length {
    unit.either(Length::inches(12, 1), Length::mm(300))
}

/// The longest piece that one person crosscuts on a sled: 5 ft or 1500 mm (common practice,
/// no source; what is longer hangs over and tips).
#[must_use]
pub fn longest_on_sled(unit: Unit) -> Length {
    unit.either(Length::inches(60, 1), Length::mm(1500))
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

/// The largest board that is led over a router table by its fence: across it and
/// along it, 12 by 48 in or 300 by 1200 mm (common practice, no source).
#[must_use]
pub fn largest_on_table(unit: Unit) -> (Length, Length) {
    let across = unit.either(Length::inches(12, 1), Length::mm(300));
    let along = unit.either(Length::inches(48, 1), Length::mm(1200));
    (across, along)
}

/// How far from the middle of the bit there is wood under a base plate `base`
/// across, on each side of the cut, so that the router stands: half of what the
/// base has on that side (common practice, no source).
#[must_use]
pub fn carried_beside(base: Length) -> Length {
    base.half().half()
}

/// The width of a support strip that must reach so far: at least that, and a
/// width that a shop saws, the next 1/4 in or 5 mm (common practice, no source).
#[must_use]
pub fn strip_width(reach: Length, unit: Unit) -> Length {
    let step = unit.either(Length::inches(1, 4), Length::mm(5));
    step * Exact::int((reach / step).ceil())
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

    /// A base 6 across has 3 on each side of the bit: 1-1/2 of it lie on wood. A
    /// strip that must reach 2-11/16 is sawn 2-3/4 wide, one of 2-3/4 as it is.
    #[test]
    fn half_of_a_base_lies_on_wood() {
        assert_eq!(carried_beside(Length::inches(6, 1)), Length::inches(3, 2));
        assert_eq!(strip_width(Length::inches(43, 16), Unit::Inch), Length::inches(11, 4));
        assert_eq!(strip_width(Length::inches(11, 4), Unit::Inch), Length::inches(11, 4));
        assert_eq!(strip_width(Length::mm(42), Unit::Millimetre), Length::mm(45));
    }
}
