//! The lines that screws stand on.

use crate::measure::Length;
use crate::plans::fitting::{Fastening, Purpose, ScrewLine};

use super::super::Source;
use super::super::page::{Block, Table, left, right};
use super::super::words;

pub(super) fn blocks(source: &Source<'_, '_>, blocks: &mut Vec<Block>) {
    let figures = &source.figures;
    let mut table = Table {
        columns: vec![
            left("through").strong(),
            left("piece"),
            left("face"),
            left("into").strong(),
            right("line").strong(),
            left("from its"),
            right("first").strong(),
            left("from its"),
            right("apart"),
            right("screws"),
        ],
        ..Table::default()
    };
    let fastenings = &source.work.fastened().fastenings;
    for line in fastenings.iter().flat_map(|own| &own.lines) {
        let apart = match line.apart.is_positive() {
            true => figures.text(line.apart),
            false => String::new(),
        };
        table.rows.push(vec![
            line.through.mark.clone(),
            words::name(line.through, source.work.piece),
            line.through.face_name(line.face),
            line.into.mark.clone(),
            figures.text(line.at),
            line.through.face_name(line.edge),
            figures.text(line.first),
            line.through.face_name(line.end),
            apart,
            line.count.to_string(),
        ]);
    }
    if table.rows.is_empty() {
        return;
    }
    blocks.push(Block::Heading("Screw lines".into()));
    let aside = source.work.piece.tape().unit.either("an inch", "25 mm");
    blocks.push(Block::Note(format!("Strike each line on the face that the screws are driven into, and bore through on it before the boards come together, wide enough that the shank falls through. Each line lies over the middle of the strip where the two boards touch. With the boards in place, bore a pilot hole as wide as the core of the screw into the other board, square to the face, and sink flat heads. Where a screw would meet one that is there already, or a joint, or where no driver gets at it, move it {aside} along its line.")));
    let tied = |own: &Fastening<'_>| own.purpose == Purpose::Ties && !own.lines.is_empty();
    if fastenings.iter().any(tied) {
        blocks.push(Block::Note("The lines between the ends of two cases that stand side by side lie where no pin, slide, hinge, or board is in the way.".to_owned()));
    }
    if fastenings.iter().flat_map(|own| &own.lines).any(is_lopsided) {
        blocks.push(Block::Note("Where a line stays farther from one end of the area that its boards share than from the other, something is in the way at that end: a cut in one of the boards, a board or block in the way of the driver, or the screws of another line.".to_owned()));
    }
    blocks.push(Block::Table(table));
}

/// True for a line that stands nearer to one end of what its boards share than to the other, by
/// more than the width of a screw and its hole: 1/4 in.
fn is_lopsided(line: &ScrewLine<'_>) -> bool {
    let along = line.through.placement.direction(line.end);
    let (own, other) = (line.through.extent(along), line.into.extent(along));
    let (from, to) = (own.0.max(other.0), own.1.min(other.1));
    let long = line.apart * i64::from(line.count.saturating_sub(1));
    let (low, high) = match line.end.is_start() {
        true => (own.0 + line.first, own.0 + line.first + long),
        false => (own.1 - line.first - long, own.1 - line.first),
    };
    ((low - from) - (to - high)).abs() > Length::inches(1, 4)
}
