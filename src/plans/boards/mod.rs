//! From which boards the rough pieces of solid wood come, and how they are sawn: looks
//! before yield. Fronts come first, those that are seen together one after another from one
//! board; then the members of frames; then what is seen inside; then all else, from what is left where it holds it.

mod bench;
mod blanks;
mod looks;
mod yard;

use std::cmp::Reverse;

use crate::cutting;
use crate::measure::{Exact, Length};
use crate::model::{OnHand, Stock, StockId};
use crate::vocabulary::LayOut;

pub use looks::Looks;
pub(in crate::plans) use looks::{Together, together};
pub use yard::lost_at_ends;

use super::Workings;
use super::sawing::{Blank, Clear, Saw, Sawn, Source, grid, on};
use bench::{BOARD, Bench};
use yard::Yard;

/// The boards of one stock.
#[derive(Clone, Debug, PartialEq)]
pub struct OfLumber {
    /// Which.
    pub stock: StockId,
    /// The boards that are sawn, those on hand first.
    pub boards: Vec<Sawn>,
    /// The sizes of boards that are counted on at the yard, the first wherever it will do.
    pub sizes: Vec<[Length; 2]>,
    /// No plan buys fewer boards than this, if they are no larger.
    pub least: i64,
    /// How many boards fewer a plan buys that does not mind the looks.
    pub looks: i64,
    /// What no board is left for that is large enough.
    pub unplaced: Vec<Blank>,
}

impl OfLumber {
    /// The boards that are bought.
    pub fn bought(&self) -> impl Iterator<Item = &Sawn> {
        self.boards.iter().filter(|own| !own.on_hand)
    }

    /// The square millimeters of each board, and of the blanks that it gives.
    pub fn areas(&self) -> impl Iterator<Item = (&Sawn, [Exact; 2])> {
        self.boards.iter().map(|own| (own, [area(own.size), laid_area(own)]))
    }

    /// Of a hundred parts of its boards, how many are in its blanks.
    #[must_use]
    pub fn in_hundred(&self) -> i64 {
        let boards: Exact = self.areas().map(|(_, [board, _])| board).sum();
        let laid: Exact = self.areas().map(|(_, [_, laid])| laid).sum();
        if boards.is_positive() { (laid * Exact::int(100) / boards).floor() } else { 0 }
    }
}

/// The boards of every stock of solid wood, numbered through.
pub(super) fn plan(work: &Workings<'_>) -> Vec<OfLumber> {
    let mut number = 0;
    let stocks = work.piece.stocks.iter().enumerate().filter(|(_, stock)| stock.is_solid());
    let plans = stocks.filter_map(|(index, stock)| {
        let id = StockId(index);
        let blanks = blanks::blanks(work, id, stock);
        (!blanks.is_empty()).then(|| of_stock(work, (id, stock), &blanks, &mut number))
    });
    plans.collect()
}

/// True where fewer boards are bought once each part is so much less long and wide.
pub(crate) fn fewer_if(
    work: &Workings<'_>,
    own: &OfLumber,
    less: &dyn Fn(&Blank) -> [Length; 2],
) -> bool {
    let Some(stock) = work.piece.stock(own.stock) else { return false };
    let mut blanks = blanks::blanks(work, own.stock, stock);
    for blank in &mut blanks {
        let less = less(blank);
        blank.size = [0, 1].map(|side| blank.size[side] - less[side]);
    }
    let yard = Yard::of(work, stock, &blanks);
    let yard = yard.with_largest().unwrap_or(yard);
    let (bench, free) = begun(work, (&yard, &stock.on_hand), &blanks);
    let bought = i64::try_from(own.bought().count()).unwrap_or(i64::MAX);
    if fewest(&bench, &free, cutting::fewest(&free)) >= bought {
        return false;
    }
    let after = of_stock(work, (own.stock, stock), &blanks, &mut 0);
    after.unplaced.is_empty() && after.bought().count() < own.bought().count()
}

fn of_stock(
    work: &Workings<'_>,
    (id, stock): (StockId, &Stock),
    blanks: &[Blank],
    number: &mut usize,
) -> OfLumber {
    let yard = Yard::of(work, stock, blanks);
    let with = |yard: Yard, on_hand: &[OnHand]| Laid::of(work, (yard, on_hand), blanks, *number);
    let mut all = vec![with(yard, &stock.on_hand)];
    // A board that hardly anything comes from: larger ones may do without it.
    let larger = all.first().filter(|own| own.is_poor()).and_then(|own| own.yard.with_largest());
    all.extend(larger.map(|yard| with(yard, &stock.on_hand)));
    // What is on hand stays in the rack where it saves nothing.
    if !stock.on_hand.is_empty() {
        let without: Vec<Laid> = all.iter().map(|own| with(own.yard.clone(), &[])).collect();
        all.extend(without);
    }
    let best = all.iter().enumerate().min_by_key(|(_, own)| own.judged()).map_or(0, |(at, _)| at);
    let sizes = all.get(best).map_or_else(Vec::new, |own| own.yard.sizes.clone());
    // No more is to be had by what is on hand than that it is all used.
    let bound = all.iter().find(|own| own.yard.sizes == sizes);
    let least = bound.map_or(0, |own| fewest(&own.bench, &own.free, own.floor));
    let laid = all.swap_remove(best);
    *number += laid.boards.len();
    let is_dearer = laid.bench.bought() > least && work.piece.shop.lay_out == LayOut::Looks;
    let looks = if is_dearer { looks_cost(&laid.bench, laid.free, laid.floor) } else { 0 };
    let unplaced = laid.unplaced.iter().filter_map(|index| blanks.get(*index)).cloned().collect();
    OfLumber { stock: id, boards: laid.boards, sizes, least, looks, unplaced }
}

/// Every blank on a board.
struct Laid {
    bench: Bench,
    yard: Yard,
    boards: Vec<Sawn>,
    /// All blanks that are in the plan as they are ordered where nobody minds the looks, and what no plan of them
    /// costs less than.
    free: cutting::Order,
    floor: i64,
    /// Those that no board is left for that is large enough.
    unplaced: Vec<usize>,
}

impl Laid {
    fn of(
        work: &Workings<'_>,
        (yard, on_hand): (Yard, &[OnHand]),
        blanks: &[Blank],
        before: usize,
    ) -> Self {
        let (mut bench, free) = begun(work, (&yard, on_hand), blanks);
        let all: Vec<usize> = (0..blanks.len()).collect();
        let floor = cutting::fewest(&free);
        let unplaced = match work.piece.shop.lay_out {
            LayOut::Looks => looks_first(work, blanks, &mut bench, floor),
            LayOut::Yield => bench.pack(&all, floor),
        };
        // What is in no plan asks for no board.
        let (free, floor) = match unplaced.is_empty() {
            true => (free, floor),
            false => {
                let placed = all.into_iter().filter(|index| !unplaced.contains(index));
                let free = bench.order(&placed.collect::<Vec<_>>(), 0);
                let floor = cutting::fewest(&free);
                (free, floor)
            }
        };
        let boards = sawn(work, blanks, (&bench, &yard), before);
        Self { bench, yard, boards, free, floor, unplaced }
    }

    /// True where hardly anything comes from a board that is bought.
    fn is_poor(&self) -> bool {
        self.boards
            .iter()
            .any(|own| !own.on_hand && laid_area(own) * Exact::int(2) < area(own.size))
    }

    /// The less, the better: what is in no plan, what is bought, and how much of what is on
    /// hand is cut into.
    fn judged(&self) -> (usize, Exact, usize) {
        let bought = self.boards.iter().filter(|own| !own.on_hand);
        let bought = bought.map(|own| area(own.size)).sum();
        (self.unplaced.len(), bought, self.boards.iter().filter(|own| own.on_hand).count())
    }
}

/// The boards in which nothing is cut, and all blanks as they are ordered from them where nobody
/// minds the looks.
fn begun(
    work: &Workings<'_>,
    (yard, on_hand): (&Yard, &[OnHand]),
    blanks: &[Blank],
) -> (Bench, cutting::Order) {
    let kerf = work.piece.shop.kerf;
    let mut sources: Vec<Source> =
        on_hand.iter().map(|own| yard::on_hand(work.piece, own)).collect();
    let had = sources.len();
    sources.extend(yard.sources(yard::lost_at_ends(work.piece)));
    let lost = sources.iter().flat_map(|own| own.lost.iter());
    let lost = lost.flat_map(|(from, to)| [*from, *to]);
    let sides = sources.iter().flat_map(|own| own.size).chain(lost).chain([kerf]);
    let grid = grid(sides.chain(blanks.iter().flat_map(|blank| blank.size)));
    let size = |blank: &Blank| blank.size.map(|side| on(grid, side + kerf).ceil());
    let sizes = blanks.iter().map(size).collect();
    let mut bench = Bench { sources, had, begun: Vec::new(), sizes, kerf, grid };
    bench.lay_out();
    let all: Vec<usize> = (0..blanks.len()).collect();
    let free = bench.order(&all, 0);
    (bench, free)
}

/// Lays out one class after the other, and returns what no board is large enough for.
fn looks_first(work: &Workings<'_>, blanks: &[Blank], bench: &mut Bench, floor: i64) -> Vec<usize> {
    // The longest first: what is left at the ends takes the others.
    let mut groups = looks::sequences(work, blanks);
    let long = |index: &usize| blanks.get(*index).map_or(Length::ZERO, |own| own.size[0]);
    groups.sort_by_key(|group| Reverse(group.iter().flatten().map(long).sum::<Length>()));
    let alone: Vec<usize> = groups.iter().flat_map(|group| bench.in_sequence(group)).collect();
    let mut unplaced = bench.pack(&alone, 0);
    let of = |looks: Looks| -> Vec<usize> {
        let own = blanks.iter().enumerate().filter(|(_, own)| Looks::of(work, own) == looks);
        own.map(|(index, _)| index).collect()
    };
    unplaced.extend(bench.pack(&of(Looks::Frame), 0));
    unplaced.extend(bench.pack(&of(Looks::Shelf), 0));
    let spent = bench.spent();
    unplaced.extend(bench.pack(&of(Looks::Plain), floor - spent));
    unplaced
}

fn area([long, wide]: [Length; 2]) -> Exact {
    (long / Length::mm(1)) * (wide / Length::mm(1))
}

/// What the blanks of a board have.
fn laid_area(own: &Sawn) -> Exact {
    own.laid.iter().map(|laid| area(laid.blank.size)).sum()
}

/// No plan buys fewer boards than this, if they are no larger than the largest that are
/// counted on.
fn fewest(bench: &Bench, free: &cutting::Order, floor: i64) -> i64 {
    if bench.sources.len() == bench.had + 1 {
        return floor.max(0) / BOARD + i64::from(floor.max(0) % BOARD > 0);
    }
    let mut order = free.clone();
    let largest = order.kinds.iter().filter(|kind| kind.count.is_none());
    let largest =
        largest.fold([0, 0], |all, own| [all[0].max(own.size[0]), all[1].max(own.size[1])]);
    order.kinds.retain(|kind| kind.count.is_some());
    order.kinds.push(cutting::Kind { size: largest, cost: 1, count: None, above: None });
    cutting::fewest(&order)
}

/// How many boards fewer are bought where nobody minds the looks, as far as is found.
fn looks_cost(bench: &Bench, free: cutting::Order, floor: i64) -> i64 {
    let order = cutting::Order { floor, rounds: [free.rounds[0], 0], ..free };
    let plan = cutting::plan(&order);
    let is_bought = |kind: usize| order.kinds.get(kind).is_some_and(|own| own.count.is_none());
    let bought = plan.sheets.iter().filter(|sheet| is_bought(sheet.kind)).count();
    (bench.bought() - i64::try_from(bought).unwrap_or(i64::MAX)).max(0)
}

/// The boards as they are sawn, numbered on from those before; those to buy are no larger
/// than what is asked of them.
fn sawn(
    work: &Workings<'_>,
    blanks: &[Blank],
    (bench, yard): (&Bench, &Yard),
    before: usize,
) -> Vec<Sawn> {
    let (shop, unit) = (&work.piece.shop, work.piece.tape().unit);
    let saw = |keeps_strips| Saw { shop, unit, blanks, sheet: None, keeps_strips };
    let begun = bench.begun.iter().filter(|own| !own.is_whole());
    let boards = (before + 1..).zip(begun).filter_map(|(number, own)| {
        let source = bench.sources.get(own.source)?;
        let clear = |until: Option<Length>| -> Vec<Clear<'_>> {
            let clear = own.stretches.iter().map(|own| {
                let to = until.unwrap_or(own.to);
                Clear { from: own.from, to, root: &own.root }
            });
            clear.collect()
        };
        let sawn = saw(source.on_hand).board(number, source, &clear(None));
        if source.on_hand {
            return Some(sawn);
        }
        let ends =
            |side: usize| sawn.laid.iter().map(move |own| own.area.at[side] + own.area.size[side]);
        let used = [0, 1].map(|side| ends(side).max().unwrap_or(Length::ZERO));
        let asked = yard.asked(work, source, used);
        let until = asked.clear().last().map(|(_, to)| *to);
        Some(saw(false).board(number, &asked, &clear(until)))
    });
    boards.collect()
}
