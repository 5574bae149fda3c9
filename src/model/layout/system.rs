//! Equations and their unknowns.

use std::collections::BTreeMap;

use crate::measure::{Exact, Length};

/// An unknown length.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Variable(pub(super) u32);

/// An equation of a [`System`], counted from nought in the order it was added.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EquationId(pub(super) u32);

impl Variable {
    /// Its place among the variables of its system.
    #[must_use]
    pub fn index(self) -> usize {
        self.0 as usize
    }
}

impl EquationId {
    /// Its place among the equations of its system.
    #[must_use]
    pub fn index(self) -> usize {
        self.0 as usize
    }
}

/// `Σ factor × variable = constant`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Equation {
    pub(super) terms: Vec<(Variable, Exact)>,
    pub(super) constant: Length,
}

/// A set of equations.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct System {
    pub(super) variables: u32,
    pub(super) equations: Vec<Equation>,
}

impl System {
    /// No equations yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// A new unknown.
    pub fn variable(&mut self) -> Variable {
        self.variables += 1;
        Variable(self.variables - 1)
    }

    /// Adds `Σ factor × variable = constant`. Where equations contradict each
    /// other, the one added last is set aside.
    pub fn equation(&mut self, terms: Vec<(Variable, Exact)>, constant: Length) -> EquationId {
        let mut sums: BTreeMap<Variable, Exact> = BTreeMap::new();
        for (variable, factor) in terms {
            // An unknown of another system would lie outside: it is taken in.
            self.variables = self.variables.max(variable.0.saturating_add(1));
            *sums.entry(variable).or_default() += factor;
        }
        let terms = sums.into_iter().filter(|(_, factor)| !factor.is_zero()).collect();
        self.equations.push(Equation { terms, constant });
        EquationId(u32::try_from(self.equations.len() - 1).unwrap_or(u32::MAX))
    }

    /// Takes back what an equation says; the others keep their places.
    pub fn leave_out(&mut self, id: EquationId) {
        if let Some(equation) = self.equations.get_mut(id.index()) {
            *equation = Equation { terms: Vec::new(), constant: Length::ZERO };
        }
    }

    /// The terms and the constant of an equation.
    #[must_use]
    pub fn get(&self, id: EquationId) -> Option<(&[(Variable, Exact)], Length)> {
        self.equations.get(id.index()).map(|e| (e.terms.as_slice(), e.constant))
    }

    /// All equations in the order they were added.
    pub fn equations(&self) -> impl Iterator<Item = EquationId> {
        (0..self.equations.len()).map(|index| EquationId(index as u32))
    }
}
