//! Statements the other way round, left for right.

use crate::measure::Spanned;
use crate::vocabulary::choice::Choice;
use crate::vocabulary::value::Value;
use crate::vocabulary::word::{Block, Hand, Kind, Slot};

use super::{Entries, Entry};

impl Entries {
    /// The block as it reads the other way round. Every statement stays where it is written.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        self.with_each(|own| own.mirrored(self.block))
    }

    /// The block with its statements in reverse order.
    fn turned(self) -> Self {
        let items = self.items.into_iter().rev().collect();
        Self { items, ..self }
    }
}

impl Entry {
    /// The statement as it reads the other way round, in a block of this kind.
    fn mirrored(&self, block: &'static Block) -> Self {
        let values = self.word.takes.iter().zip(&self.values);
        let values = values.map(|(slot, value)| {
            let value = value.as_ref()?;
            Some(Spanned::new(turned(*slot, &value.value), value.span))
        });
        let body = self.body.as_ref().map(Entries::mirrored);
        let (word, body) = match self.word.hand {
            Hand::Neither => (self.word, body),
            Hand::Other(other) => (block.word(other).unwrap_or(self.word), body),
            Hand::Across => (self.word, body.map(Entries::turned)),
        };
        let is_mirrored = !self.is_mirrored;
        Self { word, values: values.collect(), body, is_mirrored, ..self.clone() }
    }

    /// Its word as it is written.
    pub(super) fn spelled(&self) -> &'static str {
        match self.word.hand {
            Hand::Other(other) if self.is_mirrored => other,
            Hand::Other(_) | Hand::Neither | Hand::Across => self.word.word,
        }
    }
}

/// A value as it reads the other way round: a choice of a side is that of the other.
fn turned(slot: Slot, value: &Value) -> Value {
    let among: &'static [Choice] = match slot.kind {
        Kind::Choice(among) => among,
        _ => &[],
    };
    match value {
        Value::Choice(Choice { other: Some(other), .. }) => {
            let found = among.iter().find(|choice| choice.word == *other);
            found.map_or_else(|| value.clone(), Value::Choice)
        }
        _ => value.clone(),
    }
}
