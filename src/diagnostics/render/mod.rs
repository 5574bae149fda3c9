//! Diagnostics as text: one file a format, all over the same data.

mod json;
mod plain;
mod short;
mod terminal;

pub use json::{SCHEMA, json};
pub use plain::plain;
pub use short::{short, summary};
pub use terminal::{Look, terminal};
