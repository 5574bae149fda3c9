//! Which lines of the spec a figure comes from.

use std::cell::RefCell;
use std::collections::BTreeMap;

use crate::measure::{FileId, Span, Unit};
use crate::model::{Facts, Size};
use crate::pipeline::Compilation;
use crate::vocabulary::{Step, walk};

/// Lines of the spec, by their numbers among all that figures come from.
pub(super) type Refs = Vec<usize>;

/// The lines that figures come from, each once, and where every word of the spec
/// stands.
pub(super) struct Lines<'c> {
    compiled: &'c Compilation,
    /// In the order of their numbers.
    known: RefCell<Vec<(FileId, usize)>>,
    numbers: RefCell<BTreeMap<(FileId, usize), usize>>,
    /// The words in the block of a statement, by where that begins and by their own
    /// path in it: `plate.back`.
    words: BTreeMap<(Span, String), Span>,
}

impl<'c> Lines<'c> {
    pub(super) fn of(compiled: &'c Compilation, unit: Unit) -> Self {
        let mut words = BTreeMap::new();
        for tree in compiled.trees() {
            let mut open: Vec<(Span, &'static str)> = Vec::new();
            walk(tree, unit, &mut |step| match step {
                Step::Word { word, statement, .. } => {
                    let head = statement.head();
                    if let Some((first, _)) = open.first() {
                        let mut path: Vec<&str> =
                            open.iter().skip(1).map(|(_, word)| *word).collect();
                        path.push(word.word);
                        words.insert((*first, path.join(".")), head);
                    }
                    open.push((head, word.word));
                }
                Step::End => {
                    open.pop();
                }
                Step::Argument(_) | Step::Unknown { .. } => {}
            });
        }
        Self { compiled, known: RefCell::default(), numbers: RefCell::default(), words }
    }

    /// The lines of these places, without those that no text has.
    pub(super) fn at(&self, spans: impl IntoIterator<Item = Span>) -> Refs {
        let mut lines: Refs = spans.into_iter().filter_map(|span| self.number(span)).collect();
        lines.sort_unstable();
        lines.dedup();
        lines
    }

    /// The lines that sizes were worked out from.
    pub(super) fn of_sizes<'s>(
        &self,
        facts: &Facts,
        sizes: impl IntoIterator<Item = &'s Size>,
    ) -> Refs {
        let spans: Vec<Span> = sizes
            .into_iter()
            .flat_map(|size| facts.of(size).filter_map(|(fact, _)| fact.origin.span()))
            .collect();
        self.at(spans)
    }

    /// The line of a word in the block of a statement; none where it is not
    /// written, so that its usual value holds.
    pub(super) fn word(&self, statement: Span, path: &str) -> Refs {
        self.at(self.words.get(&(statement, path.to_owned())).copied())
    }

    /// The line of a place; `None` where no text has it.
    pub(super) fn number(&self, span: Span) -> Option<usize> {
        let line = self.compiled.sources.get(span.file)?.position(span.start).line;
        let (mut known, mut numbers) = (self.known.borrow_mut(), self.numbers.borrow_mut());
        Some(*numbers.entry((span.file, line)).or_insert_with(|| {
            known.push((span.file, line));
            known.len() - 1
        }))
    }

    /// All lines that were asked for, in the order of their numbers.
    pub(super) fn known(&self) -> Vec<(FileId, usize)> {
        self.known.borrow().clone()
    }
}
