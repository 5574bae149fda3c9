//! Parts that are cut already.

pub(super) mod cut_gone;
pub(super) mod cut_misfit;

use crate::model::{Cut, Piece};
use crate::plans::ledger::Ledger;

/// What a board that is of no use for its own part would do for, where there
/// is anything.
fn other_use(piece: &Piece, ledger: &Ledger<'_>, cut: &Cut) -> Option<String> {
    let tape = piece.tape();
    let mut fits = ledger.would_do_for(cut);
    // The largest first: it makes the most of the board.
    fits.sort_by_key(|part| std::cmp::Reverse(part.length.length));
    let told: Vec<String> = fits
        .iter()
        .take(4)
        .map(|part| {
            let (long, wide) = (part.length.length, part.width.length);
            format!("{} ({} by {})", part.path, tape.text(long), tape.text(wide))
        })
        .collect();
    (!told.is_empty()).then(|| format!("the board would do for {}", told.join(", ")))
}
