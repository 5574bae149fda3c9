//! What stands in each slot of a word: the one way in which the reader and
//! whoever walks a tree pair words with their arguments.

use crate::measure::{Span, Spanned, Unit};
use crate::syntax::{Argument, Name, Statement};

use super::evaluate::Fault;
use super::slot::read_one;
use super::value::Value;
use super::word::{Row, Slot};

/// A slot with what stands in it.
#[derive(Debug)]
pub(super) struct Pair<'a> {
    pub(super) slot: &'static Slot,
    pub(super) found: Found<'a>,
}

/// What stands in a slot.
#[derive(Debug)]
pub(super) enum Found<'a> {
    /// Nothing.
    Nothing,
    /// The keyword, which is the first value of a word that stands for any name.
    Keyword(&'a Name),
    /// A value of its kind, written as these arguments.
    Value(Spanned<Value>, &'a [Argument]),
    /// Something else.
    Wrong(Fault, &'a Argument),
}

/// The slots of a word in order, with what stands in each.
#[derive(Debug)]
pub(super) struct Pairs<'a> {
    slots: std::slice::Iter<'static, Slot>,
    keyword: Option<&'a Name>,
    rest: &'a [Argument],
    unit: Unit,
}

impl<'a> Pairs<'a> {
    pub(super) fn of(word: &'static Row, statement: &'a Statement, unit: Unit) -> Self {
        let keyword = word.any_name.then_some(&statement.word);
        Self { slots: word.takes.iter(), keyword, rest: &statement.arguments, unit }
    }

    /// The arguments that no slot has taken yet.
    pub(super) fn rest(&self) -> &'a [Argument] {
        self.rest
    }
}

impl<'a> Iterator for Pairs<'a> {
    type Item = Pair<'a>;

    fn next(&mut self) -> Option<Pair<'a>> {
        let slot = self.slots.next()?;
        if let Some(name) = self.keyword.take() {
            return Some(Pair { slot, found: Found::Keyword(name) });
        }
        let Some(first) = self.rest.first() else {
            return Some(Pair { slot, found: Found::Nothing });
        };
        let (found, taken) = match read_one(slot.kind, self.rest, self.unit) {
            Ok((value, taken)) => {
                (Found::Value(value, self.rest.get(..taken).unwrap_or(&[])), taken)
            }
            Err(fault) => (Found::Wrong(fault, first), 1),
        };
        self.rest = self.rest.get(taken..).unwrap_or(&[]);
        Some(Pair { slot, found })
    }
}

impl Found<'_> {
    /// Where it stands.
    pub(super) fn span(&self) -> Option<Span> {
        match self {
            Self::Nothing => None,
            Self::Keyword(name) => Some(name.span),
            Self::Value(value, _) => Some(value.span),
            Self::Wrong(_, argument) => Some(argument.span()),
        }
    }
}
