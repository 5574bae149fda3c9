//! What goes together by itself before it goes into the rest: the inner pieces of
//! a lattice, which no longer come in one by one when its long members stand.

use std::collections::BTreeMap;

use crate::parts::{Assembly, Joint, JointSort, Parts};
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
    let of = |joints: Vec<(usize, &Joint)>| operations::steps(parts, &joints, &|id| vec![id]);
    within.into_iter().map(|(unit, joints)| (unit, of(joints))).collect()
}

/// True for a joint that closes when its unit is glued up.
pub(super) fn is_within(joint: &Joint) -> bool {
    match joint.sort {
        JointSort::Wood(_) | JointSort::Floating => true,
        JointSort::Miter
        | JointSort::Planted
        | JointSort::Hung
        | JointSort::Slid
        | JointSort::Laid
        | JointSort::FrontFixed => false,
    }
}
