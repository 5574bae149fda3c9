//! Diagnostics as people and programs read them, one file per format.
//! In: the texts and the findings. Out: printable text, the same for the same
//! input. Must not know disk, environment or terminal: the [`Look`] is handed in.

mod annotations;
mod drawn;
mod json;
mod look;
mod mend;
mod said;
mod sarif;
mod short;
mod snippet;
mod summary;
mod terminal;
pub(crate) mod uri;
mod visible;
mod wrap;

pub use annotations::{annotation_unread, annotations};
pub use json::{SCHEMA, fraction, json, json_line};
pub use look::Look;
pub use mend::describe as mending;
pub use said::{finding, way};
pub use sarif::{Finding, RuleText, Run, sarif, sarif_findings};
pub use short::short;
pub use summary::summary;
pub use terminal::terminal;
pub use visible::plain;
pub(crate) use wrap::paragraph;

#[cfg(test)]
mod tests;
