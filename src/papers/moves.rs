//! How parts come together, in a sentence: what lies there first, and from which
//! side each further part comes in.

use std::collections::BTreeSet;

use crate::diagnostics::listed;
use crate::model::CaseId;
use crate::parts::{Assembly, JointSort, PartId, box_told, front_told};
use crate::plans::operations::{Doing, Leg, Move, Side};

use super::Source;

/// A longer sentence is told line by line.
const LONG: usize = 120;

/// Which way is left, told once a paper.
pub(super) const SIDES: &str = "Left, right, above, below, front, and back are those of the standing piece seen from the front, whichever way it rests on the bench.";

/// A line for each lot of joints that a task closes; none for what hangs or lies
/// loose, which comes in from the front.
pub(super) fn lines(source: &Source<'_, '_>, task: usize) -> Vec<String> {
    let own = source.work.operations().of(task).iter();
    own.flat_map(|operation| match &operation.doing {
        Doing::Join { joints, moves } if is_told(source, joints) => told(source, moves),
        _ => Vec::new(),
    })
    .collect()
}

fn is_told(source: &Source<'_, '_>, joints: &[usize]) -> bool {
    let sorts = joints.iter().filter_map(|index| source.work.parts.joints.get(*index));
    !sorts.into_iter().all(|joint| matches!(joint.sort, JointSort::Hung | JointSort::Laid))
}

/// One sentence, or a line for each part where they are many.
fn told(source: &Source<'_, '_>, moves: &[Move]) -> Vec<String> {
    let mut told: Vec<(Vec<String>, String)> = Vec::new();
    let mut first: Vec<String> = Vec::new();
    for own in moves {
        let name = name(source, &own.parts);
        if own.legs.is_empty() {
            first.push(name);
            continue;
        }
        let way = way(source, &own.legs);
        match told.last_mut() {
            Some((names, known)) if *known == way => names.push(name),
            _ => told.push((vec![name], way)),
        }
    }
    // Where no order was found, the paper must not tell one.
    let start = match first.len() {
        0 | 1 => format!("start with {}", listed(&first)),
        _ => format!(
            "start with {} together: these papers know no way to bring them in one by one, so find it dry, before the glue",
            listed(&first)
        ),
    };
    let long: usize = told.iter().map(|(names, way)| listed(names).len() + way.len()).sum();
    let many = told.len() > 5 || start.len() + long > LONG;
    let rest = told.into_iter().map(|(names, way)| format!("{} {way}", listed(&names)));
    if many {
        return std::iter::once(start).chain(rest.map(|line| format!("then {line}"))).collect();
    }
    vec![std::iter::once(start).chain(rest).collect::<Vec<_>>().join("; then ")]
}

/// `from the left`, `from the front, then pushed 1-1/32 to the left into place`.
fn way(source: &Source<'_, '_>, legs: &[Leg]) -> String {
    let mut told = Vec::new();
    for leg in legs {
        told.push(match leg.by {
            None => format!("from {}", side(leg.from)),
            Some(by) => format!("pushed {} {}", source.figures.text(by), toward(leg.from)),
        });
    }
    let pushed = legs.last().is_some_and(|leg| leg.by.is_some());
    told.join(", then ") + if pushed { " into place" } else { "" }
}

fn side(side: Side) -> &'static str {
    match side {
        Side::Left => "the left",
        Side::Right => "the right",
        Side::Below => "below",
        Side::Above => "above",
        Side::Front => "the front",
        Side::Back => "the back",
    }
}

/// Where a part goes that comes from a side.
fn toward(from: Side) -> &'static str {
    match from {
        Side::Left => "to the right",
        Side::Right => "to the left",
        Side::Below => "up",
        Side::Above => "down",
        Side::Front => "to the back",
        Side::Back => "to the front",
    }
}

/// A part by its mark; what is together already by what it is.
fn name(source: &Source<'_, '_>, ids: &[PartId]) -> String {
    let (piece, parts) = (source.work.piece, source.work.parts);
    if let [only] = ids {
        return parts.mark(*only).to_owned();
    }
    if is_stage(source, ids) {
        let marks: Vec<&str> = ids.iter().map(|id| parts.mark(*id)).collect();
        return format!("{} as one", listed(&marks));
    }
    let units: BTreeSet<&Assembly> =
        ids.iter().filter_map(|id| parts.get(*id)).map(|part| &part.assembly).collect();
    // Of several cases each is told by its name.
    let cases: BTreeSet<CaseId> =
        ids.iter().filter_map(|id| parts.get(*id)).map(|part| part.case).collect();
    let named: Vec<&str> =
        cases.iter().filter_map(|id| piece.case(*id)).map(|case| &*case.name).collect();
    let (of_case, case) = match piece.cases.as_slice() {
        [_] => (String::new(), "the case".to_owned()),
        _ => (format!(" of {}", listed(&named)), listed(&named)),
    };
    if let [Some(only), None] = [units.first(), units.iter().nth(1)] {
        match only {
            Assembly::Frame(_) => return format!("the face frame{of_case}"),
            Assembly::Base(case) if piece.base_row(*case).is_some() => {
                return format!("the base of {}", piece.base_named(*case));
            }
            Assembly::Base(_) => return format!("the base{of_case}"),
            Assembly::DrawerBox(of) => {
                return box_told(piece, *of);
            }
            Assembly::Front(front) => return front_told(piece, *front),
            Assembly::Countertop(case) => {
                let top = piece.top_over(*case).filter(|top| top.run.is_some());
                return match top {
                    Some(top) => format!("the countertop of {}", piece.top_named(top)),
                    None => format!("the countertop{of_case}"),
                };
            }
            Assembly::Filler(case, side) => {
                let filler = piece.case(*case).and_then(|case| case.filler(*side));
                return format!("the filler {}", filler.map_or("", |filler| &filler.name));
            }
            Assembly::Carcass(_) | Assembly::Loose(_) => {}
        }
    }
    match (units.iter().any(|unit| matches!(unit, Assembly::Frame(_))), named.len()) {
        (true, 0 | 1) => format!("{case} with its face frame"),
        (true, _) => format!("{case} with their face frames"),
        (false, _) => case,
    }
}

/// True for some parts of a unit that were put together before the rest of it.
fn is_stage(source: &Source<'_, '_>, ids: &[PartId]) -> bool {
    let unit = ids.first().and_then(|id| source.work.parts.get(*id)).map(|part| &part.assembly);
    let steps = unit.and_then(|unit| source.work.stages().get(unit));
    let Some((_, first)) = steps.and_then(|steps| steps.split_last()) else { return false };
    let own: BTreeSet<PartId> = ids.iter().copied().collect();
    first.iter().any(|step| step.parts() == own)
}
