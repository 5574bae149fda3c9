//! Rows in echelon form, each with the way it was made.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use super::{Combination, EquationId, Variable};
use crate::measure::{Exact, Length};

/// The number of a row in order of making.
type Rank = u32;

/// Rows with the factors they count with.
pub(super) type Uses = Vec<(Rank, Exact)>;

/// Sorts behind every rank: no row has this unknown for its pivot.
const FREE: Rank = Rank::MAX;

/// `pivot + Σ factor × variable = constant`, which is
/// `scale × (equation − Σ factor × earlier row)`.
///
/// The way it was made names rows and not equations: written out in equations,
/// a long chain would need room for the square of its length.
#[derive(Clone, Debug)]
struct Row {
    pivot: Variable,
    /// Without the pivot; none of them is the pivot of an earlier row.
    terms: Vec<(Variable, Exact)>,
    constant: Length,
    equation: EquationId,
    scale: Exact,
    uses: Uses,
}

/// Independent rows.
#[derive(Clone, Debug, Default)]
pub(super) struct Echelon {
    rows: Vec<Row>,
    /// By variable: the row that it is the pivot of.
    rank_of: Vec<Rank>,
}

/// What is left of a linear form after the rows have been taken off it.
#[derive(Clone, Debug)]
pub(super) struct Reduced {
    /// The terms left, in order of variable; no pivot among them.
    pub(super) left: Vec<(Variable, Exact)>,
    pub(super) constant: Length,
    /// The rows taken off, each with its factor.
    pub(super) uses: Uses,
    /// False when a factor could not be kept: `left` means nothing then.
    pub(super) kept: bool,
}

impl Echelon {
    fn rank(&self, variable: Variable) -> Rank {
        self.rank_of.get(variable.index()).copied().unwrap_or(FREE)
    }

    fn row(&self, rank: Rank) -> Option<&Row> {
        self.rows.get(rank as usize)
    }

    /// Takes the rows off `Σ terms = constant` until no pivot is left in it.
    pub(super) fn reduce(&self, terms: &[(Variable, Exact)], constant: Length) -> Reduced {
        // By rank: taking off a row brings in pivots of later rows only.
        let mut form: BTreeMap<(Rank, Variable), Exact> = BTreeMap::new();
        for (variable, factor) in terms {
            *form.entry((self.rank(*variable), *variable)).or_default() += *factor;
        }
        let mut reduced = Reduced { left: Vec::new(), constant, uses: Vec::new(), kept: true };
        while let Some(entry) = form.first_entry() {
            let Some(row) = self.row(entry.key().0) else { break };
            let (rank, factor) = (entry.key().0, entry.remove());
            if factor.is_zero() {
                continue;
            }
            reduced.uses.push((rank, factor));
            if factor.is_out_of_range() {
                reduced.kept = false;
                return reduced;
            }
            for (variable, by) in &row.terms {
                *form.entry((self.rank(*variable), *variable)).or_default() -= factor * *by;
            }
            reduced.constant -= row.constant * factor;
        }
        reduced.left = form
            .into_iter()
            .filter(|(_, factor)| !factor.is_zero())
            .map(|((_, variable), factor)| (variable, factor))
            .collect();
        reduced.kept = !reduced.left.iter().any(|(_, factor)| factor.is_out_of_range());
        reduced
    }

    /// Makes a row of what is left of `equation`, if there is a term left. The
    /// pivot is the unknown met least `later`: fewest equations will have the
    /// row taken off them, so the rows stay short.
    pub(super) fn push(
        &mut self,
        equation: EquationId,
        reduced: Reduced,
        later: impl Fn(Variable) -> u32,
    ) {
        let Reduced { left, constant, uses, .. } = reduced;
        // A pivot of one brings no new denominators in.
        let least = left
            .iter()
            .copied()
            .min_by_key(|&(v, k)| (later(v), k.abs() != Exact::ONE, Reverse(v)));
        let Some((pivot, divisor)) = least else { return };
        let scale = Exact::ONE / divisor;
        let terms = left
            .into_iter()
            .filter(|(variable, _)| *variable != pivot)
            .map(|(variable, factor)| (variable, factor * scale))
            .collect();
        if self.rank_of.len() <= pivot.index() {
            self.rank_of.resize(pivot.index() + 1, FREE);
        }
        if let Some(rank) = self.rank_of.get_mut(pivot.index()) {
            *rank = self.rows.len() as Rank;
        }
        self.rows.push(Row { pivot, terms, constant: constant * scale, equation, scale, uses });
    }

    /// Writes a combination of rows as the combination of equations it is.
    pub(super) fn expand(&self, uses: &[(Rank, Exact)]) -> Combination {
        let mut pending: BTreeMap<Rank, Exact> = BTreeMap::new();
        for (rank, factor) in uses {
            *pending.entry(*rank).or_default() += *factor;
        }
        let mut combination = Combination::new();
        // A row uses earlier rows only.
        while let Some((rank, factor)) = pending.pop_last() {
            let Some(row) = self.row(rank).filter(|_| !factor.is_zero()) else { continue };
            let factor = factor * row.scale;
            combination.push((row.equation, factor));
            for (earlier, by) in &row.uses {
                *pending.entry(*earlier).or_default() -= factor * *by;
            }
        }
        combination.sort_unstable_by_key(|(equation, _)| *equation);
        combination
    }

    /// What `equation` closes, when the rows leave no term of it:
    /// `equation − Σ factor × row`.
    pub(super) fn closing(&self, equation: EquationId, uses: &[(Rank, Exact)]) -> Combination {
        let mut combination = self.expand(uses);
        for (_, factor) in &mut combination {
            *factor = -*factor;
        }
        let at = combination.partition_point(|(id, _)| *id < equation);
        combination.insert(at, (equation, Exact::ONE));
        combination
    }

    /// The equations that a variable's answer comes from.
    pub(super) fn trace(&self, variable: Variable) -> Combination {
        self.expand(&self.reduce(&[(variable, Exact::ONE)], Length::ZERO).uses)
    }

    /// Each row from the last to the first: its pivot, its other terms, its
    /// constant.
    pub(super) fn backwards(
        &self,
    ) -> impl Iterator<Item = (Variable, &[(Variable, Exact)], Length)> {
        self.rows.iter().rev().map(|row| (row.pivot, row.terms.as_slice(), row.constant))
    }
}
