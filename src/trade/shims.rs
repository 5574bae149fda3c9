//! The gap between a front and its frame: the least that works, and what is
//! laid in to set one.

use crate::measure::{Exact, Length, Unit};

/// Under this a gap rubs before it closes (common practice, no source).
#[must_use]
pub fn least_gap() -> Length {
    Length::inches(1, 64)
}

/// Over this a gap shows daylight, and is mostly a slip: 5/16 in, 8 mm
/// (common practice, no source).
#[must_use]
pub fn widest_gap(unit: Unit) -> Length {
    unit.either(Length::inches(5, 16), Length::mm(8))
}

/// Shims for a gap.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shims {
    /// Hard shims, thickest first, and how many of each.
    pub stack: Vec<(Length, i64)>,
    /// What they come to.
    pub thick: Length,
    /// How many playing cards do the same; none where it would take more than ten.
    pub cards: i64,
    /// What the cards come to.
    pub cards_thick: Length,
}

/// More cards than this don't make a shim: they slide on each other and press
/// together (common practice, no source).
const MOST_CARDS: i64 = 10;

/// The shims that come nearest to a gap without being thicker: sheets of 1/8,
/// 1/16, 1/32 and 1/64 in, or of 3, 2, 1 and 0.5 mm, and as many playing cards
/// of `card` as come nearest (common practice, no source).
#[must_use]
pub fn shim_stack(gap: Length, metric: bool, card: Length) -> Shims {
    let set = if metric {
        [Length::mm(3), Length::mm(2), Length::mm(1), Length::mm(1) * Exact::ratio(1, 2)]
    } else {
        [8, 16, 32, 64].map(|part| Length::inches(1, part))
    };
    let mut left = gap;
    let mut stack = Vec::new();
    for shim in set {
        let count = (left / shim).floor().clamp(0, 99);
        if count > 0 {
            stack.push((shim, count));
            left -= shim * count;
        }
    }
    let cards = if card.is_positive() { (gap / card).round().max(0) } else { 0 };
    let cards = if cards > MOST_CARDS { 0 } else { cards };
    Shims { stack, thick: gap - left, cards, cards_thick: card * cards }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Cards of 0.30 mm: 1/16 in takes 5 (1.5 mm), 3/32 takes 8 (2.4 mm); 3 mm
    /// takes 10, and 1/8 would take 11: from there on it is shims only (common
    /// practice; arithmetic).
    #[test]
    fn cards_come_nearest() {
        let card = Length::mm(3) / 10;
        for (gap, cards) in [((1, 16), 5), ((3, 32), 8), ((1, 8), 0)] {
            let shims = shim_stack(Length::inches(gap.0, gap.1), false, card);
            assert_eq!(shims.cards, cards);
            assert_eq!(shims.thick, Length::inches(gap.0, gap.1));
        }
        assert_eq!(shim_stack(Length::mm(3), true, card).cards, 10);
        let shims = shim_stack(Length::mm(25) / 10, true, card);
        assert_eq!(shims.stack, [(Length::mm(2), 1), (Length::mm(1) / 2, 1)]);
    }
}
