//! Screws.

use crate::measure::{Length, Unit};

/// The pocket screw for stock of this thickness and the thickest stock it is
/// for: common practice, the same in several published charts.
const POCKET_SCREWS: [((i64, i64), (i64, i64)); 6] = [
    // thickness up to, screw length, inches
    ((9, 16), (1, 1)),
    ((11, 16), (9, 8)),
    ((13, 16), (5, 4)),
    ((15, 16), (3, 2)),
    ((5, 4), (2, 1)),
    ((7, 4), (5, 2)),
];

/// The length of pocket screw for stock of this thickness; `None` for stock
/// that is too thin (under 1/2 in less a sheet's tolerance) or too thick.
#[must_use]
pub fn pocket_screw(thickness: Length) -> Option<Length> {
    if thickness < Length::inches(7, 16) {
        return None;
    }
    POCKET_SCREWS
        .iter()
        .find(|((n, d), _)| thickness <= Length::inches(*n, *d))
        .map(|(_, (n, d))| Length::inches(*n, *d))
}

/// How many pocket screws hold the end of a board this wide: two up to 3 in,
/// one more for each 3 in beyond, never more than one an inch (common
/// practice). One only on a board too narrow for two.
#[must_use]
pub fn pocket_count(width: Length) -> u32 {
    let inches = width.in_unit(Unit::Inch);
    if inches < 1.into() {
        return 1;
    }
    let beyond = (inches - 3.into()).max(crate::measure::Exact::ZERO);
    2 + u32::try_from((beyond / 3.into()).ceil()).unwrap_or(0).min(40)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The usual chart of pocket screws (common practice).
    #[test]
    fn screws_follow_the_thickness() {
        for (thickness, screw) in [
            (Length::inches(1, 2), Length::inches(1, 1)),
            (Length::inches(3, 4), Length::inches(5, 4)),
            (Length::inches(7, 8), Length::inches(3, 2)),
            (Length::inches(3, 2), Length::inches(5, 2)),
        ] {
            assert_eq!(pocket_screw(thickness), Some(screw));
        }
        assert_eq!(pocket_screw(Length::inches(1, 4)), None);
    }

    #[test]
    fn wide_boards_take_more_screws() {
        assert_eq!(pocket_count(Length::inches(3, 2)), 2);
        assert_eq!(pocket_count(Length::inches(16, 1)), 7);
    }
}
