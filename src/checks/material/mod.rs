//! What the stock allows.

mod actual_odd;
mod glass_elsewhere;
mod packer_scant;
mod packer_too_thin;
mod part_too_large;
mod planed_thin;
mod planed_too_thick;
mod planing_scant;
mod species_unknown;

use crate::checks::rule::Rule;
use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{Length, Tape};
use crate::model::{Piece, Stock};
use crate::parts::Parts;
use crate::trade;

/// What tells why a board may stand outside its case, and looks first.
pub(super) const FIRST: &[&Rule] = &[&planed_too_thick::RULE];

/// The rules of this subject, in the order they are listed.
pub(super) const RULES: &[&Rule] = &[
    &actual_odd::RULE,
    &glass_elsewhere::RULE,
    &packer_scant::RULE,
    &packer_too_thin::RULE,
    &part_too_large::RULE,
    &planed_thin::RULE,
    &planing_scant::RULE,
    &species_unknown::RULE,
];

/// The boards that count: those of the spec itself, and of a used file those
/// that a part is made of.
fn boards<'a>(piece: &'a Piece, parts: &'a Parts) -> impl Iterator<Item = &'a Stock> {
    let all = piece.stocks.iter().enumerate().filter(|(_, stock)| stock.is_solid());
    let counts = |(index, stock): &(usize, &Stock)| {
        super::in_spec(stock.span) || parts.all.iter().any(|part| part.stock.0 == *index)
    };
    all.filter(counts).map(|(_, stock)| stock)
}

/// The stocks that a part is made of; what nothing is made of may be as it is.
fn used<'a>(piece: &'a Piece, parts: &'a Parts) -> impl Iterator<Item = &'a Stock> {
    let made = |index: usize| parts.all.iter().any(|part| part.stock.0 == index);
    piece.stocks.iter().enumerate().filter(move |(index, _)| made(*index)).map(|(_, stock)| stock)
}

/// A rough thickness as the yard calls it: `5/4`, `27 mm`.
fn rough_name(stock: &Stock, tape: &Tape) -> String {
    let usual = trade::quarters(stock.nominal);
    usual.map_or_else(|| tape.figure_with_unit(stock.nominal), str::to_owned)
}

/// What the boards of a stock are usually planed to, on the tape.
fn usually_planed(stock: &Stock, tape: &Tape) -> Option<Length> {
    let planed = trade::planes_to(stock.nominal).map(|planed| tape.down(planed));
    planed.filter(|planed| planed.is_positive())
}

/// Names the next rough board that planes to the thickness that is asked for.
fn thicker_board(diagnostic: Diagnostic, stock: &Stock) -> Diagnostic {
    let quarters = trade::is_in_quarters(stock.nominal);
    match trade::rough_for(stock.thickness.length, quarters) {
        Some((name, _)) => diagnostic.fix(Fix::new(
            Grade::Choice,
            format!("use {name} boards"),
            stock.nominal_span,
            format!("lumber {name}"),
        )),
        None => diagnostic.note("no yard cuts boards that thick; laminate it from two or more"),
    }
}
