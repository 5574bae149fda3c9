//! How small things are sold.

use crate::diagnostics::Diagnostic;
use crate::measure::{Area, Days, Exact, FileId, Length, Rate, Span, Volume};
use crate::trade;
use crate::vocabulary::takes::{self, SoldBy};
use crate::vocabulary::{Entries, Said, Supply, Word, words};

use super::lower::Lower;

/// How something is sold, and how many of it are in the shop.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Sold {
    /// What it costs.
    pub price: Option<Rate>,
    /// How many come in a pack.
    pub pack: Option<i64>,
    /// How many are in the shop already.
    pub on_hand: i64,
    /// How long they take to come.
    pub lead: Option<Days>,
}

impl Sold {
    pub(super) fn read<S: SoldBy, const P: u32, const H: u32>(
        body: &Entries,
        price: Word<takes::Price<S>>,
        pack: Word<takes::Count<P>>,
        on_hand: Word<takes::Count<H>>,
        lead: Word<takes::LeadTime>,
    ) -> Self {
        Self {
            price: body.get(price).map(|own| own.value),
            pack: body.get(pack).map(|own| own.value.into()),
            on_hand: body.get(on_hand).map_or(0, |own| own.value.into()),
            lead: body.get(lead).map(|own| own.value),
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

/// Screws, pins, clips, rails, catches, or stops as they are sold.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SoldSupply {
    /// Which.
    pub sort: Supply,
    /// How long; of pins and plate screws, how wide their holes are; of hanging rails, what
    /// they are cut from.
    pub long: Option<Length>,
    /// How thick hanging rails are, or those that it is for.
    pub diameter: Option<Length>,
    /// How they are sold.
    pub sold: Sold,
    /// The statement.
    pub span: Span,
}

pub(super) fn supply(entry: Said<'_, Supply>) -> Option<SoldSupply> {
    use words::supply::{DIAMETER, LEAD_TIME, LONG, ON_HAND, PACK, PRICE};

    let body = entry.body()?;
    let sort = *entry.value()?.value;
    // What says nothing of a sort is refused, since nobody looks it up.
    let (has_length, has_diameter) = match sort {
        Supply::WoodScrews
        | Supply::LargeHeadScrews
        | Supply::PanHeadScrews
        | Supply::FlatHeadScrews
        | Supply::PocketScrews
        | Supply::FinePocketScrews
        | Supply::CabinetScrews
        | Supply::PlateScrews
        | Supply::PullScrews
        | Supply::RailScrews
        | Supply::ShelfPins
        | Supply::Clips => (true, false),
        Supply::HangingRails => (true, true),
        Supply::RailCups | Supply::RailHangers => (false, true),
        Supply::MagneticCatches | Supply::BallCatches | Supply::DoorStops => (false, false),
    };
    let length =
        |word, is_read: bool| is_read.then(|| body.get(word)).flatten().map(|length| length.value);
    Some(SoldSupply {
        sort,
        long: length(LONG, has_length),
        diameter: length(DIAMETER, has_diameter),
        sold: Sold::read(body, PRICE, PACK, ON_HAND, LEAD_TIME),
        span: entry.head,
    })
}

/// A can or bottle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Can {
    /// What is in it.
    pub holds: Volume,
    /// What one costs.
    pub price: Option<Exact>,
}

/// The cans of a block, the largest first; one without a price of its own costs what its
/// volume comes to at `price`.
pub(super) fn cans(body: &Entries, word: Word<takes::Volume>, price: Option<Rate>) -> Vec<Can> {
    let by_volume = |holds: Volume| {
        let rate = price?;
        Some(rate.price.0 * (holds.0 / trade::milliliters(rate.per)?))
    };
    let can = |said: Said<'_, takes::Volume>| {
        let holds = *said.value()?.value;
        let own = said.body().and_then(|body| body.get(words::can::PRICE));
        Some(Can { holds, price: own.map(|own| own.value.price.0).or_else(|| by_volume(holds)) })
    };
    let mut all: Vec<Can> = body.all(word).filter_map(can).collect();
    all.sort_by_key(|can| (std::cmp::Reverse(can.holds), can.price));
    all
}

/// How the wood glue is sold.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Glue {
    /// What it costs by volume.
    pub price: Option<Rate>,
    /// The bottles it comes in.
    pub bottles: Vec<Can>,
    /// How much of it is in the shop already.
    pub on_hand: Option<Volume>,
    /// How long it takes to come.
    pub lead: Option<Days>,
}

fn glue(entry: Said<'_, takes::Braces>) -> Option<Glue> {
    use words::glue::{BOTTLE, LEAD_TIME, ON_HAND, PRICE};

    let body = entry.body()?;
    let price = body.get(PRICE).map(|price| price.value);
    Some(Glue {
        price,
        bottles: cans(body, BOTTLE, price),
        on_hand: body.get(ON_HAND).map(|own| own.value),
        lead: body.get(LEAD_TIME).map(|own| own.value),
    })
}

/// The glue of the spec, else that of a file that it uses.
pub(super) fn glue_of(files: &[Entries], ctx: &mut Lower) -> Glue {
    let mut all = files.iter().filter_map(|file| file.one(words::file::GLUE));
    let own = all.next();
    for other in all {
        if own.is_some_and(|own| own.head.file != FileId::default()) {
            ctx.sink.push(Diagnostic::error(
                "word-twice",
                "two used files describe the glue",
                other.head,
                "the second one",
            ));
        }
        other.mark_all();
    }
    own.and_then(glue).unwrap_or_default()
}

/// Sandpaper of one grit as it is sold.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Abrasive {
    /// The grit.
    pub grit: u32,
    /// How much one sheet or disc sands.
    pub lasts: Area,
    /// How they are sold.
    pub sold: Sold,
    /// The statement.
    pub span: Span,
}

/// Those of all files, each grit once.
pub(super) fn abrasives(files: &[Entries], ctx: &mut Lower) -> Vec<Abrasive> {
    use words::abrasive::{LASTS, LEAD_TIME, ON_HAND, PACK, PRICE};

    let mut all: Vec<Abrasive> = Vec::new();
    for said in files.iter().flat_map(|file| file.all(words::file::ABRASIVE)) {
        let (Some(grit), Some(body)) = (said.value(), said.body()) else { continue };
        let Some(lasts) = body.get(LASTS) else { continue };
        let own = Abrasive {
            grit: *grit.value,
            lasts: lasts.value,
            sold: Sold::read(body, PRICE, PACK, ON_HAND, LEAD_TIME),
            span: said.head,
        };
        match all.iter().find(|known| known.grit == own.grit) {
            Some(known) => ctx.sink.push(
                Diagnostic::error(
                    "word-twice",
                    format!("there are two blocks for abrasives of {} grit", own.grit),
                    own.span,
                    "the second one",
                )
                .label(known.span, "the first one"),
            ),
            None => all.push(own),
        }
    }
    all
}
