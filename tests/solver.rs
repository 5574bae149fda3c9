//! The solver against solvers of others: random layouts with a known answer,
//! and a general-purpose linear-programming solver for whether any exists.

use casewright::measure::{Exact, Length, Unit};
use casewright::model::layout::{EquationId, System, Value, Variable};
use good_lp::{Expression, ProblemVariables, Solution as _, SolverModel, microlp, variable};
use proptest::prelude::*;

/// True when the LP solver finds values for the equations in `keep`.
fn feasible(system: &System, variables: usize, keep: &[EquationId]) -> bool {
    let mut problem = ProblemVariables::new();
    let bound = 1e6;
    let unknowns: Vec<good_lp::Variable> =
        (0..variables).map(|_| problem.add(variable().min(-bound).max(bound))).collect();
    let mut model = problem.minimise(Expression::from(0.0)).using(microlp);
    for id in keep {
        let (terms, constant) = system.get(*id).expect("an equation");
        let sum: Expression = terms.iter().map(|(v, k)| k.to_f64() * unknowns[v.index()]).sum();
        model = model.with(sum.eq(constant.to_mm_f64()));
    }
    model.solve().is_ok_and(|solution| unknowns.iter().all(|v| solution.value(*v).is_finite()))
}

#[derive(Clone, Debug)]
enum Plan {
    Leaf { eighths: i64, how: u8 },
    List { items: Vec<Plan> },
}

fn plan() -> impl Strategy<Value = Plan> {
    let leaf = (1i64..400, 0u8..4).prop_map(|(eighths, how)| Plan::Leaf { eighths, how });
    leaf.prop_recursive(4, 40, 6, |inner| {
        prop::collection::vec(inner, 1..6).prop_map(|items| Plan::List { items })
    })
}

/// Writes the equations of a plan and its true sizes; the last leaf of each
/// list takes what is left, so that the plan is always solvable.
fn write(
    plan: &Plan,
    system: &mut System,
    truth: &mut Vec<(Variable, Length)>,
) -> (Variable, Length) {
    let own = system.variable();
    let size = match plan {
        Plan::Leaf { eighths, how } => {
            let size = Length::inches(*eighths, if *how == 3 { 7 } else { 8 });
            system.equation(vec![(own, Exact::ONE)], size);
            size
        }
        Plan::List { items } => {
            let mut terms = vec![(own, Exact::int(-1))];
            let mut total = Length::ZERO;
            for item in items {
                let (variable, size) = write(item, system, truth);
                terms.push((variable, Exact::ONE));
                total += size;
            }
            system.equation(terms, Length::ZERO);
            total
        }
    };
    truth.push((own, size));
    (own, size)
}

fn holds(system: &System, id: EquationId, value: impl Fn(Variable) -> Length) -> bool {
    let (terms, constant) = system.get(id).expect("an equation");
    terms.iter().map(|(v, k)| value(*v) * *k).sum::<Length>() == constant
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn nested_lists_are_solved_to_their_true_sizes(plan in plan()) {
        let mut system = System::new();
        let mut truth = Vec::new();
        write(&plan, &mut system, &mut truth);
        let solution = system.solve();
        prop_assert!(solution.conflicts.is_empty());
        for (variable, size) in &truth {
            let Value::Known { length } = solution.value(*variable) else {
                return Err(TestCaseError::fail("open"));
            };
            prop_assert_eq!(length, size);
            let explained: Length = solution
                .derivation(*variable)
                .into_iter()
                .map(|(id, k)| system.get(id).map(|(_, c)| c * k).unwrap_or_default())
                .sum();
            prop_assert_eq!(*length, explained);
        }
        for id in system.equations() {
            let value = |v: Variable| match solution.value(v) {
                Value::Known { length, .. } => *length,
                Value::Open => Length::ZERO,
            };
            prop_assert!(holds(&system, id, value));
        }
    }

    #[test]
    fn what_is_refused_has_no_solution_and_what_is_kept_has(
        rows in prop::collection::vec((prop::collection::vec(-2i64..3, 4), -20i64..20), 1..7),
    ) {
        let mut system = System::new();
        let variables: Vec<Variable> = (0..4).map(|_| system.variable()).collect();
        for (factors, constant) in &rows {
            let terms = variables.iter().copied().zip(factors.iter().map(|k| Exact::int(*k))).collect();
            system.equation(terms, Length::mm(*constant));
        }
        let solution = system.solve();
        let all: Vec<EquationId> = system.equations().collect();
        prop_assert_eq!(solution.conflicts.is_empty(), feasible(&system, 4, &all));
        for conflict in &solution.conflicts {
            let set: Vec<EquationId> = conflict.equations.iter().map(|(id, _)| *id).collect();
            prop_assert!(!feasible(&system, 4, &set));
            for left_out in &set {
                let rest: Vec<EquationId> = set.iter().copied().filter(|id| id != left_out).collect();
                prop_assert!(feasible(&system, 4, &rest), "not the smallest set");
            }
        }
    }

    #[test]
    fn the_order_of_statements_changes_no_answer(
        rows in prop::collection::vec((prop::collection::vec(-2i64..3, 4), -20i64..20), 1..7),
        turn in 0usize..7,
    ) {
        let build = |rows: &[(Vec<i64>, i64)]| {
            let mut system = System::new();
            let variables: Vec<Variable> = (0..4).map(|_| system.variable()).collect();
            for (factors, constant) in rows {
                let terms =
                    variables.iter().copied().zip(factors.iter().map(|k| Exact::int(*k))).collect();
                system.equation(terms, Length::mm(*constant));
            }
            (system.solve(), variables)
        };
        let (first, variables) = build(&rows);
        let mut turned = rows.clone();
        turned.rotate_left(turn % rows.len());
        let (second, _) = build(&turned);
        prop_assert_eq!(first.conflicts.is_empty(), second.conflicts.is_empty());
        if first.conflicts.is_empty() {
            for v in variables {
                let length = |value: &Value| match value {
                    Value::Known { length, .. } => Some(*length),
                    Value::Open => None,
                };
                prop_assert_eq!(length(first.value(v)), length(second.value(v)));
            }
        }
    }
}

/// How many of the rows are independent, by plain elimination over the
/// rational type of num-rational.
fn rank(rows: &[Vec<Exact>]) -> usize {
    type Plain = num_rational::Ratio<i128>;
    let plain = |k: &Exact| Plain::new(i128::from(k.numer()), i128::from(k.denom()));
    let mut rows: Vec<Vec<Plain>> =
        rows.iter().map(|row| row.iter().map(plain).collect()).collect();
    let (nought, mut rank) = (Plain::from_integer(0), 0);
    for column in 0..rows.first().map_or(0, Vec::len) {
        let Some(at) = (rank..rows.len()).find(|at| rows[*at][column] != nought) else { continue };
        rows.swap(rank, at);
        let pivot = rows[rank].clone();
        for row in &mut rows[rank + 1..] {
            let factor = row[column] / pivot[column];
            for (k, by) in row.iter_mut().zip(&pivot) {
                *k -= *by * factor;
            }
        }
        rank += 1;
    }
    rank
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    // A variable is fixed just where its own unit row adds nothing to the rank
    // of the equations; a group misses as many equations as its rank is short.
    #[test]
    fn what_is_open_and_what_is_fixed_agree_with_the_rank(
        rows in prop::collection::vec((prop::collection::vec(-2i64..3, 5), -20i64..20), 0..6),
    ) {
        let mut system = System::new();
        let variables: Vec<Variable> = (0..5).map(|_| system.variable()).collect();
        let mut matrix: Vec<Vec<Exact>> = Vec::new();
        for (factors, constant) in &rows {
            let row: Vec<Exact> = factors.iter().map(|k| Exact::int(*k)).collect();
            let terms = variables.iter().copied().zip(row.iter().copied()).collect();
            system.equation(terms, Length::mm(*constant));
            matrix.push(row);
        }
        let solution = system.solve();
        let with = |more: &[Variable]| {
            let unit = |v: &Variable| {
                variables.iter().map(|w| if w == v { Exact::ONE } else { Exact::ZERO }).collect()
            };
            rank(&matrix.iter().cloned().chain(more.iter().map(unit)).collect::<Vec<_>>())
        };
        let base = with(&[]);
        for variable in &variables {
            let known = matches!(solution.value(*variable), Value::Known { .. });
            prop_assert_eq!(known, with(&[*variable]) == base);
            let asked = solution.questions.iter().filter(|q| q.open.contains(variable)).count();
            prop_assert_eq!(asked, usize::from(!known));
            // The derivation sums to the variable itself and nothing else.
            let from = solution.derivation(*variable);
            prop_assert_eq!(known, !from.is_empty());
            for (column, other) in variables.iter().enumerate().filter(|_| known) {
                let sum: Exact = from.iter().map(|(id, k)| matrix[id.index()][column] * *k).sum();
                prop_assert_eq!(sum, if other == variable { Exact::ONE } else { Exact::ZERO });
            }
        }
        for question in &solution.questions {
            prop_assert_eq!(with(&question.open) - base, question.missing);
            if question.missing == 1 {
                for variable in &question.open {
                    prop_assert_eq!(with(&[*variable]), with(&question.open));
                }
            }
        }
        // Conflicts: the factors cancel every variable and leave `over`; and
        // n equations of rank n − 1, none with factor nought, are minimal.
        for conflict in &solution.conflicts {
            for column in variables.iter().map(|variable| variable.index()) {
                let sum: Exact =
                    conflict.equations.iter().map(|(id, k)| matrix[id.index()][column] * *k).sum();
                prop_assert!(sum.is_zero());
            }
            let over: Length =
                conflict.equations.iter().map(|(id, k)| Length::mm(rows[id.index()].1) * *k).sum();
            prop_assert_eq!(over, conflict.over);
            prop_assert!(!over.is_zero());
            prop_assert!(conflict.equations.iter().all(|(_, k)| !k.is_zero()));
            let set: Vec<Vec<Exact>> =
                conflict.equations.iter().map(|(id, _)| matrix[id.index()].clone()).collect();
            prop_assert_eq!(rank(&set) + 1, set.len());
        }
    }
}

#[test]
fn inches_and_millimetres_meet_exactly() {
    let mut system = System::new();
    let [whole, a, b] = std::array::from_fn(|_| system.variable());
    let one = Exact::ONE;
    system.equation(vec![(whole, -one), (a, one), (b, one)], Length::ZERO);
    system.equation(vec![(whole, one)], Length::inches(20, 1));
    system.equation(vec![(a, one)], Length::mm(254));
    let solution = system.solve();
    let Value::Known { length, .. } = solution.value(b) else { panic!("open") };
    assert_eq!(length.in_unit(Unit::Inch), Exact::int(10));
}
