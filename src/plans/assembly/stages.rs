//! What goes together by itself before it goes into the rest: the inner pieces of
//! a lattice, which no longer come in one by one when its long members stand.

use std::collections::BTreeMap;

use crate::model::{CaseId, Side};
use crate::parts::{Assembly, Joint, JointSort, Of, PartId, Parts};
use crate::plans::operations::{self, Step};

/// The steps in which each unit is put together, the whole unit last.
pub(in crate::plans) type Stages = BTreeMap<Assembly, Vec<Step>>;

/// Finds them from the joints that lie within each unit.
pub(in crate::plans) fn stages(parts: &Parts) -> Stages {
    let mut within: BTreeMap<Assembly, Vec<(usize, &Joint)>> = BTreeMap::new();
    for (index, joint) in parts.joints.iter().enumerate() {
        let [own, other] = [joint.part, joint.into].map(|id| parts.get(id));
        let (Some(own), Some(other)) = (own, other) else { continue };
        if is_within(joint) && own.assembly == other.assembly {
            within.entry(own.assembly).or_default().push((index, joint));
        }
    }
    within.into_iter().map(|(unit, joints)| (unit, in_steps(parts, joints))).collect()
}

/// What is glued up by itself and goes into the rest as one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Lot {
    /// The paneled end at a side of a case.
    End(CaseId, Side),
    /// A web frame.
    Web(Of),
}

/// The steps of one unit: first its paneled ends and its web frames, each of which goes
/// into the rest as one.
fn in_steps(parts: &Parts, joints: Vec<(usize, &Joint)>) -> Vec<Step> {
    let mut lots: BTreeMap<Lot, Vec<(usize, &Joint)>> = BTreeMap::new();
    let mut rest = Vec::new();
    for (index, joint) in joints {
        match lot_of(parts, joint) {
            Some(lot) => lots.entry(lot).or_default().push((index, joint)),
            None => rest.push((index, joint)),
        }
    }
    let mut members: BTreeMap<PartId, Vec<PartId>> = BTreeMap::new();
    let mut steps = Vec::new();
    for own in lots.values() {
        let mut all: Vec<PartId> =
            own.iter().flat_map(|(_, joint)| [joint.part, joint.into]).collect();
        all.sort_unstable();
        all.dedup();
        members.extend(all.iter().map(|id| (*id, all.clone())));
        steps.extend(operations::steps(parts, own, &|id| vec![id]));
    }
    let fixed = |id: PartId| members.get(&id).cloned().unwrap_or_else(|| vec![id]);
    steps.extend(operations::steps(parts, &rest, &fixed));
    steps
}

/// The paneled end or the web frame that a joint lies within.
pub(super) fn lot_of(parts: &Parts, joint: &Joint) -> Option<Lot> {
    let [one, other] = [joint.part, joint.into].map(|id| parts.get(id));
    let (one, other) = one.zip(other)?;
    if one.of != other.of {
        return None;
    }
    match (one.role.end_side(), other.role.end_side()) {
        (Some(side), Some(across)) if side == across => Some(Lot::End(one.case, side)),
        (Some(_) | None, _) => {
            (one.role.is_of_web() && other.role.is_of_web()).then_some(Lot::Web(one.of))
        }
    }
}

/// True for a joint that closes when its unit is glued up.
pub(super) fn is_within(joint: &Joint) -> bool {
    match joint.sort {
        JointSort::Wood(_) | JointSort::Floating => true,
        JointSort::Miter
        | JointSort::Glazed
        | JointSort::Pinned
        | JointSort::Planted
        | JointSort::Hung
        | JointSort::Slid
        | JointSort::Laid
        | JointSort::FrontFixed => false,
    }
}
