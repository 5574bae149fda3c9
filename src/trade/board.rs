//! Board measure.

use crate::measure::{Exact, Length, Unit};

/// How much more lumber is bought than its rough pieces come to, in percent: 30 % goes in
/// knots, splits, ends, and widths that don't divide (common practice, no source).
pub const BOARD_WASTE: i64 = 30;

/// The board that is counted on where nothing is known of the yard's: 8 ft long and 6 in
/// wide, or 2400 by 150 mm (common practice, no source).
#[must_use]
pub fn usual_board(unit: Unit) -> [Length; 2] {
    unit.either([96, 6].map(|side| Length::inches(side, 1)), [2400, 150].map(Length::mm))
}

/// In what steps a board is asked for at the yard, along and across: whole feet, which it is
/// tallied by, and quarters of an inch, or 100 and 5 mm (common practice, no source).
#[must_use]
pub fn asked_steps(unit: Unit) -> [Length; 2] {
    unit.either([Length::inches(12, 1), Length::inches(1, 4)], [100, 5].map(Length::mm))
}

/// In what steps a size is made smaller to see whether that saves a sheet or a board: an
/// eighth of an inch, 3 mm (common practice, no source).
#[must_use]
pub fn near_miss_step(unit: Unit) -> Length {
    unit.either(Length::inches(1, 8), Length::mm(3))
}

/// Board feet of a piece: a foot by a foot by an inch is one, 144 cubic inches
/// (National Hardwood Lumber Association).
#[must_use]
pub fn board_feet((thick, wide, long): (Length, Length, Length)) -> f64 {
    let inches = |length: Length| length.to_mm_f64() / 25.4;
    inches(thick) * inches(wide) * inches(long) / 144.0
}

/// Cubic metres of a piece.
#[must_use]
pub fn cubic_metres((thick, wide, long): (Length, Length, Length)) -> f64 {
    let metres = |length: Length| length.to_mm_f64() / 1000.0;
    metres(thick) * metres(wide) * metres(long)
}

/// The surface measure that a board is tallied at: its width in inches, with
/// fractions, by its length in whole feet, over twelve, to the nearest whole
/// square foot. The rules have a half go up and down in turn; one board alone
/// goes up.
#[must_use]
pub fn surface_measure(wide: Length, long: Length) -> i64 {
    let feet = long.in_unit(Unit::Foot).floor();
    (wide.in_unit(Unit::Inch) * Exact::int(feet) / Exact::int(12)).round()
}

/// Board feet that a rough board is charged at: its surface measure times its
/// nominal thickness in inches; under an inch counts as one.
#[must_use]
pub fn tallied_feet(rough: Length, wide: Length, long: Length) -> Exact {
    let thick = rough.in_unit(Unit::Inch).max(Exact::ONE);
    Exact::int(surface_measure(wide, long)) * thick
}

/// How much larger than its edge a strip of veneer is sawn; it is trimmed flush when it
/// holds: 1/4 in, 6 mm (common practice, no source).
#[must_use]
pub fn veneer_over(unit: Unit) -> Length {
    unit.either(Length::inches(1, 4), Length::mm(6))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The examples of an export guide to the rules of the National Hardwood
    /// Lumber Association: 6-1/2 in by 8 ft is 4; 8 by 12 is 8; 10 by 13 is 11;
    /// 2 in by 6-1/4 in by 8 ft has a surface measure of 4 and 8 board feet.
    #[test]
    fn boards_are_tallied_as_published() {
        let feet = |feet: i64| Length::inches(feet * 12, 1);
        assert_eq!(surface_measure(Length::inches(13, 2), feet(8)), 4);
        assert_eq!(surface_measure(Length::inches(8, 1), feet(12)), 8);
        assert_eq!(surface_measure(Length::inches(10, 1), feet(13)), 11);
        assert_eq!(surface_measure(Length::inches(25, 4), feet(8)), 4);
        let two = Length::inches(2, 1);
        assert_eq!(tallied_feet(two, Length::inches(25, 4), feet(8)), Exact::int(8));
        let one = Length::inches(1, 1);
        assert_eq!(tallied_feet(one, Length::inches(10, 1), feet(13)), Exact::int(11));
        // Fractions of a foot are dropped; thin boards are charged as 4/4.
        assert_eq!(surface_measure(Length::inches(10, 1), feet(13) + Length::inches(11, 1)), 11);
        let thin = Length::inches(3, 4);
        assert_eq!(tallied_feet(thin, Length::inches(10, 1), feet(13)), Exact::int(11));
    }

    #[test]
    fn a_board_foot_is_144_cubic_inches() {
        let foot = Length::inches(12, 1);
        assert!((board_feet((Length::inches(1, 1), foot, foot)) - 1.0).abs() < 1e-9);
        // 1 board foot is 0.002 359 737 m³ (NIST SP 811, Table B.8).
        let metres = cubic_metres((Length::inches(1, 1), foot, foot));
        assert!((metres - 0.002_359_737).abs() < 1e-9);
    }
}
