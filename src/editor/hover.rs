//! What stands at a place.

use crate::measure::{FileId, Length, Span, Unit};
use crate::pipeline::Compilation;
use crate::vocabulary::{self, Block, Choice, Origin, Row, Step, Value};

use super::meaning::{Meaning, NameKind};
use super::names::{Mention, Names};
use super::why::{Why, boards_of, why};

/// What stands at a place.
#[derive(Clone, Debug)]
pub enum Hover {
    /// A name, with the sizes of what it means.
    Name {
        /// Where, and what it means.
        mention: Mention,
        /// The things of that name that have sizes.
        sizes: Vec<Why>,
    },
    /// A word of the language.
    Word {
        /// Where it stands.
        span: Span,
        /// Its block.
        block: &'static Block,
        /// What it is: its help, default and example.
        word: &'static Row,
    },
    /// One of a few words that another takes.
    Choice {
        /// Where it stands.
        span: Span,
        /// The word that takes it.
        of: &'static Row,
        /// What it is.
        choice: &'static Choice,
    },
    /// A figure.
    Figure {
        /// Where it stands.
        span: Span,
        /// What it comes to.
        length: Length,
    },
}

/// What stands at a byte of a file; just behind a word counts as in it.
#[must_use]
pub fn hover(compiled: &Compilation, names: &Names, file: FileId, byte: u32) -> Option<Hover> {
    if let Some(mention) = names.at(file, byte) {
        let stock = match mention.meaning {
            Meaning::Name(id) => names.get(id).filter(|it| it.kind == NameKind::Stock),
            Meaning::Part { .. } => None,
        };
        if let Some(stock) = stock {
            let sizes = boards_of(compiled, &stock.path);
            return Some(Hover::Name { mention, sizes });
        }
        let path = match mention.meaning {
            Meaning::Name(id) => names.get(id).filter(|it| it.kind.has_sizes()).map(|it| &it.path),
            Meaning::Part { id, .. } => {
                compiled.parts.as_ref().and_then(|parts| parts.get(id)).map(|part| &part.path)
            }
        };
        let sizes = path.map(|path| why(compiled, path)).unwrap_or_default();
        return Some(Hover::Name { mention, sizes });
    }
    let mut found = None;
    let mut of = None;
    let tree = compiled.tree(file)?;
    let first = compiled.tree(FileId::default());
    let unit = [Some(tree), first].into_iter().flatten().find_map(vocabulary::stated_unit);
    let unit = unit.map_or(Unit::Inch, |said| said.value);
    let here = |span: Span| span.start <= byte && byte <= span.end;
    vocabulary::walk(tree, unit, &mut |step| match step {
        Step::Word { block, word, statement, .. } => {
            of = Some((word, statement.head()));
            let span = statement.word.span;
            if here(span) {
                found = Some(Hover::Word { span, block, word });
            }
        }
        Step::Argument(given) if here(given.span) => {
            let Some((word, head)) = of else { return };
            let span = given.span;
            match given.value {
                Some(Value::Choice(choice)) => {
                    found = Some(Hover::Choice { span, of: word, choice });
                }
                Some(Value::Length(length)) => found = Some(Hover::Figure { span, length }),
                Some(Value::Size(_)) => {
                    let length = worked_out(compiled, head);
                    found = length.map(|length| Hover::Figure { span, length });
                }
                _ => {}
            }
        }
        Step::Argument(_) | Step::End | Step::Unknown { .. } => {}
    });
    found
}

/// What the size comes to that a statement says; nothing where it can't be told, as of a piece
/// that can't be built.
fn worked_out(compiled: &Compilation, head: Span) -> Option<Length> {
    let facts = &compiled.piece.as_ref()?.facts;
    let written = |origin: Origin| origin.span().is_some_and(|span| span == head);
    facts.all().find(|fact| written(fact.origin)).map(|fact| fact.length)
}
