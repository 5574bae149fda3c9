//! Slips of the pen and of the tape: figures that can't well be meant.

use crate::measure::{Length, Unit};

/// How far the thickness of a board may be off what it is called by before it
/// is another board or a slip: a quarter of it, of thin sheets 1/16 in (ours;
/// hardwood plywood of 1/4 in is sold down to 5 mm, a fifth less).
#[must_use]
pub fn thickness_off(called: Length) -> Length {
    (called / 4).max(Length::inches(1, 16))
}

/// The figure that was meant instead of one that can't be: with its point one
/// or two places further along, or in the other unit.
#[must_use]
pub fn meant(written: Length, unit: Unit, can_be: impl Fn(Length) -> bool) -> Option<Length> {
    let count = written.in_unit(unit);
    let other = match unit {
        Unit::Inch | Unit::Foot => Unit::Millimetre,
        _ => Unit::Inch,
    };
    let tries =
        [written / 10, written * 10, written / 100, written * 100, Length::new(count, other)];
    tries.into_iter().find(|length| can_be(*length))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Exact;

    #[test]
    fn a_point_that_slipped_is_found() {
        let near =
            |length: Length| (length - Length::mm(18)).abs() <= thickness_off(Length::mm(18));
        let wanted = Length::mm(1) * Exact::ratio(178, 10);
        let unit = Unit::Millimetre;
        assert_eq!(meant(Length::mm(178), unit, near), Some(wanted));
        assert_eq!(meant(wanted / 10, unit, near), Some(wanted));
        assert_eq!(meant(Length::mm(53), unit, near), None);
        // 17.8 in an inch job.
        let inches = Length::inches(1, 1) * Exact::ratio(178, 10);
        assert_eq!(meant(inches, Unit::Inch, near), Some(wanted));
    }
}
