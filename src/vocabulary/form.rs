//! What of the form of a text hangs on its words.

use crate::diagnostics::Diagnostic;
use crate::measure::FileId;
use crate::syntax::{self, Name, Shape, Tree};

use super::blocks::file;
use super::word::Kind;

/// Reads a text. The tree holds every statement that could be read; each
/// mistake gives one diagnostic.
#[must_use]
pub fn parse(file: FileId, text: &str) -> (Tree, Vec<Diagnostic>) {
    syntax::parse(file, text, shape)
}

/// The shape of a statement that begins with this word.
fn shape(word: &Name) -> Shape {
    let Some(row) = file::block().words.iter().find(|row| word.is(row.word)) else {
        return Shape::default();
    };
    let first = row.takes.first().map(|slot| slot.kind);
    let named = |inner: &'static super::word::Block| inner.words.iter().any(|word| word.any_name);
    Shape {
        path: first == Some(Kind::File),
        dated: first == Some(Kind::Date),
        marks: row.body.block().is_some_and(named),
    }
}
