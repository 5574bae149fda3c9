//! Elimination over exact rationals, one equation at a time, so that the first
//! one to contradict the earlier ones is caught with the only combination of
//! them that it contradicts.

use std::collections::BTreeSet;

use crate::measure::{Exact, Length};

use super::Combination;
use super::conflict::Conflict;
use super::elimination::{Echelon, Uses};
use super::form::{Form, forms};
use super::question::{Groups, Question, questions};
use super::shorter::shorter;
use super::system::{EquationId, System, Variable};

/// What became of an unknown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Value {
    /// It has one answer.
    Known {
        /// The answer.
        length: Length,
    },
    /// Nothing fixes it, or the figures that do could not be kept exactly.
    Open,
}

/// The outcome.
#[derive(Clone, Debug)]
pub struct Solution {
    values: Vec<Value>,
    /// Contradictions, in the order of the equation that brought each about.
    pub conflicts: Vec<Conflict>,
    /// What nothing fixes.
    pub questions: Vec<Question>,
    /// Equations whose figures could not be kept exactly; no conflict and no
    /// question is read from them.
    pub too_fine: Vec<EquationId>,
    echelon: Echelon,
}

impl Solution {
    /// What became of a variable.
    #[must_use]
    pub fn value(&self, variable: Variable) -> &Value {
        self.values.get(variable.index()).unwrap_or(&Value::Open)
    }

    /// True where every unknown has its one answer.
    #[must_use]
    pub fn is_clean(&self) -> bool {
        self.conflicts.is_empty() && self.questions.is_empty() && self.too_fine.is_empty()
    }

    /// The one combination of independent equations that gives a known length:
    /// `variable = Σ factor × equation`. Empty where nothing is known, or where
    /// a factor could not be kept. Written out on demand: for every variable of
    /// a long chain it would be the square of its length.
    #[must_use]
    pub fn derivation(&self, variable: Variable) -> Vec<(EquationId, Exact)> {
        let mut combination = match self.value(variable) {
            Value::Known { .. } => self.echelon.trace(variable),
            Value::Open => Combination::new(),
        };
        if combination.iter().any(|(_, factor)| factor.is_out_of_range()) {
            combination.clear();
        }
        combination
    }
}

impl System {
    /// Solves the equations.
    #[must_use]
    pub fn solve(&self) -> Solution {
        solve(self)
    }
}

fn solve(system: &System) -> Solution {
    let mut later = vec![0u32; system.variables as usize];
    for (variable, _) in system.equations.iter().flat_map(|equation| &equation.terms) {
        if let Some(count) = later.get_mut(variable.index()) {
            *count += 1;
        }
    }
    let mut echelon = Echelon::default();
    let (mut conflicts, mut spares, mut lost) = (Vec::new(), Vec::new(), Vec::new());
    for (id, equation) in system.equations().zip(&system.equations) {
        for (variable, _) in &equation.terms {
            if let Some(count) = later.get_mut(variable.index()) {
                *count -= 1;
            }
        }
        let reduced = echelon.reduce(&equation.terms, equation.constant);
        if !reduced.kept {
            lost.push(id);
        } else if !reduced.left.is_empty() {
            echelon.push(id, reduced, |v| later.get(v.index()).copied().unwrap_or(0));
        } else if reduced.constant.is_zero() {
            spares.push((id, reduced.uses));
        } else {
            match Conflict::shown(echelon.closing(id, &reduced.uses), reduced.constant) {
                Some(conflict) => conflicts.push((id, conflict)),
                None => lost.push(id),
            }
        }
    }
    let conflicts = shortest(system, &echelon, conflicts, &spares);
    read(system, echelon, conflicts, lost)
}

/// Shortens each conflict where a spare equation allows it; spares are written
/// out for this alone.
fn shortest(
    system: &System,
    echelon: &Echelon,
    conflicts: Vec<(EquationId, Conflict)>,
    spares: &[(EquationId, Uses)],
) -> Vec<Conflict> {
    if conflicts.is_empty() {
        return Vec::new();
    }
    let spares: Vec<Combination> = spares
        .iter()
        .map(|(id, uses)| echelon.closing(*id, uses))
        .filter(|spare| !spare.iter().any(|(_, factor)| factor.is_out_of_range()))
        .collect();
    conflicts
        .into_iter()
        .map(|(set_aside, conflict)| shorter(system, conflict, set_aside, &spares))
        .collect()
}

/// Reads the answers and the questions off the rows; `lost` equations could
/// not be used.
fn read(
    system: &System,
    echelon: Echelon,
    conflicts: Vec<Conflict>,
    lost: Vec<EquationId>,
) -> Solution {
    let forms = forms(&echelon, system.variables);
    let unkept = |form: &Form| form.terms.iter().any(|(_, factor)| factor.is_out_of_range());
    let all = || (0..system.variables).map(Variable).zip(&forms);
    let mut parts = Groups::new(forms.len());
    for equation in &system.equations {
        for pair in equation.terms.windows(2) {
            if let [(a, _), (b, _)] = pair {
                parts.join(*a, *b);
            }
        }
    }
    // Where an equation could not be used, what looks open may not be.
    let mut doubtful = BTreeSet::new();
    for equation in lost.iter().filter_map(|id| system.equations.get(id.index())) {
        doubtful.extend(equation.terms.first().map(|(variable, _)| parts.head(*variable)));
    }
    for (variable, _) in all().filter(|(_, form)| unkept(form)) {
        doubtful.insert(parts.head(variable));
    }
    let mut too_fine: BTreeSet<EquationId> = lost.into_iter().collect();
    let mut values = Vec::with_capacity(forms.len());
    let mut asked = Vec::with_capacity(forms.len());
    for (variable, form) in all() {
        let fixed = form.terms.is_empty();
        let lost = if fixed { form.constant.is_out_of_range() } else { unkept(form) };
        if lost {
            too_fine.extend(echelon.trace(variable).into_iter().map(|(id, _)| id));
        }
        values.push(match fixed && !lost {
            true => Value::Known { length: form.constant },
            false => Value::Open,
        });
        asked.push(!fixed && !doubtful.contains(&parts.head(variable)));
    }
    let questions = questions(&forms, |v| asked.get(v.index()).copied().unwrap_or(false));
    Solution { values, conflicts, questions, too_fine: too_fine.into_iter().collect(), echelon }
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
        assert_eq!(solution.value(middle), &Value::Known { length: inches(9) });
        assert!(solution.derivation(middle).contains(&(five, Exact::ratio(-1, 2))));
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
    fn what_is_left_out_says_nothing() {
        let mut system = System::new();
        let [a, b] = std::array::from_fn(|_| system.variable());
        let one = Exact::ONE;
        system.equation(vec![(a, one)], inches(10));
        let wrong = system.equation(vec![(a, one)], inches(11));
        let last = system.equation(vec![(b, one), (a, -one)], inches(1));
        assert!(!system.solve().is_clean());
        system.leave_out(wrong);
        let solution = system.solve();
        assert!(solution.is_clean());
        assert_eq!(solution.value(b), &Value::Known { length: inches(11) });
        assert!(solution.derivation(b).contains(&(last, one)));
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

    /// a = 10, b = a, c = b, c = 10 again, and c = 11: the two lines about c
    /// say it all, 11 − 10 = 1.
    #[test]
    fn a_size_written_twice_shortens_a_contradiction() {
        let mut system = System::new();
        let [a, b, c] = std::array::from_fn(|_| system.variable());
        let one = Exact::ONE;
        system.equation(vec![(a, one)], inches(10));
        system.equation(vec![(b, one), (a, -one)], Length::ZERO);
        system.equation(vec![(c, one), (b, -one)], Length::ZERO);
        let again = system.equation(vec![(c, one)], inches(10));
        let wrong = system.equation(vec![(c, one)], inches(11));
        let expected = Conflict { equations: vec![(again, -one), (wrong, one)], over: inches(1) };
        assert_eq!(system.solve().conflicts, [expected]);
    }

    /// b = huge a and c = huge b leave the range together; without the second
    /// of them a and b would look open.
    #[test]
    fn figures_out_of_range_leave_no_false_question() {
        let mut system = System::new();
        let [a, b, c] = std::array::from_fn(|_| system.variable());
        let (one, huge) = (Exact::ONE, Exact::int(i64::MAX / 2));
        system.equation(vec![(b, one), (a, -huge)], Length::ZERO);
        let second = system.equation(vec![(c, one), (b, -huge)], Length::ZERO);
        system.equation(vec![(c, one), (a, one)], inches(1));
        let solution = system.solve();
        assert!(solution.questions.is_empty() && solution.conflicts.is_empty());
        assert_eq!(solution.too_fine, [second]);
    }

    /// 2 × i64::MAX is no length that can be kept; the 2 itself is.
    #[test]
    fn an_answer_out_of_range_names_the_equations_it_comes_from() {
        let mut system = System::new();
        let [a, b] = std::array::from_fn(|_| system.variable());
        let first = system.equation(vec![(a, Exact::ONE)], Length::mm(2));
        let second =
            system.equation(vec![(b, Exact::ONE), (a, -Exact::int(i64::MAX))], Length::ZERO);
        let solution = system.solve();
        assert_eq!(solution.value(a), &Value::Known { length: Length::mm(2) });
        assert_eq!(solution.value(b), &Value::Open);
        assert_eq!(solution.too_fine, [first, second]);
        assert!(solution.questions.is_empty());
    }

    #[test]
    fn an_unknown_that_no_equation_names_is_asked_for() {
        let mut system = System::new();
        let alone = system.variable();
        assert_eq!(system.solve().questions, [Question { open: vec![alone], missing: 1 }]);
    }

    #[test]
    fn an_unknown_of_another_system_is_taken_in() {
        let mut other = System::new();
        let [_, _, stray] = std::array::from_fn(|_| other.variable());
        let mut system = System::new();
        system.equation(vec![(stray, Exact::ONE)], inches(7));
        assert_eq!(system.solve().value(stray), &Value::Known { length: inches(7) });
    }
}
