//! What follows from the statements of a case that do not contradict each
//! other, and the sizes it can be drawn with meanwhile.

use std::collections::{BTreeMap, BTreeSet};

use crate::measure::{Exact, Length};

use super::equations::{Says, Sheet};
use super::layout::{Conflict, EquationId, Solution, System, Variable};

/// Leaving statements out may bring others to light; after so many times the
/// case is not drawn.
const ROUNDS: usize = 8;

/// What stands of equations that have no answer.
#[derive(Debug)]
pub(super) struct Settled {
    /// What is known without the statements that contradict each other.
    pub(super) holding: Solution,
    /// An answer for everything: what is open then takes an equal share of what
    /// is left for its list. `None` where that settles nothing.
    pub(super) drawn: Option<Solution>,
}

/// Settles equations that have no answer, or more than one.
pub(super) fn settle(sheet: &Sheet, solution: &Solution) -> Settled {
    let mut system = sheet.system.clone();
    let mut holding = solution.clone();
    for _ in 0..ROUNDS {
        if holding.conflicts.is_empty() {
            break;
        }
        for conflict in &holding.conflicts {
            blamed(sheet, conflict).into_iter().for_each(|id| system.leave_out(id));
        }
        holding = system.solve();
    }
    share(sheet, &mut system, &holding);
    let drawn = system.solve();
    Settled { drawn: drawn.is_clean().then_some(drawn), holding }
}

/// The statements that are left out: the sizes of the openings in the list that
/// the conflict is told of, since its frame and what lies beside it is most
/// likely meant as it is; where none of them takes part, the one written last.
fn blamed(sheet: &Sheet, conflict: &Conflict) -> Vec<EquationId> {
    let all = || {
        let known = |id: EquationId| sheet.known.get(id.index()).map(|known| (id, known));
        conflict.equations.iter().filter_map(move |(id, _)| known(*id))
    };
    let lists = all().filter_map(|(_, known)| match known.says {
        Says::Fills(list) => Some(list),
        _ => None,
    });
    let told = lists.max();
    let is_sized = |says: &Says| match says {
        Says::Fixed { name, list, .. } => {
            told.is_some()
                && *list == told
                && !matches!(name.as_str(), "stile" | "rail" | "divider")
        }
        _ => false,
    };
    let sized: Vec<EquationId> =
        all().filter(|(_, known)| is_sized(&known.says)).map(|(id, _)| id).collect();
    if !sized.is_empty() {
        return sized;
    }
    let stated = all().filter(|(_, known)| matches!(known.says, Says::Fixed { .. }));
    stated.max_by_key(|(id, known)| (known.span, *id)).map(|(id, _)| id).into_iter().collect()
}

/// Adds that what nothing fixes takes as much as the others of its list do, by
/// a share where one of them has one.
fn share(sheet: &Sheet, system: &mut System, solution: &Solution) {
    let mut sharing: BTreeSet<Variable> = BTreeSet::new();
    for (id, known) in sheet.system.equations().zip(&sheet.known) {
        if let (Says::Shares { .. }, Some((terms, _))) = (&known.says, sheet.system.get(id)) {
            sharing.extend(terms.iter().map(|(variable, _)| *variable));
        }
    }
    for question in &solution.questions {
        let mut lists: BTreeMap<usize, Vec<Variable>> = BTreeMap::new();
        for variable in &question.open {
            let list = sheet.unknown.get(variable.index()).and_then(|unknown| unknown.list);
            if let Some(list) = list {
                lists.entry(list).or_default().push(*variable);
            }
        }
        for items in lists.values() {
            let first = items.iter().find(|item| sharing.contains(item)).or(items.first());
            let Some(first) = first else { continue };
            for item in items.iter().filter(|item| *item != first && !sharing.contains(item)) {
                let terms = vec![(*item, Exact::ONE), (*first, -Exact::ONE)];
                system.equation(terms, Length::ZERO);
            }
        }
    }
}
