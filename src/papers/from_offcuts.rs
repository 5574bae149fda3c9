//! What is sawn only when the piece stands in its place.

use crate::model::Stock;
use crate::plans::scribe_strips::scribe_strips;

use super::Source;
use super::page::{Block, Table, Ticks, left, right};

/// Strips that are cut from offcuts then.
pub(super) fn blocks(source: &Source<'_, '_>) -> Vec<Block> {
    let Source { work, figures, .. } = source;
    let strips = scribe_strips(work.piece, work.parts);
    if strips.is_empty() {
        return Vec::new();
    }
    let stock = |id| work.piece.stock(id).map_or(String::new(), |stock: &Stock| stock.name.clone());
    let mut table = Table {
        columns: vec![
            right("pcs").strong(),
            left("what"),
            right("length").strong(),
            right("width").strong(),
            left("stock"),
            left("for"),
        ],
        ticks: Ticks::None,
        ..Table::default()
    };
    for own in &strips {
        let (kick, side) = (work.parts.mark(own.kick), own.side.word());
        table.rows.push(vec![
            "1".to_owned(),
            "scribe strip".to_owned(),
            figures.text(own.high),
            figures.text(own.wide),
            stock(own.stock),
            format!("{kick}, from its {side} end to the wall"),
        ]);
    }
    table.foot = "a scribe strip is as wide as the gap at its widest: leave it wider until the piece stands level, scribe it to the wall, and glue it to the end of the board that it lengthens".to_owned();
    vec![
        Block::Heading("From offcuts, when the piece stands in its place".into()),
        Block::Note("Keep offcuts for these. They have no mark of their own. A scribe strip closes the gap between a kick, or the front of a base, and the wall.".to_owned()),
        Block::Table(table),
    ]
}
