//! Strips for the edges of sheets: how each is cut, and what is to be bought.

use crate::measure::{Exact, Length, Unit};
use crate::model::{Piece, Stock, StockId};
use crate::parts::{Part, PartId, Parts, overlong};

/// How a strip is cut before it goes on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cut {
    /// Along its edge, with what is trimmed off.
    pub long: Length,
    /// Across its edge: a lip is as wide as its boards are planed thick; of banding the
    /// least width that covers the edge and is trimmed.
    pub wide: Length,
    /// What it adds to the board.
    pub thick: Length,
}

/// How a strip of a part is cut, by its place among them.
#[must_use]
pub fn strip(piece: &Piece, part: &Part, number: usize) -> Option<Cut> {
    let strip = part.strips.get(number)?;
    let (more, _) = overlong(piece.tape().unit);
    let wide = match strip.banding {
        true => part.thickness.length + proud(piece.tape().unit),
        false => piece.stock(strip.stock)?.thickness.length,
    };
    Some(Cut { long: part.edge_long(number) + more, wide, thick: strip.thick.length })
}

/// How much wider than its edge a strip is at least, so that it can be trimmed flush
/// with both faces: common practice, no source.
#[must_use]
pub fn proud(unit: Unit) -> Length {
    unit.either(Length::inches(1, 16), Length::mm(2))
}

/// What of one stock goes on edges.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bought {
    /// Of which stock.
    pub stock: StockId,
    /// Every strip: its part, its place among the part's strips, and its size.
    pub strips: Vec<(PartId, usize, Cut)>,
}

impl Bought {
    /// All of them end to end.
    #[must_use]
    pub fn long(&self) -> Length {
        self.strips.iter().map(|(.., cut)| cut.long).sum()
    }

    /// The length to buy of a roll: all strips that no roll on hand gives, a tenth more for
    /// waste (common practice, no source), up to a whole foot, or to a tenth of a meter.
    #[must_use]
    pub fn roll(&self, piece: &Piece) -> Length {
        let step = piece.tape().unit.either(Length::inches(12, 1), Length::mm(100));
        step * (self.beyond_rack(piece) / step).ceil()
    }

    /// What the strips that are cut from no roll on hand come to, with what is wasted of each.
    /// The longest come first, each from the narrowest roll that will do.
    fn beyond_rack(&self, piece: &Piece) -> Length {
        let had = piece.stock(self.stock).map_or(&[][..], |stock| &stock.on_hand);
        let mut rolls: Vec<[Length; 2]> = had.iter().map(|own| [own.wide, own.long]).collect();
        rolls.sort_unstable();
        let mut strips: Vec<&Cut> = self.strips.iter().map(|(.., cut)| cut).collect();
        strips.sort_by_key(|cut| std::cmp::Reverse((cut.long, cut.wide)));
        let mut rest = Length::ZERO;
        for cut in strips {
            let long = cut.long * Exact::ratio(11, 10);
            let mut wide_enough = rolls.iter_mut().filter(|[wide, _]| *wide >= cut.wide);
            match wide_enough.find(|[_, left]| *left >= long) {
                Some([_, left]) => *left -= long,
                None => rest += long,
            }
        }
        rest
    }

    /// The boards that lips are ripped from, each strip with a saw cut: nominal
    /// thickness, width, and length of each.
    #[must_use]
    pub fn boards(&self, piece: &Piece, nominal: Length) -> Vec<(Length, Length, Length)> {
        let kerf = piece.shop.kerf;
        self.strips.iter().map(|(.., cut)| (nominal, cut.thick + kerf, cut.long)).collect()
    }
}

/// What goes on edges, stock by stock, lips first.
#[must_use]
pub fn bought(piece: &Piece, parts: &Parts) -> Vec<Bought> {
    let mut all: Vec<Bought> = Vec::new();
    for (id, part) in parts.iter() {
        for (number, own) in part.strips.iter().enumerate() {
            let Some(cut) = strip(piece, part, number) else { continue };
            match all.iter_mut().find(|bought| bought.stock == own.stock) {
                Some(bought) => bought.strips.push((id, number, cut)),
                None => all.push(Bought { stock: own.stock, strips: vec![(id, number, cut)] }),
            }
        }
    }
    let banding = |bought: &Bought| piece.stock(bought.stock).is_some_and(Stock::is_banding);
    all.sort_by_key(|bought| (banding(bought), bought.stock));
    all
}
