//! How countertops are laid on and held.

use crate::measure::{Length, Unit};

/// How wide a slot is for the shank of a screw with a washer under its head: 1/4 in or
/// 6 mm (common practice, no source).
#[must_use]
pub fn slot_wide(unit: Unit) -> Length {
    unit.either(Length::inches(1, 4), Length::mm(6))
}

/// How long a slot is that lets wood move by this much each way, and by 1/16 in (1.5 mm)
/// more (common practice, no source), with the screw in its middle.
#[must_use]
pub fn slot_long(movement: Length, unit: Unit) -> Length {
    let more = unit.either(Length::inches(1, 16), Length::mm(3).half());
    slot_wide(unit) + (movement + more).twice()
}

/// How wide a hole is that lets wood move by this much each way under the head of a No. 8
/// (4 mm) screw, or under its washer: that of its shank, 11/64 in or 4.5 mm, and twice as much
/// more, up to a bit of 1/16 in or 1 mm steps; 1/4 in or 6 mm at least (common practice, no
/// source).
#[must_use]
pub fn moving_hole(movement: Length, unit: Unit) -> Length {
    let shank = unit.either(Length::inches(11, 64), Length::mm(9).half());
    let step = unit.either(Length::inches(1, 16), Length::mm(1));
    let wide = step * ((shank + movement.twice()) / step).ceil();
    wide.max(slot_wide(unit))
}

/// How much wood stays at each end of a slot: 3/8 in or 10 mm (common practice, no
/// source).
#[must_use]
pub fn beside_slot(unit: Unit) -> Length {
    unit.either(Length::inches(3, 8), Length::mm(10))
}

/// Places of the screws that hold a countertop, along a board that is clear from and to
/// something that stands under it: 2 in (50 mm) from both, or 3 in (75 mm) where pocket
/// holes at the ends of the board reach about 2-1/8 in from them, no more than 12 in
/// (300 mm) apart, and one in the middle where there is no room for two (common practice,
/// no source).
#[must_use]
pub fn countertop_screws((from, to): (Length, Length), pocketed: bool, unit: Unit) -> Vec<Length> {
    let inset = match pocketed {
        true => unit.either(Length::inches(3, 1), Length::mm(75)),
        false => unit.either(Length::inches(2, 1), Length::mm(50)),
    };
    let apart = unit.either(Length::inches(12, 1), Length::mm(300));
    let room = to - from - inset.twice();
    if room < inset {
        return vec![(from + to).half()];
    }
    let spaces = (room / apart).ceil().max(1);
    (0..=spaces).map(|number| from + inset + room * number / spaces).collect()
}

/// How far a row of screws through a whole top lies from its edge: 2 in or 50 mm (common
/// practice, no source).
#[must_use]
pub fn row_from_edge(unit: Unit) -> Length {
    unit.either(Length::inches(2, 1), Length::mm(50))
}

/// How far a screw goes into a countertop: at least 1/2 in (12 mm), and no more than
/// 1 in (25 mm) (common practice, no source).
#[must_use]
pub fn countertop_bite(unit: Unit) -> (Length, Length) {
    let least = unit.either(Length::inches(1, 2), Length::mm(12));
    (least, unit.either(Length::inches(1, 1), Length::mm(25)))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked by hand: a back row 18 in behind the front one, quartersawn, moves 3/32:
    /// 1/4 + 2 (3/32 + 2/32) = 9/16.
    #[test]
    fn a_slot_has_room_both_ways() {
        let long = slot_long(Length::inches(3, 32), Unit::Inch);
        assert_eq!(long, Length::inches(9, 16));
        assert_eq!(slot_long(Length::mm(2), Unit::Millimetre), Length::mm(13));
    }

    /// Worked by hand: 1/32 each way and 11/64 are 15/64, which a bit of 1/4 leaves; 1/16
    /// each way are 19/64, so 5/16. In a metric shop 1 mm each way is 6.5, so 7.
    #[test]
    fn a_hole_has_room_both_ways() {
        let hole = |over, under| moving_hole(Length::inches(over, under), Unit::Inch);
        assert_eq!([hole(0, 1), hole(1, 32)], [Length::inches(1, 4); 2]);
        assert_eq!(hole(1, 16), Length::inches(5, 16));
        assert_eq!(moving_hole(Length::mm(1), Unit::Millimetre), Length::mm(7));
    }

    /// Worked by hand: 28 in clear leave 24 between the outer two, which makes two
    /// spaces of 12; 25 in more make three; 5 in have room for one.
    #[test]
    fn screws_keep_their_distance() {
        let at = |from, to| {
            countertop_screws((Length::inches(from, 1), Length::inches(to, 1)), false, Unit::Inch)
        };
        let inches =
            |all: &[i64]| -> Vec<Length> { all.iter().map(|n| Length::inches(*n, 1)).collect() };
        assert_eq!(at(10, 38), inches(&[12, 24, 36]));
        assert_eq!(at(0, 40).len(), 4);
        assert_eq!(at(0, 5), vec![Length::inches(5, 2)]);
    }
}
