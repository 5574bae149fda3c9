//! The virtual shop: a maker who has nothing but packet.json. It does what the
//! operations say with the figures that are printed, takes away the wood that
//! the tool takes, brings the parts together in their order, and only then
//! looks at the drawing. It knows nothing of how the packet was made.

mod apart;
mod assembling;
mod bare;
mod behind_doors;
mod beside_hand;
mod board;
mod body;
mod bores;
mod boxes;
mod compare;
mod cuts;
mod covered_ends;
mod demos;
mod driver;
mod edging;
mod figures;
mod front_screws;
mod gates;
mod glass;
mod guided;
mod joining;
mod holes;
mod keep_outs;
mod laid_on;
mod leg_blocks;
mod lines;
mod mating;
mod milling;
mod narrow;
mod off;
mod on_bases;
mod on_legs;
mod open;
mod opening;
mod packet;
mod pieces;
mod planks;
mod play;
mod pins;
mod plates;
mod pockets;
mod rails;
mod random;
mod sawing;
mod scribing;
mod season;
mod shapes;
mod slides;
mod solid;
mod standing;
mod screws;
mod stacked;
mod stops;
mod strokes;
mod wood;

mod hand;
mod misjudged;
mod misread;
mod mutants;
mod spoiled;

use std::collections::{BTreeMap, BTreeSet};

use casewright::papers::{self, Format};
use casewright::pipeline::Compilation;

use gates::Stop;
use off::Off;

/// What a maker has to say of a packet.
#[derive(Debug, Default)]
struct Report {
    /// What is wrong, part by part; nothing for a sound packet.
    complaints: Vec<String>,
    /// Walls under 3/16 in beside grooves and mortises.
    thin_walls: Vec<String>,
    /// The wood that was taken out of each part, to the thousandth.
    taken: BTreeSet<String>,
    /// How many boards were off and were planed or made again.
    mended: usize,
    /// Sheets for which the papers must be made anew; the work stops there.
    stops: Vec<Stop>,
}

/// Builds a piece from its packet, of nominal wood.
fn build(text: &str) -> Report {
    build_of(text, Off::NOMINAL, &BTreeMap::new())
}

/// What is wrong with a packet, as the shop finds when it builds from it.
pub(crate) fn complaints(packet: &str) -> Vec<String> {
    build(packet).complaints
}

/// What the shop finds wrong with the packet of a piece.
pub(crate) fn built(compiled: &Compilation) -> Vec<String> {
    complaints(&papers::one(compiled, "packet", Format::Json).expect("a packet"))
}

/// Walls beside the cuts of a piece that are too thin to last, as the shop makes them.
pub(crate) fn thin_walls(compiled: &Compilation) -> Vec<String> {
    build(&papers::one(compiled, "packet", Format::Json).expect("a packet")).thin_walls
}

/// Builds it of wood that is off, with sheets whose thickness was entered.
fn build_of(text: &str, off: Off, sheets: &BTreeMap<String, f64>) -> Report {
    match packet::read(text) {
        Ok(packet) => play::play(&packet, off, sheets),
        Err(error) => Report { complaints: vec![error], ..Report::default() },
    }
}

/// Builds it of wood that is off; where a sheet stops the work, `anew` makes the
/// papers anew with what was measured, and the work begins with them.
fn build_anew(text: &str, off: Off, anew: impl FnOnce(&[Stop]) -> Option<String>) -> Report {
    let first = build_of(text, off, &BTreeMap::new());
    if first.stops.is_empty() || !first.complaints.is_empty() {
        return first;
    }
    let sheets = first.stops.iter().map(|stop| (stop.sheet.clone(), stop.thick)).collect();
    let Some(text) = anew(&first.stops) else {
        let complaints = vec!["with the sheets as measured there are no papers".to_owned()];
        return Report { complaints, ..first };
    };
    build_of(&text, off, &sheets)
}
