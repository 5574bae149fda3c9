//! Where an edit puts a statement.

use crate::diagnostics::{Fix, Grade};
use crate::measure::Span;
use crate::vocabulary::{Entries, Word};

/// Where a word stands, or would.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Insertion {
    /// The statement that is replaced; empty where one is added.
    span: Span,
    /// The block that must be opened for it.
    block: Option<&'static str>,
}

impl Insertion {
    /// Of `word` in a block.
    pub(super) fn of<T>(body: &Entries, word: Word<T>) -> Self {
        Self { span: body.place(word), block: None }
    }

    /// Of a word in `block`, which does not stand yet in `body`.
    pub(super) fn within<T>(body: &Entries, block: Word<T>) -> Self {
        Self { span: body.place(block), block: Some(block.spelling()) }
    }

    /// The statement that is there, or the place where one would be added.
    #[must_use]
    pub fn span(&self) -> Span {
        self.span
    }

    /// True where no such statement stands there yet.
    #[must_use]
    pub fn is_added(&self) -> bool {
        self.span.start == self.span.end
    }

    /// The edit that makes a statement stand there.
    #[must_use]
    pub fn says(&self, statement: &str, title: impl Into<String>) -> Fix {
        let statement = match self.block {
            Some(block) => format!("{block} {{ {statement} }}"),
            None => statement.to_owned(),
        };
        let text = if self.is_added() { format!(" {statement};") } else { statement };
        Fix::new(Grade::Choice, title, self.span, text)
    }
}
