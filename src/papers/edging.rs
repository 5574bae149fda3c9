//! What the cut list tells of edges: strips on them, and wood left on to scribe.

use crate::diagnostics::{counted, listed};
use crate::measure::{Length, Unit};
use crate::parts::{Face, Part, Spare};
use crate::plans::edging::{self, Bought};

use super::Source;
use super::cut_list::amount;
use super::page::{Block, Table, Ticks, left, right};

/// What goes on its edges, and how large it is then; `None` where nothing does.
pub(super) fn told(source: &Source<'_, '_>, part: &Part) -> Option<String> {
    let (piece, figures) = (source.work.piece, &source.figures);
    let first = part.strips.first()?;
    let faces: Vec<String> = part.strips.iter().map(|strip| part.face_name(strip.face)).collect();
    let stock = piece.stock(first.stock).map_or("", |stock| stock.name.as_str());
    let facts = &piece.facts;
    let [long, wide] = part.as_made();
    let finished = format!("{} x {}", figures.size(&long, facts), figures.size(&wide, facts));
    let how = if first.banding { "band" } else { "lip" };
    let on = format!(
        "{how} the {} with {stock}, {} thick",
        listed(&faces),
        figures.size(&first.thick, facts)
    );
    let over = [[Face::LengthStart, Face::LengthEnd], [Face::WidthStart, Face::WidthEnd]];
    let [length, width] = over.map(|faces| part.is_cut_after(faces));
    Some(match (length, width) {
        (false, false) => format!("this is the core: {on}, which makes it {finished}"),
        (true, true) => format!("this is the core, sawn over: {on}, then cut it to {finished}"),
        (true, false) => {
            format!("this is the core, sawn over in length: {on}, then cut it to {finished}")
        }
        (false, true) => {
            format!("this is the core, sawn over in width: {on}, then cut it to {finished}")
        }
    })
}

/// What it is longer and wider than drawn; `None` where nothing is scribed.
pub(super) fn left_on(source: &Source<'_, '_>, part: &Part) -> Option<String> {
    let left = |spare: &Spare| {
        let by = source.figures.size(&spare.by, &source.work.piece.facts);
        format!("{by} at its {}", part.face_name(spare.face))
    };
    let own: Vec<String> = part.spare.iter().map(left).collect();
    (!own.is_empty())
        .then(|| format!("this includes {}, which is left on to be scribed", listed(&own)))
}

/// The strips, stock by stock, and what is to be bought or ripped for them.
pub(super) fn blocks(source: &Source<'_, '_>) -> Vec<Block> {
    let bought = edging::bought(source.work.piece, source.work.parts);
    bought.iter().flat_map(|bought| of_stock(source, bought)).collect()
}

fn of_stock(source: &Source<'_, '_>, bought: &Bought) -> Vec<Block> {
    let (piece, figures) = (source.work.piece, &source.figures);
    let Some(stock) = piece.stock(bought.stock) else { return Vec::new() };
    let thick = figures.size(&stock.thickness, &piece.facts);
    let (heading, note) = match stock.is_banding() {
        true => (
            format!("Banding of {}: {thick}", stock.name),
            to_buy(source, bought, !stock.on_hand.is_empty()),
        ),
        false => (
            format!("Lips of {}: {} {thick}", stock.name, stock.kind.word()),
            format!(
                "Plane the boards to {thick} and joint an edge. Rip each strip with a push block so that it falls on the side of the blade away from the fence: set a stop on that side, ahead of the blade, to the thickness of the strip, and bring board and fence up to it for each one. There are {} strips, {} with their saw cuts, waste not included; the board plan has the pieces that they are ripped from.",
                bought.strips.len(),
                amount(piece, bought.boards(piece, stock.nominal).into_iter())
            ),
        ),
    };
    let mut table = Table {
        columns: vec![
            left("mark").strong(),
            left("edge"),
            right("length").strong(),
            right("width"),
            right("thick"),
        ],
        ticks: Ticks::Rows,
        ..Table::default()
    };
    let mut strips = bought.strips.clone();
    // Cut to length the longest first, as boards are.
    strips.sort_by_key(|(id, number, cut)| (std::cmp::Reverse(cut.long), *id, *number));
    for (id, number, cut) in &strips {
        let Some(part) = source.work.parts.get(*id) else { continue };
        let face = part.strips.get(*number).map(|strip| part.face_name(strip.face));
        table.rows.push(vec![
            part.mark.clone(),
            face.unwrap_or_default(),
            figures.text(cut.long),
            figures.text(cut.wide),
            figures.mating(cut.thick),
        ]);
    }
    vec![Block::Heading(heading), Block::Note(note), Block::Table(table)]
}

/// How much banding to buy, beside what is on hand.
fn to_buy(source: &Source<'_, '_>, bought: &Bought, has_on_hand: bool) -> String {
    let strips = counted(bought.strips.len() as i64, "strip");
    let wide = source.figures.text(widest(bought));
    if !bought.roll(source.work.piece).is_positive() {
        return format!(
            "Buy no banding: what is on hand gives {strips}, the widest {wide} wide, with a tenth more of each for waste."
        );
    }
    let less = if has_on_hand { ", less those that the rolls on hand give" } else { "" };
    format!(
        "Buy {} of banding {wide} wide or more: {strips} end to end, and a tenth more for waste{less}.",
        roll(source, bought)
    )
}

fn widest(bought: &Bought) -> Length {
    bought.strips.iter().map(|(.., cut)| cut.wide).max().unwrap_or_default()
}

/// `27 feet`, or `8.3 m`.
fn roll(source: &Source<'_, '_>, bought: &Bought) -> String {
    let unit = source.work.piece.tape().unit;
    let long = bought.roll(source.work.piece);
    match unit {
        Unit::Millimetre => {
            let tenths = (long / Length::mm(100)).floor();
            format!("{}.{} m", tenths / 10, tenths % 10)
        }
        _ => format!("{} feet", (long / Length::inches(12, 1)).floor()),
    }
}
