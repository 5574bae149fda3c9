//! What was measured, as every paper tells it, and openings out of square.

use crate::model::{Axis, Piece, Reading, Subject};
use crate::plans::square::{self, Corner};

use super::Source;
use super::page::{Block, Table, left, right};

/// The line that says which sizes are as measured.
pub(super) fn note(source: &Source<'_>) -> Option<String> {
    let readings = &source.piece.readings;
    if readings.is_empty() {
        return None;
    }
    let told: Vec<String> = readings.iter().map(|reading| one(source, reading)).collect();
    Some(format!("as measured: {}; (m) stands behind a figure made from them", told.join("; ")))
}

fn one(source: &Source<'_>, reading: &Reading) -> String {
    let piece = source.piece;
    let what = match &reading.subject {
        Subject::Humidity => format!("the shop's air {} %", piece.shop.humidity.0),
        Subject::Stock(id) => match piece.stock(*id) {
            Some(stock) => {
                format!("{} {} thick", stock.name, piece.tape().fine(stock.thickness.length))
            }
            None => String::new(),
        },
        Subject::Opening(path) => opening(source, piece, path),
    };
    match reading.date {
        Some(date) => format!("{what} ({date})"),
        None => what,
    }
}

fn opening(source: &Source<'_>, piece: &Piece, path: &str) -> String {
    let mut all = piece.cases.iter().flat_map(|case| &case.openings);
    let mut told = Vec::new();
    if let Some(opening) = all.find(|opening| opening.is_leaf() && opening.path == path) {
        let came_out = &opening.came_out;
        for (axis, size) in [(Axis::Across, &came_out.wide), (Axis::Down, &came_out.high)] {
            let text = |length| source.figures.text(length);
            told.extend(size.as_ref().map(|size| {
                let drawn = text(opening.along(axis).length);
                format!("{} {} (drawn {drawn})", text(size.length), axis.size_word())
            }));
        }
        if came_out.diagonals.is_some() {
            told.push("out of square".to_owned());
        }
        if came_out.odd.is_some() {
            told.push("diagonals in doubt".to_owned());
        }
    }
    format!("opening {path} {}", told.join(", "))
}

/// Where to plane the fronts of openings that are out of square.
pub(super) fn out_of_square(source: &Source<'_>) -> Vec<Block> {
    let (tape, figures) = (source.piece.tape(), &source.figures);
    let mut table = Table {
        columns: vec![
            left("front").strong(),
            right("plane off").strong(),
            left("at its corner"),
            left("out to nothing at"),
            right("reveal there before"),
            left("opening"),
        ],
        ..Table::default()
    };
    for leaning in square::leaning(source.piece) {
        let Some(opening) = leaning.opening.path.rsplit('.').next() else { continue };
        let differ = figures.text(leaning.diagonals.differ());
        let row = |corner: &Corner| {
            let leaf = corner.front.rsplit('.').next().unwrap_or_default().replace('-', " ");
            let named = source.parts.named(&corner.front);
            let mark = named.map_or(String::new(), |(_, part)| format!("{} ", part.mark));
            vec![
                format!("{mark}{opening}, {leaf}"),
                tape.fine(leaning.each()),
                corner.word(),
                corner.other_end(),
                tape.fine(leaning.least()),
                format!(
                    "diagonals differ by {differ}, leans {} over its height",
                    tape.fine(leaning.lean)
                ),
            ]
        };
        table.rows.extend(leaning.tight.iter().map(row));
    }
    if table.rows.is_empty() {
        return Vec::new();
    }
    vec![
        Block::Heading("Openings out of square".into()),
        Block::Note("Set the front in the middle of its opening with shims, mark the taper, plane it, and set it again. Seen from the front.".into()),
        Block::Table(table),
    ]
}
