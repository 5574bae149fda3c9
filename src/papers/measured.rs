//! What was measured, as every paper tells it, and openings out of square.

use std::collections::BTreeMap;

use crate::measure::Length;
use crate::model::{Axis, OpeningId, Reading, Subject};
use crate::parts::{Of, PartId, Role};
use crate::plans::square::{self, Corner};

use super::Source;
use super::page::{Block, Table, left, right};

/// The line that says which sizes are as measured, on a paper that has a
/// figure made from one.
pub(super) fn note(source: &Source<'_, '_>) -> Option<String> {
    let readings = &source.work.piece.readings;
    if !source.figures.has_marked() {
        return None;
    }
    let told: Vec<String> = readings.iter().map(|reading| one(source, reading)).collect();
    Some(format!("as measured: {}; (m) follows a figure that depends on these", told.join("; ")))
}

/// The mark behind what the air of the shop makes, where that was measured.
pub(super) fn air(source: &Source<'_, '_>) -> &'static str {
    let mut readings = source.work.piece.readings.iter();
    source.figures.mark(readings.any(|reading| reading.subject == Subject::Humidity))
}

fn one(source: &Source<'_, '_>, reading: &Reading) -> String {
    let piece = source.work.piece;
    let what = match &reading.subject {
        Subject::Humidity => format!("the shop's air {} %", piece.shop.humidity.0),
        Subject::Stock(id) => match piece.stock(*id) {
            Some(stock) => {
                format!("{} {} thick", stock.name, piece.tape().fine(stock.thickness.length))
            }
            None => String::new(),
        },
        Subject::Opening(id) => opening(source, *id),
    };
    match reading.date {
        Some(date) => format!("{what} ({date})"),
        None => what,
    }
}

fn opening(source: &Source<'_, '_>, id: OpeningId) -> String {
    let Some(opening) = source.work.piece.opening(id) else { return String::new() };
    let mut told = Vec::new();
    let came_out = &opening.came_out;
    for (axis, size) in [(Axis::Across, &came_out.wide), (Axis::Down, &came_out.high)] {
        let text = |length| source.figures.plain(length);
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
    format!("opening {} {}", opening.path, told.join(", "))
}

/// A board that is to be planed to an opening out of square.
#[derive(Clone, Copy, Debug)]
pub(super) struct Blank {
    /// How wide or long it is left until then.
    pub(super) size: Length,
    /// That is its width; else its length.
    pub(super) is_width: bool,
}

impl Blank {
    /// `leave it 672.58 (m) wide …`
    pub(super) fn told(&self, source: &Source<'_, '_>) -> String {
        let size = source.work.piece.tape().fine(self.size);
        let mark = source.figures.mark(true);
        let word = if self.is_width { "wide" } else { "long" };
        format!("leave it {size}{mark} {word} until you plane it to its opening (see the gaps)")
    }
}

/// What such boards are cut to, those that are not cut yet.
pub(super) fn blanks(source: &Source<'_, '_>) -> BTreeMap<PartId, Blank> {
    let ledger = source.work.ledger();
    let all = square::blanks(source.work.piece, source.work.parts).into_iter();
    all.filter(|(id, _)| !ledger.is_cut(*id))
        .map(|(id, (size, word))| (id, Blank { size, is_width: word == "wide" }))
        .collect()
}

/// Where to plane the fronts of openings that are out of square.
pub(super) fn out_of_square(source: &Source<'_, '_>) -> Vec<Block> {
    let (tape, figures) = (source.work.piece.tape(), &source.figures);
    let mut table = Table {
        columns: vec![
            left("front").strong(),
            right("cut it wide").strong(),
            right("plane off").strong(),
            left("at its corner"),
            left("tapering to nothing at"),
            right("side gaps if cut as drawn"),
            left("opening"),
        ],
        ..Table::default()
    };
    for leaning in source.work.leaning() {
        let differ = figures.text(leaning.diagonals.differ());
        let row = |corner: &Corner| {
            let leaf = corner.front.leaf.word().replace('-', " ");
            let opening = leaning.opening.title();
            let of = Of::Front(corner.front);
            let mut slabs = source.work.parts.all.iter().filter(|part| part.role == Role::Slab);
            let slab = slabs.find(|part| part.of == of);
            let mark = slab.map_or(String::new(), |part| format!("{} ", part.mark));
            let measured = |length| format!("{}{}", tape.fine(length), figures.mark(true));
            vec![
                format!("{mark}{opening}, {leaf}"),
                measured(leaning.blank()),
                measured(leaning.lean),
                corner.word(),
                corner.other_end(),
                measured(leaning.even_as_drawn()),
                format!(
                    "diagonals differ by {differ}, so it leans {} over its height",
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
        Block::Note("Cut the front this wide; for a framed front, make the stiles that are planed wider. Plane each taper, and only then cut in or bore for its hinges. Its gaps are then as drawn all the way up. A front that was cut as drawn ends up with the wider gaps at its sides. The meeting edges of a pair stay square. Left and right are seen from the front.".into()),
        Block::Table(table),
    ]
}
