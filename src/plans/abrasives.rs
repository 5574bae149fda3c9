//! How much is sanded with each grit, and what sandpaper that takes.

use std::collections::BTreeMap;

use crate::measure::Exact;
use crate::model::Abrasive;
use crate::trade;

use super::Workings;
use super::finish;
use super::operations::Doing;

/// The square meters that are sanded with each grit, the coarsest first: each surface that
/// gets a finish with the grits for it, solid wood with all of them and sheets from the one
/// that their veneer bears; and between two coats with the one that a coat is rubbed down
/// with.
#[must_use]
pub fn used(work: &Workings<'_>) -> Vec<(u32, f64)> {
    let (piece, parts) = (work.piece, work.parts);
    let mut all: BTreeMap<u32, f64> = BTreeMap::new();
    for (id, own) in finish::used(piece, parts) {
        let Some(kind) = trade::finish_named(own.kind.slug()) else { continue };
        for is_solid in [true, false] {
            let area = finish::of_wood(piece, parts, id, is_solid);
            let grits = if is_solid { kind.sanding.grits() } else { kind.sanding.on_sheets() };
            for grit in grits {
                *all.entry(*grit).or_default() += area;
            }
        }
    }
    for doing in work.assembly().tasks.iter().flat_map(|task| &task.does) {
        let Doing::Coat(own) = doing else { continue };
        let kind = piece.finish(own.finish).and_then(|it| trade::finish_named(it.kind.slug()));
        let between = kind.and_then(|kind| kind.between).filter(|_| own.number > 1);
        if let Some(grit) = between {
            *all.entry(grit).or_default() += own.coat.area;
        }
    }
    all.retain(|_, area| *area > 0.0);
    all.into_iter().collect()
}

/// Sandpaper of one grit to buy.
#[derive(Clone, Debug, PartialEq)]
pub struct Bought<'p> {
    /// How it is sold.
    pub abrasive: &'p Abrasive,
    /// The square meters that it sands.
    pub area: f64,
    /// How many sheets or discs that takes.
    pub taken: i64,
    /// How many are bought.
    pub count: i64,
}

impl Bought<'_> {
    /// What they cost.
    #[must_use]
    pub fn comes_to(&self) -> Option<Exact> {
        let rate = self.abrasive.sold.price?;
        let many = match rate.per {
            "pack" => self.abrasive.sold.packs(self.count)?,
            _ => self.count,
        };
        Some(rate.price.0 * Exact::int(many))
    }
}

/// What is bought of each grit that the spec lists and the piece takes.
#[must_use]
pub fn bought<'p>(work: &Workings<'p>) -> Vec<Bought<'p>> {
    if work.piece.abrasives.is_empty() {
        return Vec::new();
    }
    let of = |(grit, area): (u32, f64)| {
        let abrasive = work.piece.abrasives.iter().find(|own| own.grit == grit)?;
        // A sum of fractions may miss the last bit.
        let taken = (area / abrasive.lasts.0.to_f64() - 1e-9).ceil() as i64;
        let count = abrasive.sold.bought(taken);
        (count > 0).then_some(Bought { abrasive, area, taken, count })
    };
    used(work).into_iter().filter_map(of).collect()
}
