//! What an editor asks of a compilation, and commands with it: why a size is
//! what it is.
//! In: a compilation. Out: data; whoever shows it chooses the words.
//! Must not know disk, terminal or any editor's protocol.

mod why;

pub use why::{Sum, Term, TermFrom, Thing, Why, known_names, why};
