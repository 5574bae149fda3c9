//! Rough boards and what they plane to.

use crate::measure::{Length, Unit};

/// Numerator and denominator.
type Inches = (i64, i64);

/// Rough thicknesses and what each yields surfaced on two sides, in inches:
/// National Hardwood Lumber Association, standard thickness of surfaced
/// lumber, the S2S column, as two reference charts reprint it; 10/4 from
/// memory.
const SURFACED: [(&str, Inches, Inches); 12] = [
    ("3/8", (3, 8), (3, 16)),
    ("1/2", (1, 2), (5, 16)),
    ("5/8", (5, 8), (7, 16)),
    ("3/4", (3, 4), (9, 16)),
    ("4/4", (4, 4), (13, 16)),
    ("5/4", (5, 4), (17, 16)),
    ("6/4", (6, 4), (21, 16)),
    ("7/4", (7, 4), (3, 2)),
    ("8/4", (8, 4), (7, 4)),
    ("10/4", (10, 4), (9, 4)),
    ("12/4", (12, 4), (11, 4)),
    ("16/4", (16, 4), (15, 4)),
];

/// Rough thicknesses that yards cut in millimetres (common practice, no source).
const METRIC: [i64; 7] = [20, 26, 32, 40, 52, 65, 80];

/// The rough thicknesses of the table: what the yard calls them, and how thick
/// they are.
#[must_use]
pub fn rough_boards() -> Vec<(&'static str, Length)> {
    SURFACED.iter().map(|(name, (n, d), _)| (*name, Length::inches(*n, *d))).collect()
}

/// What planing both faces takes off a rough board: 3/16 in, from 7/4 up
/// 1/4 in, the rule that the table follows. A board thinner than the table's
/// first is not in it.
#[must_use]
pub fn planing_loss(rough: Length) -> Option<Length> {
    if rough < Length::inches(3, 8) {
        return None;
    }
    Some(if rough < Length::inches(7, 4) { Length::inches(3, 16) } else { Length::inches(1, 4) })
}

/// The thickest that a rough board planes to: its standard thickness S2S.
#[must_use]
pub fn planes_to(rough: Length) -> Option<Length> {
    planing_loss(rough).map(|loss| rough - loss)
}

/// True for a rough thickness that is sold by the inch: whole eighths.
#[must_use]
pub fn is_in_quarters(rough: Length) -> bool {
    (rough.in_unit(Unit::Inch) * 8).is_whole()
}

/// What the yard calls a rough thickness of the table: `4/4`.
#[must_use]
pub fn quarters(rough: Length) -> Option<&'static str> {
    SURFACED.iter().find(|(_, (n, d), _)| Length::inches(*n, *d) == rough).map(|(name, ..)| *name)
}

/// The thinnest rough board that planes to `thickness`, as the yard calls it:
/// `5/4`, or `32 mm` for a yard that cuts in millimetres.
#[must_use]
pub fn rough_for(thickness: Length, quarters: bool) -> Option<(String, Length)> {
    let yields = |rough: &Length| planes_to(*rough).is_some_and(|planed| planed >= thickness);
    if quarters {
        let mut rows =
            SURFACED.iter().map(|(name, (n, d), _)| ((*name).to_owned(), Length::inches(*n, *d)));
        return rows.find(|(_, rough)| yields(rough));
    }
    let mut rows = METRIC.iter().map(|mm| (format!("{mm} mm"), Length::mm(*mm)));
    rows.find(|(_, rough)| yields(rough))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// National Hardwood Lumber Association, S2S: every row of the table.
    #[test]
    fn the_rule_gives_the_table() {
        for (name, (rn, rd), (sn, sd)) in SURFACED {
            assert_eq!(planes_to(Length::inches(rn, rd)), Some(Length::inches(sn, sd)), "{name}");
        }
    }

    /// The worked check of the same table: 4/4, 5/4, 6/4, 8/4 plane to 13/16,
    /// 1-1/16, 1-5/16, 1-3/4.
    #[test]
    fn the_usual_boards_plane_to_their_standard() {
        for (rough, planed) in [(4, (13, 16)), (5, (17, 16)), (6, (21, 16)), (8, (7, 4))] {
            let (n, d) = planed;
            assert_eq!(planes_to(Length::inches(rough, 4)), Some(Length::inches(n, d)));
        }
        assert_eq!(planes_to(Length::inches(1, 4)), None);
    }

    #[test]
    fn the_next_board_has_its_name_at_the_yard() {
        let name = |thickness, quarters| rough_for(thickness, quarters).map(|(name, _)| name);
        assert_eq!(name(Length::inches(7, 8), true).as_deref(), Some("5/4"));
        assert_eq!(name(Length::inches(13, 16), true).as_deref(), Some("4/4"));
        assert_eq!(name(Length::mm(22), false).as_deref(), Some("32 mm"));
        assert_eq!(name(Length::inches(4, 1), true), None);
        assert_eq!(quarters(Length::inches(5, 4)), Some("5/4"));
        assert_eq!(quarters(Length::mm(27)), None);
    }

    proptest! {
        #[test]
        fn the_board_named_yields_the_thickness(mm in 1i64..95, quarters: bool) {
            let thickness = Length::mm(mm);
            if let Some((_, rough)) = rough_for(thickness, quarters) {
                prop_assert!(planes_to(rough) >= Some(thickness));
                prop_assert!(rough > thickness);
            }
        }
    }
}
