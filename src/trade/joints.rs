//! Mortises, dowels, and dovetails: how deep they go and how they are parted.

use crate::measure::{Length, Unit};

use super::small_work::lasting_wall;

/// The least wood that stays behind a mortise or a blind dowel hole: 3/16 in or
/// 5 mm (common practice, no source). With the usual room for glue that is about
/// 1/4 in or 6 mm behind the tenon.
#[must_use]
pub fn behind_mortise(unit: Unit) -> Length {
    unit.either(Length::inches(3, 16), Length::mm(5))
}

/// How far the tenon of a rail `wide` is set in from the end of a stile, so that the
/// mortise is closed there: a third of the rail's width, which leaves two thirds for
/// the tenon (a woodwork teacher's page on haunched tenons; Noyes,
/// *Handwork in Wood*, chapter VII, leaves half less the groove), to the nearest mark
/// of the tape. A rail so narrow that the wall there would not last keeps its whole
/// tenon, and the mortise is open.
#[must_use]
pub fn set_in(wide: Length, mark: Length) -> Length {
    let third = mark * (wide / 3 / mark).round();
    if third < lasting_wall() { Length::ZERO } else { third }
}

/// The shortest tenon that carries a rail of furniture: 1/2 in, 12 mm (common practice,
/// no source).
#[must_use]
pub fn least_tenon(unit: Unit) -> Length {
    unit.either(Length::inches(1, 2), Length::mm(12))
}

/// How far a dowel goes into a board that is `there` thick along it: three times
/// its diameter (common practice, as read in two shop magazines), but not so far
/// that less than [`behind_mortise`] stays behind its hole, which is deeper by
/// `room`. In a board too thin for that it is a third of the board.
#[must_use]
pub fn dowel_reach(diameter: Length, there: Length, room: Length, unit: Unit) -> Length {
    (diameter * 3).min((there - room - behind_mortise(unit)).max(there / 3))
}

/// The slope of dovetails, as so many along for one across: 1 in 6 in softwood
/// and 1 in 8 in hardwood (a joinery manual, "Dovetail slope", Figure 3.26). A
/// wood that is not named is taken for a hardwood.
#[must_use]
pub fn dovetail_slope(species: Option<&str>) -> i64 {
    if is_softwood(species) { 6 } else { 8 }
}

fn is_softwood(species: Option<&str>) -> bool {
    const SOFT: [&str; 5] =
        ["douglas-fir", "eastern-white-pine", "ponderosa-pine", "western-red-cedar", "white-fir"];
    species.is_some_and(|species| SOFT.contains(&species))
}

/// True for a wood that asks for screws with a fine thread: a hardwood that is not soft
/// for all its name, as poplar and basswood are, with a specific gravity of 0.45 or more,
/// in thousandths (common practice, no source). A wood that is not known is taken for one.
#[must_use]
pub fn is_hard(species: Option<&str>, gravity: Option<u32>) -> bool {
    !is_softwood(species) && gravity.is_none_or(|gravity| gravity >= 450)
}

/// Each tail of a row of dovetails across a board `width` wide: from and to, from
/// one edge, along the end of the board, where a tail is widest.
///
/// Pins are as wide there as the chisel that clears them, 1/4 in or 6 mm, and
/// tails about four times as wide (a shop book on layout of dovetails); a pin of
/// that width stands at both edges, sloped on one side only. All tails and pins
/// are alike and end on marks of the tape, every `mark`; what is left over is
/// shared by the pins at the edges, which differ by a mark at most. A board under
/// four pins wide has one tail, half as wide as it is.
#[must_use]
pub fn tails(width: Length, unit: Unit, mark: Length) -> Vec<(Length, Length)> {
    let (below, near) = (
        |length: Length| mark * (length / mark).floor(),
        |length: Length| mark * (length / mark).round(),
    );
    let pin = unit.either(Length::inches(1, 4), Length::mm(6));
    if width < pin * 4 {
        let tail = below(width.half());
        let from = near((width - tail).half());
        return vec![(from, from + tail)];
    }
    // n tails and n + 1 pins, the tails as near as can be to four pins wide.
    let count = ((width - pin) / (pin * 5)).round().max(1);
    let tail = below((width - pin * (count + 1)) / count);
    let from = near((width - tail * count - pin * (count - 1)).half());
    let start = |number: i64| from + (tail + pin) * number;
    (0..count).map(|number| (start(number), start(number) + tail)).collect()
}

/// The least of a panel that is seen between the members of its frame: 1/4 in or 6 mm
/// (common practice, no source).
#[must_use]
pub fn least_panel(unit: Unit) -> Length {
    unit.either(Length::inches(1, 4), Length::mm(6))
}

/// The height of a framed door above which it has a mid rail: 60 in or 1524 mm
/// (Architectural Woodwork Standards, 2009, 4.4.6.10).
#[must_use]
pub fn tall_door() -> Length {
    Length::inches(60, 1)
}

/// The room that a finger needs to hook behind a front: 1/2 in or 12 mm (common practice,
/// no source).
#[must_use]
pub fn finger_room(unit: Unit) -> Length {
    unit.either(Length::inches(1, 2), Length::mm(12))
}

/// The least of a tenon between the grooves in both edges of a mid rail: 1/2 in or 12 mm
/// (common practice, no source).
#[must_use]
pub fn least_between_grooves(unit: Unit) -> Length {
    unit.either(Length::inches(1, 2), Length::mm(12))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn inch(numer: i64, denom: i64) -> Length {
        Length::inches(numer, denom)
    }

    /// Worked by hand. 3/8 in stock of plenty: 3 × 3/8 = 1-1/8. Into the face of
    /// 23/32 plywood: 23/32 − 1/16 − 3/16 = 15/32. Into 1/4: a third, 1/12.
    #[test]
    fn a_dowel_stays_in_its_board() {
        let reach = |there| dowel_reach(inch(3, 8), there, inch(1, 16), Unit::Inch);
        assert_eq!(reach(inch(2, 1)), inch(9, 8));
        assert_eq!(reach(inch(30, 1)), inch(9, 8));
        assert_eq!(reach(inch(23, 32)), inch(15, 32));
        assert_eq!(reach(inch(1, 4)), inch(1, 12));
    }

    /// Worked by hand. A rail of 60 mm: 20. Of 1-1/2 in: 1/2. Of 2-1/4 in: 3/4. Of
    /// 1-3/4 in on a tape of 1/32: 56/32 / 3 = 18.67/32, so 19/32. Of 40 mm on a tape
    /// of 0.5: 13.33, so 13.5. A third of 1/2 in is 1/6, under 3/16.
    #[test]
    fn a_tenon_is_set_in_by_a_third_of_its_rail() {
        let half = Length::mm(1).half();
        assert_eq!(set_in(Length::mm(60), half), Length::mm(20));
        assert_eq!(set_in(Length::mm(40), half), Length::mm(27).half());
        assert_eq!(set_in(inch(3, 2), inch(1, 32)), inch(1, 2));
        assert_eq!(set_in(inch(9, 4), inch(1, 32)), inch(3, 4));
        assert_eq!(set_in(inch(7, 4), inch(1, 32)), inch(19, 32));
        assert_eq!(set_in(inch(1, 2), inch(1, 32)), Length::ZERO);
    }

    /// Worked by hand. 156 mm: (156 − 6) / 30 = 5 tails; 156 − 6 × 6 = 120, which
    /// is 24 each: 6 + 24 + 6 + 24 + 6 + 24 + 6 + 24 + 6 + 24 + 6 = 156.
    /// 4-1/8 in to 1/32: (4-1/8 − 1/4) / 1-1/4 = 3.1, so 3 tails; 4-1/8 − 4 × 1/4
    /// = 3-1/8, a third of which is 1-1/24, on the tape 1-1/32. Left for the pins
    /// at the edges: 4-1/8 − 3 × 1-1/32 − 2 × 1/4 = 17/32, which is 9/32 + 1/4.
    #[test]
    fn tails_end_on_marks_of_the_tape() {
        let mm = |from, to| (Length::mm(from), Length::mm(to));
        let all = tails(Length::mm(156), Unit::Millimetre, Length::mm(1).half());
        assert_eq!(all, [mm(6, 30), mm(36, 60), mm(66, 90), mm(96, 120), mm(126, 150)]);
        let all = tails(inch(33, 8), Unit::Inch, inch(1, 32));
        let own = |from: i64| (inch(from, 32), inch(from + 33, 32));
        assert_eq!(all, [own(9), own(9 + 33 + 8), own(9 + 2 * (33 + 8))]);
        assert_eq!(inch(33, 8) - all[2].1, inch(1, 4));
    }

    /// A joinery manual, Figure 3.26: 1 in 6 in softwood, 1 in 8 in hardwood.
    #[test]
    fn softwood_slopes_more() {
        assert_eq!(dovetail_slope(Some("eastern-white-pine")), 6);
        assert_eq!(dovetail_slope(Some("yellow-birch")), 8);
        assert_eq!(dovetail_slope(None), 8);
        let names = ["douglas-fir", "eastern-white-pine", "ponderosa-pine", "white-fir"];
        assert!(names.iter().all(|name| crate::trade::species_named(name).is_some()));
    }

    proptest! {
        /// Whatever the width: tails are alike, pins between them are alike and as
        /// wide as their chisel, and nothing at an edge is thinner or much wider.
        #[test]
        fn dovetails_fill_the_width(tenths in 20i64..6000) {
            let (width, mark) = (Length::mm(tenths) / 10, Length::mm(1).half());
            let all = tails(width, Unit::Millimetre, mark);
            let edges = [all[0].0, width - all[all.len() - 1].1];
            prop_assert!(edges.iter().all(|edge| edge.is_positive()));
            prop_assert!((edges[0] - edges[1]).abs() <= mark);
            let wide = all[0].1 - all[0].0;
            prop_assert!(wide.is_positive());
            prop_assert!(all.iter().all(|(from, to)| *to - *from == wide));
            prop_assert!(all.windows(2).all(|two| two[1].0 - two[0].1 == Length::mm(6)));
            if width >= Length::mm(24) {
                prop_assert!(edges.iter().all(|edge| *edge >= Length::mm(6)));
                prop_assert!(wide >= Length::mm(12));
                prop_assert!(edges.iter().all(|edge| *edge < Length::mm(6) + mark * all.len() as i64));
            }
        }
    }
}
