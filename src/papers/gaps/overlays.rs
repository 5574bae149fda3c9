//! How far overlay fronts lie over the edges of their openings.

use crate::model::{Edge, Set};

use super::super::Source;
use super::super::page::{Block, Table, left, right};
use super::front;

pub(super) fn blocks(source: &Source<'_, '_>, blocks: &mut Vec<Block>) {
    let (figures, facts) = (&source.figures, &source.work.piece.facts);
    let mut table = Table {
        columns: vec![
            left("front").strong(),
            right("left").strong(),
            right("right").strong(),
            right("top").strong(),
            right("bottom").strong(),
        ],
        ..Table::default()
    };
    for own in source.work.fronts().iter().filter(|own| own.fronts.set != Set::Inset) {
        let over = |edge: Edge| {
            let mut overlays = own.overlays();
            let over = overlays.find(|(at, _)| *at == edge);
            over.map_or(String::new(), |(_, over)| figures.size(over, facts))
        };
        let mut row = vec![front(own)];
        row.extend([Edge::Left, Edge::Right, Edge::Top, Edge::Bottom].map(over));
        table.rows.push(row);
    }
    if table.rows.is_empty() {
        return;
    }
    blocks.push(Block::Heading("Overlay fronts".into()));
    blocks.push(Block::Note("How far each front lies over the edge of its opening, as the front is seen. Strike these lines on the edges of the boards, and set the front to them; where a column is empty, another front is there, and the gap to it counts.".into()));
    blocks.push(Block::Table(table));
}
