//! Equations that contradict each other.

use crate::measure::{Exact, Length};

use super::Combination;
use super::system::EquationId;

/// Equations that can't all hold. Their combination reads `0 = over`; leave
/// any one of them out and the others can hold.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Conflict {
    /// The equations with their factors, none of them nought.
    pub equations: Vec<(EquationId, Exact)>,
    /// What nought would have to be; never nought itself.
    pub over: Length,
}

impl Conflict {
    /// `None` when a combination shows no conflict, or a figure of it could not
    /// be kept.
    pub(super) fn shown(equations: Combination, over: Length) -> Option<Self> {
        let kept = !equations.iter().any(|(_, factor)| factor.is_out_of_range());
        let shows = kept && !over.is_zero() && !over.is_out_of_range();
        shows.then_some(Self { equations, over })
    }
}
