//! Gauss–Jordan elimination over exact rationals, one equation at a time, so
//! that the first one to contradict the earlier ones is caught with the only
//! combination of them that it contradicts.

use std::collections::BTreeMap;

use crate::measure::{Exact, Length};

use super::row::Row;
use super::system::{EquationId, System, Variable};

/// What became of an unknown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Value {
    /// It has one answer.
    Known {
        /// The answer.
        length: Length,
        /// The combination of equations that gives it: `variable = Σ factor × equation`.
        from: Vec<(EquationId, Exact)>,
    },
    /// Nothing fixes it.
    Open,
}

/// Equations that can't all hold. Their combination reads `0 = over`; leave
/// any one of them out and the others can hold.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Conflict {
    /// The equations with their factors, none of them nought.
    pub equations: Vec<(EquationId, Exact)>,
    /// What nought would have to be; never nought itself.
    pub over: Length,
}

/// Unknowns that hang together and that nothing fixes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Question {
    /// The unknowns.
    pub open: Vec<Variable>,
    /// How many more equations would fix them all. Where it is one, an
    /// equation for any of them will do.
    pub missing: usize,
}

/// The outcome.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Solution {
    values: Vec<Value>,
    /// Contradictions, in the order of the equation that brought each about.
    pub conflicts: Vec<Conflict>,
    /// What nothing fixes.
    pub questions: Vec<Question>,
    /// Equations whose figures could not be kept exactly; they were left out.
    pub too_fine: Vec<EquationId>,
}

impl Solution {
    /// What became of a variable.
    #[must_use]
    pub fn value(&self, variable: Variable) -> &Value {
        self.values.get(variable.index()).unwrap_or(&Value::Open)
    }
}

pub(super) fn solve(system: &System) -> Solution {
    let mut solution =
        Solution { values: vec![Value::Open; system.variables as usize], ..Solution::default() };
    for part in components(system) {
        eliminate(system, &part, &mut solution);
    }
    solution.conflicts.sort_by_key(|conflict| conflict.equations.iter().map(|(id, _)| *id).max());
    solution
}

/// Equations that share unknowns, in order; each set is solved by itself, so
/// that the cost stays in line with the number of cases.
fn components(system: &System) -> Vec<Vec<EquationId>> {
    let mut parent: Vec<u32> = (0..system.variables).collect();
    for equation in &system.equations {
        for pair in equation.terms.windows(2) {
            let (a, b) = (root(&mut parent, pair[0].0.0), root(&mut parent, pair[1].0.0));
            parent[a as usize] = b;
        }
    }
    let mut sets: BTreeMap<u32, Vec<EquationId>> = BTreeMap::new();
    for (index, equation) in system.equations.iter().enumerate() {
        let set = equation.terms.first().map_or(u32::MAX, |term| root(&mut parent, term.0.0));
        sets.entry(set).or_default().push(EquationId(index as u32));
    }
    sets.into_values().collect()
}

fn root(parent: &mut [u32], mut at: u32) -> u32 {
    while parent[at as usize] != at {
        let up = parent[parent[at as usize] as usize];
        parent[at as usize] = up;
        at = up;
    }
    at
}

fn eliminate(system: &System, equations: &[EquationId], solution: &mut Solution) {
    let mut rows: BTreeMap<Variable, Row> = BTreeMap::new();
    for id in equations {
        let Some((terms, constant)) = system.get(*id) else { continue };
        let mut row = Row { terms: sorted(terms), constant, from: vec![(*id, Exact::ONE)] };
        for (variable, _) in row.terms.clone() {
            if let Some(pivot) = rows.get(&variable) {
                let factor = row.factor(variable);
                row.add(pivot, -factor);
            }
        }
        if row.is_out_of_range() {
            solution.too_fine.push(*id);
            continue;
        }
        let Some((pivot, factor)) = row.terms.first().copied() else {
            if !row.constant.is_zero() {
                solution.conflicts.push(Conflict { equations: row.from, over: row.constant });
            }
            continue;
        };
        row.scale(Exact::ONE / factor);
        for other in rows.values_mut() {
            let factor = other.factor(pivot);
            if !factor.is_zero() {
                other.add(&row, -factor);
            }
        }
        rows.insert(pivot, row);
    }
    answer(rows, solution);
}

/// The rows are fully reduced now: a row of one term is an answer.
fn answer(rows: BTreeMap<Variable, Row>, solution: &mut Solution) {
    let mut groups: Vec<(Vec<Variable>, Vec<Variable>)> = Vec::new();
    for (pivot, row) in rows {
        if row.is_out_of_range() {
            solution.too_fine.extend(row.from.iter().map(|(id, _)| *id));
            continue;
        }
        let free: Vec<Variable> =
            row.terms.iter().map(|(variable, _)| *variable).filter(|v| *v != pivot).collect();
        if free.is_empty() {
            solution.values[pivot.index()] = Value::Known { length: row.constant, from: row.from };
            continue;
        }
        // Rows that share a free unknown ask one question together.
        let mut open = vec![pivot];
        let mut all_free = free;
        groups.retain(|(other_open, other_free)| {
            let shared = other_free.iter().any(|variable| all_free.contains(variable));
            if shared {
                open.extend(other_open);
                for variable in other_free {
                    if !all_free.contains(variable) {
                        all_free.push(*variable);
                    }
                }
            }
            !shared
        });
        groups.push((open, all_free));
    }
    for (mut open, free) in groups {
        let missing = free.len();
        open.extend(free);
        open.sort_unstable();
        solution.questions.push(Question { open, missing });
    }
}

fn sorted(terms: &[(Variable, Exact)]) -> Vec<(Variable, Exact)> {
    let mut sum: BTreeMap<Variable, Exact> = BTreeMap::new();
    for (variable, factor) in terms {
        *sum.entry(*variable).or_default() += *factor;
    }
    sum.into_iter().filter(|(_, factor)| !factor.is_zero()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(value: i64) -> Length {
        Length::inches(value, 1)
    }

    /// A bank 26 high: 5, 1-1/2, then two that share what is left:
    /// (26 − 5 − 1-1/2 − 1-1/2) / 2 = 9 each.
    #[test]
    fn what_is_left_is_shared_out() {
        let mut system = System::new();
        let [bank, upper, middle, lower, unit] = std::array::from_fn(|_| system.variable());
        let one = Exact::ONE;
        let rails = inches(3);
        system.equation(
            vec![(bank, -one), (upper, one), (middle, one), (lower, one)],
            Length::ZERO - rails,
        );
        system.equation(vec![(bank, one)], inches(26));
        let five = system.equation(vec![(upper, one)], inches(5));
        system.equation(vec![(middle, one), (unit, -one)], Length::ZERO);
        system.equation(vec![(lower, one), (unit, -one)], Length::ZERO);
        let solution = system.solve();
        let Value::Known { length, from } = solution.value(middle) else { panic!() };
        assert_eq!(*length, inches(9));
        assert!(from.contains(&(five, Exact::ratio(-1, 2))));
        assert!(solution.conflicts.is_empty() && solution.questions.is_empty());
    }

    #[test]
    fn a_contradiction_names_just_its_own_equations() {
        let mut system = System::new();
        let [whole, a, b, elsewhere] = std::array::from_fn(|_| system.variable());
        let one = Exact::ONE;
        system.equation(vec![(elsewhere, one)], inches(3));
        let fill = system.equation(vec![(whole, -one), (a, one), (b, one)], Length::ZERO);
        let whole_is = system.equation(vec![(whole, one)], inches(20));
        let a_is = system.equation(vec![(a, one)], inches(12));
        let b_is = system.equation(vec![(b, one)], inches(9));
        let solution = system.solve();
        assert_eq!(solution.conflicts.len(), 1);
        let conflict = &solution.conflicts[0];
        let ids: Vec<EquationId> = conflict.equations.iter().map(|(id, _)| *id).collect();
        assert_eq!(ids, [fill, whole_is, a_is, b_is]);
        assert_eq!(conflict.over.abs(), inches(1));
    }

    #[test]
    fn what_nothing_fixes_is_asked_once() {
        let mut system = System::new();
        let [whole, a, b, c] = std::array::from_fn(|_| system.variable());
        let one = Exact::ONE;
        system.equation(vec![(whole, -one), (a, one), (b, one), (c, one)], Length::ZERO);
        system.equation(vec![(whole, one)], inches(20));
        system.equation(vec![(a, one)], inches(5));
        let solution = system.solve();
        assert_eq!(solution.questions, [Question { open: vec![b, c], missing: 1 }]);
    }

    #[test]
    fn figures_too_fine_are_set_aside_and_told() {
        let mut system = System::new();
        let [a, b] = std::array::from_fn(|_| system.variable());
        let huge = Exact::int(i64::MAX);
        system.equation(vec![(a, huge), (b, Exact::ONE)], inches(1));
        system.equation(vec![(a, Exact::ONE), (b, huge)], inches(1));
        assert!(!system.solve().too_fine.is_empty());
    }
}
