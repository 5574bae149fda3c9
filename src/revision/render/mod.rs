//! A difference in every format.

mod all;
mod json;
mod page;
mod report;
mod text;

pub use all::{all_html, all_json, all_markdown, all_text};
pub use json::{SCHEMA, json};
pub use page::{html, markdown};
pub use text::text;
