//! What became of several pieces as one document. Where nothing changes it
//! says so; a program finds no line.

use crate::revision::comparison::Comparison;

use super::json::{alone, json};
use super::page::{in_html, in_marks};
use super::report::of;
use super::text::in_text;

const NOTHING: &str = "Nothing changes in the shop.\n";

/// Plain text, wrapped to so many columns.
#[must_use]
pub fn all_text(pieces: &[Comparison], width: usize) -> String {
    joined(pieces.iter().map(|piece| in_text(&of(piece), width)))
}

/// Markdown for a pull request.
#[must_use]
pub fn all_markdown(pieces: &[Comparison]) -> String {
    joined(pieces.iter().map(|piece| in_marks(&of(piece))))
}

/// One page.
#[must_use]
pub fn all_html(pieces: &[Comparison]) -> String {
    let reports: Vec<_> = pieces.iter().map(of).collect();
    in_html(&reports)
}

/// One JSON object a line.
#[must_use]
pub fn all_json(pieces: &[Comparison]) -> String {
    let line = |piece: &Comparison| match piece {
        Comparison::Both(difference) => json(difference),
        Comparison::New(side) => alone("new", side),
        Comparison::Gone(side) => alone("gone", side),
    };
    pieces.iter().map(line).collect()
}

fn joined(texts: impl Iterator<Item = String>) -> String {
    let texts: Vec<String> = texts.collect();
    if texts.is_empty() { NOTHING.to_owned() } else { texts.join("\n") }
}
