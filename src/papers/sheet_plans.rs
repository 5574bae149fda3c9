//! The sheet plans: which sheets to take, and every cut in them.

use std::collections::BTreeSet;

use crate::cutting::Way;
use crate::diagnostics::listed;
use crate::model::Stock;
use crate::plans::sheets::{Blank, Cut, Gives, Laid, OfStock, Sawn, Tool};
use crate::trade;

use super::Source;
use super::drawing::sheet;
use super::page::{Block, Table, left, right};

pub(super) fn blocks(source: &Source<'_, '_>) -> Vec<Block> {
    let work = source.work;
    let plans: Vec<(&OfStock, &Stock)> =
        work.sheets().iter().filter_map(|own| Some((own, work.piece.stock(own.stock)?))).collect();
    if plans.is_empty() {
        return vec![Block::Note("Nothing is left to saw from a sheet whose size is known. The size of a whole sheet stands in its stock, as in `sheet { long 96; wide 48 }`.".to_owned())];
    }
    let mut blocks = vec![
        Block::Note("Saw the cuts of a sheet in the order of their numbers. Every cut goes from edge to edge of the piece that it is made in, and a cut is as wide as the blade. What comes off has the figure's size: set the fence to it, or a stop beside the sled (a pencil line, where no stop reaches), or strike a line that far from the edge and clamp a straight-edge for the saw. Where one cut gives two pieces, the second is what is left behind the first. Mark every piece before it leaves the saw.".to_owned()),
        Block::Caution("Keep the guard and riving knife on, and stand out of line with the cut. Never rip a piece that is shorter along the fence than it is wide. Two people carry and turn a whole sheet; by yourself, lay it on boards on the floor and saw it along a straight-edge. Hold up what hangs over, so that it neither tips nor pinches the blade. Wear a mask and run the dust collector.".to_owned()),
        taken(source, &plans),
    ];
    for (own, stock) in plans {
        blocks.push(Block::Heading(heading(source, stock)));
        blocks.extend(about(source, own));
        for sheet in &own.sheets {
            blocks.extend(of_sheet(source, stock, sheet));
        }
    }
    blocks
}

fn heading(source: &Source<'_, '_>, stock: &Stock) -> String {
    let thick = source.figures.mating_size(&stock.thickness, &source.work.piece.facts);
    format!("{}: {} {thick}", stock.name, stock.kind.word())
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
        ],
        ticks: super::page::Ticks::None,
        ..Table::default()
    };
    for (own, stock) in plans {
        let sheet =
            stock.sheet.map_or(String::new(), |sheet| size(source, [sheet.long, sheet.wide]));
        let had = own.sheets.iter().filter(|sheet| sheet.on_hand.is_some());
        let had: Vec<String> = had.map(|sheet| size(source, sheet.size)).collect();
        let bought = own.bought();
        table.rows.push(vec![
            stock.name.clone(),
            sheet,
            bought.to_string(),
            if had.is_empty() { "none".to_owned() } else { listed(&had) },
            match own.least {
                least if least >= bought => "no: this is the least".to_owned(),
                least => format!("no plan takes fewer than {least}"),
            },
        ]);
    }
    Block::Table(table)
}

/// What is sawn larger, and turned.
fn about(source: &Source<'_, '_>, own: &OfStock) -> Vec<Block> {
    let all = || own.sheets.iter().flat_map(|sheet| &sheet.laid);
    let marks = |which: &dyn Fn(&Laid) -> bool| {
        let own: BTreeSet<String> =
            all().filter(|laid| which(laid)).map(|laid| marks(source, &laid.blank)).collect();
        own.into_iter().collect::<Vec<_>>()
    };
    let later = marks(&|laid| laid.blank.later);
    let mut notes = Vec::new();
    if !later.is_empty() {
        let spare = source.figures.text(trade::sheet_spare(source.work.piece.tape().unit));
        notes.push(format!("These are sawn {spare} longer and wider than drawn where the sheet leaves that much, and are cut to size from what the case comes to, in their step of the assembly order: {}.", later.join(", ")));
    }
    notes.into_iter().map(Block::Note).collect()
}

fn of_sheet(source: &Source<'_, '_>, stock: &Stock, own: &Sawn) -> Vec<Block> {
    let what = match own.on_hand {
        Some(_) => format!("the piece on hand of {}", stock.name),
        None => format!("a sheet of {}", stock.name),
    };
    let title = format!("Sheet {}: {what}, {}", own.number, size(source, own.size));
    let mut more = Vec::new();
    if own.trim.is_positive() {
        let inside = own.size.map(|side| side - own.trim.twice());
        more.push(format!(
            "trim {} off all four edges first, which leaves {}",
            source.figures.text(own.trim),
            size(source, inside)
        ));
    }
    let caption = format!("{title}: the cuts by their numbers, and the pieces by their marks");
    let svg = sheet::drawing(source, own, stock);
    let mut blocks = vec![
        Block::Setting {
            figure: format!("sheet {}", own.number),
            what: format!("{what}, {}", size(source, own.size)),
            more,
        },
        Block::Drawing { svg, caption, small: false },
    ];
    if !own.cuts.is_empty() {
        blocks.push(Block::Table(cuts(source, own)));
    }
    blocks
}

fn cuts(source: &Source<'_, '_>, own: &Sawn) -> Table {
    let mut table = Table {
        columns: vec![
            right("cut"),
            left("in"),
            right("set to").strong(),
            left("how"),
            left("gives").strong(),
        ],
        foot: left_over(source, own),
        ..Table::default()
    };
    for cut in &own.cuts {
        let (first, last) = cut.numbers;
        let gives: Vec<String> = cut.gives.iter().map(|gives| given(source, own, gives)).collect();
        let behind = match cut.clears {
            true => " (the rest is a strip to throw away)",
            false => "",
        };
        table.rows.push(vec![
            if first == last { first.to_string() } else { format!("{first}-{last}") },
            if cut.from.is_empty() {
                "the sheet".to_owned()
            } else {
                format!("piece {}", cut.from)
            },
            source.figures.mating(cut.off),
            how(cut),
            format!("{}{behind}", gives.join(", ")),
        ]);
    }
    table
}

/// How a cut is made.
pub(super) fn how(cut: &Cut) -> String {
    let way = match cut.way {
        Way::Rip => "rip",
        Way::Crosscut => "crosscut",
    };
    match cut.tool {
        Tool::Fence => format!("{way}, fence"),
        Tool::Sled => format!("{way}, sled"),
        Tool::Guide => format!("{way}, straight-edge"),
    }
}

fn given(source: &Source<'_, '_>, own: &Sawn, gives: &Gives) -> String {
    match gives {
        Gives::Piece(name) => format!("piece {name}"),
        Gives::Blank(index) => own.laid.get(*index).map_or_else(String::new, |laid| {
            let marks = marks(source, &laid.blank);
            if laid.blank.later { format!("{marks} (rough)") } else { marks }
        }),
    }
}

/// The marks of what comes of a blank.
pub(super) fn marks(source: &Source<'_, '_>, blank: &Blank) -> String {
    let marks: Vec<&str> = blank.parts.iter().map(|id| source.work.parts.mark(*id)).collect();
    match marks.len() {
        1 => marks.concat(),
        _ => format!("stick of {}", marks.join(" ")),
    }
}

fn left_over(source: &Source<'_, '_>, own: &Sawn) -> String {
    let least = trade::narrowest_kept(source.work.piece.tape().unit);
    let kept = own.left.iter().filter(|area| area.size.iter().all(|side| *side >= least));
    let kept: Vec<String> = kept.map(|area| size(source, area.size)).collect();
    match kept.is_empty() {
        true => "nothing that is left over is worth keeping".to_owned(),
        false => format!("left over: {}", listed(&kept)),
    }
}

/// `96 x 48`.
pub(super) fn size(source: &Source<'_, '_>, [long, wide]: [crate::measure::Length; 2]) -> String {
    format!("{} x {}", source.figures.text(long), source.figures.text(wide))
}
