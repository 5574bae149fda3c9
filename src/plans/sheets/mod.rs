//! Which sheets to take, and how to saw the parts from them.

mod blanks;
mod sawn;
mod tool;

use crate::cutting::{self, Kind, Order, Stages, Wanted, Way};
use crate::measure::{Exact, Length};
use crate::model::{Sheet, Stock, StockId};
use crate::vocabulary::FirstCuts;

pub use blanks::Blank;
pub use sawn::{Area, Cut, Gives, Laid, Sawn};
pub use tool::Tool;

use super::Workings;

/// How many rounds the search takes for fewer sheets, and for larger leftovers, where there
/// are few pieces.
const ROUNDS: [usize; 2] = [4000, 300];
/// Where there are more pieces than this, a round takes longer, and so there are fewer.
const FEW: usize = 30;
/// A sheet costs as much more than a piece on hand that no number of these outweighs it.
const SHEET: i64 = 1_000_000;
/// In how many parts of a millimeter sizes are told to the search at the most: so many that
/// every size is a whole number of them, if that is no more. Else what is no whole number of
/// them is rounded so that it fits all the more.
const FINEST: i64 = 1_000_000_000_000;

/// The sheets of one stock.
#[derive(Clone, Debug, PartialEq)]
pub struct OfStock {
    /// Which.
    pub stock: StockId,
    /// The sheets and the pieces on hand that are sawn.
    pub sheets: Vec<Sawn>,
    /// No plan takes fewer sheets than this.
    pub least: i64,
    /// What no sheet is large enough for.
    pub unplaced: Vec<Blank>,
}

impl OfStock {
    /// How many sheets are bought.
    #[must_use]
    pub fn bought(&self) -> i64 {
        let bought = self.sheets.iter().filter(|sheet| !sheet.on_hand).count();
        i64::try_from(bought).unwrap_or(i64::MAX)
    }
}

/// The plans of every stock whose sheets are known, numbered through.
pub(super) fn plan(work: &Workings<'_>) -> Vec<OfStock> {
    let mut number = 0;
    let stocks = work.piece.stocks.iter().enumerate();
    let plans = stocks.filter_map(|(index, stock)| {
        let sheet = stock.planned()?;
        let id = StockId(index);
        let blanks = blanks::blanks(work, id, &sheet);
        (!blanks.is_empty()).then(|| of_stock(work, (id, stock), &sheet, &blanks, &mut number))
    });
    plans.collect()
}

/// A size of sheet, or a piece on hand, as it lies: along what is long in a sheet.
#[derive(Clone, Copy, Debug)]
struct Source {
    on_hand: bool,
    size: [Length; 2],
    trim: Length,
}

impl Source {
    fn inside(&self) -> [Length; 2] {
        self.size.map(|side| side - self.trim.twice())
    }
}

fn of_stock(
    work: &Workings<'_>,
    (id, stock): (StockId, &Stock),
    sheet: &Sheet,
    blanks: &[Blank],
    number: &mut usize,
) -> OfStock {
    let shop = &work.piece.shop;
    let whole = Source { on_hand: false, size: [sheet.long, sheet.wide], trim: shop.edge_trim };
    let on_hand = stock.on_hand.iter().map(|(long, wide)| Source {
        on_hand: true,
        size: sheet.lying([*long, *wide]),
        trim: Length::ZERO,
    });
    let sources: Vec<Source> = [whole].into_iter().chain(on_hand).collect();
    let wholes = sources.iter().flat_map(Source::inside).chain([shop.kerf]);
    let sizes = wholes.chain(blanks.iter().flat_map(|blank| blank.size));
    let grid = grid(sizes);
    let kind = |source: &Source| Kind {
        size: source.inside().map(|side| on(grid, side + shop.kerf).floor()),
        cost: if source.on_hand { 1 } else { SHEET },
        count: source.on_hand.then_some(1),
    };
    let wanted = |blank: &Blank| Wanted {
        size: sheet.lying(blank.size).map(|side| on(grid, side + shop.kerf).ceil()),
        turns: blank.turns,
    };
    let first = match shop.first_cuts {
        FirstCuts::Rip => Way::Rip,
        FirstCuts::Crosscut => Way::Crosscut,
    };
    let order = Order {
        kinds: sources.iter().map(kind).collect(),
        pieces: blanks.iter().map(wanted).collect(),
        kerf: on(grid, shop.kerf).ceil(),
        stages: Stages { most: Some(shop.stages), first: Some(first) },
        rounds: ROUNDS.map(|rounds| rounds * FEW / blanks.len().max(FEW)),
    };
    let plan = cutting::plan(&order);
    let mut sheets = plan.sheets;
    // What is on hand is sawn first, and then the fullest sheets.
    sheets.sort_by_key(|sheet| (sheet.kind == 0, std::cmp::Reverse(sheet.root.filled())));
    let saw = sawn::Saw { shop, unit: work.piece.tape().unit, blanks, sheet };
    let sawn = sheets.iter().filter_map(|own| {
        let source = sources.get(own.kind)?;
        *number += 1;
        Some(saw.sawn(*number, source, &own.root))
    });
    let unplaced = plan.unplaced.iter().filter_map(|index| blanks.get(*index)).cloned();
    OfStock {
        stock: id,
        unplaced: unplaced.collect(),
        sheets: sawn.collect(),
        least: plan.least / SHEET,
    }
}

/// In how many parts of a millimeter all of these are whole numbers, as far as that goes.
fn grid(sizes: impl Iterator<Item = Length>) -> i64 {
    let denominators = sizes.map(|size| (size / Length::mm(1)).denom());
    let joined = |all: i64, own: i64| {
        let shared = Exact::ratio(all, own);
        // The fraction is in its lowest terms: what is left above is what the two don't share.
        let least = i128::from(all) * i128::from(shared.denom());
        i64::try_from(least).ok().filter(|least| *least <= FINEST).unwrap_or(all)
    };
    denominators.filter(|own| *own > 0).fold(1, joined)
}

fn on(grid: i64, length: Length) -> Exact {
    length / Length::mm(1) * Exact::int(grid)
}

#[cfg(test)]
mod tests {
    use super::grid;
    use crate::measure::Length;

    /// Worked by hand: 1/64 in is 127/320 mm, and a third of an inch 127/15 mm; 960 is the
    /// least that 320 and 15 go into.
    #[test]
    fn all_sizes_are_whole_numbers_on_the_grid() {
        let sizes = [Length::inches(1, 64), Length::inches(1, 3), Length::mm(5)];
        assert_eq!(grid(sizes.into_iter()), 960);
    }
}
