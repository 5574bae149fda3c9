//! What stands or hangs against the side of a case, and how much of that it hides.

use crate::measure::Length;
use crate::vocabulary::Side;

use super::case::Case;
use super::piece::Piece;

impl Piece {
    /// The cases that touch one at a side, at whatever height.
    pub fn touching<'p>(&'p self, case: &'p Case, side: Side) -> impl Iterator<Item = &'p Case> {
        let at = match side {
            Side::Left => case.x,
            Side::Right => case.x + case.wide.length,
        };
        self.cases.iter().filter(move |other| {
            let meets = match side {
                Side::Left => other.x + other.wide.length,
                Side::Right => other.x,
            };
            other.id != case.id && meets == at
        })
    }

    /// The case that hides that side of one from one height to another.
    #[must_use]
    pub fn hides<'p>(
        &'p self,
        case: &'p Case,
        side: Side,
        (from, to): (Length, Length),
    ) -> Option<&'p Case> {
        let low = |other: &Case| other.off_floor().map_or(Length::ZERO, |up| up.length);
        self.touching(case, side).find(|other| {
            let under = other.covers.under.as_ref().map_or(Length::ZERO, |own| own.thick.length);
            low(other) - under <= from && to <= other.high.length
        })
    }
}
