//! How a piece is fixed to a wall, and cut out round what is on it.

use crate::measure::{Exact, Length, Mass, Unit};

/// How far below a case the strip reaches that it is lifted onto: 1-1/2 in, 38 mm (common
/// practice, no source).
#[must_use]
pub fn wall_strip(unit: Unit) -> Length {
    unit.either(Length::inches(3, 2), Length::mm(38))
}

/// The screws that hold a nailer at each stud (common practice, no source).
pub const SCREWS_AT_STUD: u32 = 2;

/// How far a screw goes into a stud: 1-1/2 in or 38 mm, in the wood and not in
/// what the wall is lined with (common practice, no source).
#[must_use]
pub fn into_stud(unit: Unit) -> Length {
    unit.either(Length::inches(3, 2), Length::mm(38))
}

/// A shorter piece of a nailer beside a pipe holds no screw worth the name: 6 in, 150 mm
/// (common practice, no source).
#[must_use]
pub fn shortest_nailer(unit: Unit) -> Length {
    unit.either(Length::inches(6, 1), Length::mm(150))
}

/// How thick the wallboard of a usual room is: 1/2 in or 12.5 mm (common practice, no
/// source).
#[must_use]
pub fn wallboard(unit: Unit) -> Length {
    unit.either(Length::inches(1, 2), Length::mm(25).half())
}

/// Across a #8 wood screw, in inches (from memory).
const ACROSS_NO_8: f64 = 0.164;

/// What a #8 screw bears square to its length in a stud of spruce: `C D²` pounds with
/// 2,520 for the lightest woods (T. G. Hicks, Civil Engineering Formulas, equation 6.38 and
/// Table 6.2).
#[must_use]
pub fn screw_down() -> Mass {
    pounds(2520.0 * ACROSS_NO_8 * ACROSS_NO_8)
}

/// What a #8 screw bears along its length that is 1-1/2 in deep in a stud of spruce, of
/// specific gravity 0.41: `2,850 G² D` pounds for each inch (T. G. Hicks, Civil Engineering
/// Formulas, equation 6.37 and Table 6.2).
#[must_use]
pub fn screw_out() -> Mass {
    pounds(withdrawal(0.41, ACROSS_NO_8) * 1.5)
}

/// The pounds that an inch of a screw bears along its length in the side grain of dry
/// wood, by the specific gravity of the wood and the inches across the screw.
fn withdrawal(gravity: f64, across: f64) -> f64 {
    2850.0 * gravity * gravity * across
}

/// To the hundredth.
fn pounds(pounds: f64) -> Mass {
    Mass::pounds(Exact::ratio((pounds * 100.0).round() as i64, 100))
}

/// Which cabinet screws go through a nailer into a stud: #8 to #10, or 4 to 5 mm (common
/// practice, no source).
#[must_use]
pub fn wall_gauge(unit: Unit) -> &'static str {
    unit.either("#8 to #10", "4 to 5 mm")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked by hand: 2,520 × 0.164² = 67.78 lb, and 2,850 × 0.1681 × 0.164 × 1.5 =
    /// 117.85 lb. A #10 screw, 0.19 across, bears 109 lb an inch in wood of 0.45 (the
    /// example of a published page on the withdrawal of wood screws).
    #[test]
    fn a_screw_bears_what_the_tables_say() {
        assert_eq!(screw_down(), Mass::pounds(Exact::ratio(6778, 100)));
        assert_eq!(screw_out(), Mass::pounds(Exact::ratio(11785, 100)));
        let published = withdrawal(0.45, 0.19);
        assert!((published - 109.0).abs() < 1.0, "{published}");
    }
}
