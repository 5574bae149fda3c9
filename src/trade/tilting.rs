//! How a shelf is tilted in through an opening that is narrower than it is long.

use crate::measure::{Exact, Length};

/// The least height of an opening `wide` through which a board `long` and `thick`
/// goes with one end up. At an angle a it is long·cos a + thick·sin a wide and
/// long·sin a + thick·cos a high (plane geometry). To the thousandth of a
/// millimetre, rounded up; nothing where the opening is narrower than the board
/// is thick.
#[must_use]
pub fn height_to_tilt(long: Length, thick: Length, wide: Length) -> Option<Length> {
    if long <= wide {
        return Some(thick);
    }
    if wide < thick {
        return None;
    }
    let (l, t, w) = (long.to_mm_f64(), thick.to_mm_f64(), wide.to_mm_f64());
    let (diagonal, own) = (l.hypot(t), t.atan2(l));
    // The flattest angle at which the board is as wide as the opening.
    let angle = own + (w / diagonal).min(1.0).acos();
    let high = diagonal * (angle + own).sin();
    // On end it is as high as it is long.
    Some(thousandths((high.min(l) * 1000.0 - 1e-6).ceil()))
}

/// The longest board so `thick` that goes through an opening with one end up:
/// [`height_to_tilt`] turned round, to the thousandth of a millimetre, rounded
/// down. It is at least as long as the opening is wide.
#[must_use]
pub fn longest_to_tilt(thick: Length, wide: Length, high: Length) -> Length {
    let passes = |long: f64| {
        height_to_tilt(thousandths(long), thick, wide).is_some_and(|least| least <= high)
    };
    let (w, h) = (wide.to_mm_f64(), high.to_mm_f64());
    let mut lower = (w * 1000.0).floor();
    let mut upper = (w.hypot(h) * 1000.0).ceil();
    while upper - lower > 1.0 {
        let middle = f64::midpoint(lower, upper).floor();
        if passes(middle) { lower = middle } else { upper = middle }
    }
    thousandths(lower).max(wide.min(thousandths(upper)))
}

fn thousandths(count: f64) -> Length {
    Length::mm(1) * Exact::ratio(count as i64, 1000)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(length: Option<Length>) -> f64 {
        length.map_or(f64::NAN, Length::to_mm_f64)
    }

    /// A line of 500 in an opening 400 wide stands 300 high (3, 4, 5).
    #[test]
    fn a_thin_board_lies_along_the_diagonal() {
        let high = height_to_tilt(Length::mm(500), Length::ZERO, Length::mm(400));
        assert!((mm(high) - 300.0).abs() < 0.002, "{high:?}");
        let long = longest_to_tilt(Length::ZERO, Length::mm(400), Length::mm(300));
        assert!((long.to_mm_f64() - 500.0).abs() < 0.003, "{long:?}");
    }

    /// 400 long and 100 thick at 30°: 400·0.866025 + 100·0.5 = 396.410 wide and
    /// 400·0.5 + 100·0.866025 = 286.603 high.
    #[test]
    fn a_thick_board_needs_more() {
        let wide = Length::mm(396_410) / 1000;
        let high = height_to_tilt(Length::mm(400), Length::mm(100), wide);
        assert!((mm(high) - 286.603).abs() < 0.01, "{high:?}");
    }

    #[test]
    fn what_is_shorter_goes_in_flat_and_what_is_on_end_is_as_high_as_it_is_long() {
        let flat = height_to_tilt(Length::mm(300), Length::mm(18), Length::mm(300));
        assert_eq!(flat, Some(Length::mm(18)));
        let on_end = height_to_tilt(Length::mm(300), Length::mm(18), Length::mm(18));
        assert_eq!(on_end, Some(Length::mm(300)));
        assert_eq!(height_to_tilt(Length::mm(300), Length::mm(18), Length::mm(17)), None);
    }
}
