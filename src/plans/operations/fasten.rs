//! Screws, pins and clips, in the task that closes their joint.

use std::collections::BTreeMap;

use crate::plans::assembly::Task;
use crate::plans::fitting::Fastened;

use super::Doing;

/// The fastenings of each joint, by its place among all.
pub(super) fn by_joint(fastened: &Fastened<'_>) -> BTreeMap<usize, Vec<usize>> {
    let mut found: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (index, own) in fastened.fastenings.iter().enumerate() {
        if let Some(joint) = own.joint {
            found.entry(joint).or_default().push(index);
        }
    }
    found
}

/// What is screwed, pinned or clipped in a task, kind by kind.
pub(super) fn fastened(
    fastened: &Fastened<'_>,
    by_joint: &BTreeMap<usize, Vec<usize>>,
    task: &Task,
) -> Vec<Doing> {
    let mut own: Vec<usize> =
        task.closes.iter().filter_map(|joint| by_joint.get(joint)).flatten().copied().collect();
    let kind = |index: &usize| {
        fastened.fastenings.get(*index).map(|own| (own.purpose, own.long, own.hole))
    };
    own.sort_by_key(|index| (kind(index), *index));
    let mut kinds: Vec<Vec<usize>> = Vec::new();
    for index in own.iter().copied() {
        match kinds.last_mut() {
            Some(last) if last.first().and_then(kind) == kind(&index) => last.push(index),
            _ => kinds.push(vec![index]),
        }
    }
    let lines = own.iter().flat_map(|index| {
        let count = fastened.fastenings.get(*index).map_or(0, |own| own.lines.len());
        (0..count).map(|line| Doing::ScrewLine(*index, line))
    });
    let lines: Vec<Doing> = lines.collect();
    kinds.into_iter().map(Doing::Fasten).chain(lines).collect()
}
