//! Hinges.

use crate::measure::{Exact, Length, Mass, Unit};

/// How many hinges a door of this height takes: up to 40 in two, to 60 in
/// three, to 80 in four, beyond that five. Common practice, the same in
/// several makers' catalogues.
#[must_use]
pub fn hinges_for_height(height: Length) -> u32 {
    let inches = height.in_unit(Unit::Inch);
    [40, 60, 80].iter().filter(|limit| inches > Exact::int(**limit)).count() as u32 + 2
}

/// How many concealed hinges a door of this weight takes: under 15 lb two, and
/// one more for each 15 lb. Common practice, the same in several makers'
/// catalogues up to 60 lb, for doors to about 24 in wide.
#[must_use]
pub fn hinges_for_weight(mass: Mass) -> u32 {
    let more = (mass.0 / Mass::pounds(Exact::int(15)).0).floor().clamp(0, 100);
    2 + u32::try_from(more).unwrap_or(0)
}

/// How many butt hinges a door of this height takes: one for each 30 in or
/// part of it, at least two. Common practice.
#[must_use]
pub fn butts_for_height(height: Length) -> u32 {
    let each = (height.in_unit(Unit::Inch) / Exact::int(30)).ceil().clamp(2, 100);
    u32::try_from(each).unwrap_or(2)
}

/// How far what slides out past an open leaf stays clear of it: 1/16 in or 2 mm (common
/// practice, no source).
#[must_use]
pub fn past_leaf(unit: Unit) -> Length {
    unit.either(Length::inches(1, 16), Length::mm(2))
}

/// What the next higher plate takes of the overlay of a cup hinge: 3 mm (common practice,
/// no source).
#[must_use]
pub fn plate_step() -> Length {
    Length::mm(3)
}

/// The most that a tray is packed in, clear of an open leaf: 1-1/2 in or 38 mm (common
/// practice, no source).
#[must_use]
pub fn most_past_leaf(unit: Unit) -> Length {
    unit.either(Length::inches(3, 2), Length::mm(38))
}

/// The gap that the inner corner of an inset door on a butt hinge needs at
/// its lead edge: √(W² + t² + 2pt) − W for a door `wide` from the pin and
/// `thick`, its pin `ahead` of the frame's face. Plane geometry: the corner's
/// distance from the pin less the door's width. Rounded up to a thousandth of
/// a millimetre.
#[must_use]
pub fn butt_gap(wide: Length, thick: Length, ahead: Length) -> Length {
    let (w, t, p) = (wide.to_mm_f64(), thick.to_mm_f64(), ahead.to_mm_f64());
    let gap = (w * w + t * t + 2.0 * p * t).sqrt() - w;
    Length::mm(1) * Exact::ratio((gap * 1000.0).ceil() as i64, 1000)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked by hand: √(18² + 0.75²) − 18 = 0.0156 in, at 15 in 0.0188,
    /// at 24 in 0.0117; with the pin 3/16 ahead, 18 in needs 0.0234.
    #[test]
    fn narrow_thick_doors_need_more_gap() {
        for (wide, ahead, gap) in [
            (18, Length::ZERO, 0.0156),
            (15, Length::ZERO, 0.0188),
            (24, Length::ZERO, 0.0117),
            (18, Length::inches(3, 16), 0.0234),
        ] {
            let got = butt_gap(Length::inches(wide, 1), Length::inches(3, 4), ahead);
            let got = got.in_unit(Unit::Inch).to_f64();
            assert!((got - gap).abs() < 0.0001, "{got} {gap}");
        }
    }

    #[test]
    fn tall_doors_take_more_hinges() {
        assert_eq!(hinges_for_height(Length::inches(26, 1)), 2);
        assert_eq!(hinges_for_height(Length::inches(50, 1)), 3);
        assert_eq!(hinges_for_height(Length::inches(90, 1)), 5);
    }

    /// Makers' catalogues (common practice): under 15 lb two, to 30 three, to
    /// 45 four, to 60 five.
    #[test]
    fn heavy_doors_take_more_hinges() {
        for (pounds, hinges) in [(14, 2), (16, 3), (31, 4), (50, 5)] {
            assert_eq!(hinges_for_weight(Mass::pounds(Exact::int(pounds))), hinges);
        }
    }

    #[test]
    fn a_butt_hinge_stands_in_every_30_inches() {
        for (inches, hinges) in [(20, 2), (60, 2), (61, 3), (90, 3)] {
            assert_eq!(butts_for_height(Length::inches(inches, 1)), hinges);
        }
    }
}
