//! The words of the language: one table that drives reading, defaults, units,
//! did-you-mean and the reference page.
//! In: a syntax tree. Out: entries, each of its kind, and what was not understood.
//! Must not know the solver or what a word does to the piece.

pub(crate) mod blocks;
#[macro_use]
mod choice;
mod choices;
mod defaults;
mod elsewhere;
mod entries;
mod evaluate;
mod example;
mod figure;
mod form;
mod known;
mod meant;
mod natural;
mod off_rule;
mod pairs;
mod range;
mod read;
mod reference;
mod respelled;
mod slot;
mod spelling;
pub mod takes;
mod typed;
mod value;
mod walk;
mod word;

pub(crate) use blocks as words;
pub use blocks::{BLOCKS, block_named};
pub use choice::Choice;
pub use choices::*;
pub use entries::{Entries, Entry, Said};
pub use evaluate::{Fault, Linear, in_reason, length, linear, number, too_fine};
pub use form::parse;
pub use known::Known;
pub use meant::is_known;
pub use natural::units;
pub use range::{Bound, Range};
pub use read::{read, stated_unit};
pub use reference::{INTRODUCTION, words};
pub use respelled::format;
pub use spelling::finding as finding_named;
pub use takes::{Count, Flag, Maybe, Refer, Thing};
pub use typed::{Kinds, Takes, Word};
pub use value::{Origin, SizeExpr, Sourced, Value};
pub use walk::{Given, Step, next_slot, walk};
pub use word::{Block, Body, Hand, Kind, Row, Slot, Times};
