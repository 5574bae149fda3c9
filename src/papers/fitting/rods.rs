//! Hanging rails: their cups, their length, and their hangers.

use crate::plans::fitting::{Long, Rail};

use super::super::Source;
use super::super::page::{Block, Table, left, right};
use super::super::words;

pub(super) fn blocks(source: &Source<'_, '_>, all: &[Rail<'_>], blocks: &mut Vec<Block>) {
    if all.is_empty() {
        return;
    }
    let (figures, facts) = (&source.figures, &source.work.piece.facts);
    blocks.push(Block::Heading("Hanging rails".into()));
    blocks.push(Block::Note("Put the rails up after the finish. The table has the center of each cup; screw one cup on, lay the rail in it with a level on top, and mark the other by the rail. Cut a rail only when you have measured between the boards.".into()));
    let mut table = Table {
        columns: vec![
            left("rail").strong(),
            left("on").strong(),
            left("piece"),
            left("face"),
            right("height").strong(),
            left("center above"),
            right("from front edge").strong(),
        ],
        ..Table::default()
    };
    for rail in all {
        for end in &rail.ends {
            table.rows.push(vec![
                rail.opening.title().to_owned(),
                end.board.mark.clone(),
                words::name(end.board, source.work.piece),
                end.board.face_name(end.face),
                figures.size(&end.above_end, facts),
                over(source, rail),
                figures.size(&end.from_edge, facts),
            ]);
        }
    }
    table.foot = format!(
        "the height counts from the bottom end of the piece, the last figure from its front edge{}",
        super::long_points(all.iter().flat_map(|rail| &rail.ends).map(|end| end.board))
    );
    blocks.push(Block::Table(table));
    let mut lengths = Table {
        columns: vec![
            left("rail").strong(),
            left("what"),
            right("long").strong(),
            right("between the boards"),
            right("screws"),
            left("their length"),
        ],
        ..Table::default()
    };
    for rail in all {
        let long = match rail.screws(source.work.piece.tape().unit) {
            Long::Is(long) => figures.text(long),
            Long::Between(_, most) => format!("under {}", figures.text(most)),
            Long::BySheet | Long::AtLeast(_) => String::new(),
        };
        lengths.rows.push(vec![
            rail.opening.title().to_owned(),
            what(source, rail),
            figures.size(&rail.long, facts),
            figures.size(&rail.clear, facts),
            rail.screw_count().to_string(),
            long,
        ]);
    }
    blocks.push(Block::Table(lengths));
    for rail in all {
        let (Some(above), false) = (rail.above, rail.hangers.is_empty()) else { continue };
        let places: Vec<String> = rail.hangers.iter().map(|place| figures.text(*place)).collect();
        blocks.push(Block::Note(format!(
            "{} is long and bends: hang it from the underside of {} too, {} from the left board.",
            rail.opening.title(),
            above.mark,
            crate::diagnostics::listed(&places)
        )));
    }
    blocks.push(Block::Proof(vec![
        "the rail is level, and a hanger with the longest thing that will hang there clears what is below it and the closed doors".into(),
    ]));
}

/// How far its center is above what lies below it, which a rule reaches when all stands.
fn over(source: &Source<'_, '_>, rail: &Rail<'_>) -> String {
    let (figures, facts) = (&source.figures, &source.work.piece.facts);
    match rail.below {
        Some(below) if rail.room == rail.above_opening.length => {
            format!("{}, {}", below.mark, figures.size(&rail.above_opening, facts))
        }
        _ => format!("its opening's lower edge, {}", figures.size(&rail.above_opening, facts)),
    }
}

/// `steel tube, 30 mm`, `pole of European oak, 30 mm`.
pub(in crate::papers) fn what(source: &Source<'_, '_>, rail: &Rail<'_>) -> String {
    let thick = source.figures.hardware(rail.rod.diameter);
    match rail.rod.stock.and_then(|stock| source.work.piece.stock(stock)) {
        Some(stock) => format!("pole of {}, {thick}", stock.wood_name()),
        None => format!("steel tube, {thick}"),
    }
}
