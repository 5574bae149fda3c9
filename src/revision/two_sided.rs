//! What a difference is made of: pairs, lists that came and went, figures.

use std::ops::Deref;

use serde::{Serialize, Serializer};

use crate::diagnostics::render::fraction;
use crate::measure::{Length, Tape};
use crate::model::{Case, FrontId, Leaf, Opening, Piece, Space};
use crate::parts::front_path;

/// Both sides of one thing.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Pair<T> {
    /// Before.
    pub was: T,
    /// After.
    pub now: T,
}

impl<T: PartialEq> Pair<T> {
    /// Both sides, where they differ.
    pub(super) fn unequal(was: T, now: T) -> Option<Self> {
        (was != now).then_some(Self { was, now })
    }
}

/// What came and what went.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Lists<T> {
    /// Only after.
    pub added: Vec<T>,
    /// Only before.
    pub dropped: Vec<T>,
}

impl<T> Default for Lists<T> {
    fn default() -> Self {
        Self { added: Vec::new(), dropped: Vec::new() }
    }
}

impl<T> Lists<T> {
    /// True where nothing came or went.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.added.is_empty() && self.dropped.is_empty()
    }
}

/// Things of one kind.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Changes<C, T> {
    /// On both sides, and different.
    pub changed: Vec<C>,
    /// Only after.
    pub added: Vec<T>,
    /// Only before.
    pub dropped: Vec<T>,
}

impl<C, T> Default for Changes<C, T> {
    fn default() -> Self {
        Self { changed: Vec::new(), added: Vec::new(), dropped: Vec::new() }
    }
}

impl<C, T> Changes<C, T> {
    /// True where nothing differs.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.changed.is_empty() && self.added.is_empty() && self.dropped.is_empty()
    }
}

/// A whole name, and the shorter one by which it is told on paper.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Told {
    /// The whole: `console.bank.upper`.
    pub whole: String,
    /// Without its case, or the end of it: `bank.upper`.
    pub short: String,
}

impl Told {
    /// A case, which has no name beside its own.
    pub(super) fn of_case(case: &Case) -> Self {
        Self { whole: case.path.clone(), short: case.name.clone() }
    }

    /// A free place in a run.
    pub(super) fn of_space(space: &Space) -> Self {
        Self { whole: space.path.clone(), short: space.name.clone() }
    }

    /// A name that begins with that of its case.
    pub(super) fn within(case: &Case, whole: &str) -> Self {
        let short = whole.get(case.path.len() + 1..).unwrap_or(whole);
        Self { whole: whole.to_owned(), short: short.to_owned() }
    }

    /// An opening by its own name.
    pub(super) fn own(opening: &Opening) -> Self {
        Self { whole: opening.path.clone(), short: opening.name().to_owned() }
    }

    /// A front: that of a drawer by its opening.
    pub(super) fn of_front(piece: &Piece, front: FrontId) -> Self {
        let whole = front_path(piece, front);
        let (Some(case), Some(opening)) =
            (piece.case(front.opening.case), piece.opening(front.opening))
        else {
            return Self { short: whole.clone(), whole };
        };
        let told = if front.leaf == Leaf::Front { &opening.path } else { &whole };
        Self { short: Self::within(case, told).short, whole }
    }
}

impl Deref for Told {
    type Target = str;

    fn deref(&self) -> &str {
        &self.whole
    }
}

impl Serialize for Told {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.whole.serialize(serializer)
    }
}

/// A length with how it is printed.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Figure {
    /// The exact length.
    pub length: Length,
    /// At a mark of the tape, `~` behind it where it was rounded.
    pub text: String,
}

impl Figure {
    pub(super) fn new(length: Length, tape: Tape) -> Self {
        Self { length, text: tape.text(length) }
    }

    /// Both sides of a change; exact where the tape shows one figure for both.
    pub(super) fn both(was: Length, now: Length, tape: Tape) -> Pair<Self> {
        let same = tape.print(was).shown == tape.print(now).shown;
        let [old, new] = match same {
            true => tape.as_fine_as_needed(was, now),
            false => [tape.text(was), tape.text(now)],
        };
        let figure = |length, text| Self { length, text };
        Pair { was: figure(was, old), now: figure(now, new) }
    }

    /// Finer than the tape, as physics gives it.
    pub(super) fn fine(length: Length, tape: Tape) -> Self {
        Self { length, text: tape.fine(length) }
    }
}

impl Serialize for Figure {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Amount { mm: fraction(self.length), text: &self.text }.serialize(serializer)
    }
}

/// A length as other programs read it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Amount<'a> {
    /// A fraction of millimetres, `127/5`.
    pub mm: Option<String>,
    /// As printed.
    pub text: &'a str,
}

/// A size that changed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Resized {
    /// `length`, `width`, `thickness`, `wide`, `high`, `deep`.
    pub size: &'static str,
    /// Before.
    pub was: Figure,
    /// After.
    pub now: Figure,
    /// By how much; below nought where it became less.
    pub by: Figure,
}

impl Resized {
    /// The change, where there is one.
    pub(super) fn of(size: &'static str, was: Length, now: Length, tape: Tape) -> Option<Self> {
        if was == now {
            return None;
        }
        let by = now - was;
        let sign = if by.is_negative() { "−" } else { "+" };
        let Pair { was, now } = Figure::both(was, now, tape);
        Some(Self {
            size,
            was,
            now,
            by: Figure { length: by, text: format!("{sign}{}", step(by.abs(), tape)) },
        })
    }
}

/// A difference of two lengths; one below the tape's mark is printed finer.
pub(super) fn step(by: Length, tape: Tape) -> String {
    if tape.print(by).shown.is_zero() { tape.fine(by) } else { tape.figure(by) }
}
