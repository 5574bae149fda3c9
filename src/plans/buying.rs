//! What to buy: so many of each, and what it comes to.

use crate::measure::{Exact, Length, Rate, Unit};
use crate::model::{Stock, StockId};
use crate::parts::{Part, PartId};
use crate::trade;

use super::Workings;
use super::edging;
use super::hardware::{self, Count, Kind};

/// How much is bought of something.
#[derive(Clone, Debug, PartialEq)]
pub enum Amount {
    /// Whole sheets of this size.
    Sheets(i64, [Length; 2]),
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
    /// What one costs.
    pub price: Option<Rate>,
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
    /// What it comes to, where its price says so: an amount in the currency of the job.
    #[must_use]
    pub fn comes_to(&self) -> Option<Exact> {
        let rate = self.price?;
        let many = match (&self.amount, rate.per) {
            (Amount::Sheets(count, _), "sheet" | "each")
            | (Amount::Pieces(count), "each")
            | (Amount::Pairs(count), "pair")
            | (Amount::BoardFeet(count), "board-foot") => Exact::int(*count),
            (Amount::Sheets(count, [long, wide]), "m2") => {
                let meters = |side: &Length| *side / Length::mm(1000);
                Exact::int(*count) * meters(long) * meters(wide)
            }
            (Amount::Pairs(count), "each") => Exact::int(count * 2),
            // A pair is not sold by halves.
            (Amount::Pieces(count), "pair") => Exact::int((count + 1) / 2),
            (Amount::CubicMeters(count), "m3") => Exact::ratio(*count, 100),
            // A board foot is 1/12 of a cubic foot, of 0.3048 m.
            (Amount::BoardFeet(count), "m3") => Exact::int(*count) * board_foot(),
            (Amount::CubicMeters(count), "board-foot") => Exact::ratio(*count, 100) / board_foot(),
            _ => return None,
        };
        Some(rate.price.0 * many)
    }
}

/// In cubic meters.
fn board_foot() -> Exact {
    let foot = Exact::ratio(3048, 10_000);
    foot * foot * foot / Exact::int(12)
}

/// Everything that has a price in a spec, and how much of it there is to buy.
#[must_use]
pub fn list(work: &Workings<'_>) -> Vec<Bought> {
    let piece = work.piece;
    let stock = |id: StockId| piece.stock(id);
    let mut all = Vec::new();
    for own in work.sheets().iter().filter(|own| own.bought() > 0) {
        let Some((stock, sheet)) = stock(own.stock).and_then(|own| Some((own, own.sheet?))) else {
            continue;
        };
        let amount = Amount::Sheets(own.bought(), [sheet.long, sheet.wide]);
        all.push(Bought { what: What::Stock(own.stock), amount, price: stock.price });
    }
    for (index, stock) in piece.stocks.iter().enumerate().filter(|(_, own)| own.is_solid()) {
        let id = StockId(index);
        if let Some(amount) = boards(work, id, stock) {
            all.push(Bought { what: What::Stock(id), amount, price: stock.price });
        }
    }
    let unit = piece.tape().unit;
    for own in edging::bought(piece, work.parts) {
        let Some(stock) = stock(own.stock).filter(|stock| stock.is_banding()) else { continue };
        let amount = Amount::Roll(own.roll(unit));
        all.push(Bought { what: What::Stock(own.stock), amount, price: stock.price });
    }
    for Count { kind, number } in hardware::count(piece) {
        let count = i64::from(number);
        let (amount, price) = match kind {
            Kind::Hinge(id) => (Amount::Pieces(count), piece.hinge(id).and_then(|own| own.price)),
            Kind::Slide(id) => {
                let sheet = piece.slide(id).and_then(|own| own.hardware());
                (Amount::Pairs(count), sheet.and_then(|own| own.price))
            }
            Kind::Pull(id) => (Amount::Pieces(count), piece.pull(id).and_then(|own| own.price)),
        };
        all.push(Bought { what: What::Hardware(kind), amount, price });
    }
    all
}

/// What there is to buy of a stock of boards, with what is lost on it.
fn boards(work: &Workings<'_>, id: StockId, stock: &Stock) -> Option<Amount> {
    let is_left = |part: PartId| !matches!(work.ledger().state(part), super::ledger::State::Cut(_));
    let own: Vec<(PartId, &Part)> =
        work.parts.iter().filter(|(part, own)| own.stock == id && is_left(*part)).collect();
    let mut pieces = work.sticks().pieces(work, stock.nominal, &own);
    let lips = edging::bought(work.piece, work.parts);
    for lip in lips.iter().filter(|lip| lip.stock == id) {
        pieces.extend(lip.boards(work.piece, stock.nominal));
    }
    if pieces.is_empty() {
        return None;
    }
    let with_waste = |net: f64| net * (100 + trade::BOARD_WASTE) as f64 / 100.0;
    Some(match work.piece.tape().unit {
        Unit::Inch | Unit::Foot => {
            let net = pieces.into_iter().map(trade::board_feet).sum();
            Amount::BoardFeet(with_waste(net).ceil() as i64)
        }
        Unit::Millimetre | Unit::Centimetre | Unit::Metre => {
            let net: f64 = pieces.into_iter().map(trade::cubic_metres).sum();
            Amount::CubicMeters((with_waste(net) * 100.0).ceil() as i64)
        }
    })
}
