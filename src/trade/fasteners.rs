//! Screws.

use crate::measure::{Exact, Length, Unit};

/// The pocket screw for stock of this thickness and the thickest stock it is
/// for: common practice, the same in several published charts.
const POCKET_SCREWS: [((i64, i64), (i64, i64)); 6] = [
    // thickness up to, screw length, inches
    ((9, 16), (1, 1)),
    ((11, 16), (9, 8)),
    ((27, 32), (5, 4)),
    ((9, 8), (3, 2)),
    ((5, 4), (2, 1)),
    ((7, 4), (5, 2)),
];

/// The length of pocket screw for stock of this thickness; `None` for stock
/// that is too thin (under 1/2 in less a sheet's tolerance) or too thick. In a metric
/// job it is told in whole millimeters, as it is sold (25, 32, 38, 51 and 64 mm: from
/// memory).
#[must_use]
pub fn pocket_screw(thickness: Length, unit: Unit) -> Option<Length> {
    if thickness < Length::inches(7, 16) {
        return None;
    }
    POCKET_SCREWS
        .iter()
        .find(|((n, d), _)| thickness <= Length::inches(*n, *d))
        .map(|(_, (n, d))| pocket_length(Length::inches(*n, *d), unit))
}

/// A pocket screw so many inches long, as it is sold.
fn pocket_length(long: Length, unit: Unit) -> Length {
    unit.either(long, Length::mm(long.in_unit(Unit::Millimetre).round()))
}

/// How far the point of a pocket screw `long` goes into the board that it is driven into,
/// square to the end of its own board, which is `thick`. The screw leans 15 degrees, whose
/// cosine is 29/30 to a thousandth. Its head sits 4/5 of the thickness from the end, and
/// 3/5 in at least: so the point of each screw of the usual chart, in two boards of one
/// thickness, stops about 1/8 in short of the far face (common practice, no source for the
/// place of the head, which is what the chart and the angle leave open).
#[must_use]
pub fn pocket_reach(long: Length, thick: Length) -> Length {
    let head = (thick * 4 / 5).max(Length::inches(3, 5));
    (long - head).max(Length::ZERO) * 29 / 30
}

/// The longest pocket screw that holds a board `thick` on one `into` thick: its point
/// stays 1/16 in short of the far face, and it is no longer than what the thickness of its
/// own board takes. `None` where such a screw bites less than 3/8 in (common practice, no
/// source).
#[must_use]
pub fn pocket_screw_into(thick: Length, into: Length, unit: Unit) -> Option<Length> {
    let usual = pocket_screw(thick, unit)?;
    let lengths = POCKET_SCREWS.iter().map(|(_, (n, d))| Length::inches(*n, *d));
    lengths
        .map(|long| pocket_length(long, unit))
        .filter(|long| *long <= usual)
        .filter(|long| {
            let reach = pocket_reach(*long, thick);
            reach + Length::inches(1, 16) <= into && reach >= Length::inches(3, 8)
        })
        .max()
}

/// How many pocket screws hold the end of a board this wide: two up to 3 in,
/// one more for each 3 in beyond (common practice). One only on a board under 1-1/2 in,
/// where two would leave less than 3/16 in of wood at an edge.
#[must_use]
pub fn pocket_count(width: Length) -> u32 {
    let inches = width.in_unit(Unit::Inch);
    if inches < Exact::ratio(3, 2) {
        return 1;
    }
    let beyond = (inches - 3.into()).max(Exact::ZERO);
    2 + u32::try_from((beyond / 3).ceil()).unwrap_or(0).min(40)
}

/// The width that a pocket takes up: its step drill is 3/8 in (common practice).
#[must_use]
pub fn pocket_width() -> Length {
    Length::inches(3, 8)
}

/// Centers of `count` pocket holes across the end of a board `width` wide,
/// from one edge: the first and last 3/4 to 1-1/2 in from their edges, the rest
/// at equal spaces between them (common practice, no source). On a board too
/// narrow for that they lie a quarter of its width in; one alone in the middle.
#[must_use]
pub fn pocket_places(width: Length, count: u32) -> Vec<Length> {
    if count < 2 {
        return vec![width.half(); count as usize];
    }
    let count = i64::from(count);
    let even = width / (2 * count);
    let inset = even.clamp(Length::inches(3, 4), Length::inches(3, 2)).min(width / 4);
    let step = (width - inset.twice()) / (count - 1);
    (0..count).map(|number| inset + step * number).collect()
}

/// How thick a wood screw is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Gauge {
    /// The thinnest that holds a drawer front while it is set.
    Four,
    /// Where a rabbet or an edge of thin stock would split.
    Six,
    /// The usual one.
    Eight,
}

impl Gauge {
    /// Its name in a store: a number in inches, else its diameter.
    #[must_use]
    pub fn name(self, unit: Unit) -> &'static str {
        let (number, metric) = match self {
            Self::Four => ("No. 4", "3-mm"),
            Self::Six => ("No. 6", "3.5-mm"),
            Self::Eight => ("No. 8", "4-mm"),
        };
        match unit {
            Unit::Inch | Unit::Foot => number,
            Unit::Millimetre | Unit::Centimetre | Unit::Metre => metric,
        }
    }

    /// Its diameter: 0.060 in and 0.013 in more for each number (ASME B18.6.1, table 1), or
    /// as its name says.
    #[must_use]
    pub fn diameter(self, unit: Unit) -> Length {
        let (number, tenths) = match self {
            Self::Four => (4, 30),
            Self::Six => (6, 35),
            Self::Eight => (8, 40),
        };
        unit.either(Length::inches(60 + 13 * number, 1000), Length::mm(tenths) / 10)
    }

    /// The thickest that passes a hole and leaves a front room to be set: 0.01 in, 0.25 mm
    /// (common practice, no source). `None` where the hole is too narrow for any.
    #[must_use]
    pub fn through(hole: Length, unit: Unit) -> Option<Self> {
        let play = unit.either(Length::inches(1, 100), Length::mm(1) / 4);
        let passes = |own: &Self| own.diameter(unit) + play <= hole;
        [Self::Eight, Self::Six, Self::Four].into_iter().find(passes)
    }
}

/// Lengths in which wood screws are sold, in 16ths of an inch and in
/// millimetres (from memory).
const SOLD: ([i64; 13], [i64; 13]) = (
    [8, 10, 12, 14, 16, 18, 20, 24, 28, 32, 36, 40, 48],
    [12, 16, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90],
);

/// The longest screw that is sold in a length of `least` to `most`; `None`
/// where none is.
#[must_use]
pub fn screw_sold(least: Length, most: Length, unit: Unit) -> Option<Length> {
    sold(unit).filter(|length| (least..=most).contains(length)).max()
}

/// The shortest screw that is sold in a length of `least` to `most`; `None` where
/// none is.
#[must_use]
pub fn shortest_sold(least: Length, most: Length, unit: Unit) -> Option<Length> {
    sold(unit).find(|length| (least..=most).contains(length))
}

/// A screw longer than those that are sold everywhere: the next full half inch or 10 mm
/// (from memory: 3-1/2 and 4 in, 100 and 120 mm).
#[must_use]
pub fn long_screw(least: Length, unit: Unit) -> Length {
    let step = unit.either(Length::inches(1, 2), Length::mm(10));
    step * (least / step).ceil()
}

/// The lengths that are sold, the shortest first.
fn sold(unit: Unit) -> impl Iterator<Item = Length> {
    let (inches, metric) = SOLD;
    let lengths = inches.into_iter().zip(metric);
    lengths.map(move |(inch, mm)| unit.either(Length::inches(inch, 16), Length::mm(mm)))
}

/// How far a screw's tip stays short of a face that is seen, or of the bottom
/// of a flute: 1/8 in or 3 mm (common practice, no source).
#[must_use]
pub fn short_of_face(unit: Unit) -> Length {
    unit.either(Length::inches(1, 8), Length::mm(3))
}

/// How far a screw that comes from behind a board, or through a thin one, goes
/// into what is before it: 3/8 in, 10 mm (common practice, no source).
#[must_use]
pub fn into_face(unit: Unit) -> Length {
    unit.either(Length::inches(3, 8), Length::mm(10))
}

/// How thick the blocks are that hold a case on its base: 1 in or 25 mm square (common
/// practice, no source).
#[must_use]
pub fn base_block(unit: Unit) -> Length {
    unit.either(Length::inches(1, 1), Length::mm(25))
}

/// How many blocks hold a base so long to the floor: along its front and along its back
/// one near each end, and between them no more than 4 ft (1200 mm) apart (common practice,
/// no source).
#[must_use]
pub fn floor_blocks(long: Length, unit: Unit) -> u32 {
    let apart = unit.either(Length::inches(48, 1), Length::mm(1200));
    let spaces = (long / apart).ceil().max(1);
    2 * (u32::try_from(spaces).unwrap_or(u32::MAX / 4) + 1)
}

/// How far the screw of a drawer front goes into the front, at least and at
/// most, for a front `thick` thick with flutes `fluted` deep: 3/8 to 1/2 in or
/// 10 to 13 mm, never nearer to a flat face than 1/4 in or 6 mm, and never
/// nearer to a flute than [`short_of_face`] (common practice, no source). The
/// second is below the first where a front is too thin.
#[must_use]
pub fn front_bite(thick: Length, fluted: Length, unit: Unit) -> (Length, Length) {
    let least = unit.either(Length::inches(3, 8), Length::mm(10));
    let usual = unit.either(Length::inches(1, 2), Length::mm(13));
    let behind = match fluted.is_positive() {
        true => fluted + short_of_face(unit),
        false => unit.either(Length::inches(1, 4), Length::mm(6)),
    };
    (least, usual.min(thick - behind))
}

/// The least that a screw goes into a front that it may go into by no more than `most`: a
/// thin front gets a short screw, of half of that, but of 5/16 in, 8 mm where it takes as
/// much, since less holds nothing (common practice, no source).
#[must_use]
pub fn thin_bite(least: Length, most: Length, unit: Unit) -> Length {
    let holds = unit.either(Length::inches(5, 16), Length::mm(8));
    let half = most.half();
    least.min(if most < holds { half } else { half.max(holds) })
}

/// How many screws hold a strip or an edge this long: one each 6 in (150 mm),
/// at least two (common practice, no source).
#[must_use]
pub fn screws_along(long: Length) -> u32 {
    u32::try_from((long.in_unit(Unit::Inch) / 6).ceil().clamp(2, 1000)).unwrap_or(2)
}

/// A screw keeps so far from a cut in what it goes into: 1/4 in, 6 mm (common practice, no
/// source).
#[must_use]
pub fn from_cut(unit: Unit) -> Length {
    unit.either(Length::inches(1, 4), Length::mm(6))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Worked by hand: 4 wide, three holes: 4/6 = 2/3 is less than 3/4, so 3/4,
    /// then every (4 − 1-1/2) / 2 = 1-1/4. 1-1/2 wide, two holes: a quarter is
    /// 3/8. 14 wide, seven: 14/14 = 1, then every 12/6 = 2.
    #[test]
    fn pockets_stand_at_equal_spaces() {
        let inches = |places: &[(i64, i64)]| -> Vec<Length> {
            places.iter().map(|(n, d)| Length::inches(*n, *d)).collect()
        };
        let (narrow, wide) = (Length::inches(3, 2), Length::inches(14, 1));
        assert_eq!(pocket_places(Length::inches(4, 1), 3), inches(&[(3, 4), (2, 1), (13, 4)]));
        assert_eq!(pocket_places(narrow, 2), inches(&[(3, 8), (9, 8)]));
        assert_eq!(pocket_places(wide, 7)[..2], inches(&[(1, 1), (3, 1)]));
        assert_eq!(pocket_places(Length::inches(3, 4), 1), inches(&[(3, 8)]));
    }

    proptest! {
        /// Common practice: 3/4 to 1-1/2 in from the edges wherever the board
        /// is wide enough, and no pocket breaks into the next.
        #[test]
        fn pockets_keep_from_edges_and_each_other(sixteenths in 16i64..800) {
            let width = Length::inches(sixteenths, 16);
            let places = pocket_places(width, pocket_count(width));
            let (first, last) = (places[0], places[places.len() - 1]);
            prop_assert_eq!(first + last, width);
            prop_assert!(first <= Length::inches(3, 2));
            prop_assert!(first >= Length::inches(3, 4).min(width / 4));
            // Half of the step drill, and as much wood beside it.
            prop_assert!(first >= pocket_width());
            for pair in places.windows(2) {
                prop_assert!(pair[1] - pair[0] > pocket_width());
            }
        }
    }

    /// The usual chart of pocket screws (common practice).
    #[test]
    fn screws_follow_the_thickness() {
        for (thickness, screw) in [
            (Length::inches(1, 2), Length::inches(1, 1)),
            (Length::inches(3, 4), Length::inches(5, 4)),
            (Length::inches(7, 8), Length::inches(3, 2)),
            (Length::inches(3, 2), Length::inches(5, 2)),
        ] {
            assert_eq!(pocket_screw(thickness, Unit::Inch), Some(screw));
        }
        assert_eq!(pocket_screw(Length::inches(1, 4), Unit::Inch), None);
    }

    /// The chart is made for two boards of one thickness: with each of its screws between
    /// 1/16 and 3/16 in of wood stays behind the point, where a published rule asks for at
    /// least 1/8 (trade values, pocket screws) of boards as thick as they are called.
    #[test]
    fn the_usual_screw_stays_in_a_board_of_the_same_thickness() {
        for (n, d) in [(1, 2), (5, 8), (23, 32), (3, 4), (7, 8), (1, 1), (5, 4), (3, 2)] {
            let thick = Length::inches(n, d);
            let screw = pocket_screw(thick, Unit::Inch).expect("a screw");
            let behind = thick - pocket_reach(screw, thick);
            assert!(behind >= Length::inches(1, 16), "{n}/{d}");
            assert!(behind <= Length::inches(13, 32), "{n}/{d}");
        }
    }

    /// Worked by hand. Of 1-1/4 in a board of 3/4, 0.6 in lies before the end, and
    /// 0.65 × 29/30 = 0.628 behind it. Of 2 in a board of 1 in, 1.2 × 29/30 = 1.16.
    #[test]
    fn a_pocket_screw_reaches_into_the_other_board() {
        let inch = |n, d| Length::inches(n, d);
        assert_eq!(pocket_reach(inch(5, 4), inch(3, 4)), inch(377, 600));
        assert_eq!(pocket_reach(inch(2, 1), inch(1, 1)), inch(29, 25));
        let into = |thick, into| pocket_screw_into(thick, into, Unit::Inch);
        assert_eq!(into(inch(1, 1), inch(23, 32)), Some(inch(5, 4)));
        assert_eq!(into(inch(23, 32), inch(15, 32)), Some(inch(1, 1)));
        assert_eq!(into(inch(3, 4), inch(1, 4)), None);
    }

    #[test]
    fn wide_boards_take_more_screws() {
        assert_eq!(pocket_count(Length::inches(1, 1)), 1);
        assert_eq!(pocket_count(Length::inches(3, 2)), 2);
        assert_eq!(pocket_count(Length::inches(16, 1)), 7);
    }

    /// Worked by hand: a flat front of 3/4 leaves 3/4 - 1/4 = 1/2; with flutes
    /// 1/8 deep 3/4 - 1/8 - 1/8 = 1/2, 1/4 deep 3/8. One of 19 mm: 19 - 6 = 13.
    #[test]
    fn a_front_takes_screws_by_its_thickness() {
        let inch = |n, d| Length::inches(n, d);
        let most = |thick, fluted, unit| front_bite(thick, fluted, unit).1;
        assert_eq!(most(inch(3, 4), Length::ZERO, Unit::Inch), inch(1, 2));
        assert_eq!(most(inch(3, 4), inch(1, 8), Unit::Inch), inch(1, 2));
        assert_eq!(most(inch(3, 4), inch(1, 4), Unit::Inch), inch(3, 8));
        assert_eq!(most(Length::mm(19), Length::ZERO, Unit::Millimetre), Length::mm(13));
        assert_eq!(most(inch(1, 2), Length::ZERO, Unit::Inch), inch(1, 4));
    }

    #[test]
    fn screws_are_bought_in_the_lengths_that_are_sold() {
        let inch = |n, d| Length::inches(n, d);
        assert_eq!(screw_sold(inch(1, 1), inch(9, 8), Unit::Inch), Some(inch(9, 8)));
        assert_eq!(screw_sold(inch(17, 16), inch(35, 32), Unit::Inch), None);
        let metric = |a, b| screw_sold(Length::mm(a), Length::mm(b), Unit::Millimetre);
        assert_eq!(metric(25, 28), Some(Length::mm(25)));
        // A nailer of 13/16, a back of 7/32, 1/2 of wallboard, and 1-1/2 of stud: 3-1/32.
        assert_eq!(long_screw(inch(97, 32), Unit::Inch), inch(7, 2));
        assert_eq!(long_screw(Length::mm(93), Unit::Millimetre), Length::mm(100));
    }

    #[test]
    fn a_long_strip_takes_more_screws() {
        for (inches, screws) in [(3, 2), (12, 2), (13, 3), (15, 3)] {
            assert_eq!(screws_along(Length::inches(inches, 1)), screws);
        }
    }
}
