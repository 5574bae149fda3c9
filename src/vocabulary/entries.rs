//! Statements after they have been read against the vocabulary. Looking a
//! word up marks it as read: what nobody has looked up at the end had no
//! effect, and is refused instead of being silently ignored.

use std::cell::Cell;
use std::marker::PhantomData;
use std::ops::Deref;
use std::rc::Rc;

use crate::diagnostics::Diagnostic;
use crate::measure::{Span, Spanned, Unit};

use super::blocks::NOTE;
use super::choice::Choice;
use super::defaults;
use super::takes::{Define, Flag, Size};
use super::typed::{Kinds, Takes, Word};
use super::value::{Origin, SizeExpr, Sourced, Value};
use super::word::{Block, Kind, Row, Times};

mod mirrored;

/// One statement.
#[derive(Clone, Debug)]
pub struct Entry {
    /// Its word in the vocabulary.
    pub word: &'static Row,
    /// The keyword.
    pub span: Span,
    /// The keyword and its arguments.
    pub head: Span,
    /// One for each slot of the word; `None` where an optional one is absent.
    pub values: Vec<Option<Spanned<Value>>>,
    /// Its block.
    pub body: Option<Entries>,
    /// A statement that holds in several places is read where any of them reads it.
    read: Rc<Cell<bool>>,
    /// It is written the other way round than it holds here.
    is_mirrored: bool,
}

/// The statements of one block.
#[derive(Clone, Debug)]
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
        word: &'static Row,
        span: Span,
        head: Span,
        values: Vec<Option<Spanned<Value>>>,
        body: Option<Entries>,
    ) -> Self {
        Self { word, span, head, values, body, read: Rc::default(), is_mirrored: false }
    }

    fn slot<T: Takes>(&self, slot: usize) -> Option<Spanned<&T::Is>> {
        let value = self.values.get(slot)?.as_ref()?;
        T::of(&value.value).map(|is| Spanned::new(is, value.span))
    }

    /// The name that it gives, where it gives one.
    #[must_use]
    pub fn name(&self) -> Option<Spanned<&str>> {
        let gives = self.word.takes.first().is_some_and(|slot| slot.kind == Kind::Define);
        gives.then(|| self.slot::<Define>(0)).flatten()
    }

    /// Which of a group of words it is; that is read then.
    #[must_use]
    pub fn kind<K: Kinds>(&self) -> Option<K> {
        let (kind, _) = K::ALL.iter().find(|(_, row)| row.word == self.word.word)?;
        self.read.set(true);
        Some(*kind)
    }

    /// What its braces hold; `None` where it has none.
    #[must_use]
    pub fn body(&self) -> Option<&Entries> {
        self.body.as_ref()
    }

    /// Takes from the same statement written higher what its own braces leave out, unless
    /// the two make another choice, for which the braces there say nothing.
    fn take_from(&mut self, higher: &Self) {
        let choice = |entry: &Self| -> Vec<Option<&'static Choice>> {
            let values = entry.values.iter().map(|value| match value.as_ref()?.value {
                Value::Choice(choice) => Some(choice),
                _ => None,
            });
            values.collect()
        };
        if choice(self) != choice(higher) {
            return;
        }
        let Some(above) = &higher.body else { return };
        higher.read.set(true);
        self.body = Some(match &self.body {
            Some(own) => own.below(above, own.block, &[]),
            None => above.clone(),
        });
    }

    /// The statement with what its braces say together with those written higher.
    #[must_use]
    pub fn with(&self, body: Entries) -> Self {
        Self { body: Some(body), ..self.clone() }
    }

    /// True where it is written the other way round than it holds here.
    #[must_use]
    pub fn is_mirrored(&self) -> bool {
        self.is_mirrored
    }

    /// The statement alone.
    #[must_use]
    pub fn without_body(&self) -> Self {
        Self { body: None, ..self.clone() }
    }

    /// Marks the statement and everything in it as read.
    pub fn mark_all(&self) {
        self.read.set(true);
        for entry in self.body.iter().flat_map(|body| &body.items) {
            entry.mark_all();
        }
    }
}

/// A statement, and what its word is read as.
#[derive(Debug)]
pub struct Said<'a, T> {
    /// The statement.
    pub entry: &'a Entry,
    takes: PhantomData<fn() -> T>,
}

impl<T> Clone for Said<'_, T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Said<'_, T> {}

impl<T> Deref for Said<'_, T> {
    type Target = Entry;

    fn deref(&self) -> &Entry {
        self.entry
    }
}

impl<'a, T> Said<'a, T> {
    fn new(entry: &'a Entry) -> Self {
        Self { entry, takes: PhantomData }
    }

    /// What its braces hold; `None` where it has none.
    #[must_use]
    pub fn body(self) -> Option<&'a Entries> {
        self.entry.body()
    }
}

impl<'a, T: Takes> Said<'a, T> {
    /// Its first argument; `None` where that may be left out, and is.
    #[must_use]
    pub fn value(self) -> Option<Spanned<&'a T::Is>> {
        self.entry.slot::<T>(0)
    }
}

impl<T: Takes<Is: Copy + PartialEq>> Said<'_, T> {
    /// True where it says just this.
    #[must_use]
    pub fn is(self, value: T::Is) -> bool {
        self.value().is_some_and(|own| *own.value == value)
    }
}

impl<'a, A, B, C: Takes> Said<'a, (A, B, C)> {
    /// Its third argument.
    #[must_use]
    pub fn third(self) -> Option<Spanned<&'a C::Is>> {
        self.entry.slot::<C>(2)
    }
}

impl<'a, A, B, C: Takes, D: Takes> Said<'a, (A, B, C, D)> {
    /// Its third argument.
    #[must_use]
    pub fn third(self) -> Option<Spanned<&'a C::Is>> {
        self.entry.slot::<C>(2)
    }

    /// Its fourth argument.
    #[must_use]
    pub fn fourth(self) -> Option<Spanned<&'a D::Is>> {
        self.entry.slot::<D>(3)
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

    /// The block with what one written higher says where this one is silent, read as a
    /// block of `kind`: word by word, and inside braces too. Of a group of which one
    /// word may stand, and where the two say another choice, this one holds alone. The
    /// words of `own` are not handed down.
    #[must_use]
    pub fn below(&self, above: &Self, kind: &'static Block, own: &[&str]) -> Self {
        let handed = || above.items.iter().filter(|higher| !own.contains(&higher.word.word));
        let settled = |word: &str| {
            let group = kind.one_of.iter().find(|(group, _)| group.contains(&word));
            group.is_some_and(|(group, _)| {
                self.items.iter().any(|own| group.contains(&own.word.word))
            })
        };
        let mut items: Vec<Entry> = Vec::with_capacity(self.items.len() + above.items.len());
        for own in &self.items {
            let higher = handed().find(|higher| higher.word.word == own.word.word);
            let mut own = own.clone();
            if let Some(higher) = higher.filter(|_| own.word.times != Times::Many) {
                own.take_from(higher);
            }
            items.push(own);
        }
        let unsaid = handed().filter(|higher| {
            let word = higher.word.word;
            let says = self.items.iter().any(|own| own.word.word == word);
            !says && !settled(word) && kind.word(word).is_some()
        });
        items.extend(unsaid.cloned());
        Self { block: kind, open: self.open, close: self.close, unit: self.unit, items }
    }

    /// The block with all that one written elsewhere says and this one does not, read as a
    /// block of `kind`. What this one says holds with its braces as they are; of words that
    /// may stand many times, those of one choice. `instead` are groups of words of which one
    /// takes the place of the others.
    #[must_use]
    pub fn like(&self, other: &Self, kind: &'static Block, instead: &[&[&str]]) -> Self {
        let same = |own: &Entry, theirs: &Entry| {
            let word = theirs.word.word;
            let grouped = |group: &&&[&str]| group.contains(&own.word.word);
            let chosen = |entry: &Entry| match entry.values.first()?.as_ref()?.value {
                Value::Choice(choice) if entry.word.times == Times::Many => Some(choice),
                _ => None,
            };
            instead.iter().filter(grouped).any(|group| group.contains(&word))
                || own.word.word == word && chosen(own) == chosen(theirs)
        };
        let unsaid =
            other.items.iter().filter(|theirs| !self.items.iter().any(|own| same(own, theirs)));
        let items = self.items.iter().chain(unsaid).cloned().collect();
        Self { block: kind, items, ..self.clone() }
    }

    /// The block with some of its statements replaced.
    #[must_use]
    pub fn with_each(&self, replace: impl FnMut(&Entry) -> Entry) -> Self {
        Self { items: self.items.iter().map(replace).collect(), ..self.clone() }
    }

    /// How many statements stand in it, in braces too.
    #[must_use]
    pub fn statements(&self) -> usize {
        self.items.iter().map(|own| 1 + own.body.as_ref().map_or(0, Self::statements)).sum()
    }

    /// Adds a statement that was written elsewhere and holds here too.
    pub fn add(&mut self, entry: Entry) {
        self.items.push(entry);
    }

    fn written(&self, row: &'static Row) -> Option<&Entry> {
        debug_assert!(self.holds(row), "{} in {}", row.word, self.block.name);
        self.items.iter().find(|entry| entry.word.word == row.word)
    }

    /// True where the block may hold this word, read as it is here.
    fn holds(&self, row: &'static Row) -> bool {
        self.block.word(row.word).is_some_and(|own| own.takes == row.takes)
    }

    /// True for a word that this block may hold.
    #[must_use]
    pub fn may_hold<T>(&self, word: Word<T>) -> bool {
        self.holds(word.row())
    }

    /// The one statement with this word.
    #[must_use]
    pub fn one<T>(&self, word: Word<T>) -> Option<Said<'_, T>> {
        let entry = self.written(word.row())?;
        entry.read.set(true);
        Some(Said::new(entry))
    }

    /// How a word is spelled where it is written; as it is where it is not.
    #[must_use]
    pub fn spelled<T>(&self, word: Word<T>) -> &'static str {
        let entry = self.written(word.row());
        entry.map_or(word.spelling(), Entry::spelled)
    }

    /// True where the word stands.
    #[must_use]
    pub fn says<T>(&self, word: Word<T>) -> bool {
        self.one(word).is_some()
    }

    /// Every statement with this word, in order.
    pub fn all<T>(&self, word: Word<T>) -> impl Iterator<Item = Said<'_, T>> {
        let row = word.row();
        debug_assert!(self.holds(row), "{} in {}", row.word, self.block.name);
        let same = self.items.iter().filter(move |entry| entry.word.word == row.word);
        same.inspect(|entry| entry.read.set(true)).map(Said::new)
    }

    /// Marks a word as read that says nothing more than that it stands.
    pub fn noted<T>(&self, word: Word<T>) {
        self.all(word).for_each(drop);
    }

    /// Every statement in order, whatever its word; none is marked as read.
    pub fn in_order(&self) -> impl Iterator<Item = &Entry> {
        self.items.iter()
    }

    /// Which of a group of words stands.
    #[must_use]
    pub fn which<K: Kinds>(&self) -> Option<(K, &Entry)> {
        K::ALL.iter().find_map(|(kind, row)| {
            let entry = self.written(row)?;
            entry.read.set(true);
            Some((*kind, entry))
        })
    }

    /// Where a word stands that takes nothing.
    #[must_use]
    pub fn flag(&self, word: Word<Flag>) -> Option<Span> {
        self.one(word).map(|said| said.span)
    }

    /// What a word says, or its default.
    #[must_use]
    pub fn get<T>(&self, word: Word<T>) -> Option<Sourced<<T::Is as ToOwned>::Owned>>
    where
        T: Takes<Is: ToOwned>,
    {
        if let Some(said) = self.one(word) {
            let origin = Origin::Written(said.head);
            return said.value().map(|is| Sourced { value: is.value.to_owned(), origin });
        }
        let row = self.block.word(word.spelling())?;
        let value = T::of(&defaults::value(row, self.unit)?)?.to_owned();
        Some(Sourced { value, origin: Origin::Default { block: self.block.name, word: row.word } })
    }

    /// A size expression with the statement it stands in; sizes have no defaults.
    #[must_use]
    pub fn size(&self, word: Word<Size>) -> Option<Spanned<&SizeExpr>> {
        let said = self.one(word)?;
        said.value().map(|size| Spanned::new(size.value, said.head))
    }

    /// Where an edit puts a word: its statement, or just behind the opening
    /// brace where there is none.
    #[must_use]
    pub fn place<T>(&self, word: Word<T>) -> Span {
        let written = self.written(word.row());
        written.map_or(Span { start: self.open.end, ..self.open }, |entry| entry.head)
    }

    /// Every note of the block.
    #[must_use]
    pub fn notes(&self) -> Vec<String> {
        self.all(NOTE).filter_map(Said::value).map(|text| text.value.to_owned()).collect()
    }

    /// A diagnostic for every statement that nothing has read.
    pub fn unread(&self, found: &mut Vec<Diagnostic>) {
        for entry in &self.items {
            if !entry.read.get() {
                found.push(
                    Diagnostic::error(
                        "not-supported-yet",
                        format!("`{}` is not supported here yet", entry.word.word),
                        entry.head,
                        "not supported yet",
                    )
                    .note(format!("casewright reads `{}` in {} but does nothing with it in this combination; take it out, so that nothing goes missing from the papers", entry.word.word, self.block.title)),
                );
            } else if let Some(body) = &entry.body {
                body.unread(found);
            }
        }
    }
}
