//! The sheet plans: which sheets to take, and every cut in them.

use std::collections::BTreeSet;

use crate::diagnostics::{counted, listed};
use crate::measure::{Length, Scale};
use crate::model::{Sheet, Stock};
use crate::parts::{PartId, Role};
use crate::plans::sawing::{Blank, Sawn};
use crate::plans::sheets::OfStock;
use crate::trade;

use super::Source;
use super::cut_list;
use super::drawing::sheet;
use super::page::{Block, Table, Ticks, left, right};
use super::sawn::{drawn, least, on_hand, size};

pub(super) fn blocks(source: &Source<'_, '_>) -> Vec<Block> {
    let work = source.work;
    let plans: Vec<(&OfStock, &Stock)> =
        work.sheets().iter().filter_map(|own| Some((own, work.piece.stock(own.stock)?))).collect();
    if plans.is_empty() {
        return vec![Block::Note("Nothing is left to saw from a sheet whose size is known. The size of a whole sheet stands in its stock, as in `sheet { long 96; wide 48 }`.".to_owned())];
    }
    let mut blocks = vec![
        Block::Note(format!("Saw the cuts of a sheet in the order of their numbers. Every cut goes from edge to edge of the piece that it is made in, and the plans count {} for the blade. Caliper a cut of your saws, and enter another figure if they take more. What comes off is as wide or as long as the figure: set the fence to it, or a stop beside the sled (where no stop reaches, strike the first and gauge the others from it), or strike a line that far from the edge and clamp a straight-edge for the saw. Where cuts give one piece more than there are cuts, the last one is what is left behind them.", source.figures.text(source.work.piece.shop.kerf))),
        Block::Note("Lay the good face up on a table saw, and down under a saw that you push by hand, since the teeth tear where they come out. Across the grain of thin veneer, score the line with a knife first. Mark every piece before it leaves the saw.".to_owned()),
        Block::Caution("Keep the guard and riving knife on, and stand out of line with the cut. Never rip a piece that is shorter along the fence than it is wide. If nobody helps you with a whole sheet, lay it on boards on the floor and make its first cuts along a straight-edge, whatever the table says, until you can handle what is left. Hold up what hangs over, so that it neither tips nor pinches the blade. Wear a mask and run the dust collector.".to_owned()),
        taken(source, &plans),
    ];
    for (own, stock) in plans {
        blocks.push(Block::Heading(cut_list::heading(stock, source)));
        blocks.extend(about(source, own));
        for sheet in &own.sheets {
            blocks.extend(of_sheet(source, stock, sheet));
        }
    }
    blocks
}

/// How many sheets each stock takes, and whether fewer would do.
fn taken(source: &Source<'_, '_>, plans: &[(&OfStock, &Stock)]) -> Block {
    let mut table = Table {
        columns: vec![
            left("stock"),
            left("sheet"),
            right("sheets").strong(),
            left("on hand, sawn too"),
            left("could fewer do?"),
            right("a sheet weighs"),
        ],
        ticks: Ticks::None,
        ..Table::default()
    };
    for (own, stock) in plans {
        let sheet = sizes(source, own, stock);
        let bought = own.bought();
        table.rows.push(vec![
            stock.name.clone(),
            sheet,
            bought.to_string(),
            on_hand(source, &own.sheets),
            fewer(own, bought),
            weighs(source, own, stock).unwrap_or_default(),
        ]);
    }
    Block::Table(table)
}

fn fewer(own: &OfStock, bought: i64) -> String {
    if own.looks == 0 || own.least >= bought {
        return least(own.least, bought);
    }
    let looks = counted(own.looks, "sheet");
    format!("yes: `in-sequence` costs {looks} more")
}

/// The sizes of sheets that are taken: `96 x 48`, of several `2 of 96 x 48 and 1 of 60 x 60`.
fn sizes(source: &Source<'_, '_>, own: &OfStock, stock: &Stock) -> String {
    let all = stock.sheets.iter().map(|own| [own.long, own.wide]);
    let taken: Vec<([Length; 2], i64)> = all.map(|size| (size, own.bought_of(size))).collect();
    if let [(only, _)] = taken[..] {
        return size(source, only);
    }
    let told = taken.iter().filter(|(_, count)| *count > 0);
    let told = told.map(|(own, count)| format!("{count} of {}", size(source, *own)));
    listed(&told.collect::<Vec<_>>())
}

/// What the heaviest whole sheet weighs, and whether two people may lift it.
fn weighs(source: &Source<'_, '_>, own: &OfStock, stock: &Stock) -> Option<String> {
    let gravity = stock.gravity?;
    let mass = |sheet: &Sheet| {
        let volume = trade::volume(sheet.long, sheet.wide, stock.thickness.length);
        trade::grams(trade::kilograms(volume, trade::density(gravity)))
    };
    let is_only = stock.sheets.len() == 1;
    let taken =
        stock.sheets.iter().filter(|sheet| is_only || own.bought_of([sheet.long, sheet.wide]) > 0);
    let mass = taken.map(mass).max()?;
    let told = Scale::of(source.work.piece.tape()).both(mass);
    let [two, _] = trade::team();
    Some(if mass > two {
        format!("{told}: more than two people should lift, so slide it and tip it")
    } else {
        told
    })
}

/// What no sheet holds, and what is sawn larger.
fn about(source: &Source<'_, '_>, own: &OfStock) -> Vec<Block> {
    let marks = |blanks: &mut dyn Iterator<Item = &Blank>| {
        let marks: BTreeSet<&str> =
            blanks.map(|blank| source.work.parts.mark(blank.part)).collect();
        (!marks.is_empty()).then(|| marks.into_iter().collect::<Vec<_>>().join(", "))
    };
    let laid = own.sheets.iter().flat_map(|sheet| &sheet.laid).map(|laid| &laid.blank);
    let unplaced = marks(&mut own.unplaced.iter());
    let later = marks(&mut laid.filter(|blank| blank.later));
    let unplaced = unplaced.map(|marks| {
        format!("No sheet is large enough for these, so they are in no plan: {marks}.")
    });
    let later = later.map(|marks| {
        let spare = source.figures.text(trade::sheet_spare(source.work.piece.tape().unit));
        format!("These are sawn {spare} or more longer and wider than on the cut list where the sheet leaves that much, and are cut to size from what the case comes to, in their step of the assembly order: {marks}.")
    });
    let in_sequence = own.sequences.iter().map(|group| {
        let marks: Vec<&str> = group.iter().map(|id| source.work.parts.mark(*id)).collect();
        format!("These come off one sheet beside each other as they stand, so that the grain runs on from one to the next: {}. Number them as they come off, and mark the edge where each met its neighbor.", marks.join(", "))
    });
    let apart = apart(source, own).map(|marks| {
        format!("You asked for these side by side from one sheet, but they can't be: they stand alone, they are not one size across their row, or no sheet is large enough for all of them: {marks}.")
    });
    unplaced.into_iter().chain(later).chain(in_sequence).chain(apart).map(Block::Note).collect()
}

/// The fronts that were asked to come from one sheet and are not laid out so.
fn apart(source: &Source<'_, '_>, own: &OfStock) -> Option<String> {
    let piece = source.work.piece;
    let is_asked = |id: PartId| {
        let part = source.work.parts.get(id).filter(|part| part.role == Role::Slab);
        let front = part.and_then(|part| piece.opening(part.opening()?)?.front.as_ref());
        front.is_some_and(|front| front.in_sequence.is_some())
    };
    let laid = own.sheets.iter().flat_map(|sheet| &sheet.laid).map(|laid| laid.blank.part);
    let alone = laid.filter(|id| !own.sequences.iter().flatten().any(|own| own == id));
    let marks: BTreeSet<&str> =
        alone.filter(|id| is_asked(*id)).map(|id| source.work.parts.mark(id)).collect();
    (!marks.is_empty()).then(|| marks.into_iter().collect::<Vec<_>>().join(", "))
}

fn of_sheet(source: &Source<'_, '_>, stock: &Stock, own: &Sawn) -> Vec<Block> {
    let sort = if own.on_hand { "the piece on hand" } else { "a sheet" };
    let what = format!("{sort} of {}, {}", stock.name, size(source, own.size));
    let mut more = Vec::new();
    if own.trim.is_positive() {
        let trim = source.figures.text(own.trim);
        more.push(format!(
            "first saw {trim} off one long edge along a straight-edge: the figures of the first cuts count from there"
        ));
        more.push(format!(
            "before the first crosscut of a piece saw {trim} off its end; the other ends and the other long edge fall off behind the last cuts"
        ));
    } else {
        more.push("its edges count as straight and square, so look whether they are, and trim them first if not".to_owned());
    }
    drawn(source, own, ("Sheet", what, more), (sheet::drawing(source, own, stock), "set to"))
}
