//! Glass in doors and on shelves.

use crate::measure::{Length, Load, Unit};

/// How much smaller a pane is than its rabbet on every side, at the least: 1/16 in or 1.5 mm,
/// so that the wood may move and the pane is never forced (common practice; published for
/// cabinet doors as an eighth of an inch off the width and the height of the rabbet).
#[must_use]
pub fn pane_clear(unit: Unit) -> Length {
    unit.either(Length::inches(1, 16), Length::mm(3) / 2)
}

/// How far a glazing bead stays below the back of its frame, so that glass a little thicker
/// than its name never holds it proud: 1/32 in or 1 mm (common practice, no source).
#[must_use]
pub fn bead_shy(unit: Unit) -> Length {
    unit.either(Length::inches(1, 32), Length::mm(1))
}

/// The thinnest bead that a pin does not split: 3/16 in or 5 mm (common practice, no source).
#[must_use]
pub fn thinnest_bead(unit: Unit) -> Length {
    unit.either(Length::inches(3, 16), Length::mm(5))
}

/// How far the first pin of a bead is from its end, and how far two pins are apart at the most:
/// 1 in and 6 in, or 25 and 150 mm (common practice, no source).
fn pin_steps(unit: Unit) -> [Length; 2] {
    unit.either([Length::inches(1, 1), Length::inches(6, 1)], [Length::mm(25), Length::mm(150)])
}

/// How many pins hold a bead so long; two at the least.
#[must_use]
pub fn bead_pins(long: Length, unit: Unit) -> i64 {
    let [end, apart] = pin_steps(unit);
    let between = (long - end.twice()).max(Length::ZERO);
    ((between / apart).ceil() + 1).max(2)
}

/// The shortest pin that is sold which goes 1/4 in or 6 mm into the wood behind a bead so wide
/// (common practice, no source; the lengths are those that brads are sold in).
#[must_use]
pub fn bead_pin(wide: Length, unit: Unit) -> Length {
    let inches = [(1, 2), (5, 8), (3, 4), (1, 1), (5, 4), (3, 2), (2, 1)];
    let sold = unit.either(
        inches.map(|(of, parts)| Length::inches(of, parts)),
        [12, 15, 20, 25, 30, 40, 50].map(Length::mm),
    );
    let least = wide + unit.either(Length::inches(1, 4), Length::mm(6));
    sold.into_iter().find(|long| *long >= least).unwrap_or(least)
}

/// How many pounds to the square inch a newton to the square millimeter is.
pub const PSI_IN_NEWTON: f64 = 145.038;

/// What a load comes to, in newtons on a square millimeter.
fn pressure(load: Load) -> f64 {
    load.0.to_f64() * 9.806_65 / 1e6
}

/// How hard a glass shelf on pins at both ends is bent, in newtons to the square millimeter:
/// 3 q L² / (4 t²) (Wood Handbook, Table 9-2: a beam on two supports, loaded all over).
#[must_use]
pub fn glass_stress(load: Load, span: Length, thick: Length) -> f64 {
    let slender = span.to_mm_f64() / thick.to_mm_f64().max(f64::MIN_POSITIVE);
    0.75 * pressure(load) * slender * slender
}

/// How far it sags, in millimeters; `stiffness` in thousands of pounds to the square inch.
#[must_use]
pub fn glass_sag(load: Load, span: Length, thick: Length, stiffness: u32) -> f64 {
    let modulus = f64::from(stiffness) * 1000.0 / PSI_IN_NEWTON;
    let (span, thick) = (span.to_mm_f64(), thick.to_mm_f64());
    5.0 * pressure(load) * span.powi(4) / (32.0 * modulus * thick.powi(3)).max(f64::MIN_POSITIVE)
}

/// What the glass of a shelf bears for years, in newtons to the square millimeter. Plain glass:
/// 6.55, which the recommendations for furniture glass of the Glass and Glazing Federation come
/// to (1978 and 1992: 6 mm over 1000 mm may carry 32 kg on a square meter). Tempered glass: four
/// times as much (ASTM E1300, type factor of fully tempered glass).
#[must_use]
pub fn glass_bears(tempered: bool) -> f64 {
    if tempered { 26.0 } else { 6.55 }
}

/// The thicknesses that shelves of glass are sold in (common practice, no source).
#[must_use]
pub fn glass_sold(unit: Unit) -> [Length; 5] {
    unit.either(
        [(1, 4), (3, 8), (1, 2), (5, 8), (3, 4)].map(|(of, parts)| Length::inches(of, parts)),
        [6, 8, 10, 12, 15].map(Length::mm),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Exact;

    /// The example of the recommendations: 6 mm over 1000 mm carries 32 kg on a square meter and
    /// no more. By hand: 0.75 x 0.00031381 x (1000/6)² = 6.54 N/mm2; 5 x 0.00031381 x 1000⁴ /
    /// (32 x 70000 x 216) = 3.24 mm.
    #[test]
    fn the_published_shelf_bears_what_is_published() {
        let (span, thick) = (Length::mm(1000), Length::mm(6));
        let stress = |kilograms| glass_stress(Load(Exact::int(kilograms)), span, thick);
        assert!((stress(32) - 6.54).abs() < 0.01);
        assert!(stress(32) <= glass_bears(false) && stress(33) > glass_bears(false));
        let sag = glass_sag(Load(Exact::int(32)), span, thick, 10_150);
        assert!((sag - 3.24).abs() < 0.02, "{sag}");
    }

    /// By hand: a bead of 24 in has 22 between its outer pins, so four steps and five pins.
    /// Through a bead 3/8 wide and 1/4 into the stile it takes a pin of 5/8.
    #[test]
    fn pins_are_counted_and_as_long_as_worked() {
        assert_eq!(bead_pins(Length::inches(24, 1), Unit::Inch), 5);
        assert_eq!(bead_pins(Length::inches(3, 2), Unit::Inch), 2);
        assert_eq!(bead_pin(Length::inches(3, 8), Unit::Inch), Length::inches(5, 8));
        assert_eq!(bead_pin(Length::mm(9), Unit::Millimetre), Length::mm(15));
    }
}
