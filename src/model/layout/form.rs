//! Every unknown in terms of the ones that nothing fixes.

use std::collections::BTreeMap;

use super::Variable;
use super::elimination::Echelon;
use crate::measure::{Exact, Length};

/// `constant + Σ factor × free variable`.
#[derive(Clone, Debug)]
pub(super) struct Form {
    /// In order of variable; empty when the unknown is fixed.
    pub(super) terms: Vec<(Variable, Exact)>,
    pub(super) constant: Length,
}

/// The form of each of `count` variables.
pub(super) fn forms(echelon: &Echelon, count: u32) -> Vec<Form> {
    // A variable is free until a row says otherwise.
    let mut forms: Vec<Form> = (0..count)
        .map(|i| Form { terms: vec![(Variable(i), Exact::ONE)], constant: Length::ZERO })
        .collect();
    for (pivot, terms, mut constant) in echelon.backwards() {
        let mut sums: BTreeMap<Variable, Exact> = BTreeMap::new();
        for (variable, factor) in terms {
            let Some(form) = forms.get(variable.index()) else { continue };
            for (free, share) in &form.terms {
                *sums.entry(*free).or_default() -= *factor * *share;
            }
            constant -= form.constant * *factor;
        }
        let terms = sums.into_iter().filter(|(_, sum)| !sum.is_zero()).collect();
        if let Some(form) = forms.get_mut(pivot.index()) {
            *form = Form { terms, constant };
        }
    }
    forms
}
