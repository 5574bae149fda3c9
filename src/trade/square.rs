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

#[cfg(test)]
mod tests {
    use super::*;

    /// The carpenter's 3-4-5 triangle.
    #[test]
    fn three_four_five() {
        assert_eq!(diagonal(Length::inches(3, 1), Length::inches(4, 1)), Length::inches(5, 1));
    }
}
