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

/// How far a point on the rim of a bit runs in a minute: π·D·n. Rounded up to
/// a whole millimetre.
#[must_use]
pub fn rim_speed(diameter: Length, turns: u32) -> Length {
    let mm = std::f64::consts::PI * diameter.to_mm_f64() * f64::from(turns);
    Length::mm(mm.ceil() as i64)
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

    #[test]
    fn no_pass_is_deeper_than_half_the_bit() {
        let passes = depth_passes(Length::inches(1, 2), Length::inches(5, 8));
        assert_eq!(passes.len(), 3);
        assert_eq!(passes.last(), Some(&Length::inches(5, 8)));
        assert_eq!(depth_passes(Length::inches(1, 2), Length::inches(1, 4)).len(), 1);
    }

    /// Worked by hand: 2 in at 18,000 is 9425 ft/min or 47.9 m/s, 3-1/2 in at
    /// 12,000 is 10,996 ft/min, 1 in at 24,000 is 6283 ft/min.
    #[test]
    fn the_rim_runs_as_far_as_its_circle_turns() {
        for (diameter, turns, feet) in [
            (Length::inches(2, 1), 18_000, 9425.0),
            (Length::inches(7, 2), 12_000, 10_996.0),
            (Length::inches(1, 1), 24_000, 6283.0),
        ] {
            let got = rim_speed(diameter, turns).in_unit(Unit::Foot).to_f64();
            assert!((got - feet).abs() < 1.0, "{got} {feet}");
        }
        let metres = rim_speed(Length::inches(2, 1), 18_000).in_unit(Unit::Metre).to_f64();
        assert!((metres / 60.0 - 47.9).abs() < 0.05, "{metres}");
    }

    #[test]
    fn large_bits_turn_slower() {
        assert_eq!(speed_limit(Length::inches(1, 2)), 24_000);
        assert_eq!(speed_limit(Length::inches(3, 2)), 18_000);
        assert_eq!(speed_limit(Length::inches(7, 2)), 12_000);
    }
}
