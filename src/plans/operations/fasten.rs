//! Screws, pins and clips, in the task that closes their joint.

use std::collections::BTreeMap;

use crate::plans::assembly::Task;
use crate::plans::fitting::Fitting;

use super::Doing;

/// The fastenings of each joint, by its place among all.
pub(super) fn by_joint(fitting: &Fitting<'_>) -> BTreeMap<usize, Vec<usize>> {
    let mut found: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (index, own) in fitting.fastenings.iter().enumerate() {
        if let Some(joint) = own.joint {
            found.entry(joint).or_default().push(index);
        }
    }
    found
}

/// What is screwed, pinned or clipped in a task, kind by kind.
pub(super) fn fastened(
    fitting: &Fitting<'_>,
    by_joint: &BTreeMap<usize, Vec<usize>>,
    task: &Task,
) -> Vec<Doing> {
    let mut own: Vec<usize> =
        task.closes.iter().filter_map(|joint| by_joint.get(joint)).flatten().copied().collect();
    let kind = |index: &usize| fitting.fastenings.get(*index).map(|own| (own.purpose, own.long));
    own.sort_by_key(|index| (kind(index), *index));
    let mut kinds: Vec<Vec<usize>> = Vec::new();
    for index in own {
        match kinds.last_mut() {
            Some(last) if last.first().and_then(kind) == kind(&index) => last.push(index),
            _ => kinds.push(vec![index]),
        }
    }
    kinds.into_iter().map(Doing::Fasten).collect()
}
