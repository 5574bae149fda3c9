//! How small things are sold.

use crate::measure::{Length, Rate, Span};
use crate::vocabulary::takes::{self, SoldBy};
use crate::vocabulary::{Entries, Said, Supply, Word, words};

/// How something is sold, and how many of it are in the shop.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Sold {
    /// What it costs.
    pub price: Option<Rate>,
    /// How many come in a pack.
    pub pack: Option<i64>,
    /// How many are in the shop already.
    pub on_hand: i64,
}

impl Sold {
    pub(super) fn read<S: SoldBy, const P: u32, const H: u32>(
        body: &Entries,
        price: Word<takes::Price<S>>,
        pack: Word<takes::Count<P>>,
        on_hand: Word<takes::Count<H>>,
    ) -> Self {
        Self {
            price: body.get(price).map(|own| own.value),
            pack: body.get(pack).map(|own| own.value.into()),
            on_hand: body.get(on_hand).map_or(0, |own| own.value.into()),
        }
    }

    /// How many are bought where so many are taken: whole packs, and none that are on hand.
    #[must_use]
    pub fn bought(&self, taken: i64) -> i64 {
        let rest = (taken - self.on_hand).max(0);
        self.packs(rest).zip(self.pack).map_or(rest, |(packs, pack)| packs * pack)
    }

    /// How many packs so many are.
    #[must_use]
    pub fn packs(&self, count: i64) -> Option<i64> {
        let pack = self.pack?.max(1);
        Some((count + pack - 1) / pack)
    }
}

/// Screws, pins, or clips as they are sold.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SoldSupply {
    /// Which.
    pub sort: Supply,
    /// How long; of pins and plate screws, how wide their holes are.
    pub long: Option<Length>,
    /// How they are sold.
    pub sold: Sold,
    /// The statement.
    pub span: Span,
}

pub(super) fn supply(entry: Said<'_, Supply>) -> Option<SoldSupply> {
    use words::supply::{LONG, ON_HAND, PACK, PRICE};

    let body = entry.body()?;
    Some(SoldSupply {
        sort: *entry.value()?.value,
        long: body.get(LONG).map(|long| long.value),
        sold: Sold::read(body, PRICE, PACK, ON_HAND),
        span: entry.head,
    })
}
