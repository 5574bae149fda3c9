//! What of the form of a text hangs on its words.

use crate::diagnostics::{Diagnostic, Severity, Sink};
use crate::measure::{FileId, Span, Unit};
use crate::syntax::{self, Language, Name, Shape, Tree};

use super::blocks::file;
use super::known::Known;
use super::read::read;
use super::walk::{Step, walk};
use super::word::Kind;

/// Reads a text. The tree holds every statement that could be read; each
/// mistake gives one diagnostic.
#[must_use]
pub fn parse(file: FileId, text: &str) -> (Tree, Vec<Diagnostic>) {
    syntax::parse(file, text, Language { shape, misplaced, wrong })
}

/// How many statements of a tree belong in a block around the one in which they stand.
fn misplaced(tree: &Tree) -> usize {
    let mut misplaced = 0;
    walk(tree, Unit::Inch, &mut |step| {
        misplaced += usize::from(matches!(step, Step::Word { out: 1.., .. }));
    });
    misplaced
}

/// How many statements can't be read: in the unit that fits, for a part of a file may not say
/// it.
fn wrong(tree: &Tree) -> usize {
    let wrong = |unit| {
        let mut sink = Sink::new();
        read(tree, Span::default(), unit, false, &Known::default(), &mut sink);
        sink.all().iter().filter(|found| found.severity == Severity::Error).count()
    };
    wrong(Unit::Inch).min(wrong(Unit::Millimetre))
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
