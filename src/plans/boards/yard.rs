//! What boards there are: those on hand, and those of the yard.

use crate::measure::Length;
use crate::model::{OnHand, Piece, Stock, joined};
use crate::trade;

use super::super::Workings;
use super::super::sawing::{Blank, Source};

/// The boards that a plan counts on at the yard.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Yard {
    /// The smallest and the largest that it has, along and across.
    smallest: [Length; 2],
    largest: [Length; 2],
    /// The sizes that are counted on, the first wherever it will do.
    pub(super) sizes: Vec<[Length; 2]>,
}

impl Yard {
    /// A board that is neither large nor small for the yard, since few of a pile are as large
    /// as its largest. Where a blank asks for more, one as wide or as long as the yard has.
    pub(super) fn of(work: &Workings<'_>, stock: &Stock, blanks: &[Blank]) -> Self {
        let unit = work.piece.tape().unit;
        let ends = lost_at_ends(work.piece).twice();
        let steps = trade::asked_steps(unit);
        let ranges = stock.boards.map_or_else(|| usual(work, blanks), |own| [own.long, own.wide]);
        let middles = [0, 1].map(|side| {
            let (least, most): (Length, Length) = ranges[side];
            let middle = (least + most).half();
            (steps[side] * (middle / steps[side]).floor()).max(least)
        });
        let largest = ranges.map(|(_, most)| most);
        let mut sizes = vec![middles];
        for [long, wide] in larger(middles, largest) {
            let fits = |[own_long, own_wide]: &[Length; 2], blank: &Blank| {
                blank.size[0] <= *own_long - ends && blank.size[1] <= *own_wide
            };
            let asked = blanks.iter().any(|blank| {
                fits(&[long, wide], blank) && !sizes.iter().any(|own| fits(own, blank))
            });
            if asked {
                sizes.push([long, wide]);
            }
        }
        Self { smallest: ranges.map(|(least, _)| least), largest, sizes }
    }

    /// The same with the widest and the longest boards that the yard has, where these are not
    /// counted on yet.
    pub(super) fn with_largest(&self) -> Option<Self> {
        let middle = *self.sizes.first()?;
        let mut sizes = self.sizes.clone();
        for size in larger(middle, self.largest) {
            if !sizes.contains(&size) {
                sizes.push(size);
            }
        }
        (sizes.len() > self.sizes.len()).then(|| Self { sizes, ..self.clone() })
    }

    /// Boards of these sizes, whose ends are lost.
    pub(super) fn sources(&self, ends: Length) -> impl Iterator<Item = Source> {
        self.sizes.iter().map(move |size| of_size(*size, ends))
    }

    /// The board to ask for at the yard where only so much of it is used.
    pub(super) fn asked(&self, work: &Workings<'_>, own: &Source, used: [Length; 2]) -> Source {
        let steps = trade::asked_steps(work.piece.tape().unit);
        let ends = lost_at_ends(work.piece);
        let used = [used[0] + ends, used[1]];
        let size = [0, 1].map(|side| {
            let least = steps[side] * (used[side] / steps[side]).ceil();
            least.max(self.smallest[side]).min(own.size[side])
        });
        of_size(size, ends)
    }
}

/// As wide as the usual board, and as long, or longer by whole feet or by 300 mm where a
/// blank is longer.
fn usual(work: &Workings<'_>, blanks: &[Blank]) -> [(Length, Length); 2] {
    let unit = work.piece.tape().unit;
    let [long, wide] = trade::usual_board(unit);
    let longest = blanks.iter().map(|blank| blank.size[0]).max().unwrap_or_default();
    let longest = longest + lost_at_ends(work.piece).twice();
    let step = unit.either(Length::inches(12, 1), Length::mm(300));
    [(long, long.max(step * (longest / step).ceil())), (wide, wide)]
}

/// As wide as the widest, as long as the longest, and both.
fn larger(middle: [Length; 2], largest: [Length; 2]) -> [[Length; 2]; 3] {
    [[middle[0], largest[1]], [largest[0], middle[1]], largest]
}

fn of_size(size: [Length; 2], ends: Length) -> Source {
    let lost = match ends.is_positive() && ends.twice() < size[0] {
        true => vec![(Length::ZERO, ends), (size[0] - ends, size[0])],
        false => Vec::new(),
    };
    Source { on_hand: false, size, trim: Length::ZERO, lost }
}

/// The least that is lost where so many cuts part it from what is sound: what they take, and
/// a mark of the tape, which falls off.
fn least_lost(piece: &Piece, cuts: i64) -> Length {
    piece.shop.kerf * cuts + piece.tape().mark
}

/// What is lost at each end of a board from the yard: no less than a cut takes.
#[must_use]
pub fn lost_at_ends(piece: &Piece) -> Length {
    let ends = piece.shop.board_ends;
    if ends.is_positive() { ends.max(least_lost(piece, 1)) } else { ends }
}

/// A board in the rack. What is lost of it is as long as what its cuts take: one behind its
/// beginning, and two that part a stretch from what is sound on both sides. Nothing is sawn
/// behind what is lost at its end.
pub(super) fn on_hand(piece: &Piece, own: &OnHand) -> Source {
    let widened = own.lost.iter().map(|(from, to)| {
        let cuts = if from.is_positive() { 2 } else { 1 };
        (*from, (*from + least_lost(piece, cuts)).max(*to).min(own.long))
    });
    let lost = joined(widened.collect());
    Source { on_hand: true, size: [own.long, own.wide], trim: Length::ZERO, lost }
}
