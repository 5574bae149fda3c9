//! What is bought in cans and bottles: the finish, by what its coats take, and the glue.

use crate::measure::{Days, Exact, Length, Rate, Volume};
use crate::model::{Can, FinishId, Glue, Stock};
use crate::trade;

use super::Workings;
use super::assembly::gluing;
use super::cans;
use super::edging;
use super::operations::Doing;

/// A finish or glue, and how much of it is taken.
#[derive(Clone, Debug, PartialEq)]
pub struct Liquid {
    /// What it is.
    pub what: Wet,
    /// Milliliters; `None` where nobody knows what a liter covers.
    pub milliliters: Option<i64>,
    /// How much is in the shop already; of what is mixed of two parts and told as one, of
    /// each.
    pub on_hand: [Option<Volume>; 2],
    /// Milliliters that are lacking.
    pub lacking: Option<i64>,
    /// How long it takes to come.
    pub lead: Option<Days>,
    /// What it costs by volume.
    pub price: Option<Rate>,
    /// The cans or bottles to buy; empty where the spec names none.
    pub cans: Vec<(Can, i64)>,
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
    /// The second part of a finish, where one of its parts comes in cans of its own.
    Second(FinishId),
    /// Wood glue, along joints so long and between layers so large, in square meters.
    Glue {
        /// All joints, end to end.
        long: Length,
        /// The faces that layers have in common.
        layers: Exact,
    },
}

impl Liquid {
    /// What it comes to where it has a price: the cans it comes in, else whole liters,
    /// quarts, or gallons of what is lacking.
    #[must_use]
    pub fn comes_to(&self) -> Option<Exact> {
        if !self.cans.is_empty() {
            let each = self.cans.iter().map(|(can, count)| Some(can.price? * Exact::int(*count)));
            return each.sum();
        }
        let rate = self.price?;
        let one = trade::milliliters(rate.per)?;
        let count = (Exact::int(self.lacking?) / one).ceil();
        Some(rate.price.0 * Exact::int(count))
    }
}

/// Every finish in the order of the spec, and then the glue.
#[must_use]
pub fn list(work: &Workings<'_>) -> Vec<Liquid> {
    let finishes = (0..work.piece.finishes.len()).map(FinishId);
    finishes.flat_map(|id| finish(work, id)).chain(glue(work)).collect()
}

/// A finish by all its coats, each with what is mixed for it.
fn finish(work: &Workings<'_>, id: FinishId) -> Vec<Liquid> {
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
    let Some(finish) = work.piece.finish(id).filter(|_| count > 0) else { return Vec::new() };
    let what = Wet::Finish { finish: id, coats: count, parts };
    let [had, had_second] = finish.on_hand;
    let liquid = |what, milliliters, (on_hand, lacking), price, own: &[Can]| {
        let cans = lacking_cans(own, lacking);
        Liquid { what, milliliters, on_hand, lacking, lead: finish.lead, price, cans }
    };
    let of_one = |had: Option<Volume>, taken: i64| ([had, None], Some(less(taken, had)));
    let comes_in_cans = !finish.cans.is_empty() || !finish.second_cans.is_empty();
    match parts.filter(|_| comes_in_cans) {
        Some([one, other]) => vec![
            liquid(what, Some(one), of_one(had, one), finish.price, &finish.cans),
            liquid(
                Wet::Second(id),
                Some(other),
                of_one(had_second, other),
                None,
                &finish.second_cans,
            ),
        ],
        None => {
            let lacking = match parts {
                Some([one, other]) => Some(less(one, had) + less(other, had_second)),
                None => sum.map(|sum| less(sum, had)),
            };
            vec![liquid(what, sum, (finish.on_hand, lacking), finish.price, &finish.cans)]
        }
    }
}

/// What is lacking of so many milliliters where so much is on hand.
fn less(milliliters: i64, on_hand: Option<Volume>) -> i64 {
    (milliliters - on_hand.map_or(0, |own| own.0.floor())).max(0)
}

/// The cans to buy for what is lacking.
fn lacking_cans(cans: &[Can], lacking: Option<i64>) -> Vec<(Can, i64)> {
    lacking.map(|own| cans::least(cans, own)).unwrap_or_default()
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
    let milliliters = Some(trade::glue_needed(long, layers)).filter(|own| *own > 0)?;
    let what = Wet::Glue { long, layers };
    let Glue { price, on_hand, lead, .. } = piece.glue;
    let lacking = Some(less(milliliters, on_hand));
    let cans = lacking_cans(&piece.glue.bottles, lacking);
    let (milliliters, on_hand) = (Some(milliliters), [on_hand, None]);
    Some(Liquid { what, milliliters, on_hand, lacking, lead, price, cans })
}
