//! The equations of a case, with what each says to those who read about it.

use crate::measure::{Exact, Length, Span};

use super::layout::{EquationId, Solution, System, Value, Variable};
use super::opening::Axis;
use super::size::{FactId, Size};

/// What an equation says, for those who read about it.
#[derive(Clone, Debug)]
pub(super) enum Says {
    /// The items of a list fill it: the index of the list's opening.
    Fills(usize),
    /// An item of a list is as high (or wide) as its list.
    Crosses,
    /// A frame leaves this for the root list.
    Leaves,
    /// A statement fixes a size. The name is what its figure is called.
    Fixed {
        /// `upper`, `top rail`, `wide`.
        name: String,
        /// The list that the fixed thing is an item of.
        list: Option<usize>,
        /// It is a plain figure behind a size word, so an edit can change it.
        word: Option<&'static str>,
    },
    /// An item takes a share of what is left.
    Shares {
        /// The item.
        name: String,
        /// It says `same`, not `share`.
        same: bool,
    },
}

/// An equation's meaning, its statement and its figure.
#[derive(Clone, Debug)]
pub(super) struct Known {
    pub(super) says: Says,
    pub(super) span: Option<Span>,
    pub(super) constant: Length,
    /// The facts that the constant is a sum of.
    pub(super) facts: Vec<(FactId, Exact)>,
}

/// An unknown size, for those who read about it.
#[derive(Clone, Debug)]
pub(super) struct Unknown {
    pub(super) name: String,
    pub(super) axis: Axis,
    pub(super) span: Span,
    /// An item of this list, which may take a share.
    pub(super) list: Option<usize>,
    /// The opening brace of its block, behind which a size can be added.
    pub(super) open: Option<Span>,
}

/// The equations of one case while they are gathered.
#[derive(Debug, Default)]
pub(super) struct Sheet {
    pub(super) system: System,
    pub(super) known: Vec<Known>,
    pub(super) unknown: Vec<Unknown>,
}

impl Sheet {
    pub(super) fn variable(&mut self, unknown: Unknown) -> Variable {
        self.unknown.push(unknown);
        self.system.variable()
    }

    pub(super) fn equation(
        &mut self,
        terms: Vec<(Variable, Exact)>,
        constant: Length,
        known: Known,
    ) -> EquationId {
        self.known.push(known);
        self.system.equation(terms, constant)
    }

    /// `variable = figure`, where the figure is a fact already.
    pub(super) fn fix_to(
        &mut self,
        variable: Variable,
        size: &Size,
        name: &str,
        list: Option<usize>,
        span: Span,
    ) {
        let says = Says::Fixed { name: name.to_owned(), list, word: None };
        self.settle(variable, size, says, span);
    }

    /// `variable = figure`, which says this.
    pub(super) fn settle(&mut self, variable: Variable, size: &Size, says: Says, span: Span) {
        let facts = size.terms().to_vec();
        let known = Known { says, span: Some(span), constant: size.length, facts };
        self.equation(vec![(variable, Exact::ONE)], size.length, known);
    }

    /// A variable's value with the facts it comes from.
    pub(super) fn size(&self, solution: &Solution, variable: Variable) -> Option<Size> {
        let Value::Known { length } = solution.value(variable) else { return None };
        let mut terms: Vec<(FactId, Exact)> = Vec::new();
        for (equation, factor) in solution.derivation(variable) {
            let facts = self.known.get(equation.index()).map_or(&[][..], |known| &known.facts);
            for (fact, share) in facts {
                match terms.iter_mut().find(|(known, _)| known == fact) {
                    Some((_, sum)) => *sum += factor * *share,
                    None => terms.push((*fact, factor * *share)),
                }
            }
        }
        terms.retain(|(_, factor)| !factor.is_zero());
        Some(Size::from_terms(*length, terms))
    }
}
