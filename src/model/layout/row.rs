//! A row of the elimination: an equation, and the equations it was made from.

use crate::measure::{Exact, Length};

use super::system::{EquationId, Variable};

/// `Σ factor × variable = constant`, equal to `Σ factor × equation`.
#[derive(Clone, Debug)]
pub(super) struct Row {
    /// Sorted by variable, no zeros.
    pub(super) terms: Vec<(Variable, Exact)>,
    pub(super) constant: Length,
    /// Sorted by equation, no zeros.
    pub(super) from: Vec<(EquationId, Exact)>,
}

impl Row {
    pub(super) fn factor(&self, variable: Variable) -> Exact {
        self.terms
            .binary_search_by_key(&variable, |(v, _)| *v)
            .map_or(Exact::ZERO, |at| self.terms[at].1)
    }

    /// Adds `factor` times another row.
    pub(super) fn add(&mut self, other: &Self, factor: Exact) {
        self.terms = merged(&self.terms, &other.terms, factor);
        self.from = merged(&self.from, &other.from, factor);
        self.constant += other.constant * factor;
    }

    pub(super) fn scale(&mut self, factor: Exact) {
        for (_, k) in &mut self.terms {
            *k = *k * factor;
        }
        for (_, k) in &mut self.from {
            *k = *k * factor;
        }
        self.constant = self.constant * factor;
    }

    /// True where arithmetic has left the range.
    pub(super) fn is_out_of_range(&self) -> bool {
        self.constant.is_out_of_range()
            || self.terms.iter().any(|(_, k)| k.is_out_of_range())
            || self.from.iter().any(|(_, k)| k.is_out_of_range())
    }
}

/// `a + factor × b` of two sorted lists.
fn merged<K: Ord + Copy>(a: &[(K, Exact)], b: &[(K, Exact)], factor: Exact) -> Vec<(K, Exact)> {
    let mut sum = Vec::with_capacity(a.len() + b.len());
    let (mut i, mut j) = (0, 0);
    while i < a.len() || j < b.len() {
        let next = match (a.get(i), b.get(j)) {
            (Some(left), Some(right)) if left.0 == right.0 => {
                (i, j) = (i + 1, j + 1);
                (left.0, left.1 + right.1 * factor)
            }
            (Some(left), right) if right.is_none_or(|right| left.0 < right.0) => {
                i += 1;
                *left
            }
            (_, Some(right)) => {
                j += 1;
                (right.0, right.1 * factor)
            }
            (_, None) => break,
        };
        if !next.1.is_zero() {
            sum.push(next);
        }
    }
    sum
}
