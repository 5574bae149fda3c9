//! The words of the language: one table that drives reading, defaults, units,
//! did-you-mean and the reference page.
//! In: a syntax tree. Out: entries, each of its kind, and what was not understood.
//! Must not know the solver or what a word does to the piece.

mod blocks;
mod defaults;
mod entries;
mod evaluate;
mod example;
mod read;
mod reference;
mod slot;
mod value;
mod word;

pub use blocks::{BLOCKS, MADE, block_named};
pub use entries::{Entries, Entry};
pub use evaluate::{Fault, Linear, in_reason, length, linear, number, too_fine};
pub use read::{read, stated_unit};
pub use reference::reference;
pub use value::{Origin, SizeExpr, Sourced, Value};
pub use word::{Block, Body, Kind, Slot, Times, Word};
