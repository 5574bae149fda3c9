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

/// The length of the curve that a flute's surface follows across it:
/// 2·r·acos((r − d)/r) while d ≤ r, else a half circle and two straight walls,
/// π·r + 2(d − r). Plane geometry: the arc of a circular segment. Rounded up
/// to a thousandth of a millimetre, so that finish is never reckoned short.
#[must_use]
pub fn flute_arc(diameter: Length, deep: Length) -> Length {
    let (r, d) = (diameter.to_mm_f64() / 2.0, deep.to_mm_f64().max(0.0));
    let arc = 2.0 * r * segment_angle(r, d) + 2.0 * (d - r).max(0.0);
    Length::mm(1) * Exact::ratio((arc * 1000.0).ceil() as i64, 1000)
}

/// The cross-section of a flute in square millimetres: r²·acos((r − d)/r) −
/// (r − d)·√(2rd − d²) while d ≤ r, else a half circle under a rectangle.
/// Plane geometry: the area of a circular segment. Rounded up to a thousandth.
#[must_use]
pub fn flute_area(diameter: Length, deep: Length) -> Exact {
    let (r, d) = (diameter.to_mm_f64() / 2.0, deep.to_mm_f64().max(0.0));
    let round = d.min(r);
    let chord = (2.0 * r * round - round * round).max(0.0).sqrt();
    let segment = r * r * segment_angle(r, d) - (r - round) * chord;
    let area = segment + 2.0 * r * (d - r).max(0.0);
    Exact::ratio((area * 1000.0).ceil() as i64, 1000)
}

/// Half the angle of the segment that a circle of radius `r` sinks `d` deep.
fn segment_angle(r: f64, d: f64) -> f64 {
    if r > 0.0 { ((r - d.min(r)) / r).acos() } else { 0.0 }
}

/// Center lines of the flutes across a front `wide` across the run: equally
/// spaced at `pitch`, symmetrical, with at least `land` left at both edges.
/// Empty where not even one fits.
#[must_use]
pub fn flute_lines(wide: Length, flute: Length, pitch: Length, land: Length) -> Vec<Length> {
    let room = wide - land.twice() - flute;
    if room.is_negative() || !pitch.is_positive() {
        return Vec::new();
    }
    let steps = (room / pitch).floor().clamp(0, 10_000);
    let first = (wide - pitch * steps).half();
    (0..=steps).map(|number| first + pitch * number).collect()
}

/// How far two widths that mate may differ before the joint is loose or will
/// not close: 0.1 mm, 0.004 in (common practice, no source).
#[must_use]
pub fn mating() -> Length {
    Length::mm(1) * Exact::ratio(1, 10)
}

/// How much of the cut before a further stroke takes again, so that no ridge is
/// left between them: 1/16 in, or a quarter of a bit under 1/4 in (common
/// practice, no source).
#[must_use]
pub fn stroke_overlap(bit: Length) -> Length {
    Length::inches(1, 16).min(bit.half().half())
}

/// The straight bits that most shops own: inches, then millimetres (common
/// practice, no source).
const USUAL_INCHES: [(i64, i64); 8] =
    [(1, 8), (3, 16), (1, 4), (5, 16), (3, 8), (1, 2), (5, 8), (3, 4)];
const USUAL_MM: [i64; 9] = [3, 4, 5, 6, 8, 10, 12, 16, 18];

fn usual_bits(unit: Unit) -> Vec<Length> {
    match unit {
        Unit::Inch | Unit::Foot => USUAL_INCHES.map(|(n, d)| Length::inches(n, d)).to_vec(),
        Unit::Millimetre | Unit::Centimetre | Unit::Metre => USUAL_MM.map(Length::mm).to_vec(),
    }
}

/// The widest of the usual straight bits that goes into a channel `wide`
/// across; the channel's own width where even the smallest does not.
#[must_use]
pub fn usual_bit(wide: Length, unit: Unit) -> Length {
    let usual = usual_bits(unit).into_iter();
    usual.filter(|bit| *bit <= wide + mating()).max().unwrap_or(wide)
}

/// How far a bit that is wider than its rabbet hangs over the edge at least, so
/// that no splinter stands there: 1/16 in or 1.5 mm (common practice, no source).
#[must_use]
pub fn rabbet_overhang(unit: Unit) -> Length {
    unit.either(Length::inches(1, 16), Length::mm(3).half())
}

/// The narrowest of the usual straight bits that cuts a rabbet `wide` across at
/// one setting; `None` where even the widest does not.
#[must_use]
pub fn usual_rabbet_bit(wide: Length, unit: Unit) -> Option<Length> {
    let least = wide + rabbet_overhang(unit);
    usual_bits(unit).into_iter().filter(|bit| *bit >= least).min()
}

/// The widest bit that is run by hand: 1 in or 25 mm (common practice, no
/// source).
#[must_use]
pub fn widest_by_hand(unit: Unit) -> Length {
    unit.either(Length::inches(1, 1), Length::mm(25))
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

/// The same passes with a light last one of 1/32 in, 1 mm, where wood tears out beside a
/// cut across its grain (common practice, no source).
#[must_use]
pub fn light_last(mut passes: Vec<Length>, unit: Unit) -> Vec<Length> {
    let light = unit.either(Length::inches(1, 32), Length::mm(1));
    if let Some(deep) = passes.pop() {
        let before = passes.last().copied().unwrap_or_default();
        if before + light < deep {
            passes.push(deep - light);
        }
        passes.push(deep);
    }
    passes
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use std::f64::consts::PI;

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

    /// Table of circular segments for radius 1 (handbook tables of circular
    /// segments, from memory; each row worked again by hand): height, arc,
    /// chord, area.
    #[test]
    fn flutes_are_segments_of_their_bit() {
        for (high, arc, chord, area) in [
            (0.1, 0.9021, 0.8718, 0.0587),
            (0.25, 1.4455, 1.3229, 0.2267),
            (0.5, 2.0944, 1.7321, 0.6142),
            (0.75, 2.6362, 1.9365, 1.0760),
            (1.0, PI, 2.0, PI / 2.0),
            // Deeper than the radius: straight walls above the half circle.
            (1.5, PI + 1.0, 2.0, PI / 2.0 + 1.0),
        ] {
            // A radius of 100 mm, so that the rounding is lost in the table's own.
            let deep = Length::mm((high * 100.0) as i64);
            let diameter = Length::mm(200);
            let near = |got: f64, table: f64| (got - table).abs() < 0.0001;
            assert!(near(flute_arc(diameter, deep).to_mm_f64() / 100.0, arc), "arc at {high}");
            assert!(
                near(flute_width(diameter, deep).to_mm_f64() / 100.0, chord),
                "chord at {high}"
            );
            assert!(near(flute_area(diameter, deep).to_f64() / 10_000.0, area), "area at {high}");
        }
    }

    proptest! {
        /// Geometry: an arc is longer than its chord and shorter than the way
        /// round its box, and the segment lies between triangle and box.
        #[test]
        fn a_segment_lies_in_its_box(diameter in 2i64..60, deep in 1i64..60) {
            let (diameter, deep) = (Length::mm(diameter), Length::mm(deep));
            let (arc, chord) = (flute_arc(diameter, deep), flute_width(diameter, deep));
            prop_assert!(chord < arc && arc < chord + deep.twice() + Length::mm(1));
            let box_area = diameter.to_mm_f64() * deep.to_mm_f64();
            let area = flute_area(diameter, deep).to_f64();
            prop_assert!(area < box_area + 0.01);
            prop_assert!(area > chord.to_mm_f64() * deep.to_mm_f64() / 2.0 - 0.01);
        }
    }

    /// 17-1/16 wide, flutes 0.464 at 3/4 with 3/16 land: (17.0625 − 0.375 −
    /// 0.464) / 0.75 = 21.6, so 22 flutes; margin (17.0625 − 21 × 0.75) / 2 =
    /// 0.65625 to the first center.
    #[test]
    fn flutes_are_symmetrical() {
        let wide = Length::inches(273, 16);
        let flute = Length::inches(464, 1000);
        let lines = flute_lines(wide, flute, Length::inches(3, 4), Length::inches(3, 16));
        assert_eq!(lines.len(), 22);
        assert_eq!(lines[0], Length::inches(21, 32));
        assert_eq!(lines[0] + lines[21], wide);
    }

    #[test]
    fn no_pass_is_deeper_than_half_the_bit() {
        let passes = depth_passes(Length::inches(1, 2), Length::inches(5, 8));
        assert_eq!(passes.len(), 3);
        let inch = |n, d| Length::inches(n, d);
        // 1/8 deep in one pass: 3/32 first. Of 5/8 the last pass of 5/24 is not light.
        let light = |passes| light_last(passes, Unit::Inch);
        assert_eq!(light(vec![inch(1, 8)]), [inch(3, 32), inch(1, 8)]);
        assert_eq!(light(vec![inch(1, 32)]), [inch(1, 32)]);
        assert_eq!(light(vec![inch(1, 4), inch(1, 2)]), [inch(1, 4), inch(15, 32), inch(1, 2)]);
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

    /// Undersized plywood, 23/32 and 13/64 thick, takes the bit below it.
    #[test]
    fn a_usual_bit_goes_into_its_channel() {
        let inch = |n, d| usual_bit(Length::inches(n, d), Unit::Inch);
        assert_eq!(inch(23, 32), Length::inches(5, 8));
        assert_eq!(inch(13, 64), Length::inches(3, 16));
        assert_eq!(inch(3, 4), Length::inches(3, 4));
        assert_eq!(inch(1, 16), Length::inches(1, 16));
        assert_eq!(usual_bit(Length::mm(9), Unit::Millimetre), Length::mm(8));
        // 1/4 in is 6.35 mm.
        assert_eq!(usual_bit(Length::inches(1, 4), Unit::Millimetre), Length::mm(6));
    }

    #[test]
    fn large_bits_turn_slower() {
        assert_eq!(speed_limit(Length::inches(1, 2)), 24_000);
        assert_eq!(speed_limit(Length::inches(3, 2)), 18_000);
        assert_eq!(speed_limit(Length::inches(7, 2)), 12_000);
    }
}
