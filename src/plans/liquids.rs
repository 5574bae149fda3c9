//! What is bought in cans and bottles: the finish, by what its coats take, and the glue.

use crate::measure::{Exact, Length, Rate};
use crate::model::{FinishId, Stock};
use crate::trade;

use super::Workings;
use super::assembly::gluing;
use super::edging;
use super::operations::Doing;

/// A finish or glue, and how much of it is taken.
#[derive(Clone, Debug, PartialEq)]
pub struct Liquid {
    /// What it is.
    pub what: Wet,
    /// Milliliters; `None` where nobody knows what a liter covers.
    pub milliliters: Option<i64>,
    /// What it costs.
    pub price: Option<Rate>,
}

/// What is liquid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Wet {
    /// A finish, so many coats of it at the most, and the milliliters of its two parts where
    /// it is mixed of two.
    Finish {
        /// Which.
        finish: FinishId,
        /// How many coats go on one surface.
        coats: u32,
        /// Of each part.
        parts: Option<[i64; 2]>,
    },
    /// Wood glue, along joints so long and between layers so large, in square meters.
    Glue {
        /// All joints, end to end.
        long: Length,
        /// The faces that layers have in common.
        layers: Exact,
    },
}

impl Liquid {
    /// What it comes to where it has a price: whole liters, quarts, or gallons are bought.
    #[must_use]
    pub fn comes_to(&self) -> Option<Exact> {
        let rate = self.price?;
        let one = trade::milliliters(rate.per)?;
        let count = (Exact::int(self.milliliters?) / one).ceil();
        Some(rate.price.0 * Exact::int(count))
    }
}

/// Every finish in the order of the spec, and then the glue.
#[must_use]
pub fn list(work: &Workings<'_>) -> Vec<Liquid> {
    let finishes = (0..work.piece.finishes.len()).map(FinishId);
    finishes.filter_map(|id| finish(work, id)).chain(glue(work)).collect()
}

/// A finish by all its coats, each with what is mixed for it.
fn finish(work: &Workings<'_>, id: FinishId) -> Option<Liquid> {
    let tasks = work.assembly().tasks.iter().flat_map(|task| &task.does);
    let coats = tasks.filter_map(|doing| match doing {
        Doing::Coat(own) if own.finish == id => Some(own),
        _ => None,
    });
    let mut count = 0;
    let mut sum = Some(0);
    let mut parts: Option<[i64; 2]> = None;
    for own in coats {
        count = count.max(own.number);
        sum = sum.zip(own.coat.at_hand()).map(|(sum, own)| sum + own);
        if let Some((one, other)) = own.coat.each {
            let [first, second] = parts.unwrap_or_default();
            parts = Some([first + one * own.coat.lots, second + other * own.coat.lots]);
        }
    }
    let price = work.piece.finish(id)?.price;
    let what = Wet::Finish { finish: id, coats: count, parts };
    (count > 0).then_some(Liquid { what, milliliters: sum, price })
}

/// Glue along every joint that clamps close and every lip, and between layers.
fn glue(work: &Workings<'_>) -> Option<Liquid> {
    let piece = work.piece;
    let joints: Length = work.glue_ups().iter().map(|own| own.load.long()).sum();
    let lips = edging::bought(piece, work.parts);
    let is_lip = |own: &&edging::Bought| !piece.stock(own.stock).is_some_and(Stock::is_banding);
    let lips: Length = lips.iter().filter(is_lip).map(edging::Bought::long).sum();
    let meter = Length::mm(1000);
    let layers = work.parts.iter().map(|(_, part)| {
        let between = gluing::layers(piece, part) - 1;
        let area = (part.length.length / meter) * (part.width.length / meter);
        area * Exact::int(between.max(0))
    });
    let (long, layers) = (joints + lips, layers.sum::<Exact>());
    let milliliters = trade::glue_needed(long, layers);
    let what = Wet::Glue { long, layers };
    (milliliters > 0).then_some(Liquid { what, milliliters: Some(milliliters), price: None })
}
