//! What every lowering step shares: the facts, the findings and the names.

use crate::diagnostics::{Diagnostic, Fix, Grade, Sink};
use crate::measure::{Length, Span, Spanned, Tape, nearest};
use crate::vocabulary::{BLOCKS, Entries, Entry, Sourced, block_named};

use super::size::{Facts, Size};

/// The state of a lowering.
#[derive(Debug)]
pub(super) struct Lower {
    /// Every figure that was read.
    pub(super) facts: Facts,
    /// Everything found.
    pub(super) sink: Sink,
    /// How the job prints its figures.
    pub(super) tape: Tape,
}

/// Things of one kind that are referred to by name.
#[derive(Debug)]
pub(super) struct Names<'a> {
    /// `stock`, `hinge`, …
    pub(super) what: &'static str,
    /// The names in the order of their index.
    pub(super) names: Vec<&'a str>,
}

impl Lower {
    /// A block with nothing in it, so that its defaults can be asked for.
    pub(super) fn empty(&self, name: &str) -> Entries {
        let block = block_named(name).unwrap_or(BLOCKS[0]);
        let nowhere = Span::default();
        Entries::new(block, self.tape.unit, nowhere, nowhere, Vec::new())
    }

    /// A size from a length of the vocabulary, if the word stands or has a default.
    pub(super) fn size(
        &mut self,
        entries: &Entries,
        word: &'static str,
        name: &str,
    ) -> Option<Size> {
        entries.length(word).map(|value| self.facts.said(value, name, word))
    }

    /// As [`Lower::size`], nought where there is none.
    pub(super) fn size_or_zero(
        &mut self,
        entries: &Entries,
        word: &'static str,
        name: &str,
    ) -> Size {
        self.size(entries, word, name).unwrap_or_default()
    }

    /// A size that must be above nought.
    pub(super) fn positive(
        &mut self,
        entries: &Entries,
        word: &'static str,
        name: &str,
    ) -> Option<Size> {
        let value = entries.length(word)?;
        self.above_nought(value, entries.open, word)?;
        Some(self.facts.said(value, name, word))
    }

    fn above_nought(&mut self, value: Sourced<Length>, open: Span, word: &str) -> Option<()> {
        if value.value.is_positive() {
            return Some(());
        }
        self.sink.push(Diagnostic::error(
            "absurd-size",
            format!("`{word}` must be more than nought"),
            value.span_or(open),
            "nothing",
        ));
        None
    }

    /// Finds `name` among `names`, or reports it.
    pub(super) fn find(&mut self, name: Spanned<&str>, names: &Names<'_>) -> Option<usize> {
        if let Some(index) = names.names.iter().position(|known| *known == name.value) {
            return Some(index);
        }
        let mut diagnostic = Diagnostic::error(
            "name-unknown",
            format!("no {} is called `{}`", names.what, name.value),
            name.span,
            "unknown name",
        );
        if let Some(near) = nearest(name.value, names.names.iter().copied()) {
            diagnostic = diagnostic.fix(Fix::new(
                Grade::Choice,
                format!("the {} `{near}`", names.what),
                name.span,
                near,
            ));
        } else if names.names.is_empty() {
            diagnostic = diagnostic.note(format!("the spec has no {} at all", names.what));
        } else {
            diagnostic = diagnostic.note(format!("there are: {}", names.names.join(", ")));
        }
        self.sink.push(diagnostic);
        None
    }

    /// The thing that `word` of a block refers to: `Ok(None)` where the word
    /// does not stand, `Err(())` where its name is unknown (reported).
    pub(super) fn refer(
        &mut self,
        entries: &Entries,
        word: &str,
        names: &Names<'_>,
    ) -> Option<Spanned<usize>> {
        let entry = entries.one(word)?;
        let name = entry.text(0)?;
        self.find(name, names).map(|index| Spanned::new(index, entry.head))
    }

    /// Reports a name that two things of one kind have.
    pub(super) fn twice<'a>(&mut self, what: &str, entries: impl Iterator<Item = &'a Entry>) {
        let mut seen: Vec<Spanned<String>> = Vec::new();
        for entry in entries {
            let Some(name) = entry.text(0) else { continue };
            if let Some(first) = seen.iter().find(|known| known.value == name.value) {
                self.sink.push(
                    Diagnostic::error(
                        "name-twice",
                        format!("two things are called `{}`", name.value),
                        name.span,
                        format!("a second {what} of this name"),
                    )
                    .label(first.span, "the first"),
                );
            } else {
                seen.push(Spanned::new(name.value.to_owned(), name.span));
            }
        }
    }
}
