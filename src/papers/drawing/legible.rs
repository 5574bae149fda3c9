//! How high letters must be so that they are read at arm's length in print, where a
//! drawing is as wide or as high as its sheet lets it be.

use crate::model::Piece;

use super::svg::Svg;

/// How wide and how high a drawing is in print, in points: A4, the narrower of the two
/// sheets, between margins of 12 mm, and the height that the style sheet allows.
pub(super) const SHEET: (f64, f64) = (527.0, 552.0);

/// A point in millimeters.
pub(super) const MILLIMETERS: f64 = 25.4 / 72.0;

/// How high letters are in print, in points, and the least that may come of it.
pub(super) const LETTER: f64 = 9.8;
const LEAST: f64 = 9.3;

/// How high letters are on a drawing of something of this size, beside which so many
/// letters stand, across and upright.
pub(super) fn letter((across, upright): (f64, f64), beside: (f64, f64)) -> f64 {
    // What stands beside grows with the letters: size + beside × letter fills the
    // sheet, on which a letter is LETTER high.
    let needs = |size: f64, beside: f64, sheet: f64| {
        LETTER * size / (sheet - LETTER * beside).max(sheet / 4.0)
    };
    needs(across, beside.0, SHEET.0).max(needs(upright, beside.1, SHEET.1))
}

/// How many points of paper a unit of a drawing of this size comes to.
pub(super) fn points((across, upright): (f64, f64)) -> f64 {
    (SHEET.0 / across).min(SHEET.1 / upright)
}

/// How often a drawing is made anew for the sake of its letters.
const TRIES: usize = 8;

/// Draws with letters of this height, and with higher ones where they take so much
/// room beside the drawing that it is printed too small, as long as that helps.
pub(super) fn legible(mut letter: f64, draw: impl Fn(f64) -> Svg) -> Svg {
    let mut svg = draw(letter);
    for _ in 1..TRIES {
        let printed = letter * points(svg.size());
        if printed >= LEAST || printed <= 0.0 {
            break;
        }
        // A column of names that fills the sheet by itself only grows with its letters,
        // and what has no size never prints any.
        letter *= LETTER / printed;
        let higher = draw(letter);
        if letter * points(higher.size()) <= printed {
            break;
        }
        svg = higher;
    }
    svg
}

/// How many rows of dimensions runs and countertops take: one each where there is any.
pub(super) fn rows_below(piece: &Piece) -> f64 {
    let countertops = !piece.tops.is_empty();
    [!piece.runs.is_empty(), countertops].map(|any| if any { 1.0 } else { 0.0 }).iter().sum()
}

#[cfg(test)]
mod tests {
    use super::{letter, points};

    /// With 10 letters of 9.8 beside it, something 429 across fills the 527 points at
    /// its own size, so that a letter of 9.8 is 9.8.
    #[test]
    fn letters_follow_from_the_sheet() {
        assert!((letter((429.0, 1.0), (10.0, 0.0)) - 9.8).abs() < 1e-9);
        assert!((letter((4290.0, 1.0), (10.0, 0.0)) - 98.0).abs() < 1e-9);
        // One that is 1104 high is printed at half its size.
        assert!((points((10.0, 1104.0)) - 0.5).abs() < 1e-9);
    }
}
