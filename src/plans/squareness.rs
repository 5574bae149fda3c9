//! How far out of square a case may be, so that the gaps round its fronts bear it.

use crate::measure::Length;
use crate::model::{CaseId, FrontId, Opening, Piece, Set};
use crate::trade;

use super::Workings;

/// A rectangle whose diagonals are compared while its glue is open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Square {
    /// Its two sides.
    pub sides: (Length, Length),
    /// How far its diagonals may differ.
    pub within: Length,
    /// The gaps of inset fronts bear no more; the trade would allow more.
    pub by_gaps: bool,
}

impl Square {
    /// A rectangle to which no front is fitted.
    #[must_use]
    pub fn plain(sides: (Length, Length), within: Length) -> Self {
        Self { sides, within, by_gaps: false }
    }
}

/// How far the diagonals of an opening may differ before its inset front no longer
/// goes in: what the shop is true to, and no more than leans by half the gap over
/// the height of the opening (common practice, no source).
pub(in crate::plans) fn borne(piece: &Piece, opening: &Opening, gap: Length) -> Length {
    let (wide, high) = (opening.wide.length, opening.high.length);
    piece.shop.tolerance.square.min(trade::differ(wide, high, gap.half()))
}

/// What the whole of a case, or its frame, may be off: what is usual, and no more
/// than leaves each of its openings with what its front bears. All lean alike, so
/// that a high case leans further than its openings.
pub(in crate::plans) fn of_case(
    work: &Workings<'_>,
    case: CaseId,
    sides: (Length, Length),
) -> Square {
    let (wide, high) = sides;
    let usual = trade::diagonals_within(wide.max(high));
    let gaps = work
        .gaps_of(case)
        .iter()
        .filter(|gap| gap.front.fronts.set == Set::Inset && gap.is_upright() && !gap.meeting);
    let least = gaps
        .filter_map(|gap| {
            let opening = gap.front.opening;
            let (own_wide, own_high) = (opening.wide.length, opening.high.length);
            let differ = borne(work.piece, opening, gap.fitted);
            let lean = trade::lean(own_wide, own_high, differ);
            own_high.is_positive().then(|| trade::differ(wide, high, lean * (high / own_high)))
        })
        .min();
    match least.filter(|least| *least < usual) {
        Some(within) => Square { sides, within, by_gaps: true },
        None => Square::plain(sides, usual),
    }
}

/// What a framed front may be off: what is usual, and for an inset one no more than
/// leans by half of its narrowest gap.
pub(in crate::plans) fn of_front(
    work: &Workings<'_>,
    front: FrontId,
    sides: (Length, Length),
) -> Square {
    let (wide, high) = sides;
    let usual = trade::diagonals_within(wide.max(high));
    let gaps = work.gaps_of(front.opening.case).iter().filter(|gap| {
        gap.front.id == front && gap.front.fronts.set == Set::Inset && gap.is_upright()
    });
    let narrowest = gaps.map(|gap| trade::differ(wide, high, gap.fitted.half())).min();
    match narrowest.filter(|least| *least < usual) {
        Some(within) => Square { sides, within, by_gaps: true },
        None => Square::plain(sides, usual),
    }
}
