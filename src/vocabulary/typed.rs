//! Words as the model looks them up: each knows what it is read as.

use std::marker::PhantomData;

use super::value::Value;
use super::word::{Row, Slot};

/// What a word takes, and what it is read as.
pub trait Takes {
    /// Its arguments.
    const SLOTS: &'static [Slot];
    /// What its first argument is read as.
    type Is: ?Sized;

    /// The first argument, read.
    fn of(value: &Value) -> Option<&Self::Is>;
}

/// A word of the vocabulary that is read as `T` says. Only such a word can be
/// looked up, so that one that is not declared, or is read as something else,
/// does not compile.
#[derive(Debug)]
pub struct Word<T> {
    row: &'static Row,
    takes: PhantomData<fn() -> T>,
}

impl<T> Clone for Word<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Word<T> {}

impl<T> Word<T> {
    /// The word that this row of the table declares.
    #[must_use]
    pub(super) const fn of(row: &'static Row) -> Self {
        Self { row, takes: PhantomData }
    }

    /// What the vocabulary says of it.
    #[must_use]
    pub const fn row(self) -> &'static Row {
        self.row
    }

    /// How it is spelled.
    #[must_use]
    pub const fn spelling(self) -> &'static str {
        self.row.word
    }
}

/// A group of words: which of them stands.
pub trait Kinds: Copy + 'static {
    /// Every kind with its word.
    const ALL: &'static [(Self, &'static Row)];

    /// What the vocabulary says of its word.
    fn row(self) -> &'static Row;

    /// Its word in a spec.
    #[must_use]
    fn spelling(self) -> &'static str {
        self.row().word
    }
}
