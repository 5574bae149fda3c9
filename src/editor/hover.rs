//! What stands at a place.

use crate::measure::{FileId, Span, Unit};
use crate::pipeline::Compilation;
use crate::vocabulary::{self, Block, Row, Step};

use super::meaning::Meaning;
use super::names::{Mention, Names};
use super::why::{Why, why};

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
}

/// What stands at a byte of a file; just behind a word counts as in it.
#[must_use]
pub fn hover(compiled: &Compilation, names: &Names, file: FileId, byte: u32) -> Option<Hover> {
    if let Some(mention) = names.at(file, byte) {
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
    vocabulary::walk(compiled.tree(file)?, Unit::Inch, &mut |step| {
        if let Step::Word { block, word, statement, .. } = step {
            let span = statement.word.span;
            if span.start <= byte && byte <= span.end {
                found = Some(Hover::Word { span, block, word });
            }
        }
    });
    found
}
