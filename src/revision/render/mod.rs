//! A difference in every format.

mod json;
mod page;
mod report;
mod text;

pub use json::{SCHEMA, json};
pub use page::{html, markdown};
pub use text::text;
