//! Stops and catches behind doors.

use crate::model::{CatchKind, Edge};
use crate::parts::front_told;
use crate::plans::fitting::{Catch, Stop};

use super::super::Source;
use super::super::page::{Block, Table, left, right};
use super::super::words;

pub(super) fn blocks(
    source: &Source<'_, '_>,
    (stops, catches): (&[Stop<'_>], &[Catch<'_>]),
    blocks: &mut Vec<Block>,
) {
    if stops.is_empty() && catches.is_empty() {
        return;
    }
    let (figures, facts) = (&source.figures, &source.work.piece.facts);
    let unit = source.work.piece.tape().unit;
    blocks.push(Block::Heading("Stops and catches".into()));
    blocks.push(Block::Note("These hinges don't hold a door shut, and an inset door on them closes against nothing but its stop. Fit them when the doors hang: hold the closed door flush with the face of the case, push the strip against its back, mark it, and glue and screw it there. The figures are where it comes to lie.".into()));
    if !stops.is_empty() {
        let mut table = Table {
            columns: vec![
                left("stop of").strong(),
                left("at"),
                left("on").strong(),
                left("piece"),
                left("stock"),
                right("long").strong(),
                right("wide").strong(),
                right("thick"),
                right("into the opening"),
                right("set-back").strong(),
                right("screws"),
            ],
            foot: "the set-back counts from the face that the closed door is flush with to the front of the strip".to_owned(),
            ..Table::default()
        };
        for stop in stops {
            let on = stop.on;
            let [long, across, deep] = &stop.size;
            // The strip is sawn as a board: the greater of its two small sizes is its width.
            let (wide, thick) =
                if across.length < deep.length { (deep, across) } else { (across, deep) };
            let stock = source.work.piece.stock(stop.stock);
            table.rows.push(vec![
                stop.opening.title().to_owned(),
                edge(stop.edge).to_owned(),
                on.map_or_else(String::new, |on| on.mark.clone()),
                on.map_or_else(String::new, |on| words::name(on, source.work.piece)),
                stock.map_or_else(String::new, |stock| stock.name.clone()),
                figures.size(long, facts),
                figures.size(wide, facts),
                figures.size(thick, facts),
                figures.text(stop.over),
                figures.size(&stop.set_back, facts),
                stop.screws(unit).map_or_else(String::new, |(count, _)| count.to_string()),
            ]);
        }
        blocks.push(Block::Table(table));
    }
    if !catches.is_empty() {
        let mut table = Table {
            columns: vec![
                right("pcs").strong(),
                left("catch").strong(),
                left("of"),
                left("at"),
                right("from the corner").strong(),
            ],
            foot: "to the center of the catch, from the latch edge of the leaf, or from its top where it sits at the latch edge".to_owned(),
            ..Table::default()
        };
        for catch in catches {
            table.rows.push(vec![
                "1".to_owned(),
                kind(catch.kind).to_owned(),
                front_told(source.work.piece, catch.front),
                edge(catch.edge).to_owned(),
                figures.text(catch.along),
            ]);
        }
        blocks.push(Block::Table(table));
        let beside = |catch: &&Catch<'_>| {
            stops.iter().any(|stop| stop.opening.id == catch.opening.id && stop.edge == catch.edge)
        };
        if catches.iter().any(|catch| beside(&catch)) {
            blocks.push(Block::Note("Where a stop lies along the edge at which a catch sits, the catch goes onto the rear of the stop, or the stop is cut out for it: close the door against the stop, and mark the catch by that.".into()));
        }
    }
    let mut checks = Vec::new();
    if !stops.is_empty() {
        checks.push("each door closes flush with the face of the case, and touches its stop along the whole of it".to_owned());
    }
    if !catches.is_empty() {
        checks.push(
            "each catch holds its door shut and lets it go with one finger on the pull".to_owned(),
        );
    }
    blocks.push(Block::Proof(checks));
}

fn edge(edge: Edge) -> &'static str {
    match edge {
        Edge::Top => "the top",
        Edge::Bottom => "the bottom",
        Edge::Left => "the left, its latch edge",
        Edge::Right => "the right, its latch edge",
    }
}

/// What a catch is called.
pub(in crate::papers) fn kind(kind: CatchKind) -> &'static str {
    match kind {
        CatchKind::Magnet => "magnetic catch",
        CatchKind::Ball => "ball catch",
    }
}
