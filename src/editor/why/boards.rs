//! What boards of a stock are bought, what they come to, and how well they are used.

use std::collections::BTreeMap;

use crate::diagnostics::listed;
use crate::measure::{Exact, Length, Unit};
use crate::model::{Piece, Stock};
use crate::papers;
use crate::pipeline::Compilation;
use crate::plans::boards::OfLumber;
use crate::plans::buying::{self, Amount};
use crate::trade;
use crate::vocabulary::{Origin, words};

use super::teller::{Teller, decimal};
use super::{Subject, Sum, Term, TermFrom, Thing, Value, Why};

/// Every stock that boards are sawn of.
pub(super) fn all<'t>(tell: &'t Teller<'_>) -> impl Iterator<Item = Why> + 't {
    let plans = tell.work.boards().iter();
    plans.filter_map(|own| {
        let stock = tell.piece.stock(own.stock)?;
        let mut sizes = vec![count(tell, own, stock), volume(tell, own, stock), share(tell, own)];
        sizes.extend(by_rule(tell, own, stock));
        Some(Why { name: stock.name.clone(), thing: Thing::Stock, sizes })
    })
}

/// In a piece of more parts than this they are not worked out where an editor waits.
const LARGE: usize = 100;

/// The same of one stock of a sound piece, for an editor.
pub(in crate::editor) fn boards_of(compiled: &Compilation, stock: &str) -> Vec<Why> {
    let is_solid =
        |piece: &Piece| piece.stocks.iter().any(|own| own.name == stock && own.is_solid());
    let Some(work) = compiled.workings().filter(|_| compiled.is_sound()) else {
        return Vec::new();
    };
    if work.parts.all.len() > LARGE || !is_solid(work.piece) {
        return Vec::new();
    }
    let tell = Teller::new(compiled, &work);
    let own: Vec<Why> = all(&tell).filter(|why| why.name == stock).collect();
    own
}

/// The boards of one size, by their numbers in the plan.
fn alike(own: &OfLumber) -> BTreeMap<[Length; 2], Vec<usize>> {
    let mut alike: BTreeMap<[Length; 2], Vec<usize>> = BTreeMap::new();
    for board in own.bought() {
        alike.entry(board.size).or_default().push(board.number);
    }
    alike
}

/// `board 3`, `boards 1, 2, and 4`.
fn numbered(numbers: &[usize]) -> String {
    let own: Vec<String> = numbers.iter().map(usize::to_string).collect();
    format!("{} {}", if numbers.len() == 1 { "board" } else { "boards" }, listed(&own))
}

fn many(numbers: &[usize]) -> Exact {
    Exact::int(i64::try_from(numbers.len()).unwrap_or(i64::MAX))
}

/// The statement that says which boards the yard has, else the stock.
fn yard(tell: &Teller<'_>, stock: &Stock) -> Vec<Origin> {
    let said = tell.origin(&words::stock::BLOCK, words::stock::BOARDS, Some(stock.span));
    vec![Origin::Written(said.span().unwrap_or(stock.span))]
}

/// How many are bought.
fn count(tell: &Teller<'_>, own: &OfLumber, stock: &Stock) -> Sum {
    let terms = alike(own).into_iter().rev().map(|([long, wide], numbers)| {
        let size = format!("{} x {}", tell.tape.text(long), tell.tape.text(wide));
        let how = format!("{size} at least, by the board plan");
        let count = many(&numbers);
        tell.worked(
            Value::Count(count),
            &count.to_string(),
            numbered(&numbers),
            how,
            yard(tell, stock),
        )
    });
    let terms: Vec<Term> = terms.collect();
    let bought = own.bought().count();
    let value = Value::Count(Exact::int(i64::try_from(bought).unwrap_or(i64::MAX)));
    tell.figure(&[Subject::Board], "boards", (value, bought.to_string()), terms)
}

/// What they are sold as: board feet by their surface measure, or cubic meters.
fn volume(tell: &Teller<'_>, own: &OfLumber, stock: &Stock) -> Sum {
    let is_metric = tell.tape.unit.is_metric();
    let terms = alike(own).into_iter().rev().map(|([long, wide], numbers)| {
        let (each, how) = match is_metric {
            true => {
                let sizes = [stock.nominal, wide, long].map(|side| tell.tape.text(side));
                (cubic([stock.nominal, wide, long]), sizes.join(" x "))
            }
            false => tallied(tell, stock, [long, wide]),
        };
        let whole = each * many(&numbers);
        let how = match numbers.as_slice() {
            [_] => how,
            several => format!("{} times: {how}", several.len()),
        };
        tell.worked(
            Value::Count(whole),
            &decimal(whole, places(is_metric)),
            numbered(&numbers),
            how,
            vec![],
        )
    });
    let terms: Vec<Term> = terms.collect();
    let amount = buying::planned(tell.work, own, stock);
    bought(tell, "they come to", &amount, terms)
}

/// What a board is charged at, and by what rule.
fn tallied(tell: &Teller<'_>, stock: &Stock, [long, wide]: [Length; 2]) -> (Exact, String) {
    let feet = long.in_unit(Unit::Foot).floor();
    let measure = trade::surface_measure(wide, long);
    let thick =
        trade::quarters(stock.nominal).map_or_else(|| tell.tape.text(stock.nominal), str::to_owned);
    let how = format!(
        "{} wide x {feet} whole ft / 12 is {measure} to the nearest foot, times the thickness, {thick}; anything under an inch counts as an inch (National Hardwood Lumber Association)",
        tell.tape.text(wide)
    );
    (trade::tallied_feet(stock.nominal, wide, long), how)
}

/// Cubic meters of a board.
fn cubic(sides: [Length; 3]) -> Exact {
    let meter = Length::mm(1000);
    sides.into_iter().fold(Exact::ONE, |volume, side| volume * (side / meter))
}

/// How many hundredths of the boards are in the pieces.
fn share(tell: &Teller<'_>, own: &OfLumber) -> Sum {
    let whole: Exact = own.areas().map(|(_, [board, _])| board).sum();
    let terms: Vec<Term> = own
        .areas()
        .filter(|_| whole.is_positive())
        .map(|(sawn, [board, laid])| {
            let part = laid * Exact::int(100) / whole;
            let of_board = (laid * Exact::int(100) / board).round();
            let how = format!("its pieces are {of_board} % of it");
            let name = numbered(&[sawn.number]);
            tell.worked(Value::Count(part), &decimal(part, 2), name, how, vec![])
        })
        .collect();
    let percent = own.in_hundred();
    let value = Value::Count(Exact::int(percent));
    let sum =
        tell.figure(&[Subject::Board], "in the pieces", (value, format!("{percent} %")), terms);
    rounded(sum, 2)
}

/// What a maker would buy who has no plan.
fn by_rule(tell: &Teller<'_>, own: &OfLumber, stock: &Stock) -> Option<Sum> {
    let (amount, _) = buying::estimate(tell.work, own.stock, stock)?;
    let is_metric = tell.tape.unit.is_metric();
    let pieces = buying::rough_pieces(tell.work, own.stock, stock);
    let feet = |(thick, wide, long): (Length, Length, Length)| {
        let inches = [thick, wide, long].map(|side| side.in_unit(Unit::Inch));
        inches.into_iter().fold(Exact::ONE, |volume, side| volume * side) / Exact::int(144)
    };
    let count = pieces.len();
    let net: Exact = match is_metric {
        true => pieces.into_iter().map(|(thick, wide, long)| cubic([thick, wide, long])).sum(),
        false => pieces.into_iter().map(feet).sum(),
    };
    let waste = net * Exact::ratio(trade::BOARD_WASTE, 100);
    let term = |value: Exact, name: String, how: &str| {
        tell.worked(Value::Count(value), &decimal(value, places(is_metric)), name, how, vec![])
    };
    let rough = format!("{count} rough pieces");
    let lost = format!("{} % more", trade::BOARD_WASTE);
    let terms = vec![
        term(
            net,
            rough,
            "at the thickness the stock is sold in, and at their rough-sawn widths and lengths",
        ),
        term(
            waste,
            lost,
            "for knots, splits, ends, and widths that don't divide: common practice, no source",
        ),
    ];
    Some(bought(tell, "by rule of thumb", &amount, terms))
}

fn places(is_metric: bool) -> u32 {
    if is_metric { 4 } else { 2 }
}

/// A figure of what is bought, up to the next whole board foot or hundredth of a cubic meter.
fn bought(tell: &Teller<'_>, word: &str, amount: &Amount, terms: Vec<Term>) -> Sum {
    let value = match amount {
        Amount::BoardFeet(feet) => Exact::int(*feet),
        Amount::CubicMeters(hundredths) => Exact::ratio(*hundredths, 100),
        // No boards are sold so.
        Amount::Sheets(..)
        | Amount::Panes(_)
        | Amount::Unplanned
        | Amount::Pieces(_)
        | Amount::Pairs(_)
        | Amount::Roll(_) => Exact::ZERO,
    };
    let paper = papers::amount(tell.work, amount);
    let sum = tell.figure(&[Subject::Board], word, (Value::Count(value), paper), terms);
    rounded(sum, places(tell.tape.unit.is_metric()))
}

/// What rounding adds, as a decimal.
fn rounded(mut sum: Sum, places: u32) -> Sum {
    if let Some(term) = sum.terms.last_mut()
        && let (TermFrom::Rounded, Value::Count(count)) = (&term.from, term.value)
    {
        term.text = format!("{} {}", super::sign(term.negative), decimal(count, places));
    }
    sum
}
