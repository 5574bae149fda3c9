//! What is sawn from the sheets of a stock.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use crate::measure::Length;
use crate::model::{Sheet, StockId};
use crate::parts::{Grain, PartId, Role};
use crate::trade;

use super::super::Workings;
use super::super::assembly::gluing;
use super::super::assembly::is_sawn_later;
use super::super::sawing::Blank;
use super::super::square;

/// What is still to be sawn of a stock, each layer of a laminated part by itself.
pub(super) fn blanks(work: &Workings<'_>, stock: StockId, sheets: &[Sheet]) -> Vec<Blank> {
    let planed: BTreeMap<PartId, (Length, &str)> =
        square::blanks(work.piece, work.parts).into_iter().collect();
    let mut insides: Vec<[Length; 2]> =
        sheets.iter().map(|sheet| sheet.trimmed(work.piece.shop.edge_trim)).collect();
    // The largest first.
    insides.sort_by_key(|[long, wide]| Reverse((*long / Length::mm(1)) * (*wide / Length::mm(1))));
    let mut all = Vec::new();
    for (id, part) in work.left_of(stock) {
        let mut size = part.sawn();
        match planed.get(&id) {
            Some((wide, "wide")) => size[1] = *wide,
            Some((long, _)) => size[0] = *long,
            None => {}
        }
        let later = is_sawn_later(work.piece, part);
        // A core has it beside what is cut off when its lips are on: that comes off a board
        // that has been cut to its opening before.
        if later {
            let spare = trade::sheet_spare(work.piece.tape().unit);
            size = size.map(|side| side + spare);
        }
        // What must be as large as it is sawn may be no more than a sheet gives.
        let sawn = part.sawn();
        let holding = |[long, wide]: [Length; 2]| {
            insides.iter().find(|inside| long <= inside[0] && wide <= inside[1])
        };
        let (straight, turned) = (holding(sawn), holding([sawn[1], sawn[0]]));
        let is_turned = straight.is_none() && turned.is_some();
        let most = straight.copied().or(turned.map(|[long, wide]| [*wide, *long]));
        if let Some(most) = most {
            size = [size[0].min(most[0]), size[1].min(most[1])];
        }
        let turns = part.grain == Grain::None || (part.role == Role::Back && is_turned);
        let blank = Blank { part: id, strips: Vec::new(), size, turns, later };
        let layers = usize::try_from(gluing::layers(work.piece, part)).unwrap_or(1);
        all.extend(std::iter::repeat_n(blank, layers.max(1)));
    }
    all
}
