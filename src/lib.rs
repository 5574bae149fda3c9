//! casewright: a cabinet written as text, compiled to the shop's papers.
//!
//! Each stage has one room, and a room uses only the rooms before it:
//! measure → diagnostics → syntax → vocabulary → trade → cutting → model →
//! parts → plans → checks → papers → revision → editor → server → cli.
//!
//! All but the last two are the core: a function of texts, with no clock, file,
//! thread or terminal. `server` and `cli` come with the feature `shell`.

// What the parser is generated to is written in terms of it.
extern crate alloc;

pub mod measure;
pub mod diagnostics;
pub mod syntax;
pub mod vocabulary;
pub mod trade;
pub mod cutting;
pub mod model;
pub mod parts;
pub mod plans;
pub mod checks;
pub mod papers;
pub mod revision;
pub mod editor;
#[cfg(feature = "shell")]
pub mod server;
#[cfg(feature = "shell")]
pub mod cli;
pub mod pipeline;
