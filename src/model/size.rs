//! Sizes that remember the statements they were worked out from.

use std::ops::{Add, Div, Mul, Neg, Sub};
use std::sync::Arc;

use crate::measure::{Exact, Length, Span};
use crate::vocabulary::{Origin, Sourced};

/// A figure that was written, or that holds by default.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fact {
    /// The figure.
    pub length: Length,
    /// What it is: `console wide`, `thickness of birch-ply`.
    pub name: String,
    /// Where it was written, or whose default it is.
    pub origin: Origin,
    /// The word that it is written behind, where it can be written anew there.
    pub word: Option<&'static str>,
}

/// A fact in its [`Facts`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FactId(u32);

/// All facts of a piece.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Facts {
    all: Vec<Fact>,
}

impl Facts {
    /// Adds a fact and gives it as a size.
    pub fn add(&mut self, length: Length, name: impl Into<String>, origin: Origin) -> Size {
        let id = FactId(u32::try_from(self.all.len()).unwrap_or(u32::MAX));
        let measured = matches!(origin, Origin::Measured(_));
        let length = if measured { length.as_measured() } else { length };
        self.all.push(Fact { length, name: name.into(), origin, word: None });
        Size { length, terms: Some(Arc::new([(id, Exact::ONE)])) }
    }

    /// Adds a value read from the vocabulary.
    pub fn sourced(&mut self, value: Sourced<Length>, name: impl Into<String>) -> Size {
        self.add(value.value, name, value.origin)
    }

    /// Adds the figure of a statement.
    pub fn said(
        &mut self,
        value: Sourced<Length>,
        name: impl Into<String>,
        word: &'static str,
    ) -> Size {
        let size = self.sourced(value, name);
        if let Some(fact) = self.all.last_mut() {
            fact.word = fact.origin.span().map(|_| word);
        }
        size
    }

    /// The fact; `None` for an id that another set gave out.
    #[must_use]
    pub fn get(&self, id: FactId) -> Option<&Fact> {
        self.all.get(id.0 as usize)
    }

    /// Every fact, in the order in which they were read.
    pub fn all(&self) -> impl Iterator<Item = &Fact> {
        self.all.iter()
    }

    /// Where the first figure of a size that is written stands; `None` where
    /// all of them are defaults.
    #[must_use]
    pub fn written(&self, size: &Size) -> Option<Span> {
        self.of(size).find_map(|(fact, _)| fact.origin.span())
    }

    /// True where a measured figure takes part in a size.
    #[must_use]
    pub fn is_measured(&self, size: &Size) -> bool {
        self.of(size).any(|(fact, _)| matches!(fact.origin, Origin::Measured(_)))
    }

    /// The facts a size was worked out from, with their factors.
    pub fn of<'a>(&'a self, size: &'a Size) -> impl Iterator<Item = (&'a Fact, Exact)> {
        size.terms().iter().filter_map(|(id, factor)| self.get(*id).map(|fact| (fact, *factor)))
    }
}

/// A length with the facts it is a sum of: `length = Σ factor × fact`.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Size {
    /// The length.
    pub length: Length,
    /// Shared by all that are of the same terms, since most sizes are handed on as
    /// they are; `None` without any.
    terms: Option<Arc<[Term]>>,
}

/// A fact and its factor.
type Term = (FactId, Exact);

impl Size {
    /// No length, from nothing.
    #[must_use]
    pub fn zero() -> Self {
        Self::default()
    }

    /// A size from the facts it is a sum of. The caller has worked the length
    /// out; the terms only explain it.
    #[must_use]
    pub fn from_terms(length: Length, terms: Vec<(FactId, Exact)>) -> Self {
        let terms = (!terms.is_empty()).then(|| terms.into());
        Self { length, terms }
    }

    /// The facts it is a sum of, with their factors.
    #[must_use]
    pub fn terms(&self) -> &[(FactId, Exact)] {
        self.terms.as_deref().unwrap_or(&[])
    }

    /// Half of it.
    #[must_use]
    pub fn half(&self) -> Self {
        self.scaled(Exact::ratio(1, 2))
    }

    fn scaled(&self, factor: Exact) -> Self {
        if factor.is_zero() {
            return (self.length * factor).into();
        }
        let scaled = |terms: &Arc<[Term]>| terms.iter().map(|(id, k)| (*id, *k * factor)).collect();
        Self { length: self.length * factor, terms: self.terms.as_ref().map(scaled) }
    }

    /// The sum, or what is left where the other is taken away.
    fn joined(&self, other: &Self, away: bool) -> Self {
        let length = if away { self.length - other.length } else { self.length + other.length };
        let (own, others) = (self.terms(), other.terms());
        if others.is_empty() {
            return Self { length, terms: self.terms.clone() };
        }
        let others = others.iter().map(|(id, k)| (*id, if away { -*k } else { *k }));
        let is_new = |(id, _)| own.iter().all(|(known, _)| *known != id);
        if others.clone().all(is_new) {
            return Self { length, terms: Some(own.iter().copied().chain(others).collect()) };
        }
        let mut terms = own.to_vec();
        for (id, factor) in others {
            match terms.iter_mut().find(|(known, _)| *known == id) {
                Some((_, sum)) => *sum += factor,
                None => terms.push((id, factor)),
            }
        }
        terms.retain(|(_, factor)| !factor.is_zero());
        Self::from_terms(length, terms)
    }
}

impl From<Length> for Size {
    /// A length that no fact explains.
    fn from(length: Length) -> Self {
        Self { length, terms: None }
    }
}

impl From<&Size> for Size {
    fn from(size: &Size) -> Self {
        size.clone()
    }
}

macro_rules! operators {
    ($($left:ty, $right:ty);*) => {$(
        impl Add<$right> for $left {
            type Output = Size;
            fn add(self, other: $right) -> Size {
                self.joined(&other, false)
            }
        }
        impl Sub<$right> for $left {
            type Output = Size;
            fn sub(self, other: $right) -> Size {
                self.joined(&other, true)
            }
        }
    )*};
}
operators!(Size, Size; Size, &Size; &Size, Size; &Size, &Size);

impl Mul<i64> for &Size {
    type Output = Size;
    fn mul(self, factor: i64) -> Size {
        self.scaled(Exact::int(factor))
    }
}

impl Mul<i64> for Size {
    type Output = Size;
    fn mul(self, factor: i64) -> Size {
        self.scaled(Exact::int(factor))
    }
}

impl Mul<Exact> for Size {
    type Output = Size;
    fn mul(self, factor: Exact) -> Size {
        self.scaled(factor)
    }
}

impl Div<i64> for Size {
    type Output = Size;
    fn div(self, divisor: i64) -> Size {
        self.scaled(Exact::ONE / Exact::int(divisor))
    }
}

impl Neg for Size {
    type Output = Size;
    fn neg(self) -> Size {
        self.scaled(Exact::int(-1))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{FileId, Span};

    #[test]
    fn a_size_remembers_what_it_is_a_sum_of() {
        let mut facts = Facts::default();
        let at = Origin::Written(Span::new(FileId(0), 0, 1));
        let wide = facts.add(Length::inches(66, 1), "wide", at);
        let end = facts.add(Length::inches(23, 32), "end", at);
        let clear = &wide - &end * 2;
        assert_eq!(clear.length, Length::inches(66 * 16 - 23, 16));
        let total: Length = facts.of(&clear).map(|(fact, k)| fact.length * k).sum();
        assert_eq!(total, clear.length);
        assert_eq!((&clear - &clear).terms(), &[]);
    }
}
