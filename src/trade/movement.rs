//! How much a board swells and shrinks across its grain.

use crate::measure::{Exact, Length};

/// How much wider a board `wide` is at moisture `to` than at `from`, in points
/// of moisture; below nought where it shrinks. `coefficient` is the change for
/// each point, in millionths. To the thousandth of a millimetre.
///
/// Wood Handbook (FPL-GTR-190), ch. 13, Eq. 13-2 between 6 and 14 % moisture.
/// Outside of that Eq. 13-3, ΔD = D (M₂ − M₁) / (3000/S − 30 + M₁), with the
/// shrinkage S that the coefficient C itself stands for, C = S / (3000 − 20 S).
/// Along the grain wood is taken to keep its length.
#[must_use]
pub fn movement(wide: Length, coefficient: u32, from: f64, to: f64) -> Length {
    let c = f64::from(coefficient) / 1e6;
    let usual = 6.0..=14.0;
    let factor = if usual.contains(&from) && usual.contains(&to) || c <= 0.0 {
        c * (to - from)
    } else {
        let shrinkage = 3000.0 * c / (1.0 + 20.0 * c);
        let (from, to) = (from.min(30.0), to.min(30.0));
        (to - from) / (3000.0 / shrinkage - 30.0 + from)
    };
    Length::mm(1) * Exact::ratio((wide.to_mm_f64() * factor * 1000.0).round() as i64, 1000)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Unit;
    use crate::trade::species_named;
    use crate::vocabulary::Sawn;
    use proptest::prelude::*;

    fn inches(length: Length) -> f64 {
        length.in_unit(Unit::Inch).to_f64()
    }

    /// Wood Handbook, ch. 13, worked example: a flat-grained board of white fir
    /// 232 mm (9.15 in) wide, from 8 to 11 %, C 0.00245, becomes 233.7 mm
    /// (9.217 in) wide.
    #[test]
    fn the_handbooks_example() {
        let swelling = movement(Length::mm(232), 2450, 8.0, 11.0);
        assert!((swelling.to_mm_f64() - 1.7).abs() < 0.05);
        let swelling = inches(movement(Length::inches(915, 100), 2450, 8.0, 11.0));
        assert!((swelling - 0.067).abs() < 0.0005);
    }

    /// Wood Handbook, Table 13-5 with Eq. 13-2, worked by hand: boards 12 in
    /// wide from 6 to 10 %.
    #[test]
    fn boards_of_twelve_inches() {
        for (name, sawn, change) in [
            ("red-oak", Sawn::Flat, 0.177),
            ("white-oak", Sawn::Flat, 0.175),
            ("sugar-maple", Sawn::Flat, 0.169),
            ("white-oak", Sawn::Quarter, 0.086),
        ] {
            let wood = species_named(name).expect("in the table").wood;
            let got = inches(movement(Length::inches(12, 1), sawn.coefficient(&wood), 6.0, 10.0));
            assert!((got - change).abs() < 0.0006, "{name} {got}");
        }
    }

    /// Eq. 13-3 on the handbook's example gives 0.0675 in (worked by hand);
    /// where one formula takes over from the other there is no step.
    #[test]
    fn the_two_formulas_meet() {
        let wide = Length::inches(915, 100);
        let inside = inches(movement(wide, 2450, 8.0, 14.0));
        let outside = inches(movement(wide, 2450, 8.0, 14.0001));
        assert!((inside - outside).abs() < 0.003, "{inside} {outside}");
    }

    proptest! {
        #[test]
        fn wider_boards_and_damper_air_move_more(
            wide in 1i64..2000, c in 700u32..4500, from in 6.0f64..10.0, more in 0.0f64..4.0,
        ) {
            let one = movement(Length::mm(wide), c, from, from + more);
            prop_assert!(one >= Length::ZERO);
            prop_assert!(movement(Length::mm(wide + 1), c, from, from + more) >= one);
            prop_assert!(movement(Length::mm(wide), c, from, (from + more + 0.1).min(14.0)) >= one);
            prop_assert_eq!(movement(Length::mm(wide), c, from + more, from), -one);
        }
    }
}
