//! Which sheets to take, and how to saw the parts from them.

mod blanks;
mod sequence;

use std::cmp::Reverse;

use crate::cutting::{self, Kind, Order, Stages, Wanted, Way};
use crate::measure::{Exact, Length};
use crate::model::{Sheet, Stock, StockId};
use crate::parts::PartId;
use crate::vocabulary::FirstCuts;

use super::Workings;
use super::buying;
use super::sawing::{Blank, Saw, Sawn, Source, grid, on};
use sequence::Item;

/// How many rounds the search takes for fewer sheets, and for larger leftovers, where there
/// are few pieces.
const ROUNDS: [usize; 2] = [8000, 300];
/// Where there are more pieces than this, a round takes longer, and so there are fewer.
const FEW: usize = 30;
/// A search that only looks whether fewer sheets may do takes so much fewer rounds.
const SHORT: usize = 16;
/// A sheet costs as much more than a piece on hand that no number of these outweighs it.
const SHEET: i64 = 1_000_000;

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
    /// The fronts that come from one sheet beside each other, as they are asked to: each
    /// bank, row, or pair in the order in which they come off.
    pub sequences: Vec<Vec<PartId>>,
    /// How many sheets fewer a plan takes that does not mind that.
    pub looks: i64,
}

impl OfStock {
    /// How many sheets are bought.
    #[must_use]
    pub fn bought(&self) -> i64 {
        let bought = self.sheets.iter().filter(|sheet| !sheet.on_hand).count();
        i64::try_from(bought).unwrap_or(i64::MAX)
    }

    /// How many sheets of a size are bought, as they lie.
    #[must_use]
    pub fn bought_of(&self, size: [Length; 2]) -> i64 {
        let own = self.sheets.iter().filter(|own| !own.on_hand && own.size == size).count();
        i64::try_from(own).unwrap_or(i64::MAX)
    }
}

/// The plans of every stock whose sheets are known, numbered through.
pub(super) fn plan(work: &Workings<'_>) -> Vec<OfStock> {
    let mut number = 0;
    let stocks = work.piece.stocks.iter().enumerate();
    let plans = stocks.filter_map(|(index, stock)| {
        let sheet = stock.planned()?;
        let id = StockId(index);
        let blanks = blanks::blanks(work, id, &stock.sheets);
        (!blanks.is_empty()).then(|| of_stock(work, (id, stock), &sheet, &blanks, &mut number))
    });
    plans.collect()
}

/// What is sawn, and the same as whole numbers.
struct Ordered {
    sources: Vec<Source>,
    /// Each blank by itself.
    order: Order,
    /// What is laid out as one piece, and the order of those.
    items: Vec<Item>,
    in_items: Order,
}

fn ordered(work: &Workings<'_>, stock: &Stock, sheet: &Sheet, blanks: &[Blank]) -> Ordered {
    let shop = &work.piece.shop;
    let source = |on_hand, size, trim| Source { on_hand, size, trim, lost: Vec::new() };
    let wholes = stock.sheets.iter().map(|own| source(false, [own.long, own.wide], shop.edge_trim));
    let on_hand = stock
        .on_hand
        .iter()
        .map(|own| source(true, sheet.lying([own.long, own.wide]), Length::ZERO));
    let sources: Vec<Source> = wholes.chain(on_hand).collect();
    let wholes = sources.iter().flat_map(Source::inside).chain([shop.kerf]);
    let sizes = wholes.chain(blanks.iter().flat_map(|blank| blank.size));
    let grid = grid(sizes);
    let costs = costs(stock);
    let kind = |(index, source): (usize, &Source)| Kind {
        size: source.inside().map(|side| on(grid, side + shop.kerf).floor()),
        cost: costs.get(index).copied().unwrap_or(1),
        count: source.on_hand.then_some(1),
        above: None,
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
        kinds: sources.iter().enumerate().map(kind).collect(),
        pieces: blanks.iter().map(wanted).collect(),
        kerf: on(grid, shop.kerf).ceil(),
        stages: Stages { most: Some(shop.stages), first: Some(first) },
        floor: 0,
        rounds: ROUNDS.map(|rounds| rounds * FEW / blanks.len().max(FEW)),
    };
    let wanted = |item: &Item| item.wanted(|index| order.pieces.get(index).copied());
    let holds = |item: &Item| {
        let [long, wide] = wanted(item).map_or([i64::MAX; 2], |own| own.size);
        order.kinds.iter().any(|kind| long <= kind.size[0] && wide <= kind.size[1])
    };
    let items = sequence::items(work, sheet, blanks, holds);
    let pieces = items.iter().filter_map(wanted).collect();
    let in_items = Order { pieces, ..order.clone() };
    Ordered { sources, order, items, in_items }
}

impl Ordered {
    /// The sheets as they are cut into blanks, and what no sheet holds. What is laid out as one
    /// piece takes a stage of its cuts to take apart where no other cut does that.
    fn planned(&self) -> cutting::Plan {
        if !self.items.iter().any(Item::is_sequence) {
            return cutting::plan(&self.order);
        }
        let apart = |order: &Order| {
            let mut plan = cutting::plan(order);
            for sheet in &mut plan.sheets {
                sheet.root = sequence::taken_apart(&sheet.root, &self.items, &self.order.pieces);
            }
            let unplaced = plan.unplaced.iter().filter_map(|index| self.items.get(*index));
            plan.unplaced = unplaced.flat_map(|item| item.members.iter().copied()).collect();
            plan
        };
        let stages = &self.order.stages;
        let is_over = |plan: &cutting::Plan| {
            let own =
                plan.sheets.iter().map(|sheet| sequence::stages_of(&sheet.root, None, stages));
            stages.most.zip(own.max()).is_some_and(|(most, own)| own > most)
        };
        let plan = apart(&self.in_items);
        match is_over(&plan) {
            true => apart(&sequence::with_stage_less(&self.in_items)),
            false => plan,
        }
    }
}

/// How many sheets of a plan are bought.
fn bought(stock: &Stock, plan: &cutting::Plan) -> i64 {
    let own = plan.sheets.iter().filter(|own| own.kind < stock.sheets.len()).count();
    i64::try_from(own).unwrap_or(i64::MAX)
}

/// What a sheet of each size costs beside the first: by their prices where all have one, else
/// by their areas.
fn costs(stock: &Stock) -> Vec<i64> {
    let priced: Option<Vec<Exact>> =
        stock.sheets.iter().map(|own| buying::of_sheet(stock, own)).collect();
    let by_area = || {
        let meter = Length::mm(1000);
        stock.sheets.iter().map(|own| (own.long / meter) * (own.wide / meter)).collect()
    };
    let all = priced.filter(|all| all.iter().all(|own| own.is_positive())).unwrap_or_else(by_area);
    let first = all.first().copied().unwrap_or(Exact::ONE);
    all.iter().map(|own| (Exact::int(SHEET) * *own / first).floor().max(1)).collect()
}

/// No plan takes fewer sheets than this: of a stock of several sizes as many as the plan has,
/// where none costs less, and else if all were as long and as wide as any.
fn fewest(stock: &Stock, order: &Order, plan: &cutting::Plan) -> i64 {
    if stock.sheets.len() < 2 {
        return plan.least / SHEET;
    }
    let is_sold = |kind: &&Kind| kind.count.is_none();
    let had = order.kinds.iter().filter(|kind| !is_sold(kind)).count();
    if plan.cost(order) <= plan.least + i64::try_from(had).unwrap_or(0) {
        return bought(stock, plan);
    }
    let mut order = order.clone();
    let largest = order.kinds.iter().filter(is_sold);
    let largest =
        largest.fold([0, 0], |all, own| [all[0].max(own.size[0]), all[1].max(own.size[1])]);
    order.kinds.retain(|kind| kind.count.is_some());
    order.kinds.push(Kind { size: largest, cost: 1, count: None, above: None });
    cutting::fewest(&order)
}

/// True where a short search finds a plan that buys fewer sheets once each part is so much
/// less long and wide.
pub(crate) fn fewer_if(
    work: &Workings<'_>,
    own: &OfStock,
    less: &dyn Fn(&Blank) -> [Length; 2],
) -> bool {
    let Some(stock) = work.piece.stock(own.stock) else { return false };
    let Some(sheet) = stock.planned() else { return false };
    // Of several sizes another may do, which costs less.
    if stock.sheets.len() > 1 {
        return false;
    }
    let mut blanks = blanks::blanks(work, own.stock, &stock.sheets);
    for blank in &mut blanks {
        let less = less(blank);
        blank.size = [0, 1].map(|side| blank.size[side] - less[side]);
    }
    let Ordered { in_items: mut order, .. } = ordered(work, stock, &sheet, &blanks);
    let most = (own.bought() - 1) * SHEET;
    order.rounds = [order.rounds[0] / SHORT, 0];
    order.floor = most;
    let had = i64::try_from(stock.on_hand.len()).unwrap_or(i64::MAX);
    cutting::fewest(&order) <= most && cutting::plan(&order).cost(&order) <= most + had
}

fn of_stock(
    work: &Workings<'_>,
    (id, stock): (StockId, &Stock),
    sheet: &Sheet,
    blanks: &[Blank],
    number: &mut usize,
) -> OfStock {
    let shop = &work.piece.shop;
    let ordered = ordered(work, stock, sheet, blanks);
    let plan = ordered.planned();
    let of_item = |item: &Item| -> Vec<PartId> {
        item.members.iter().filter_map(|index| Some(blanks.get(*index)?.part)).collect()
    };
    let sequences: Vec<Vec<PartId>> =
        ordered.items.iter().filter(|item| item.is_sequence()).map(of_item).collect();
    // What a plan takes that does not mind the looks.
    let (least, looks) = match sequences.is_empty() {
        true => (fewest(stock, &ordered.order, &plan), 0),
        false => {
            let free = cutting::plan(&ordered.order);
            let more = bought(stock, &plan) - bought(stock, &free);
            (fewest(stock, &ordered.order, &free), more.max(0))
        }
    };
    let Ordered { sources, .. } = ordered;
    let mut sheets = plan.sheets;
    // What is on hand is sawn first, and then the fullest sheets.
    let sizes = stock.sheets.len();
    sheets.sort_by_key(|sheet| {
        let size = if sheet.kind < sizes { sheet.kind + 1 } else { 0 };
        (size, Reverse(sheet.root.filled()))
    });
    let unit = work.piece.tape().unit;
    let saw = Saw { shop, unit, blanks, sheet: Some(sheet), keeps_strips: false };
    let sawn = sheets.iter().filter_map(|own| {
        let source = sources.get(own.kind)?;
        *number += 1;
        Some(saw.sheet(*number, source, &own.root))
    });
    let unplaced = plan.unplaced.iter().filter_map(|index| blanks.get(*index)).cloned();
    let (unplaced, sheets) = (unplaced.collect(), sawn.collect());
    OfStock { stock: id, unplaced, sheets, least, sequences, looks }
}
