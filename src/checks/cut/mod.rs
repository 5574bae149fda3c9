//! Parts that are cut already.

mod cut_gone;
mod cut_elsewhere;
mod cut_misfit;
mod cut_stock_gone;
mod cut_twice;
mod cut_unsized;

use crate::checks::rule::Rule;
use crate::diagnostics::{Fix, Grade};
use crate::model::{Cut, Piece};
use crate::plans::ledger::Ledger;

/// The rules of this subject, in the order they are listed.
pub(super) const RULES: &[&Rule] = &[
    &cut_gone::RULE,
    &cut_elsewhere::RULE,
    &cut_misfit::RULE,
    &cut_stock_gone::RULE,
    &cut_unsized::RULE,
    &cut_twice::RULE,
];

/// Says that a part is spoiled.
fn cut_again(cut: &Cut) -> Fix {
    let (at, before, after) = cut.add;
    Fix::new(Grade::Choice, "cut it again", at, format!("{before}spoiled{after}"))
}

/// What a board that is of no use for its own part would do for; nothing where
/// that can't be known.
fn other_use<'a>(piece: &Piece, ledger: &Ledger<'a>, cut: &'a Cut) -> Option<Vec<String>> {
    let tape = piece.tape();
    let mut fits = ledger.would_do_for(cut)?;
    // The largest first: it makes the most of the board.
    fits.sort_by_key(|part| std::cmp::Reverse(part.length.length));
    let told = fits.iter().take(4).map(|part| {
        let (long, wide) = (part.length.length, part.width.length);
        format!("{} ({} by {})", part.path, tape.text(long), tape.text(wide))
    });
    Some(told.collect())
}

/// `kick`, `kick and 1 other part`, `kick and 3 other parts`
fn together(first: &str, others: usize) -> String {
    match others {
        0 => first.to_owned(),
        1 => format!("{first} and 1 other part"),
        count => format!("{first} and {count} other parts"),
    }
}

/// `the board is large enough for …`
fn would_do(uses: &[String]) -> String {
    format!("the board is large enough for {}", uses.join(", "))
}
