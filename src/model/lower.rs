//! What every lowering step shares: the facts, the findings and the names.

use std::collections::BTreeSet;
use std::marker::PhantomData;

use crate::diagnostics::{Diagnostic, Fix, Grade, Sink};
use crate::measure::{Length, Span, Spanned, Tape, nearest};
use crate::vocabulary::takes::Thing;
use crate::vocabulary::{Block, Entries, Entry, Refer, Sourced, Takes, Word};

use super::given::Given;
use super::size::{Facts, Size};
use super::standing_sizes::CaseSizes;

/// The state of a lowering.
#[derive(Debug)]
pub(super) struct Lower {
    /// Every figure that was read.
    pub(super) facts: Facts,
    /// Everything found.
    pub(super) sink: Sink,
    /// How the job prints its figures.
    pub(super) tape: Tape,
    /// What was found before the lowering went on past an error, only to learn
    /// what stands: whatever it finds from there on may come of that error.
    heard: Option<Sink>,
    /// A case was only made up, to be drawn.
    pub(super) made_up: bool,
    /// The sizes of cases that could not be solved, as far as they are known.
    pub(super) half_solved: Vec<CaseSizes>,
    /// From brace to brace, the cases that others take over from.
    pub(super) taken_over: Vec<Span>,
    /// What is referred to by name: its kind, and its place among those.
    named: BTreeSet<(&'static str, usize)>,
}

/// Things of one kind that are referred to by name.
#[derive(Debug)]
pub(super) struct Names<'a, T> {
    /// The names in the order of their index.
    names: Vec<&'a str>,
    of: PhantomData<fn() -> T>,
}

impl<'a, T> Names<'a, T> {
    /// The names of all things of a kind.
    pub(super) fn new(names: impl Iterator<Item = &'a str>) -> Self {
        Self { names: names.collect(), of: PhantomData }
    }
}

impl Lower {
    pub(super) fn new() -> Self {
        Self {
            facts: Facts::default(),
            sink: Sink::new(),
            tape: Tape::inches(),
            heard: None,
            made_up: false,
            half_solved: Vec::new(),
            taken_over: Vec::new(),
            named: BTreeSet::new(),
        }
    }

    /// True for a thing of a kind, by its place among them, that something refers to.
    pub(super) fn is_named<T: Thing>(&self, index: usize) -> bool {
        self.named.contains(&(T::WHAT, index))
    }

    /// Goes on past an error: what is found from here on is dropped by
    /// [`Lower::stop_going_on`].
    pub(super) fn go_on(&mut self) {
        if self.heard.is_none() {
            self.heard = Some(self.sink.clone());
        }
    }

    /// True while what is found does not count.
    pub(super) fn goes_on(&self) -> bool {
        self.heard.is_some()
    }

    /// Drops what was found since [`Lower::go_on`].
    pub(super) fn stop_going_on(&mut self) {
        if let Some(heard) = self.heard.take() {
            self.sink = heard;
        }
    }

    /// A block with nothing in it, so that its defaults can be asked for.
    pub(super) fn empty(&self, block: &'static Block) -> Entries {
        let nowhere = Span::default();
        Entries::new(block, self.tape.unit, nowhere, nowhere, Vec::new())
    }

    /// A size from a length of the vocabulary, if the word stands or has a default.
    pub(super) fn size(
        &mut self,
        entries: &Entries,
        word: Word<impl Takes<Is = Length>>,
        name: &str,
    ) -> Option<Size> {
        entries.get(word).map(|value| self.facts.said(value, name, entries.spelled(word)))
    }

    /// As [`Lower::size`], nought where there is none.
    pub(super) fn size_or_zero(
        &mut self,
        entries: &Entries,
        word: Word<impl Takes<Is = Length>>,
        name: &str,
    ) -> Size {
        self.size(entries, word, name).unwrap_or_default()
    }

    /// A size that must be above nought.
    pub(super) fn positive(
        &mut self,
        entries: &Entries,
        word: Word<impl Takes<Is = Length>>,
        name: &str,
    ) -> Given<Size> {
        let Some(value) = entries.get(word) else { return Given::Absent };
        if !self.above_nought(value, entries.open, word.spelling()) {
            return Given::Refused;
        }
        Given::Is(self.facts.said(value, name, entries.spelled(word)))
    }

    fn above_nought(&mut self, value: Sourced<Length>, open: Span, word: &str) -> bool {
        if value.value.is_positive() {
            return true;
        }
        self.sink.push(Diagnostic::error(
            "absurd-size",
            format!("`{word}` must be more than zero"),
            value.span_or(open),
            "nothing",
        ));
        false
    }

    /// Finds `name` among `names`, or reports it.
    pub(super) fn find<T: Thing>(
        &mut self,
        name: Spanned<&str>,
        names: &Names<'_, T>,
    ) -> Option<usize> {
        let what = T::WHAT;
        if let Some(index) = names.names.iter().position(|known| *known == name.value) {
            return Some(index);
        }
        let mut diagnostic = Diagnostic::error(
            "name-unknown",
            format!("no {what} is called `{}`", name.value),
            name.span,
            "unknown name",
        );
        if let Some(near) = nearest(name.value, names.names.iter().copied()) {
            // What stands in quotes keeps them.
            let long = usize::try_from(name.span.end - name.span.start);
            let is_quoted = long.is_ok_and(|long| long > name.value.len());
            let text = if is_quoted { format!("\"{near}\"") } else { near.to_owned() };
            let title = format!("it is the {what} `{near}`");
            diagnostic = diagnostic.fix(Fix::new(Grade::Choice, title, name.span, text));
        } else if names.names.is_empty() {
            diagnostic = diagnostic.note(format!("the spec has no {what} at all"));
        } else {
            diagnostic = diagnostic.note(format!("the spec has {}", names.names.join(", ")));
        }
        self.sink.push(diagnostic);
        None
    }

    /// The thing that `word` of a block refers to, and its statement; a name
    /// that is unknown is refused.
    pub(super) fn refer<T: Thing>(
        &mut self,
        entries: &Entries,
        word: Word<Refer<T>>,
        names: &Names<'_, T>,
    ) -> Given<Spanned<usize>> {
        let Some(said) = entries.one(word) else { return Given::Absent };
        let index = said.value().and_then(|name| self.find(name, names));
        self.named.extend(index.map(|index| (T::WHAT, index)));
        index.map_or(Given::Refused, |index| Given::Is(Spanned::new(index, said.head)))
    }

    /// Reports a name that two things of one kind have.
    pub(super) fn twice<'a>(&mut self, what: &str, entries: impl Iterator<Item = &'a Entry>) {
        let mut seen: Vec<Spanned<String>> = Vec::new();
        for entry in entries {
            let Some(name) = entry.name() else { continue };
            if let Some(first) = seen.iter().find(|known| known.value == name.value) {
                self.sink.push(
                    Diagnostic::error(
                        "name-twice",
                        format!("two things are called `{}`", name.value),
                        name.span,
                        format!("the second {what} with this name"),
                    )
                    .label(first.span, "the first one"),
                );
            } else {
                seen.push(Spanned::new(name.value.to_owned(), name.span));
            }
        }
    }
}
