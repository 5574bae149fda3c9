//! Rows of holes for shelf pins.

use crate::diagnostics::{counted, listed};
use crate::plans::fitting::pins::RowBoard;
use crate::plans::fitting::{PinRows, Struck};

use super::super::Source;
use super::super::page::{Block, Table, left, right};
use super::super::words;

pub(super) fn blocks(source: &Source<'_, '_>, all: &[PinRows<'_>], blocks: &mut Vec<Block>) {
    if all.is_empty() {
        return;
    }
    blocks.push(Block::Heading("Shelf pins".into()));
    let where_to = match all.iter().any(PinRows::in_posts) {
        true => "A front row and a back row go into a board, and one row into a post.",
        false => "A front row and a back row go into each board.",
    };
    blocks.push(Block::Note(format!("Bore these rows while the boards lie flat, before the case is closed. {where_to} Where the boards end at different heights the first hole has its own distance from the bottom end of each, so that all four rows are level in the case.")));
    if all.iter().any(|rows| rows.pins.span.is_none()) {
        blocks.push(Block::Note("No sheet of the shelf pins is entered, so the hole, its depth, the steps, and the distances from the edges are the usual ones. Check them against the pins that you bought.".into()));
    }
    let figures = &source.figures;
    for rows in all {
        let pins = &rows.pins;
        let bored = rows.heights().count();
        let mut more = vec![format!(
            "{} in each row, {} from center to center; the first is {} above {}",
            counted(bored, "hole"),
            figures.hardware(pins.pitch),
            figures.text(rows.first),
            rows.floor_name()
        )];
        for leap in rows.leaps() {
            more.push(format!(
                "holes {} and {} are {} apart: {} left out between them, where another hole or a block is in the way",
                leap.after,
                leap.after + 1,
                figures.hardware(leap.up),
                match leap.left_out {
                    1 => "one is".to_owned(),
                    more => format!("{more} are"),
                }
            ));
        }
        for blocked in &rows.blocked {
            let by = match blocked.by {
                Struck::Hinge(number) => format!("hinge {number}"),
                Struck::Beside(number, mark) => format!("hinge {number} of {mark}"),
                Struck::Nailer(mark) => format!("the nailer {mark}"),
                Struck::Block(mark) => format!("the block {mark}"),
            };
            more.push(format!(
                "lay no shelf on {}: {by} is there",
                numbered(&rows.holes(&blocked.places))
            ));
        }
        if rows.shelves.len() < rows.loose {
            more.push("not every shelf finds a hole that is clear of the hinges, the nailers, and the blocks: choose finer steps, or fewer shelves".to_owned());
        }
        let holes: Vec<u32> = rows.shelves.iter().map(|(_, place)| rows.hole(*place)).collect();
        match holes.as_slice() {
            [] => {}
            [hole] => more.push(format!(
                "to stand where it is drawn, the shelf goes on hole {hole}, counted from the bottom"
            )),
            _ => more.push(format!(
                "to stand where they are drawn, the shelves go on holes {}, counted from the bottom",
                listed(&holes)
            )),
        }
        blocks.push(Block::Setting {
            figure: figures.hardware(pins.hole),
            what: format!("pin holes for {}, {} deep", rows.title(), figures.hardware(pins.deep)),
            more,
        });
        blocks.push(Block::Table(table(source, rows, bored)));
    }
    blocks.push(Block::Proof(vec![
        "with a pin in the lowest hole of all four rows, a straight board across two of them is level and the shelf does not rock".into(),
        "the bit has a stop, and a test hole in scrap takes the pin without force".into(),
    ]));
}

fn table(source: &Source<'_, '_>, rows: &PinRows<'_>, bored: usize) -> Table {
    let figures = &source.figures;
    let mut table = Table {
        columns: vec![
            left("mark").strong(),
            left("piece"),
            left("face"),
            right("first hole").strong(),
            right("front row").strong(),
            right("back row").strong(),
        ],
        ..Table::default()
    };
    for board in &rows.boards {
        let part = board.part;
        let row = |row: Option<_>| row.map_or_else(String::new, |row| figures.text(row));
        let [front, back] = board.rows.map(row);
        table.rows.push(vec![
            part.mark.clone(),
            words::name(part, source.work.piece),
            part.face_name(board.face),
            figures.text(board.first),
            front,
            back,
        ]);
    }
    let from = match rows.boards.iter().all(|board| board.from_back) {
        true => "its back edge, since the back edges of the boards are flush".to_owned(),
        false => {
            let parts = rows.boards.iter().map(|board| board.part);
            format!("its front edge{}", super::long_points(parts))
        }
    };
    let (end, from) = match (rows.in_posts(), rows.boards.iter().all(RowBoard::is_post)) {
        (false, _) => ("the bottom end of the board", from),
        (true, true) => (
            "the bottom end of the post",
            "the front face of a front post and from the back face of a back post".to_owned(),
        ),
        (true, false) => (
            "the bottom end",
            "the front face of a front post, the back face of a back post, or the front edge of a board".to_owned(),
        ),
    };
    table.foot = format!(
        "measure the first hole from {end}, and the rows from {from}; {} in all",
        counted(bored * rows.boards.iter().map(RowBoard::count).sum::<usize>(), "hole")
    );
    table
}

/// `hole 3`, `holes 3 to 5`, `holes 3, 4, and 9`.
fn numbered(holes: &[u32]) -> String {
    match holes {
        [only] => format!("hole {only}"),
        [one, other] => format!("holes {one} and {other}"),
        [first, .., last] if usize::try_from(last - first).is_ok_and(|n| n + 1 == holes.len()) => {
            format!("holes {first} to {last}")
        }
        _ => format!("holes {}", listed(holes)),
    }
}
