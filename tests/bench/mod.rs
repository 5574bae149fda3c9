//! The virtual shop: a maker who has nothing but packet.json. It does what the
//! operations say with the figures that are printed, takes away the wood that
//! the tool takes, brings the parts together in their order, and only then
//! looks at the drawing. It knows nothing of how the packet was made.

mod board;
mod body;
mod bores;
mod compare;
mod demos;
mod figures;
mod joining;
mod open;
mod packet;
mod pieces;
mod play;
mod random;
mod shapes;
mod solid;
mod strokes;
mod wood;

mod hand;
mod mutants;
mod spoiled;

use std::collections::BTreeSet;

/// What a maker has to say of a packet.
#[derive(Debug, Default)]
struct Report {
    /// What is wrong, part by part; nothing for a sound packet.
    complaints: Vec<String>,
    /// Walls under 3/16 in beside grooves and mortises.
    thin_walls: Vec<String>,
    /// The wood that was taken out of each part, to the thousandth.
    taken: BTreeSet<String>,
}

/// Builds a piece from its packet.
fn build(text: &str) -> Report {
    match packet::read(text) {
        Ok(packet) => play::play(&packet),
        Err(error) => Report { complaints: vec![error], ..Report::default() },
    }
}
