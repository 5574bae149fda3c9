//! Statements after they have been read against the vocabulary. Looking a
//! word up marks it as read: what nobody has looked up at the end had no
//! effect, and is refused instead of being silently ignored.

use std::cell::Cell;

use crate::diagnostics::Diagnostic;
use crate::measure::{Angle, Date, Duration, Exact, Length, Span, Spanned, Unit};

use super::defaults;
use super::value::{Origin, SizeExpr, Sourced, Value};
use super::word::{Block, Word};

/// One statement.
#[derive(Debug)]
pub struct Entry {
    /// Its word in the vocabulary.
    pub word: &'static Word,
    /// The keyword.
    pub span: Span,
    /// The keyword and its arguments.
    pub head: Span,
    /// One for each slot of the word; `None` where an optional one is absent.
    pub values: Vec<Option<Spanned<Value>>>,
    /// Its block.
    pub body: Option<Entries>,
    read: Cell<bool>,
}

/// The statements of one block.
#[derive(Debug)]
pub struct Entries {
    /// The block in the vocabulary.
    pub block: &'static Block,
    /// The opening brace, or the start of the file.
    pub open: Span,
    /// Just before the closing brace: where a statement can be added.
    pub close: Span,
    /// What a bare number of its file counts.
    pub unit: Unit,
    items: Vec<Entry>,
}

impl Entry {
    /// A statement nobody has looked at yet.
    #[must_use]
    pub fn new(
        word: &'static Word,
        span: Span,
        head: Span,
        values: Vec<Option<Spanned<Value>>>,
        body: Option<Entries>,
    ) -> Self {
        Self { word, span, head, values, body, read: Cell::new(false) }
    }

    fn value(&self, slot: usize) -> Option<&Spanned<Value>> {
        self.values.get(slot).and_then(Option::as_ref)
    }

    /// The word in slot `slot`: a name, a choice, a label.
    #[must_use]
    pub fn text(&self, slot: usize) -> Option<Spanned<&str>> {
        match self.value(slot) {
            Some(Spanned { value: Value::Word(text) | Value::Text(text), span }) => {
                Some(Spanned::new(text, *span))
            }
            _ => None,
        }
    }

    /// The dotted name in slot `slot`.
    #[must_use]
    pub fn path(&self, slot: usize) -> Option<Spanned<String>> {
        match self.value(slot) {
            Some(Spanned { value: Value::Path(name), span }) => {
                Some(Spanned::new(name.text(), *span))
            }
            _ => None,
        }
    }

    /// The count in slot `slot`.
    #[must_use]
    pub fn count(&self, slot: usize) -> Option<Spanned<u32>> {
        match self.value(slot) {
            Some(Spanned { value: Value::Count(count), span }) => Some(Spanned::new(*count, *span)),
            _ => None,
        }
    }

    /// The length in slot `slot`.
    #[must_use]
    pub fn length(&self, slot: usize) -> Option<Spanned<Length>> {
        match self.value(slot) {
            Some(Spanned { value: Value::Length(length), span }) => {
                Some(Spanned::new(*length, *span))
            }
            _ => None,
        }
    }

    /// The date in slot `slot`.
    #[must_use]
    pub fn date(&self, slot: usize) -> Option<Spanned<Date>> {
        match self.value(slot) {
            Some(Spanned { value: Value::Date(date), span }) => Some(Spanned::new(*date, *span)),
            _ => None,
        }
    }

    /// Its block, or an empty one.
    #[must_use]
    pub fn body(&self) -> Option<&Entries> {
        self.body.as_ref()
    }

    /// Marks the statement and everything in it as read.
    pub fn mark_all(&self) {
        self.read.set(true);
        for entry in self.body.iter().flat_map(|body| &body.items) {
            entry.mark_all();
        }
    }
}

impl Entries {
    /// The statements of a block.
    #[must_use]
    pub fn new(
        block: &'static Block,
        unit: Unit,
        open: Span,
        close: Span,
        items: Vec<Entry>,
    ) -> Self {
        Self { block, open, close, unit, items }
    }

    /// The one statement with this word.
    #[must_use]
    pub fn one(&self, word: &str) -> Option<&Entry> {
        debug_assert!(self.block.word(word).is_some(), "{word} in {}", self.block.name);
        let entry = self.items.iter().find(|entry| entry.word.word == word)?;
        entry.read.set(true);
        Some(entry)
    }

    /// Every statement with this word, in order.
    pub fn all<'a>(&'a self, word: &'a str) -> impl Iterator<Item = &'a Entry> {
        debug_assert!(self.block.word(word).is_some(), "{word} in {}", self.block.name);
        self.items.iter().filter(move |entry| entry.word.word == word).inspect(|e| e.read.set(true))
    }

    /// Marks a word as read that says nothing more than that it stands.
    pub fn noted(&self, word: &str) {
        self.all(word).for_each(drop);
    }

    /// Every statement in order, whatever its word; none is marked as read.
    pub fn in_order(&self) -> impl Iterator<Item = &Entry> {
        self.items.iter()
    }

    /// Marks one statement as read.
    pub fn mark(&self, entry: &Entry) {
        entry.read.set(true);
    }

    /// True where a word without arguments stands.
    #[must_use]
    pub fn flag(&self, word: &str) -> Option<Span> {
        self.one(word).map(|entry| entry.span)
    }

    /// The first of several words that stands, for a choice of one.
    #[must_use]
    pub fn first_of<'a>(&self, words: &[&'a str]) -> Option<(&'a str, &Entry)> {
        words.iter().find_map(|word| self.one(word).map(|entry| (*word, entry)))
    }

    fn sourced<T>(&self, word: &str, pick: impl FnOnce(&Value) -> Option<T>) -> Option<Sourced<T>> {
        if let Some(entry) = self.one(word) {
            let value = entry.value(0)?;
            return pick(&value.value)
                .map(|value2| Sourced { value: value2, origin: Origin::Written(entry.head) });
        }
        let word = self.block.word(word)?;
        let value = defaults::value(word, self.unit)?;
        pick(&value).map(|value| Sourced {
            value,
            origin: Origin::Default { block: self.block.name, word: word.word },
        })
    }

    /// A length, written or by default.
    #[must_use]
    pub fn length(&self, word: &str) -> Option<Sourced<Length>> {
        self.sourced(word, |value| match value {
            Value::Length(length) => Some(*length),
            _ => None,
        })
    }

    /// A size expression with the statement it stands in; sizes have no defaults.
    #[must_use]
    pub fn size(&self, word: &str) -> Option<Spanned<&SizeExpr>> {
        let entry = self.one(word)?;
        match entry.value(0) {
            Some(Spanned { value: Value::Size(size), .. }) => Some(Spanned::new(size, entry.head)),
            _ => None,
        }
    }

    /// A choice or label, written or by default.
    #[must_use]
    pub fn word(&self, word: &str) -> Option<Sourced<String>> {
        self.sourced(word, |value| match value {
            Value::Word(text) | Value::Text(text) => Some(text.clone()),
            _ => None,
        })
    }

    /// A count, written or by default.
    #[must_use]
    pub fn count(&self, word: &str) -> Option<Sourced<u32>> {
        self.sourced(word, |value| match value {
            Value::Count(count) => Some(*count),
            _ => None,
        })
    }

    /// A plain number, written or by default.
    #[must_use]
    pub fn number(&self, word: &str) -> Option<Sourced<Exact>> {
        self.sourced(word, |value| match value {
            Value::Number(number) => Some(*number),
            _ => None,
        })
    }

    /// A time, written or by default.
    #[must_use]
    pub fn duration(&self, word: &str) -> Option<Sourced<Duration>> {
        self.sourced(word, |value| match value {
            Value::Duration(duration) => Some(*duration),
            _ => None,
        })
    }

    /// An angle, written or by default.
    #[must_use]
    pub fn angle(&self, word: &str) -> Option<Sourced<Angle>> {
        self.sourced(word, |value| match value {
            Value::Angle(angle) => Some(*angle),
            _ => None,
        })
    }

    /// Any other value, written or by default.
    #[must_use]
    pub fn any(&self, word: &str) -> Option<Sourced<Value>> {
        self.sourced(word, |value| Some(value.clone()))
    }

    /// Where an edit puts `word`: its statement, or just behind the opening
    /// brace where there is none.
    #[must_use]
    pub fn place(&self, word: &str) -> Span {
        let written = self.items.iter().find(|entry| entry.word.word == word);
        written.map_or(Span { start: self.open.end, ..self.open }, |entry| entry.head)
    }

    /// Every note of the block.
    #[must_use]
    pub fn notes(&self) -> Vec<String> {
        self.all("note").filter_map(|entry| entry.text(0)).map(|t| t.value.to_owned()).collect()
    }

    /// A diagnostic for every statement that nothing has read.
    pub fn unread(&self, found: &mut Vec<Diagnostic>) {
        for entry in &self.items {
            if !entry.read.get() {
                found.push(
                    Diagnostic::error(
                        "not-supported-yet",
                        format!("`{}` has no effect here yet", entry.word.word),
                        entry.head,
                        "not supported yet",
                    )
                    .note(format!("casewright reads `{}` in {} but does nothing with it in this combination; take it out so that no paper leaves it out silently", entry.word.word, self.block.title)),
                );
            } else if let Some(body) = &entry.body {
                body.unread(found);
            }
        }
    }
}
