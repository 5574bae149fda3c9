//! The page that leads to the others.

use askama::Template;

use crate::model::Piece;
use crate::pipeline::Compilation;

use super::emit::filters;
use super::{PAPERS, Paper, measure, warnings};

#[derive(Template)]
#[template(path = "index.html")]
struct Index<'a> {
    job: &'a str,
    revision: &'a str,
    hash: &'a str,
    measure: &'a str,
    papers: &'a [Paper],
    /// Those that nobody has accepted, then the others with their reasons.
    warnings: Vec<String>,
}

pub(super) fn html(piece: &Piece, compiled: &Compilation, hash: &str) -> String {
    let index = Index {
        job: &piece.job.name,
        revision: &piece.job.revision,
        hash,
        measure: &measure(piece.tape()),
        papers: PAPERS,
        warnings: warnings::open(compiled).into_iter().chain(warnings::accepted(piece)).collect(),
    };
    index.render().unwrap_or_default()
}
