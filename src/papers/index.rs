//! The page that leads to the others.

use askama::Template;

use crate::model::Piece;

use super::emit::filters;
use super::{PAPERS, Paper, measure};

#[derive(Template)]
#[template(path = "index.html")]
struct Index<'a> {
    job: &'a str,
    revision: &'a str,
    hash: &'a str,
    measure: &'a str,
    papers: &'a [Paper],
}

pub(super) fn html(piece: &Piece, hash: &str) -> String {
    let index = Index {
        job: &piece.job.name,
        revision: &piece.job.revision,
        hash,
        measure: &measure(piece.tape()),
        papers: PAPERS,
    };
    index.render().unwrap_or_default()
}
