//! Router bits.

use crate::measure::{Exact, Length, Unit};

/// The width of a flute that a round-nose bit of `diameter` cuts `deep` deep:
/// 2·√(2rd − d²) while d ≤ r, else the diameter. Plane geometry of a circle's
/// chord. The root is rounded up to a thousandth of a millimetre, so that a
/// land is never made out wider than it is.
#[must_use]
pub fn flute_width(diameter: Length, deep: Length) -> Length {
    let radius = diameter.half();
    if deep >= radius {
        return diameter;
    }
    let (r, d) = (radius.to_mm_f64(), deep.to_mm_f64());
    let width = 2.0 * (2.0 * r * d - d * d).max(0.0).sqrt();
    let thousandths = (width * 1000.0).ceil();
    Length::mm(1) * Exact::ratio(thousandths as i64, 1000)
}

/// What a flute takes out of the board on each millimetre of its run, in
/// square millimetres: r² acos((r − d)/r) − (r − d) √(2rd − d²), and the
/// straight sides above the half circle where d > r. Plane geometry of a
/// circle's segment.
#[must_use]
pub fn flute_area(diameter: Length, deep: Length) -> f64 {
    let (r, deep) = (diameter.half().to_mm_f64(), deep.to_mm_f64());
    if r <= 0.0 || deep <= 0.0 {
        return 0.0;
    }
    let d = deep.min(r);
    let segment = r * r * ((r - d) / r).acos() - (r - d) * (2.0 * r * d - d * d).max(0.0).sqrt();
    segment + 2.0 * r * (deep - d)
}

/// The highest speed for a bit of this diameter, in turns a minute. Common
/// practice, the same in several published charts; the limit marked on the
/// bit goes before it.
#[must_use]
pub fn speed_limit(diameter: Length) -> u32 {
    let inches = diameter.in_unit(Unit::Inch);
    if inches <= Exact::int(1) {
        24_000
    } else if inches <= Exact::int(2) {
        18_000
    } else if inches <= Exact::ratio(5, 2) {
        16_000
    } else {
        12_000
    }
}

/// Depths of the passes for a cut `deep` deep: no pass deeper than half the
/// bit's diameter or 1/4 in (common practice, no source), all but the last the
/// same, each the running depth to set.
#[must_use]
pub fn depth_passes(diameter: Length, deep: Length) -> Vec<Length> {
    let most = diameter.half().min(Length::inches(1, 4));
    if !most.is_positive() || !deep.is_positive() {
        return vec![deep];
    }
    let count = (deep / most).ceil().clamp(1, 100);
    (1..=count).map(|pass| deep * Exact::ratio(pass, count)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Geometry, worked by hand: radius 1/4, depth 1/8 gives 0.4330 in;
    /// 3/8 and 1/8 gives 0.5590; 1/2 and 1/10 gives 0.6000.
    #[test]
    fn flutes_are_chords_of_their_bit() {
        for (diameter, deep, width) in [
            (Length::inches(1, 2), Length::inches(1, 8), 0.4330),
            (Length::inches(3, 4), Length::inches(1, 8), 0.5590),
            (Length::inches(1, 1), Length::inches(1, 10), 0.6000),
            (Length::inches(1, 2), Length::inches(3, 8), 0.5),
        ] {
            let got = flute_width(diameter, deep).in_unit(Unit::Inch).to_f64();
            assert!((got - width).abs() < 0.0001, "{got} {width}");
        }
    }

    /// Geometry: half a circle of radius 10 is 157.08 mm², 5 deeper 100 more;
    /// a segment 5 deep of it 61.42 mm².
    #[test]
    fn flutes_take_out_a_segment() {
        for (deep, area) in [(5, 61.42), (10, 157.08), (15, 257.08)] {
            let got = flute_area(Length::mm(20), Length::mm(deep));
            assert!((got - area).abs() < 0.01, "{got} {area}");
        }
    }

    #[test]
    fn no_pass_is_deeper_than_half_the_bit() {
        let passes = depth_passes(Length::inches(1, 2), Length::inches(5, 8));
        assert_eq!(passes.len(), 3);
        assert_eq!(passes.last(), Some(&Length::inches(5, 8)));
        assert_eq!(depth_passes(Length::inches(1, 2), Length::inches(1, 4)).len(), 1);
    }

    #[test]
    fn large_bits_turn_slower() {
        assert_eq!(speed_limit(Length::inches(1, 2)), 24_000);
        assert_eq!(speed_limit(Length::inches(3, 2)), 18_000);
        assert_eq!(speed_limit(Length::inches(7, 2)), 12_000);
    }
}
