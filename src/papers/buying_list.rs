//! The buying list: what to take home for the piece, and what it comes to.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use crate::diagnostics::{counted, listed};
use crate::measure::{Days, Exact, Length};
use crate::model::{Case, Fixing, Stock, StockKind};
use crate::parts::PartId;
use crate::plans::Workings;
use crate::plans::bare_ends::{Hidden, bare_ends};
use crate::plans::buying::{Amount, Boards, Bought, What};
use crate::plans::hardware::Kind;
use crate::plans::on_legs;
use crate::trade;

use super::abrasives;
use super::door_and_rail::{self, unpriced};
use super::glass;
use super::liquids;
use super::near_misses;
use super::page::{Block, Table, left, right};
use super::sawn::size;
use super::supplies;
use super::{Source, with_currency};

/// A line of the list, for the page and for other programs.
pub(super) struct Line {
    /// `sheets`, `glass`, `boards`, `edging`, `hardware`, `finish`, `glue`,
    /// `abrasives`, `screws`.
    pub(super) sort: &'static str,
    /// What it is called in short.
    pub(super) name: String,
    pub(super) amount: String,
    pub(super) what: String,
    /// What one costs, as it is written.
    pub(super) price: String,
    /// What all of it costs.
    pub(super) comes_to: Option<Exact>,
    /// How long it takes to come.
    pub(super) lead: Option<Days>,
}

pub(super) fn blocks(source: &Source<'_, '_>) -> Vec<Block> {
    let lines = lines(source);
    if lines.is_empty() {
        return vec![Block::Note("There is nothing to buy.".to_owned())];
    }
    let mut blocks = vec![Block::Note(format!(
        "The sheets and boards are those of their plans. Choose boards that are at least as large, and whose knots and splits fall into what the plan leaves over, or take more. Where the spec does not say which boards the yard has, they are bought by what their rough pieces come to and {} % more, for knots, splits, ends, and widths that don't divide: choose them with the board plan in hand. What lies in the rack already is used first where that saves a sheet or a board. What is cut already is not on this list.",
        trade::BOARD_WASTE
    ))];
    let (glass, others): (Vec<&Line>, Vec<&Line>) =
        lines.iter().partition(|line| line.sort == GLASS);
    blocks.extend(order_first(&others, "Order first").map(Block::Note));
    let when = "Order when its frames and shelves are measured, as the assembly order has it";
    blocks.extend(order_first(&glass, when).map(Block::Note));
    let (priced, others): (Vec<&Line>, Vec<&Line>) =
        lines.iter().partition(|line| line.sort != SCREWS);
    if !priced.is_empty() {
        blocks.push(Block::Table(priced_table(source, &priced)));
    }
    if !others.is_empty() {
        blocks.push(Block::Heading("Screws and small hardware".to_owned()));
        blocks.push(Block::Note("These are a tenth more than the piece takes, because some are lost or break. `supply` in the spec says how many come in a pack and what that costs; without it they have no price here. Those of slides, and of hinges and catches where none are listed, come with them.".to_owned()));
        blocks.push(Block::Table(small(source, &others, &priced)));
    }
    blocks.extend(screws_of_legs(source).map(Block::Note));
    blocks.extend(near_misses::blocks(source));
    blocks.extend(abrasives::left_out(source).map(Block::Note));
    blocks
}

/// The screws of the plates of bought legs, which most come with.
fn screws_of_legs(source: &Source<'_, '_>) -> Option<String> {
    let work = source.work;
    let of = |case: &Case| {
        let own = on_legs::legs_on(work, case)?;
        let Fixing::Plate { screws, hole, .. } = work.piece.leg(own.leg)?.fixing else {
            return None;
        };
        Some((screws * u32::try_from(own.centers.len()).ok()?, hole.deep))
    };
    let all: Vec<(u32, Length)> = work.piece.cases.iter().filter_map(of).collect();
    let deep = all.iter().map(|(_, deep)| *deep).min()?;
    let count: u32 = all.iter().map(|(count, _)| *count).sum();
    let count = counted(count, "screw");
    Some(format!(
        "The plates of the legs take {count}, none of which may go more than {} into the wood. They come with most legs, and are not counted here.",
        source.figures.text(deep)
    ))
}

/// What a glazier cuts.
const GLASS: &str = "glass";

/// What has a lead time, the longest first: `Order first: slides soft-15 (6 weeks), then
/// birch-ply and hinge cup (10 days).`
fn order_first(lines: &[&Line], what: &str) -> Option<String> {
    let mut by_lead: BTreeMap<Reverse<Days>, Vec<String>> = BTreeMap::new();
    for (name, lead) in leads(lines.iter().copied()) {
        by_lead.entry(Reverse(lead)).or_default().push(name);
    }
    let told: Vec<String> = by_lead
        .into_iter()
        .map(|(Reverse(lead), names)| format!("{} ({lead})", listed(&names)))
        .collect();
    (!told.is_empty()).then(|| format!("{what}: {}.", told.join(", then ")))
}

/// Small hardware, in a table of its own.
pub(super) const SCREWS: &str = "screws";

fn priced_table(source: &Source<'_, '_>, lines: &[&Line]) -> Table {
    let total = lines.iter().filter_map(|line| line.comes_to).map(cents).sum::<i64>();
    let unpriced: Vec<&str> = lines
        .iter()
        .filter(|line| line.comes_to.is_none())
        .map(|line| line.what.split(": ").next().unwrap_or_default())
        .collect();
    let has_prices = unpriced.len() < lines.len();
    let mut columns = vec![left("sort"), right("buy").strong(), left("what")];
    if has_prices {
        columns.extend([left("price"), right("comes to")]);
    }
    let has_lead = has_lead(lines.iter().copied());
    columns.extend(has_lead.then(|| left(LEAD)));
    let mut table = Table { columns, ..Table::default() };
    for line in lines {
        let mut row = vec![line.sort.to_owned(), line.amount.clone(), line.what.clone()];
        row.extend(more(line, has_prices, has_lead));
        table.rows.push(row);
    }
    if has_prices {
        table.foot = format!("together {}", with_name_of_currency(source, total));
        if !unpriced.is_empty() {
            table.foot.push_str(&format!(
                "; not counting what has no price, or no price for the way it is bought: {}",
                unpriced.join(", ")
            ));
        }
    }
    table
}

/// Screws, pins, and clips, and what they come to.
fn small(source: &Source<'_, '_>, lines: &[&Line], priced: &[&Line]) -> Table {
    let sum =
        |lines: &[&Line]| lines.iter().filter_map(|line| line.comes_to).map(cents).sum::<i64>();
    let has_prices = lines.iter().any(|line| line.comes_to.is_some());
    let mut columns = vec![right("buy").strong(), left("what")];
    if has_prices {
        columns.extend([left("price"), right("comes to")]);
    }
    let has_lead = has_lead(lines.iter().copied());
    columns.extend(has_lead.then(|| left(LEAD)));
    let row = |line: &&Line| {
        let mut row = vec![line.amount.clone(), line.what.clone()];
        row.extend(more(line, has_prices, has_lead));
        row
    };
    let mut table = Table { columns, rows: lines.iter().map(row).collect(), ..Table::default() };
    if has_prices {
        let [own, above] = [sum(lines), sum(priced)];
        table.foot = format!(
            "together {}, and {} with what has a price above",
            with_name_of_currency(source, own),
            with_name_of_currency(source, own + above)
        );
    }
    table
}

/// What the column of lead times is called.
pub(super) const LEAD: &str = "comes in";

/// True where one of these has a lead time.
pub(super) fn has_lead<'l>(lines: impl IntoIterator<Item = &'l Line>) -> bool {
    lines.into_iter().any(|line| line.lead.is_some())
}

/// What has a lead time, by its name, with that: a stock of several sizes has a line for each.
fn leads<'l>(lines: impl IntoIterator<Item = &'l Line>) -> Vec<(String, Days)> {
    let mut all: Vec<(String, Days)> = Vec::new();
    for line in lines {
        let Some(lead) = line.lead else { continue };
        if all.iter().all(|(name, _)| *name != line.name) {
            all.push((line.name.clone(), lead));
        }
    }
    all
}

/// The cells that only some lists have: the price and what it comes to, and the lead time.
fn more(line: &Line, has_prices: bool, has_lead: bool) -> Vec<String> {
    let mut cells = Vec::new();
    if has_prices {
        cells.push(line.price.clone());
        cells.push(line.comes_to.map_or_else(String::new, |own| in_cents(cents(own))));
    }
    cells.extend(has_lead.then(|| lead_told(line)));
    cells
}

/// How long a line takes to come.
pub(super) fn lead_told(line: &Line) -> String {
    line.lead.map_or_else(String::new, |lead| lead.to_string())
}

fn cents(amount: Exact) -> i64 {
    (amount * Exact::int(100)).round()
}

/// An amount to a hundredth of the currency.
pub(super) fn in_hundredths(amount: Exact) -> String {
    in_cents(cents(amount))
}

fn in_cents(cents: i64) -> String {
    format!("{}.{:02}", cents / 100, cents % 100)
}

/// What there is to buy, as two revisions are compared by it.
#[derive(Debug)]
pub(crate) struct ToBuy {
    /// Each stock with how much of it.
    pub(crate) stocks: Vec<(String, String)>,
    /// What all that has a price comes to, with its currency.
    pub(crate) total: Option<String>,
    /// What has a lead time, each by its name, with that.
    pub(crate) leads: Vec<(String, Days)>,
}

/// What there is to buy of stocks, and the sum.
pub(crate) fn to_buy(work: &Workings<'_>) -> ToBuy {
    let source = &Source::of(work);
    let bought = work.buying();
    let stocks = bought.iter().filter_map(|own| match own.what {
        What::Stock(id) => {
            let stock = work.piece.stock(id)?;
            Some((stock.name.clone(), amount(source, &own.amount)))
        }
        What::Hardware(_) => None,
    });
    let lines = lines(source);
    let priced: Vec<i64> = lines.iter().filter_map(|line| line.comes_to).map(cents).collect();
    let total = (!priced.is_empty()).then(|| with_name_of_currency(source, priced.iter().sum()));
    ToBuy { stocks: stocks.collect(), total, leads: leads(&lines) }
}

fn with_name_of_currency(source: &Source<'_, '_>, total: i64) -> String {
    match &source.work.piece.job.currency {
        Some(currency) => format!("{currency} {}", in_cents(total)),
        None => in_cents(total),
    }
}

/// Everything to buy, line by line.
pub(super) fn lines(source: &Source<'_, '_>) -> Vec<Line> {
    let bought = source.work.buying().iter();
    let mut lines: Vec<Line> = bought.filter_map(|own| line(source, own)).collect();
    lines.extend(door_and_rail::lines(source));
    lines.extend(glass::small(source).into_iter().map(|(count, what)| unpriced(count, what)));
    lines.extend(veneer(source));
    lines.extend(liquids::lines(source));
    lines.extend(abrasives::lines(source));
    lines.extend(supplies::lines(source));
    lines
}

/// Veneer for the ends of kicks and bases that show their plies: strips of one size and look
/// together.
fn veneer(source: &Source<'_, '_>) -> Vec<Line> {
    let (piece, parts) = (source.work.piece, source.work.parts);
    let mut all: Vec<(String, usize, Vec<PartId>)> = Vec::new();
    for own in &bare_ends(piece, parts) {
        let Hidden::Veneer(strip) = own.by else { continue };
        let beside = own.beside.first().and_then(|id| parts.get(*id));
        let Some(stock) = beside.and_then(|part| piece.stock(part.stock)) else { continue };
        let (name, strip) = (&stock.name, size(source, strip));
        let what = format!("veneer to match {name}: strips no smaller than {strip}");
        match all.iter_mut().find(|known| known.0 == what) {
            Some((_, count, boards)) => {
                *count += own.faces.len();
                boards.push(own.part);
            }
            None => all.push((what, own.faces.len(), vec![own.part])),
        }
    }
    let line = |(what, count, boards): (String, usize, Vec<PartId>)| {
        let ends = if count == 1 { "the end" } else { "the ends" };
        let marks: Vec<&str> = boards.iter().map(|id| parts.mark(*id)).collect();
        let what = format!("{what}, for {ends} of {}", listed(&marks));
        Line { sort: "edging", ..unpriced(count, what) }
    };
    all.into_iter().map(line).collect()
}

fn line(source: &Source<'_, '_>, own: &Bought) -> Option<Line> {
    let piece = source.work.piece;
    let (sort, name, what) = match own.what {
        What::Stock(id) => {
            let stock = piece.stock(id)?;
            let sort = match stock.kind {
                StockKind::Lumber => "boards",
                StockKind::Banding => "edging",
                StockKind::Glass => GLASS,
                StockKind::Plywood
                | StockKind::Mdf
                | StockKind::Particleboard
                | StockKind::Hardboard => "sheets",
            };
            (sort, stock.name.clone(), stock_told(source, stock, own))
        }
        What::Hardware(kind) => {
            let (noun, name) = match kind {
                Kind::Hinge(id) => ("hinge", &piece.hinge(id)?.name),
                Kind::Slide(id) => ("slides", &piece.slide(id)?.name),
                Kind::Pull(id) => ("pull", &piece.pull(id)?.name),
                Kind::Leg(id) => ("leg", &piece.leg(id)?.name),
            };
            let name = format!("{noun} {name}");
            let what = format!("{name}{}", packs_told(own));
            ("hardware", name, what)
        }
    };
    Some(Line {
        sort,
        name,
        amount: packs(own).unwrap_or_else(|| amount(source, &own.amount)),
        what,
        price: own.price.map_or_else(String::new, |price| with_currency(source, price)),
        comes_to: own.comes_to(),
        lead: own.lead,
    })
}

/// How many packs are bought of what comes in packs.
fn packs(own: &Bought) -> Option<String> {
    match own.amount {
        Amount::Pieces(count) | Amount::Pairs(count) => {
            own.sold.packs(count).map(|packs| counted(packs, "pack"))
        }
        Amount::Sheets(..)
        | Amount::Panes(..)
        | Amount::Unplanned
        | Amount::BoardFeet(_)
        | Amount::CubicMeters(_)
        | Amount::Roll(_) => None,
    }
}

/// `, 10 to a pack, 4 on hand`.
fn packs_told(own: &Bought) -> String {
    let (one, many) = match own.amount {
        Amount::Pairs(_) => (" pair", " pairs"),
        Amount::Pieces(_)
        | Amount::Sheets(..)
        | Amount::Panes(..)
        | Amount::Unplanned
        | Amount::BoardFeet(_)
        | Amount::CubicMeters(_)
        | Amount::Roll(_) => ("", ""),
    };
    let noun = |count: i64| if count == 1 { one } else { many };
    let pack = own.sold.pack.map(|own| format!(", {own}{} to a pack", noun(own)));
    let had = (own.sold.on_hand > 0).then_some(own.sold.on_hand);
    let had = had.map(|own| format!(", {own}{} on hand", noun(own)));
    pack.into_iter().chain(had).collect()
}

fn stock_told(source: &Source<'_, '_>, stock: &Stock, own: &Bought) -> String {
    let text = |length: Length| source.figures.text(length);
    let sold = match (stock.is_solid(), trade::quarters(stock.nominal)) {
        (true, Some(quarters)) => quarters.to_owned(),
        (true, None) => format!("sawn {} thick", text(stock.nominal)),
        (false, _) => format!("{} {}", stock.kind.word(), text(stock.nominal)),
    };
    let mut told = vec![format!("{}: {sold}", stock.name)];
    told.extend(stock.species.iter().map(|species| species.replace('-', " ")));
    if let Amount::Sheets(_, sides) = &own.amount {
        told.push(size(source, *sides));
    }
    if let Amount::Panes(panes) = &own.amount {
        told.push(size(source, panes.size));
        told.extend(glass::ordered(stock).into_iter().map(str::to_owned));
        told.push(panes.edges.word().to_owned());
    }
    let is_less = matches!(own.amount, Amount::Roll(_)) || matches!(own.boards, Boards::Unknown(_));
    if is_less && !stock.on_hand.is_empty() {
        told.push("beside what is on hand".to_owned());
    }
    if matches!(own.amount, Amount::Unplanned) {
        told.push("how many sheets is not known, since its stock gives no `sheet`".to_owned());
    }
    match &own.boards {
        Boards::None => {}
        Boards::Unknown([long, wide]) => {
            told.push(format!("the longest piece {}, the widest {}", text(*long), text(*wide)));
        }
        Boards::Strips(long) => {
            told.push(format!(
                "for strips no longer than {}, from boards of any width",
                text(*long)
            ));
        }
        Boards::Planned(sizes) => {
            told.push(format!("no smaller than {}", sizes_told(source, sizes)));
        }
        Boards::Unplanned => told.push("longer or wider boards than the yard has".to_owned()),
    }
    told.join(", ")
}

/// How many boards of each size, the largest first: `96 x 6 (2 boards) and 80 x 5`.
fn sizes_told(source: &Source<'_, '_>, sizes: &[[Length; 2]]) -> String {
    let mut alike: BTreeMap<Reverse<[Length; 2]>, i64> = BTreeMap::new();
    for own in sizes {
        *alike.entry(Reverse(*own)).or_default() += 1;
    }
    let told = alike.into_iter().map(|(Reverse(own), count)| match count {
        1 => size(source, own),
        count => format!("{} ({})", size(source, own), counted(count, "board")),
    });
    listed(&told.collect::<Vec<_>>())
}

/// A length off a roll, whole feet or tenths of a meter: `24 ft`, `7.3 m`.
pub(super) fn roll(source: &Source<'_, '_>, long: Length) -> String {
    if source.work.piece.tape().unit.is_metric() {
        let tenths = (long / Length::mm(100)).ceil();
        return format!("{}.{} m", tenths / 10, tenths % 10);
    }
    format!("{} ft", (long / Length::inches(12, 1)).ceil())
}

pub(super) fn amount(source: &Source<'_, '_>, amount: &Amount) -> String {
    match amount {
        Amount::Sheets(count, _) => counted(*count, "sheet"),
        Amount::Panes(own) => counted(own.count, "pane"),
        Amount::Unplanned => "?".to_owned(),
        Amount::Pieces(count) => count.to_string(),
        Amount::Pairs(count) => counted(*count, "pair"),
        Amount::BoardFeet(1) => "1 board foot".to_owned(),
        Amount::BoardFeet(count) => format!("{count} board feet"),
        Amount::CubicMeters(hundredths) => {
            format!("{}.{:02} m3", hundredths / 100, hundredths % 100)
        }
        Amount::Roll(long) => roll(source, *long),
    }
}
