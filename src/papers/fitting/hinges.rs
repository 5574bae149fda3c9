//! Where every hinge goes.

use crate::parts::front_told;
use crate::plans::fitting::{HungAt, at_wall};
use crate::trade::Body;

use super::super::Source;
use super::super::page::{Block, Table, left, right};
use super::super::words;

pub(super) fn blocks(source: &Source<'_, '_>, all: &[HungAt<'_>], blocks: &mut Vec<Block>) {
    if all.is_empty() {
        return;
    }
    let figures = &source.figures;
    blocks.push(Block::Heading("Hinges".into()));
    blocks.push(Block::Note("Each line gives the center of one hinge, numbered from the bottom. Its height on the door counts from the bottom end of that piece, its height on the part that the door hangs on counts from the bottom end of that part, and the last figure counts from the lower edge of the opening.".into()));
    let mut table = Table {
        columns: vec![
            left("door").strong(),
            left("piece"),
            right("hinge"),
            right("height on door").strong(),
            left("hangs on").strong(),
            right("height on part").strong(),
            right("above opening"),
        ],
        ..Table::default()
    };
    for hung in all {
        table.rows.push(vec![
            hung.leaf.mark.clone(),
            words::name(hung.leaf, source.work.piece),
            hung.number.to_string(),
            figures.text(hung.on_leaf),
            hung.holder.mark.clone(),
            figures.text(hung.on_holder),
            figures.text(hung.above_opening),
        ]);
    }
    blocks.push(Block::Table(table));
    overlays(source, all, blocks);
    plates(source, all, blocks);
    beside_walls(source, blocks);
    blocks.push(Block::Proof(vec![format!(
        "no door springs back when you close it; one that does is hinge-bound, so look for {}",
        match all.iter().any(|hung| hung.butt) {
            true => "a screw head that stands proud or a hinge leaf let in too deep",
            false =>
                "a screw head that stands proud, a cup that is not down, or chips under a plate",
        }
    )]));
}

/// Doors that strike the wall of the room before their hinges stop them.
fn beside_walls(source: &Source<'_, '_>, blocks: &mut Vec<Block>) {
    for own in at_wall(source.work) {
        let what = match own.body {
            Body::Leaf => "it",
            Body::Pull => "its pull",
        };
        blocks.push(Block::Note(format!(
            "The hinges of {} open to {} degrees, but {what} strikes {} at about {}: fit a door stop, or a limiter for its hinges, that stops the door short of that.",
            front_told(source.work.piece, own.front.id),
            own.swing.0,
            own.at.told(source.work.piece),
            own.opens.0.floor(),
        )));
    }
}

/// For which overlay the hinges are bought: the crank of the arm or the height of the
/// plate goes by it.
fn overlays(source: &Source<'_, '_>, all: &[HungAt<'_>], blocks: &mut Vec<Block>) {
    let (figures, facts) = (&source.figures, &source.work.piece.facts);
    let mut doors: Vec<(String, Vec<&str>)> = Vec::new();
    for hung in all.iter().filter(|hung| hung.number == 1) {
        let Some(over) = &hung.over else { continue };
        let over = figures.size(over, facts);
        match doors.iter_mut().find(|(known, _)| *known == over) {
            Some((_, marks)) => marks.push(&hung.leaf.mark),
            None => doors.push((over, vec![&hung.leaf.mark])),
        }
    }
    if doors.is_empty() {
        return;
    }
    let told: Vec<String> =
        doors.iter().map(|(over, marks)| format!("{over} ({})", marks.join(", "))).collect();
    blocks.push(Block::Note(format!(
        "Buy hinges and plates for the overlay on the side of the hinges: {}.",
        told.join("; ")
    )));
}

fn plates(source: &Source<'_, '_>, all: &[HungAt<'_>], blocks: &mut Vec<Block>) {
    let figures = &source.figures;
    if all.iter().any(|hung| !hung.butt && hung.plate.is_none()) {
        blocks.push(Block::Note("The plate of the cup hinge is not drawn, because its figures are not given. The hinge's data sheet has them: put the center of each plate at the height in the table, and take from that sheet the line of its screws, their holes, and what it must stand on to lie level with the edge of the opening. The cut list has no blocks for the plates. Once those figures are entered, these papers give every plate and block.".into()));
    }
    let mut screws = Table {
        columns: vec![
            left("plate on").strong(),
            left("face"),
            left("door"),
            right("screws").strong(),
            right("line").strong(),
            left("holes"),
        ],
        foot: "the screws count from the bottom end of the part or block, and their line from its front edge".to_owned(),
        ..Table::default()
    };
    let mut placed = Table {
        columns: vec![
            left("block").strong(),
            left("on").strong(),
            left("piece"),
            right("lower end").strong(),
            right("above opening"),
        ],
        foot: "the lower end of a block counts from the bottom end of the piece, and in a case that is closed, from the lower edge of the opening; its front edge lies against the back of the frame".to_owned(),
        ..Table::default()
    };
    for hung in all {
        if let Some(plate) = hung.plate {
            let [low, high] = plate.screws.map(|screw| figures.text(screw));
            screws.rows.push(vec![
                plate.part.mark.clone(),
                plate.part.face_name(plate.face),
                hung.leaf.mark.clone(),
                format!("{low} and {high}"),
                figures.text(plate.line),
                format!("{}, {} deep", figures.hardware(plate.hole), figures.hardware(plate.deep)),
            ]);
        }
        if let Some(block) = hung.block {
            placed.rows.push(vec![
                block.part.mark.clone(),
                block.on.mark.clone(),
                words::name(block.on, source.work.piece),
                figures.text(block.above_end),
                figures.text(block.above_opening),
            ]);
        }
    }
    if !screws.rows.is_empty() {
        blocks.push(Block::Table(screws));
    }
    if !placed.rows.is_empty() {
        blocks.push(Block::Table(placed));
    }
}
