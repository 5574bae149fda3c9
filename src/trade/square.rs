//! Squareness.

use crate::measure::{Exact, Length};

/// The diagonal of a rectangle, √(a² + b²), to the nearest thousandth of a
/// millimetre (Pythagoras).
#[must_use]
pub fn diagonal(a: Length, b: Length) -> Length {
    let (a, b) = (a.to_mm_f64(), b.to_mm_f64());
    Length::mm(1) * Exact::ratio((a.hypot(b) * 1000.0).round() as i64, 1000)
}

/// How far two diagonals of a case may differ: 1/16 in to about 36 in, 1/8 in
/// above (common practice, no source).
#[must_use]
pub fn diagonals_within(larger: Length) -> Length {
    if larger <= Length::inches(36, 1) { Length::inches(1, 16) } else { Length::inches(1, 8) }
}

/// How far the diagonals of a drawer box may differ: 1/32 in or 0.8 mm (common
/// practice, no source).
#[must_use]
pub fn box_within() -> Length {
    Length::inches(1, 32)
}

/// How far opposite sides of a glue-up may differ, and how far it may be twisted:
/// 1/32 in or 0.8 mm (common practice, no source). Equal diagonals alone also pass
/// a frame whose two sides lean toward each other.
#[must_use]
pub fn flat_within() -> Length {
    Length::inches(1, 32)
}

/// By how much the diagonals of a frame `wide` and `high` differ when its sides
/// lean by `lean` over its height: [`lean`] turned round, to the thousandth of a
/// millimetre, rounded down.
#[must_use]
pub fn differ(wide: Length, high: Length, lean: Length) -> Length {
    let (w, h, s) = (wide.to_mm_f64(), high.to_mm_f64(), lean.to_mm_f64());
    if w <= 0.0 || h <= 0.0 {
        return Length::ZERO;
    }
    let differ = 2.0 * w * s / w.hypot(h);
    Length::mm(1) * Exact::ratio((differ * 1000.0 + 1e-6).floor() as i64, 1000)
}

/// How far the sides of a frame `wide` and `high` lean over its height when
/// its diagonals differ by `differ`: with the lean s the squares of the
/// diagonals are (w ± s)² + h², their difference 4ws, so s is about
/// differ × √(w² + h²) / 2w. To the thousandth of a millimetre, rounded up.
#[must_use]
pub fn lean(wide: Length, high: Length, differ: Length) -> Length {
    let (w, h, d) = (wide.to_mm_f64(), high.to_mm_f64(), differ.to_mm_f64());
    if w <= 0.0 {
        return Length::ZERO;
    }
    let lean = d * w.hypot(h) / (2.0 * w);
    Length::mm(1) * Exact::ratio((lean * 1000.0 - 1e-6).ceil() as i64, 1000)
}

/// The root of the sum of squares, to the thousandth of a millimetre, rounded
/// up: how far independent errors are to be expected to add up (statistical
/// tolerancing; any text on dimensional stack-up).
#[must_use]
pub fn root_sum_square(errors: &[Length]) -> Length {
    let squares: f64 = errors.iter().map(|error| error.to_mm_f64().powi(2)).sum();
    Length::mm(1) * Exact::ratio((squares.sqrt() * 1000.0 - 1e-6).ceil() as i64, 1000)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A frame 300 wide, 400 high leaning 6 mm has diagonals √(306² + 400²) =
    /// 503.62 and √(294² + 400²) = 496.42 (Pythagoras).
    #[test]
    fn diagonals_that_differ_make_a_frame_lean() {
        let differ =
            diagonal(Length::mm(306), Length::mm(400)) - diagonal(Length::mm(294), Length::mm(400));
        let got = lean(Length::mm(300), Length::mm(400), differ).to_mm_f64();
        assert!((got - 6.0).abs() < 0.01, "{got}");
    }

    /// A frame 300 wide and 400 high that leans 5 mm: 2 x 300 x 5 / 500 = 6; turned
    /// back it leans 5.
    #[test]
    fn a_lean_gives_its_diagonals_back() {
        let (wide, high) = (Length::mm(300), Length::mm(400));
        assert_eq!(differ(wide, high, Length::mm(5)), Length::mm(6));
        assert_eq!(lean(wide, high, Length::mm(6)), Length::mm(5));
        assert_eq!(differ(Length::ZERO, high, Length::mm(5)), Length::ZERO);
    }

    /// 3, 4 and 12 come to 13 (Pythagoras twice).
    #[test]
    fn errors_add_up_as_squares() {
        let errors = [Length::mm(3), Length::mm(4), Length::mm(12)];
        assert_eq!(root_sum_square(&errors), Length::mm(13));
        assert_eq!(root_sum_square(&[]), Length::ZERO);
    }

    /// The carpenter's 3-4-5 triangle.
    #[test]
    fn three_four_five() {
        assert_eq!(diagonal(Length::inches(3, 1), Length::inches(4, 1)), Length::inches(5, 1));
    }
}
