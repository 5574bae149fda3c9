//! Glue and clamps.

use crate::measure::{Area, Duration, Exact, Length, Unit, Volume};

/// How many clamps close a joint of a frame, box or carcass that is this long:
/// one for each 12 in or part of it, and two where it is over 8 in, so that both its ends
/// close (common practice, no source).
#[must_use]
pub fn joint_clamps(long: Length) -> u32 {
    every(long, 12).max(if long > Length::inches(8, 1) { 2 } else { 1 })
}

/// How long either leg of a clamping block for a miter is, which is sawn as a wedge of a right
/// angle, and how long it stands along the seam: 2 in, 50 mm, so that the jaw of a clamp has
/// room on it (common practice, no source).
#[must_use]
pub fn clamping_block(unit: Unit) -> Length {
    unit.either(Length::inches(2, 1), Length::mm(50))
}

/// How many clamps close a panel glued up of boards: one for each 8 in of its
/// length, never fewer than two (common practice, no source).
#[must_use]
pub fn panel_clamps(long: Length) -> u32 {
    every(long, 8).max(2)
}

/// How long it takes to spread glue on so many joints, all in all so long: a
/// quarter of a minute to take up each joint, and 30 in of it in a minute
/// (common practice, no source; a roller is faster, a brush in mortises slower).
#[must_use]
pub fn spreading(joints: u32, long: Length) -> Duration {
    Duration(Exact::ratio(i64::from(joints), 4) + long.in_unit(Unit::Inch) / Exact::int(30))
}

/// The same for flat seams, such as those of a face frame: a bead runs along 60 in
/// of an edge in a minute (common practice, no source).
#[must_use]
pub fn spreading_flat(joints: u32, long: Length) -> Duration {
    spreading(joints, long.half())
}

/// How long it takes to tighten so many clamps that were set to their width, with their
/// cauls, in the dry run: 10 s each (common practice, no source).
#[must_use]
pub fn clamping(clamps: u32) -> Duration {
    Duration(Exact::ratio(i64::from(clamps), 6))
}

/// How long it takes to drive so many screws while glue is open, the board held where it
/// belongs: a quarter of a minute each (common practice, no source).
#[must_use]
pub fn driving(screws: u32) -> Duration {
    Duration(Exact::ratio(i64::from(screws), 4))
}

/// How many milliliters of glue go on joints so long, and between layers so many square meters
/// large, up to the next ten: a line an inch wide along each joint, which is an edge of 3/4 in
/// and what is squeezed out, or the sides of a groove (common practice, no source). A gallon is
/// spread over 200 square feet, the lower of the figures that trade pages give (200 to 300).
#[must_use]
pub fn glue_needed(long: Length, layers: Exact) -> i64 {
    let meter = Length::mm(1000);
    let area = (long / meter) * (Length::inches(1, 1) / meter) + layers;
    let covered = Area::square_feet(Exact::int(200)).0;
    let Some(gallon) = milliliters("gal") else { return 0 };
    (area / covered * gallon / Exact::int(10)).ceil() * 10
}

/// The milliliters of a liter, and of a quart and a gallon of the United States (231 cubic
/// inches); `None` for what is no such unit.
#[must_use]
pub fn milliliters(per: &str) -> Option<Exact> {
    let gallon = Volume::ounces(Exact::int(128)).0;
    match per {
        "l" => Some(Exact::int(1000)),
        "qt" => Some(gallon / Exact::int(4)),
        "gal" => Some(gallon),
        _ => None,
    }
}

/// What is left on every outer edge of a front that is planed to its opening: 1/32 in
/// or 1 mm (common practice, no source).
#[must_use]
pub fn shaving(unit: Unit) -> Length {
    unit.either(Length::inches(1, 32), Length::mm(1))
}

/// The boards that a wide blank is glued up from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Staves {
    /// How many.
    pub count: i64,
    /// The width that each is ripped to, before its edges are jointed.
    pub wide: Length,
}

/// Equal boards for a blank so wide, from boards at most so wide: none over
/// 6 in, since wider ones cup, three at least for a blank over 10 in, and 1/16
/// in for jointing each edge (common practice, no source).
#[must_use]
pub fn staves(blank: Length, widest: Length) -> Staves {
    let jointing = Length::inches(1, 8);
    let most = (widest.min(Length::inches(6, 1)) - jointing).max(Length::inches(1, 1));
    let least = if blank > Length::inches(10, 1) { 3 } else { 2 };
    let count = (blank / most).ceil().clamp(least, 1000);
    Staves { count, wide: blank / count + jointing }
}

fn every(long: Length, inches: i64) -> u32 {
    u32::try_from((long / Length::inches(inches, 1)).ceil().clamp(0, 10_000)).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// A gallon for 200 square feet, of layers or of 2,400 ft of joints; and nothing for none.
    #[test]
    fn a_gallon_of_glue_covers_two_hundred_square_feet() {
        let foot = Exact::ratio(3048, 10_000);
        assert_eq!(glue_needed(Length::ZERO, foot * foot * Exact::int(200)), 3790);
        assert_eq!(glue_needed(Length::inches(2400 * 12, 1), Exact::ZERO), 3790);
        assert_eq!(glue_needed(Length::ZERO, Exact::ZERO), 0);
    }

    /// Pressure times glue area: 24 in by 3/4 in at 175 psi is 3150 lb, three
    /// to four heavy clamps (an adhesive maker's pressure, common practice).
    #[test]
    fn a_panel_of_two_feet_takes_three_or_four_clamps() {
        let pounds = 24.0 * 0.75 * 175.0;
        assert!((pounds - 3150.0f64).abs() < 0.1);
        assert!((3..=4).contains(&panel_clamps(Length::inches(24, 1))));
        assert_eq!(panel_clamps(Length::inches(5, 1)), 2);
    }

    /// Common practice, no source.
    #[test]
    fn long_joints_take_more_clamps() {
        for (inches, clamps) in [(2, 1), (8, 1), (9, 2), (12, 2), (13, 2), (17, 2), (72, 6)] {
            assert_eq!(joint_clamps(Length::inches(inches, 1)), clamps, "{inches}");
        }
    }

    /// Worked by hand: 13-3/32 from boards up to 8 in: three boards of
    /// 4-35/96 + 1/8; 8-1/4 from boards up to 5 in: two of 4-1/8 + 1/8.
    #[test]
    fn a_blank_is_glued_up_from_equal_boards() {
        let wide = staves(Length::inches(419, 32), Length::inches(8, 1));
        assert_eq!((wide.count, wide.wide), (3, Length::inches(419, 96) + Length::inches(1, 8)));
        let narrow = staves(Length::inches(33, 4), Length::inches(5, 1));
        assert_eq!((narrow.count, narrow.wide), (2, Length::inches(17, 4)));
    }

    proptest! {
        /// No joint lies within 1/2 in of an edge of the blank (common practice, no source),
        /// and none of its boards is wider than those there are.
        #[test]
        fn joints_keep_off_the_edges(blank in 64i64..4096, widest in 64i64..1024) {
            let (blank, widest) = (Length::inches(blank, 64), Length::inches(widest, 64));
            prop_assume!(blank > widest);
            let staves = staves(blank, widest);
            let each = blank / staves.count;
            prop_assert!(each > Length::inches(1, 2));
            prop_assert!(staves.wide <= widest.max(Length::inches(9, 8)));
            prop_assert!(staves.wide <= Length::inches(6, 1));
        }
    }

    /// Worked by hand: 12 joints of 11-13/16 in: 3 min + 141.75 / 30 = 7.725.
    #[test]
    fn spreading_counts_joints_and_their_length() {
        let long = Length::inches(189, 16) * 12;
        assert_eq!(spreading(12, long), Duration(Exact::ratio(7725, 1000)));
    }

    proptest! {
        #[test]
        fn a_longer_joint_never_asks_for_less(a in 1i64..10_000, b in 1i64..10_000) {
            let (short, long) = (Length::mm(a.min(b)), Length::mm(a.max(b)));
            prop_assert!(joint_clamps(short) <= joint_clamps(long));
            prop_assert!(panel_clamps(short) <= panel_clamps(long));
            prop_assert!(spreading(1, short) <= spreading(1, long));
        }
    }
}
