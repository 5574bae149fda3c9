//! Gaps through the year: shims, seasons and tolerances.

use crate::measure::{Length, Tape, Unit};
use crate::model::{Build, Piece, Set, Stock};
use crate::parts::{Front, Part};
use crate::plans::seasons::{Against, Edge, Gap};
use crate::trade;

mod overlays;

use super::Source;
use super::measured;
use super::page::{Block, Column, Table, Ticks, left, right};
use super::words;

pub(super) fn blocks(source: &Source<'_, '_>) -> Vec<Block> {
    let gaps = source.work.gaps();
    let mut blocks = vec![Block::Note(words::climate(source))];
    if source.work.fronts().is_empty() {
        blocks.push(Block::Note("This piece has no doors, drawers, or false fronts.".into()));
    } else if !gaps.is_empty() {
        let is_door = |front: &Front<'_>| front.opening.is_door();
        let fronts = source.work.fronts();
        let moves = match (fronts.iter().any(is_door), !fronts.iter().all(is_door)) {
            (true, true) => {
                "A door moves away from its hinges, and a drawer front moves away from the middle of its screws."
            }
            (true, false) => "A door moves away from its hinges.",
            (false, _) => "A drawer front moves away from the middle of its screws.",
        };
        blocks.push(Block::Note(format!("Set the fronts with these shims. Beside each gap stands what it will be on the driest and the dampest day of the room. {moves} ± is how far a gap may be off on the day you set it, likely and at worst.")));
    }
    let mut sizes: Vec<Length> = gaps.iter().map(|gap| gap.fitted).collect();
    sizes.sort_unstable();
    sizes.dedup();
    for size in sizes.into_iter().rev() {
        let own: Vec<&Gap<'_>> = gaps.iter().filter(|gap| gap.fitted == size).collect();
        group(source, size, &own, &mut blocks);
    }
    today(source, gaps, &mut blocks);
    overlays::blocks(source, &mut blocks);
    blocks.extend(measured::out_of_square(source));
    panels(source, &mut blocks);
    wood(source, &mut blocks);
    if !gaps.is_empty() {
        let mut checks = vec!["the shims slide at every corner without force".to_owned()];
        if gaps.iter().any(|gap| gap.front.fronts.set == Set::Inset) {
            checks.push("the two diagonals of each opening agree before you fit its front, or you plane the front to them".into());
        }
        checks.push("a moisture meter on an offcut shows the figure above, within a point; if not, write it here: ______".into());
        blocks.push(Block::Proof(checks));
    }
    blocks
}

/// The columns of what the year makes, which goes by the air of the shop.
fn days(source: &Source<'_, '_>) -> [Column; 2] {
    match measured::air(source) {
        "" => [right("driest"), right("dampest")],
        _ => [right("driest (m)"), right("dampest (m)")],
    }
}

/// All gaps of one size: the shims, then the edges.
fn group(source: &Source<'_, '_>, size: Length, own: &[&Gap<'_>], blocks: &mut Vec<Block>) {
    let tape = source.work.piece.tape();
    let metric = tape.unit == Unit::Millimetre;
    let shims = trade::shim_stack(size, metric, source.work.piece.shop.card);
    let stack: Vec<String> = shims
        .stack
        .iter()
        .map(|(shim, count)| {
            let shim = tape.exact(*shim);
            if *count > 1 { format!("{count} × {shim}") } else { shim }
        })
        .collect();
    let mut more = Vec::new();
    if !stack.is_empty() {
        let short = size - shims.thick;
        let rest = if short.is_positive() {
            format!(" ({} less than the gap)", tape.fine(short))
        } else {
            String::new()
        };
        more.push(format!("shims: {}{rest}", stack.join(" + ")));
    }
    if shims.cards > 0 {
        more.push(format!(
            "or {} playing cards ({} mm at {} mm per card; measure your deck)",
            shims.cards,
            Tape::millimetres().exact(shims.cards_thick),
            Tape::millimetres().exact(source.work.piece.shop.card)
        ));
    }
    let figure = source.figures.text(size);
    blocks.push(Block::Setting { figure, what: "gap as fitted".into(), more });
    let [driest, dampest] = days(source);
    let mut table = Table {
        columns: vec![
            left("front").strong(),
            left("edge"),
            left("beside"),
            driest,
            dampest,
            right("± likely"),
            right("± worst"),
        ],
        ..Table::default()
    };
    for gap in own {
        table.rows.push(vec![
            front(&gap.front),
            gap.edge_name().to_owned(),
            beside(source.work.piece, gap),
            season(tape, gap.driest),
            season(tape, gap.dampest),
            tape.fine(gap.stack.likely()),
            tape.fine(gap.stack.worst()),
        ]);
    }
    let least = |gap: &Gap<'_>| gap.driest.min(gap.dampest);
    let named = |which: &dyn Fn(&Gap<'_>) -> bool| {
        let mut fronts: Vec<String> =
            own.iter().filter(|gap| which(gap)).map(|gap| front(&gap.front)).collect();
        fronts.dedup();
        fronts.join("; ")
    };
    let binds = named(&|gap| !least(gap).is_positive());
    let may_bind = named(&|gap| least(gap).is_positive() && least(gap) <= gap.stack.worst());
    let mut told = Vec::new();
    if !binds.is_empty() {
        told.push(format!(
            "binds as it is drawn, because the wood takes more than the gap: {binds}"
        ));
    }
    if !may_bind.is_empty() {
        told.push(format!(
            "may bind on the dampest day if it was made tight, because ± worst is as much as the gap that is left then: {may_bind}"
        ));
    }
    table.foot = told.join(". ");
    blocks.push(Block::Table(table));
}

/// The gap at one edge of a front, whichever of the two fronts beside it has it.
fn at<'g, 'a>(gaps: &'g [Gap<'a>], of: &Gap<'_>, edge: Edge) -> Option<&'g Gap<'a>> {
    let (own, case) = (of.front.id, of.front.case.0);
    // Gaps stand case by case, and only a front of the next case can be beside it.
    let near = gaps.partition_point(|gap| gap.front.case.0 + 1 < case);
    let mut near = gaps.iter().skip(near).take_while(|gap| gap.front.case.0 <= case + 1);
    near.find(|gap| match gap.against {
        _ if gap.front.id == own => gap.edge == edge,
        Against::Front(opening, leaf) => {
            opening.id == own.opening && leaf == own.leaf && gap.edge.facing() == edge
        }
        Against::Part(_) => false,
    })
}

/// How each inset front is set on the day it is fitted: what stands under it and
/// beside it, and what must then be left at its top so that the dampest day
/// leaves the least gap that works.
fn today(source: &Source<'_, '_>, gaps: &[Gap<'_>], blocks: &mut Vec<Block>) {
    let tape = source.work.piece.tape();
    let mut table = Table {
        columns: vec![
            left("front").strong(),
            right("shim below"),
            right("left"),
            right("right"),
            right("left at the top").strong(),
            match measured::air(source) {
                "" => right("never less than"),
                _ => right("never less than (m)"),
            },
        ],
        ..Table::default()
    };
    let mut tight = Vec::new();
    let above = |gap: &&Gap<'_>| gap.edge == Edge::Top && gap.front.fronts.set == Set::Inset;
    for gap in gaps.iter().filter(above) {
        let beside =
            |edge| at(gaps, gap, edge).map_or(String::new(), |gap| source.figures.text(gap.fitted));
        let closes = (gap.fitted - gap.dampest).max(Length::ZERO);
        let least = trade::least_gap() + closes;
        if gap.fitted < least {
            tight.push(front(&gap.front));
        }
        table.rows.push(vec![
            front(&gap.front),
            beside(Edge::Bottom),
            beside(Edge::Left),
            beside(Edge::Right),
            source.figures.text(gap.fitted),
            up(tape, least),
        ]);
    }
    if table.rows.is_empty() {
        return;
    }
    if !tight.is_empty() {
        table.foot = format!(
            "the gap that is drawn is too small for the year: plane the top until the last figure is left, of {}",
            tight.join("; ")
        );
    }
    blocks.push(Block::Heading("Setting the inset fronts today".into()));
    blocks.push(Block::Note(format!("Stand each front on its lower shims and between its side shims, and then measure what is left at the top. The last figure is the least that may be left there today: what the wood takes by the dampest day, and {} that must stay open. Where less is left, plane the top edge before you bore or hang the front.", tape.fine(trade::least_gap()))));
    blocks.push(Block::Table(table));
}

/// Finer than the tape and never too small, with the next 64th of an inch.
fn up(tape: &Tape, gap: Length) -> String {
    match tape.unit {
        Unit::Inch | Unit::Foot => {
            let mark = Length::inches(1, 64);
            format!("{} ({})", tape.fine(gap), tape.exact(mark * (gap / mark).ceil()))
        }
        Unit::Millimetre | Unit::Centimetre | Unit::Metre => tape.fine(tape.fine_up(gap)),
    }
}

/// `press, left door`, with its mark where it is one board.
pub(super) fn front(front: &Front<'_>) -> String {
    let leaf = front.id.leaf.word().replace('-', " ");
    let name = format!("{}, {leaf}", front.opening.title());
    match front.parts.as_slice() {
        [only] => format!("{} {name}", only.mark),
        _ => name,
    }
}

/// What stands across a gap.
pub(super) fn beside(piece: &Piece, gap: &Gap<'_>) -> String {
    match gap.against {
        Against::Part(part) => words::name(part, piece),
        // A front of one board is called as its paper calls it.
        Against::Front(opening, leaf) => {
            let leaf = leaf.word().replace('-', " ");
            match opening.front.as_ref().map(|front| &front.build) {
                Some(Build::Slab) => format!("{}, {leaf}", opening.title()),
                _ => format!("{leaf} of {}", opening.title()),
            }
        }
    }
}

/// Finer than the tape, with the nearest 64th of an inch beside it.
pub(super) fn season(tape: &Tape, gap: Length) -> String {
    if tape.unit == Unit::Millimetre {
        return tape.fine(gap);
    }
    let mark = Length::inches(1, 64);
    let near = mark * (gap / mark).round();
    if near.is_positive() {
        format!("{} ({})", tape.fine(gap), tape.exact(near))
    } else {
        tape.fine(gap)
    }
}

/// Solid panels in their grooves.
fn panels(source: &Source<'_, '_>, blocks: &mut Vec<Block>) {
    let (_piece, tape) = (source.work.piece, source.work.piece.tape());
    let [driest, dampest] = days(source);
    let mut table = Table {
        columns: vec![
            left("panel").strong(),
            right("wide"),
            right("room on each side"),
            driest,
            dampest,
        ],
        ticks: Ticks::None,
        ..Table::default()
    };
    for float in source.work.floats() {
        table.rows.push(vec![
            format!("{} {}", float.panel.mark, words::name(float.panel, source.work.piece)),
            source.figures.text(float.panel.width.length),
            tape.fine(float.room),
            tape.fine(float.driest),
            tape.fine(float.dampest),
        ]);
    }
    if !table.rows.is_empty() {
        blocks.push(Block::Heading("Panels that float".into()));
        blocks.push(Block::Note("The room left in the groove on each side. Put no glue in these grooves. Finish the panel before it goes in, so that no bare wood shows when it shrinks.".into()));
        blocks.push(Block::Table(table));
    }
}

/// What the year does to every board that is wide enough to matter.
fn wood(source: &Source<'_, '_>, blocks: &mut Vec<Block>) {
    let (piece, tape) = (source.work.piece, source.work.piece.tape());
    let climate = source.work.climate();
    let [driest, dampest] = days(source);
    let mut table = Table {
        columns: vec![left("board").strong(), left("wood"), right("wide"), driest, dampest],
        ticks: Ticks::None,
        ..Table::default()
    };
    let mut rows: Vec<(&Part, &Stock, usize)> = Vec::new();
    for part in &source.work.parts.all {
        let Some(stock) = piece.stock(part.stock).filter(|stock| stock.wood.is_some()) else {
            continue;
        };
        let same = |row: &&mut (&Part, &Stock, usize)| {
            row.0.stock == part.stock && row.0.width.length == part.width.length
        };
        match rows.iter_mut().find(same) {
            Some(row) => row.2 += 1,
            None => rows.push((part, stock, 1)),
        }
    }
    for (part, stock, count) in rows {
        let change = climate.swelling(stock, part.width.length);
        let species = stock.wood_name();
        let name = match count {
            1 => words::name(part, source.work.piece),
            count => format!("{} and {} more", words::name(part, source.work.piece), count - 1),
        };
        table.rows.push(vec![
            format!("{} {name}", part.mark),
            format!("{species}, {}sawn", stock.sawn.word()),
            source.figures.text(part.width.length),
            signed(tape, change.driest),
            signed(tape, change.dampest),
        ]);
    }
    if table.rows.is_empty() {
        return;
    }
    blocks.push(Block::Heading("How the wood moves".into()));
    blocks.push(Block::Note("The change of width across the grain from milling to the driest and the dampest day. Boards keep their length along the grain. Plywood, MDF, and particleboard hardly move.".into()));
    blocks.push(Block::Table(table));
}

fn signed(tape: &Tape, change: Length) -> String {
    let sign = if change.is_positive() { "+" } else { "" };
    format!("{sign}{}", tape.fine(change))
}
