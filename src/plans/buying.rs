//! What to buy: so many of each, and what it comes to.

use crate::measure::{Days, Exact, Length, Rate, Unit};
use crate::model::{Sheet, Sold, Stock, StockId};
use crate::parts::{Part, PartId};
use crate::trade;

use super::Workings;
use super::boards::OfLumber;
use super::edging;
use super::glass::{self, Panes};
use super::hardware::{self, Count, Kind};

/// How much is bought of something.
#[derive(Clone, Debug, PartialEq)]
pub enum Amount {
    /// Whole sheets of this size.
    Sheets(i64, [Length; 2]),
    /// Panes of one size.
    Panes(Panes),
    /// Sheets of a size that is not known.
    Unplanned,
    /// Pieces.
    Pieces(i64),
    /// Pairs.
    Pairs(i64),
    /// Board feet, whole.
    BoardFeet(i64),
    /// Hundredths of a cubic meter.
    CubicMeters(i64),
    /// Off a roll.
    Roll(Length),
}

/// Something to buy.
#[derive(Clone, Debug, PartialEq)]
pub struct Bought {
    /// What.
    pub what: What,
    /// How much of it.
    pub amount: Amount,
    /// How thick a stock is sold.
    pub thick: Length,
    /// What one costs.
    pub price: Option<Rate>,
    /// How long it takes to come.
    pub lead: Option<Days>,
    /// How small things are sold; nothing is known of all others.
    pub sold: Sold,
    /// Of what sizes its boards are.
    pub boards: Boards,
}

/// What is known of the boards of a stock.
#[derive(Clone, Debug, PartialEq)]
pub enum Boards {
    /// It has none.
    None,
    /// Nothing: the longest and the widest of its rough pieces.
    Unknown([Length; 2]),
    /// Nothing, and they are ripped to strips no longer than this.
    Strips(Length),
    /// The yard has boards as large as these, and the plan asks for them.
    Planned(Vec<[Length; 2]>),
    /// A piece is larger than any board of the yard.
    Unplanned,
}

/// What is bought.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// Sheets, boards, or edging.
    Stock(StockId),
    /// Hinges, slides, or pulls.
    Hardware(Kind),
}

impl Bought {
    /// What it comes to, where its price is for what is bought: an amount in the currency of
    /// the job.
    #[must_use]
    pub fn comes_to(&self) -> Option<Exact> {
        let rate = self.price?;
        let many = match &self.amount {
            Amount::Sheets(count, [long, wide]) => {
                in_sheets([*long, *wide, self.thick], rate.per)? * Exact::int(*count)
            }
            Amount::Panes(Panes { count, size: [long, wide], .. }) => {
                in_sheets([*long, *wide, self.thick], rate.per)? * Exact::int(*count)
            }
            Amount::Pieces(count) | Amount::Pairs(count) if rate.per == "pack" => {
                Exact::int(self.sold.packs(*count)?)
            }
            Amount::Pieces(count) if rate.per == "each" => Exact::int(*count),
            // A pair is not sold by halves.
            Amount::Pieces(count) if rate.per == "pair" => Exact::int((count + 1) / 2),
            Amount::Pairs(count) if rate.per == "pair" => Exact::int(*count),
            Amount::Pairs(count) if rate.per == "each" => Exact::int(count * 2),
            Amount::BoardFeet(count) => self.lumber(Exact::int(*count) * board_foot(), rate.per)?,
            Amount::CubicMeters(count) => self.lumber(Exact::ratio(*count, 100), rate.per)?,
            Amount::Roll(long) if rate.per == "ft" => *long / Length::inches(12, 1),
            Amount::Roll(long) if rate.per == "m" => *long / Length::mm(1000),
            Amount::Pieces(_) | Amount::Pairs(_) | Amount::Roll(_) | Amount::Unplanned => {
                return None;
            }
        };
        Some(rate.price.0 * many)
    }

    /// So many cubic meters of boards in what they are sold by.
    fn lumber(&self, meters: Exact, per: &str) -> Option<Exact> {
        let thick = self.thick / Length::mm(1000);
        match per {
            "m3" => Some(meters),
            "board-foot" => Some(meters / board_foot()),
            "m2" if thick.is_positive() => Some(meters / thick),
            "ft2" if thick.is_positive() => Some(meters / thick / square_foot()),
            _ => None,
        }
    }
}

/// What a sheet of this size costs.
#[must_use]
pub fn of_sheet(stock: &Stock, sheet: &Sheet) -> Option<Exact> {
    let rate = sheet.price.or(stock.price)?;
    let size = [sheet.long, sheet.wide, stock.nominal];
    Some(rate.price.0 * in_sheets(size, rate.per)?)
}

/// A sheet so long, wide, and thick in what it is sold by.
fn in_sheets(size: [Length; 3], per: &str) -> Option<Exact> {
    let [long, wide, thick] = size.map(|side| side / Length::mm(1000));
    match per {
        "sheet" | "each" => Some(Exact::ONE),
        "m2" => Some(long * wide),
        "ft2" => Some(long * wide / square_foot()),
        "m3" => Some(long * wide * thick),
        "board-foot" => Some(long * wide * thick / board_foot()),
        _ => None,
    }
}

/// In square meters.
fn square_foot() -> Exact {
    let foot = Exact::ratio(3048, 10_000);
    foot * foot
}

/// In cubic meters.
fn board_foot() -> Exact {
    let foot = Exact::ratio(3048, 10_000);
    foot * foot * foot / Exact::int(12)
}

/// Everything that has a price in a spec, and how much of it there is to buy.
pub(super) fn list(work: &Workings<'_>) -> Vec<Bought> {
    let piece = work.piece;
    let of_stock = |id: StockId, amount, boards| {
        let stock = piece.stock(id)?;
        let (thick, price, lead) = (stock.nominal, stock.price, stock.lead);
        let sold = Sold::default();
        Some(Bought { what: What::Stock(id), amount, thick, price, lead, sold, boards })
    };
    let sheets = work.sheets().iter().flat_map(|own| {
        let sizes = piece.stock(own.stock).map_or(&[][..], |stock| &stock.sheets);
        sizes.iter().filter_map(move |sheet| {
            let size = [sheet.long, sheet.wide];
            let count = own.bought_of(size);
            let bought = of_stock(own.stock, Amount::Sheets(count, size), Boards::None)?;
            (count > 0).then_some(Bought { price: sheet.price.or(bought.price), ..bought })
        })
    });
    let stocks = || piece.stocks.iter().enumerate().map(|(index, stock)| (StockId(index), stock));
    let unplanned = stocks().filter(|(id, stock)| {
        stock.is_sheet() && stock.sheet.is_none() && work.left_of(*id).next().is_some()
    });
    let unplanned = unplanned.filter_map(|(id, _)| of_stock(id, Amount::Unplanned, Boards::None));
    let panes = stocks().filter(|(_, stock)| stock.is_glass()).flat_map(|(id, _)| {
        let panes = glass::panes(work, id).into_iter();
        panes.filter_map(move |own| of_stock(id, Amount::Panes(own), Boards::None))
    });
    let boards = work.boards().iter().filter_map(|own| {
        let (amount, boards) = boards(work, own)?;
        of_stock(own.stock, amount, boards)
    });
    let edging = edging::bought(piece, work.parts).into_iter().filter_map(|own| {
        let is_banding = piece.stock(own.stock).is_some_and(Stock::is_banding);
        let long = is_banding.then(|| own.roll(piece)).filter(|long| long.is_positive())?;
        of_stock(own.stock, Amount::Roll(long), Boards::None)
    });
    let hardware = hardware::count(piece).into_iter().filter_map(|Count { kind, number }| {
        let sold = match kind {
            Kind::Hinge(id) => piece.hinge(id)?.sold,
            Kind::Slide(id) => piece.slide(id)?.hardware()?.sold,
            Kind::Pull(id) => piece.pull(id)?.sold,
            Kind::Leg(id) => piece.leg(id)?.sold,
        };
        let count = sold.bought(i64::from(number));
        let amount = match kind {
            Kind::Hinge(_) | Kind::Pull(_) | Kind::Leg(_) => Amount::Pieces(count),
            Kind::Slide(_) => Amount::Pairs(count),
        };
        let (thick, price, lead) = (Length::ZERO, sold.price, sold.lead);
        let (what, boards) = (What::Hardware(kind), Boards::None);
        (count > 0).then_some(Bought { what, amount, thick, price, lead, sold, boards })
    });
    sheets.chain(unplanned).chain(panes).chain(boards).chain(edging).chain(hardware).collect()
}

/// What there is to buy of a stock of boards: those of its plan where it is known what the
/// yard has, and else so much more than its rough pieces come to.
fn boards(work: &Workings<'_>, own: &OfLumber) -> Option<(Amount, Boards)> {
    let stock = work.piece.stock(own.stock)?;
    if stock.boards.is_none() {
        let (amount, largest) = beyond_rack(work, own, stock)?;
        let boards = match work.left_of(own.stock).next() {
            Some(_) => Boards::Unknown(largest),
            None => Boards::Strips(largest[0]),
        };
        return Some((amount, boards));
    }
    if !own.unplaced.is_empty() {
        return Some((estimate(work, own.stock, stock)?.0, Boards::Unplanned));
    }
    let sizes: Vec<[Length; 2]> = own.bought().map(|own| own.size).collect();
    (!sizes.is_empty()).then(|| (planned(work, own, stock), Boards::Planned(sizes)))
}

/// What the rough pieces come to that no board on hand gives, with what is lost on it, and the
/// longest and the widest of them.
fn beyond_rack(
    work: &Workings<'_>,
    own: &OfLumber,
    stock: &Stock,
) -> Option<(Amount, [Length; 2])> {
    if !own.boards.iter().any(|board| board.on_hand) {
        return estimate(work, own.stock, stock);
    }
    let bought = own.bought().flat_map(|board| board.laid.iter().map(|laid| &laid.blank));
    let pieces = bought.chain(&own.unplaced).map(|blank| {
        let [long, wide] = blank.size;
        (stock.nominal, wide, long)
    });
    with_waste(work, pieces.collect())
}

/// What the boards that a plan asks for are sold as.
#[must_use]
pub fn planned(work: &Workings<'_>, own: &OfLumber, stock: &Stock) -> Amount {
    let sizes = own.bought().map(|own| own.size);
    match work.piece.tape().unit {
        Unit::Inch | Unit::Foot => {
            let tallied = sizes.map(|[long, wide]| trade::tallied_feet(stock.nominal, wide, long));
            Amount::BoardFeet(tallied.sum::<Exact>().ceil())
        }
        Unit::Millimetre | Unit::Centimetre | Unit::Metre => {
            let meter = Length::mm(1000);
            let volume = |[long, wide]: [Length; 2]| {
                (long / meter) * (wide / meter) * (stock.nominal / meter)
            };
            let sum: Exact = sizes.map(volume).sum();
            Amount::CubicMeters((sum * Exact::int(100)).ceil())
        }
    }
}

/// The rough pieces that are left to saw from a stock of boards, lips too: thickness, width,
/// and length.
#[must_use]
pub fn rough_pieces(
    work: &Workings<'_>,
    id: StockId,
    stock: &Stock,
) -> Vec<(Length, Length, Length)> {
    let own: Vec<(PartId, &Part)> = work.left_of(id).collect();
    let mut pieces = work.sticks().pieces(work, stock.nominal, &own);
    let lips = edging::bought(work.piece, work.parts);
    for lip in lips.iter().filter(|lip| lip.stock == id) {
        pieces.extend(lip.boards(work.piece, stock.nominal));
    }
    pieces
}

/// What the rough pieces of a stock of boards come to, with what is lost on it, and the
/// longest and the widest of them.
#[must_use]
pub fn estimate(work: &Workings<'_>, id: StockId, stock: &Stock) -> Option<(Amount, [Length; 2])> {
    with_waste(work, rough_pieces(work, id, stock))
}

/// What rough pieces come to with what is lost on them, and the longest and the widest of them.
fn with_waste(
    work: &Workings<'_>,
    pieces: Vec<(Length, Length, Length)>,
) -> Option<(Amount, [Length; 2])> {
    let longest = pieces.iter().map(|(_, _, long)| *long).max()?;
    let widest = pieces.iter().map(|(_, wide, _)| *wide).max()?;
    let with_waste = |net: f64| net * (100 + trade::BOARD_WASTE) as f64 / 100.0;
    let amount = match work.piece.tape().unit {
        Unit::Inch | Unit::Foot => {
            let net = pieces.into_iter().map(trade::board_feet).sum();
            Amount::BoardFeet(up(with_waste(net)))
        }
        Unit::Millimetre | Unit::Centimetre | Unit::Metre => {
            let net: f64 = pieces.into_iter().map(trade::cubic_metres).sum();
            Amount::CubicMeters(up(with_waste(net) * 100.0))
        }
    };
    Some((amount, [longest, widest]))
}

/// The next whole number, of which a sum of fractions may miss the last bit.
fn up(sum: f64) -> i64 {
    (sum - 1e-6).ceil() as i64
}
