//! Where the words of a spec are written, by the block that they stand in.

use crate::measure::{Span, Unit};
use crate::pipeline::Compilation;
use crate::vocabulary::{self, Block, Origin, Step, Word};

/// Every statement of a spec and of the files that it uses.
#[derive(Debug)]
pub(super) struct Lines(Vec<Line>);

#[derive(Debug)]
struct Line {
    block: &'static str,
    word: &'static str,
    /// From the keyword to the last argument.
    head: Span,
    /// All of it.
    whole: Span,
}

impl Lines {
    pub(super) fn of(compiled: &Compilation) -> Self {
        let mut lines = Vec::new();
        for tree in compiled.trees() {
            vocabulary::walk(tree, Unit::Inch, &mut |step| {
                if let Step::Word { block, word, statement, .. } = step {
                    lines.push(Line {
                        block: block.name,
                        word: word.word,
                        head: statement.head(),
                        whole: statement.span,
                    });
                }
            });
        }
        Self(lines)
    }

    /// Where a word of a block is written, in the statement that begins at `within`
    /// or anywhere; else whose default holds.
    pub(super) fn origin<T>(&self, block: &Block, word: Word<T>, within: Option<Span>) -> Origin {
        let (block, word) = (block.name, word.spelling());
        let own = |line: &&Line| (line.block, line.word) == (block, word);
        let found = match within {
            None => self.0.iter().find(own),
            Some(head) => {
                let begins =
                    |line: &&Line| (line.whole.file, line.whole.start) == (head.file, head.start);
                let outer = self.0.iter().find(begins).map(|line| line.whole);
                let inside = |line: &&Line| {
                    outer.is_some_and(|outer| {
                        outer.file == line.head.file
                            && outer.start <= line.head.start
                            && line.head.end <= outer.end
                    })
                };
                self.0.iter().filter(own).find(inside)
            }
        };
        found.map_or(Origin::Default { block, word }, |line| Origin::Written(line.head))
    }
}
