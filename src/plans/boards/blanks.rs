//! The rough pieces of solid wood that boards are to give.

use crate::measure::Length;
use crate::model::{Size, Stock, StockId};
use crate::parts::PartId;
use crate::trade;

use super::super::Workings;
use super::super::edging;
use super::super::sawing::Blank;

/// What is still to be sawn of a stock: each board of a wide part, each layer of a thick one,
/// each stick that short parts are crosscut from, and what lips are ripped from.
pub(super) fn blanks(work: &Workings<'_>, id: StockId, stock: &Stock) -> Vec<Blank> {
    let mut all = Vec::new();
    for (part, own) in work.left_of(id) {
        let Some((count, [long, wide])) = work.sticks().rough(work, part, own) else { continue };
        let size = [marked(work, long, &own.length), marked(work, wide, &own.width)];
        all.extend(std::iter::repeat_n(blank(part, Vec::new(), size), count));
    }
    all.extend(lips(work, id, stock));
    all
}

/// The next mark of the tape, which depends on a measured figure where the finished size does.
fn marked(work: &Workings<'_>, rough: Length, finished: &Size) -> Length {
    let up = work.piece.tape().up(rough);
    if work.piece.facts.is_measured(finished) { up.as_measured() } else { up }
}

fn blank(part: PartId, strips: Vec<(PartId, usize)>, size: [Length; 2]) -> Blank {
    Blank { part, strips, size, turns: false, later: false }
}

/// What lips are ripped from: strips of about one length come beside each other from a piece
/// as wide as a board that is glued up.
fn lips(work: &Workings<'_>, id: StockId, stock: &Stock) -> Vec<Blank> {
    let (piece, tape) = (work.piece, work.piece.tape());
    let lips = edging::bought(piece, work.parts).into_iter().find(|own| own.stock == id);
    let mut strips = lips.filter(|_| stock.is_solid()).map_or(Vec::new(), |own| own.strips);
    strips.retain(|(part, ..)| !work.ledger().is_cut(*part));
    strips.sort_by_key(|(part, number, cut)| (std::cmp::Reverse(cut.long), *part, *number));
    let shop = &piece.shop;
    let widest = trade::usual_board(tape.unit)[1];
    let mut all: Vec<Blank> = Vec::new();
    for (part, number, cut) in strips {
        let more = cut.thick + shop.kerf;
        match all.last_mut().filter(|blank| blank.size[1] + more <= widest) {
            Some(blank) => {
                blank.strips.push((part, number));
                blank.size[1] += more;
            }
            None => {
                let long = cut.long.max(trade::shortest_planed(tape.unit));
                let size = [tape.up(long), more + shop.allow_width];
                all.push(blank(part, vec![(part, number)], size));
            }
        }
    }
    for blank in &mut all {
        blank.size[1] = tape.up(blank.size[1]);
    }
    all
}
