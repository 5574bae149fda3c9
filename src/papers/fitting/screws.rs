//! Screws and small hardware, counted.

use crate::diagnostics::listed;
use crate::measure::Unit;
use crate::plans::fitting::{Long, Purpose, Screws};

use super::super::Source;
use super::super::page::{Block, Table, left, right};

pub(super) fn blocks(source: &Source<'_, '_>, all: &[Screws<'_>], blocks: &mut Vec<Block>) {
    if all.is_empty() {
        return;
    }
    blocks.push(Block::Heading("Screws and small hardware".into()));
    blocks.push(Block::Note("What else the piece takes is in the assembly order, under the hardware in hand. Buy one in ten more than these.".into()));
    let mut table = Table {
        columns: vec![right("pcs").strong(), left("what"), left("gauge"), left("for")],
        ..Table::default()
    };
    let unit = source.work.piece.tape().unit;
    for screws in all {
        table.rows.push(vec![
            screws.count.to_string(),
            what(source, screws),
            screws.gauge(unit).map_or_else(String::new, |own| own.name(unit).to_owned()),
            through(source, screws),
        ]);
    }
    blocks.push(Block::Table(table));
    blocks.push(Block::Note(holes(unit).to_owned()));
    blocks.extend(wide_holes(source).map(Block::Note));
}

/// The holes that they go into: through the first board the shank falls, and in the
/// second the thread bites (common practice, no source).
fn holes(unit: Unit) -> &'static str {
    match unit {
        Unit::Inch | Unit::Foot => {
            "For a No. 8 screw bore 11/64 through the first board and 7/64 in the second, for a No. 6 screw 9/64 and 3/32; in soft wood and sheets the pilot is 1/64 less. Try both in scrap."
        }
        Unit::Millimetre | Unit::Centimetre | Unit::Metre => {
            "For a 4-mm screw bore 4.5 mm through the first board and 2.8 mm in the second, for a 3.5-mm screw 4 mm and 2.4 mm; in soft wood and sheets the pilot is 0.4 mm less. Try both in scrap."
        }
    }
}

/// How they are asked for in a store.
pub(in crate::papers) fn bought(source: &Source<'_, '_>, screws: &Screws<'_>) -> String {
    let what = what(source, screws);
    let unit = source.work.piece.tape().unit;
    let more = match screws.purpose {
        Purpose::Pockets => Some("coarse thread"),
        Purpose::HardPockets => Some("fine thread"),
        _ => screws.gauge(unit).map(|own| own.name(unit)),
    };
    match more {
        Some(more) => format!("{what}, {more}"),
        None => what,
    }
}

fn what(source: &Source<'_, '_>, screws: &Screws<'_>) -> String {
    let figures = &source.figures;
    let long = match screws.long {
        Long::BySheet => None,
        Long::Is(long) => Some(match screws.purpose {
            Purpose::Plates | Purpose::ShelfPins => figures.hardware(long),
            _ => figures.text(long),
        }),
        Long::AtLeast(long) => Some(format!("at least {}", figures.at_least(long))),
        Long::Between(least, most) => {
            let (least, most) = (figures.text(least), figures.text(most));
            // A range of less than a mark of the tape is one figure.
            Some(if least == most { least } else { format!("{least} to {most}") })
        }
    };
    let (noun, sized) = noun(screws.purpose, screws.count);
    match (long, sized) {
        (Some(long), true) => format!("{noun}, {long} long"),
        (Some(wide), false) => format!("{noun}, for holes of {wide}"),
        (None, _) if screws.purpose == Purpose::Clips => noun.to_owned(),
        (None, _) => format!("{noun}, as their sheet says"),
    }
}

/// What so many of them are called, and whether their length is told; else it is
/// the hole that they go into.
fn noun(purpose: Purpose, count: u32) -> (&'static str, bool) {
    let one = count == 1;
    match purpose {
        Purpose::Pockets | Purpose::HardPockets if one => ("pocket screw", true),
        Purpose::Pockets | Purpose::HardPockets => ("pocket screws", true),
        Purpose::Boards
        | Purpose::Packers
        | Purpose::Strips
        | Purpose::Corners
        | Purpose::Fillers
        | Purpose::Covers
        | Purpose::Ties
        | Purpose::Bottoms
        | Purpose::Blocks
        | Purpose::Holding
        | Purpose::Stops => ("wood screws", true),
        Purpose::Countertops | Purpose::Stacked | Purpose::FalseFronts | Purpose::BackCovers => {
            ("pan-head screws with washers", true)
        }
        Purpose::Backs => ("screws with flat heads", true),
        Purpose::Plates => ("screws for plates", false),
        Purpose::Fronts => ("wood screws with large heads", true),
        Purpose::Setting if one => ("pan-head screw with a washer", true),
        Purpose::Setting => ("pan-head screws with washers", true),
        Purpose::ShelfPins => ("shelf pins", false),
        Purpose::Clips => ("clips, half of them left and half right", false),
    }
}

/// What they are for; packers and blocks by their marks, since each side of an
/// opening may ask for another length.
fn through(source: &Source<'_, '_>, screws: &Screws<'_>) -> String {
    let marks: Vec<&str> = screws.through.iter().map(|part| part.mark.as_str()).collect();
    let told = purpose(screws.purpose);
    let pull = screws.hole.filter(|_| screws.purpose == Purpose::Setting);
    match (pull, marks.is_empty()) {
        (Some(hole), _) => {
            format!("{told}, through pull holes of {}", source.figures.hardware(hole))
        }
        (None, true) => told.to_owned(),
        (None, false) => format!("{told}: {}", marks.join(", ")),
    }
}

/// The wider holes of screws that hold fronts of solid wood.
fn wide_holes(source: &Source<'_, '_>) -> Option<String> {
    let hole =
        |of: Purpose| source.work.fastened().hole(of).map(|hole| source.figures.hardware(hole));
    let boxes = hole(Purpose::Fronts).map(|hole| format!("{hole} through the box fronts"));
    let blocks =
        hole(Purpose::FalseFronts).map(|hole| format!("{hole} through the blocks of false fronts"));
    let told: Vec<String> = boxes.into_iter().chain(blocks).collect();
    (!told.is_empty()).then(|| {
        format!("Fronts of solid wood move across their grain under the heads of the screws that hold them: for these bore {}.", listed(&told))
    })
}

/// What they are, where there are several.
pub(in crate::papers) fn fastened(purpose: Purpose) -> String {
    noun(purpose, 2).0.to_owned()
}

pub(in crate::papers) fn purpose(purpose: Purpose) -> &'static str {
    match purpose {
        Purpose::Pockets => "pocket holes into sheets and soft wood: coarse thread",
        Purpose::HardPockets => "pocket holes into hard wood: fine thread",
        Purpose::Boards => "boards of the case or base that are screwed on",
        Purpose::Countertops => "countertops, from below",
        Purpose::Stacked => "cases on cases, down through their bottoms",
        Purpose::Packers => "packers onto the case",
        Purpose::Bottoms => "drawer bottoms, up into the backs of the boxes",
        Purpose::Strips => "strips of drawers on wood, through slots across the grain of the board",
        Purpose::Corners => "the corners of drawer boxes, through the sides",
        Purpose::Fillers => "fillers, from inside their case into the battens",
        Purpose::Covers => "covers, from inside their case",
        Purpose::BackCovers => "covers over backs, from inside, through the back",
        Purpose::Ties => "cases to each other",
        Purpose::Blocks => "hinge blocks",
        Purpose::Holding => "holding blocks of false fronts",
        Purpose::Stops => "the strips that doors close against",
        Purpose::FalseFronts => "false fronts, from behind through their holding blocks",
        Purpose::Backs => "the backs, on the lines of the layout sheet",
        Purpose::Plates => "hinge plates",
        Purpose::Fronts => "drawer fronts, from inside the box",
        Purpose::Setting => "drawer fronts, while you set them; they come out again",
        Purpose::ShelfPins => "loose shelves, four each",
        Purpose::Clips => "boxes on undermount slides",
    }
}
