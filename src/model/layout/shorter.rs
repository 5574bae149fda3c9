//! Short cuts: a spare equation, true but not needed, may say in one step what
//! a conflict says in many.

use std::collections::{BTreeMap, BTreeSet};

use super::conflict::Conflict;
use super::elimination::Echelon;
use super::{Combination, EquationId, System};
use crate::measure::Exact;

/// How many spare equations are tried on one conflict, and how many times over:
/// the search stays cheap on a piece where everything is written twice.
const SPARES_TRIED: usize = 64;
const ROUNDS: usize = 8;

/// The same contradiction with fewer equations, where `spares` (combinations
/// that read `0 = 0`) shorten it. Still one that nothing can be left out of.
pub(super) fn shorter(
    system: &System,
    conflict: Conflict,
    set_aside: EquationId,
    spares: &[Combination],
) -> Conflict {
    let mut equations = conflict.equations.clone();
    let near: Vec<&Combination> =
        spares.iter().filter(|spare| meet(&equations, spare)).take(SPARES_TRIED).collect();
    for _ in 0..ROUNDS {
        let shortest =
            near.iter().flat_map(|spare| without(&equations, spare)).min_by_key(Vec::len);
        match shortest {
            Some(found) if found.len() < equations.len() => equations = found,
            _ => break,
        }
    }
    if equations.len() == conflict.equations.len() {
        return conflict;
    }
    match circuit(system, &equations, set_aside) {
        Some(found) if found.equations.len() < conflict.equations.len() => found,
        _ => conflict,
    }
}

fn meet(a: &Combination, b: &Combination) -> bool {
    a.iter().any(|(id, _)| b.binary_search_by_key(id, |(other, _)| *other).is_ok())
}

/// The combination with as much of the spare one taken off as makes at least
/// one of their common equations vanish: one result for each such amount.
fn without(equations: &Combination, spare: &Combination) -> Vec<Combination> {
    let factors: BTreeMap<EquationId, Exact> = equations.iter().copied().collect();
    let amounts: BTreeSet<Exact> = spare
        .iter()
        .filter_map(|(id, by)| factors.get(id).map(|factor| *factor / *by))
        .filter(|amount| !amount.is_out_of_range())
        .collect();
    let taken_off = |amount: Exact| {
        let mut sums = factors.clone();
        for (id, by) in spare {
            *sums.entry(*id).or_default() -= amount * *by;
        }
        sums.into_iter().filter(|(_, factor)| !factor.is_zero()).collect()
    };
    amounts.into_iter().map(taken_off).collect()
}

/// The conflict of `set_aside` with independent ones among `equations`.
fn circuit(system: &System, equations: &Combination, set_aside: EquationId) -> Option<Conflict> {
    let mut echelon = Echelon::default();
    for (id, _) in equations.iter().filter(|(id, _)| *id != set_aside) {
        let (terms, constant) = system.get(*id)?;
        let reduced = echelon.reduce(terms, constant);
        if reduced.kept {
            echelon.push(*id, reduced, |_| 0);
        }
    }
    let (terms, constant) = system.get(set_aside)?;
    let reduced = echelon.reduce(terms, constant);
    let closed = reduced.kept && reduced.left.is_empty();
    let equations = closed.then(|| echelon.closing(set_aside, &reduced.uses))?;
    Conflict::shown(equations, reduced.constant)
}
