//! Glass on the cut list and the buying list.

use std::collections::BTreeMap;

use crate::measure::Length;
use crate::model::Stock;
use crate::parts::{Part, PartId, Role};
use crate::plans::glass::Edges;

use super::Source;
use super::left_to_cut;
use super::page::{Block, Table, Ticks, left, right};
use super::words;

/// What a glazier must know of the glass: `mirror, tempered`.
pub(super) fn ordered(stock: &Stock) -> Vec<&'static str> {
    let mirror = stock.pane.mirror.map(|_| "mirror");
    let tempered = stock.pane.tempered.map(|_| "tempered");
    mirror.into_iter().chain(tempered).collect()
}

/// The panes of a stock of glass: nothing of them is sawn.
pub(super) fn blocks(
    source: &Source<'_, '_>,
    stock: &Stock,
    own: &[(PartId, &Part)],
) -> Vec<Block> {
    let (piece, figures) = (source.work.piece, &source.figures);
    let ledger = source.work.ledger();
    let begun = !ledger.is_empty();
    let mut told = vec!["A glazier cuts these panes to size. Order them in their step of the assembly order, by what you have measured then; the figures here are those of the drawing.".to_owned()];
    told.extend(stock.notes.iter().cloned());
    let mut columns = vec![
        left("mark").strong(),
        left("piece"),
        right("pcs"),
        right("length").strong(),
        right("width").strong(),
    ];
    columns.extend(begun.then(|| left("here")));
    columns.push(left("ask for").below());
    let mut table = Table { columns, ticks: Ticks::Pieces, ..Table::default() };
    let mut alike: BTreeMap<(std::cmp::Reverse<[Length; 2]>, String, String), Vec<_>> =
        BTreeMap::new();
    for (id, part) in own {
        let size = [part.length.length, part.width.length];
        let key =
            (std::cmp::Reverse(size), words::name(part, piece), left_to_cut::done(ledger, *id));
        alike.entry(key).or_default().push((*id, *part));
    }
    for ((_, name, done), panes) in alike {
        let Some((_, first)) = panes.first() else { continue };
        let marks: Vec<&str> = panes.iter().map(|(_, part)| part.mark.as_str()).collect();
        let mut row = vec![
            marks.join(" "),
            name,
            panes.len().to_string(),
            figures.size(&first.length, &piece.facts),
            figures.size(&first.width, &piece.facts),
        ];
        row.extend(begun.then_some(done));
        let mut asked: Vec<&str> = ordered(stock);
        asked.push(Edges::of(first).word());
        asked.extend(first.notes.iter().map(String::as_str));
        row.push(asked.join("; "));
        if panes.iter().all(|(id, _)| ledger.is_cut(*id)) {
            table.ticked.insert(table.rows.len());
        }
        table.rows.push(row);
    }
    told.into_iter().map(Block::Note).chain([Block::Table(table)]).collect()
}

/// What glass takes besides: pins for its beads, a tenth more than there are, and soft pads for
/// the pins of shelves.
pub(super) fn small(source: &Source<'_, '_>) -> Vec<(usize, String)> {
    let mut pins: BTreeMap<Length, i64> = BTreeMap::new();
    for light in source.work.lights() {
        *pins.entry(light.pin).or_default() += light.beads.iter().map(|(_, own)| own).sum::<i64>();
    }
    let with_more = |count: i64| usize::try_from((count * 11 + 9) / 10).unwrap_or_default();
    let told = pins.into_iter().map(|(long, count)| {
        let long = source.figures.text(long);
        (
            with_more(count),
            format!("brads of {long} for the beads of the glass, a tenth more than it takes"),
        )
    });
    let is_shelf = |part: &Part| {
        let stock = source.work.piece.stock(part.stock);
        part.role == Role::AdjustableShelf && stock.is_some_and(Stock::is_glass)
    };
    let shelves = source.work.parts.all.iter().filter(|part| is_shelf(part)).count();
    let pads = (shelves > 0)
        .then(|| (shelves * 4, "soft, clear pads for the pins under the glass shelves".to_owned()));
    told.chain(pads).collect()
}
