//! Screws, pins, and clips: how many packs of them to buy.

use crate::diagnostics::counted;
use crate::measure::Exact;
use crate::model::{Sold, SoldSupply};
use crate::plans::fitting::{Long, Rail};
use crate::plans::hardware;
use crate::trade;
use crate::vocabulary::Supply;

use super::buying_list::{Line, SCREWS};
use super::fitting;
use super::{Source, with_currency};

/// So many of one sort and length.
struct Taken {
    told: String,
    sort: Supply,
    long: Long,
    count: u32,
}

/// What there is to buy of them, with a tenth more than the piece takes.
pub(super) fn lines(source: &Source<'_, '_>) -> Vec<Line> {
    let mut all: Vec<Taken> = Vec::new();
    for own in &source.work.fastened().screws {
        let told = fitting::bought(source, own);
        match all.iter_mut().find(|known| known.told == told) {
            Some(known) => known.count += own.count,
            None => {
                let (sort, long) = (own.purpose.supply(), own.long);
                all.push(Taken { told, sort, long, count: own.count });
            }
        }
    }
    all.extend(pull_screws(source));
    all.extend(screws_of_rails(source));
    let gauge = trade::wall_gauge(source.work.piece.tape().unit);
    all.extend(fitting::into_studs(source).map(|(count, long)| {
        let told =
            format!("cabinet screws for the wall, {} long, {gauge}", source.figures.text(long));
        Taken { told, sort: Supply::CabinetScrews, long: Long::Is(long), count }
    }));
    all.iter().filter_map(|own| line(source, own, &all)).collect()
}

/// The screws of pulls through a drawer front and its box: those that come with a pull
/// are often too short.
fn pull_screws(source: &Source<'_, '_>) -> Vec<Taken> {
    let piece = source.work.piece;
    let told = hardware::pull_screws(piece, source.work.parts).into_iter().filter_map(|own| {
        let name = &piece.pull(own.pull)?.name;
        let least = own.length(piece.tape().unit);
        let long = source.figures.at_least(least);
        Some(Taken {
            told: format!("screws for the pull {name}, at least {long} long"),
            sort: Supply::PullScrews,
            long: Long::AtLeast(least),
            count: own.number,
        })
    });
    told.collect()
}

/// The screws of the cups of hanging rails.
fn screws_of_rails<'s>(source: &'s Source<'_, '_>) -> impl Iterator<Item = Taken> + 's {
    source.work.fitting().rails.iter().map(|rail: &Rail<'_>| {
        let own = rail.screws(source.work.piece.tape().unit);
        let long = match own {
            Long::Is(long) => format!(", {} long", source.figures.text(long)),
            Long::Between(_, most) => format!(", under {} long", source.figures.text(most)),
            Long::BySheet | Long::AtLeast(_) => String::new(),
        };
        Taken {
            told: format!("screws for the cups of a hanging rail{long}"),
            sort: Supply::RailScrews,
            long: own,
            count: rail.screw_count(),
        }
    })
}

/// `None` where enough of them are on hand.
fn line(source: &Source<'_, '_>, own: &Taken, all: &[Taken]) -> Option<Line> {
    let spare = own.count + own.count.div_ceil(10);
    // Left clips and right ones are bought in pairs.
    let taken = if own.sort == Supply::Clips { spare.next_multiple_of(2) } else { spare };
    let supply = supply(source, own);
    let mut sold = supply.map(|own| own.sold).unwrap_or_default();
    // Of which length those in the shop are is not known.
    let is_known = supply.is_some_and(|own| own.long.is_some())
        || all.iter().filter(|other| other.sort == own.sort).count() == 1;
    if !is_known {
        sold.on_hand = 0;
    }
    sold_line(source, SCREWS, own.told.clone(), (taken, sold))
}

/// So many of something as they are sold; `None` where enough of them are on hand.
pub(super) fn sold_line(
    source: &Source<'_, '_>,
    group: &'static str,
    told: String,
    (taken, sold): (u32, Sold),
) -> Option<Line> {
    let count = sold.bought(taken.into());
    let packs = sold.packs(count);
    let name = told.replace(", ", " ");
    let mut what = told;
    if let Some(pack) = sold.pack {
        what.push_str(&format!(", {pack} to a pack: {taken} needed"));
    } else if sold.on_hand > 0 {
        what.push_str(&format!(": {taken} needed"));
    }
    if sold.on_hand > 0 {
        what.push_str(&format!(", {} on hand", sold.on_hand));
    }
    let comes_to = sold.price.and_then(|rate| match rate.per {
        "each" => Some(rate.price.0 * Exact::int(count)),
        "pack" => packs.map(|packs| rate.price.0 * Exact::int(packs)),
        _ => None,
    });
    (count > 0).then_some(Line {
        sort: group,
        name,
        amount: packs.map_or_else(|| count.to_string(), |packs| counted(packs, "pack")),
        what,
        price: sold.price.map_or_else(String::new, |price| with_currency(source, price)),
        comes_to,
        lead: sold.lead,
    })
}

/// How they are sold: by what is said of their length, else of their sort.
fn supply<'s>(source: &Source<'s, '_>, own: &Taken) -> Option<&'s SoldSupply> {
    let all = source.work.piece.supplies.iter().filter(|supply| supply.sort == own.sort);
    let mut fits =
        all.clone().filter(|supply| supply.long.is_some_and(|long| own.long.takes(long)));
    fits.next().or_else(|| all.clone().find(|supply| supply.long.is_none()))
}
