//! The steps of the assembly.

use std::collections::{BTreeMap, BTreeSet};

use crate::measure::Tape;
use crate::parts::PartId;
use crate::plans::Workings;
use crate::plans::assembly::{Assembly, Task};
use crate::trade;

use super::difference::{Step, StepChange};
use super::features::lines;
use super::matching::{Match, Pairs};
use super::names::Names;
use super::two_sided::{Changes, Figure, Lists, Pair};

/// Compares all steps, and what they come to.
pub(super) fn compare(
    old: &Workings<'_>,
    new: &Workings<'_>,
    matched: &Match,
    names: &Names,
    tape: Tape,
) -> (Changes<StepChange, Step>, Option<Pair<String>>) {
    let was = old.assembly();
    let now = new.assembly();
    let titles: Vec<String> = was.tasks.iter().map(|task| names.line(&task.title)).collect();
    let pairs = pair(was, now, &titles, matched);
    let mut changes = Changes::default();
    for (before, after) in pairs.iter() {
        let (Some(a), Some(b)) = (was.tasks.get(before), now.tasks.get(after)) else { continue };
        let after = Lists {
            added: follows((&now.tasks, b), (&was.tasks, before), |index| pairs.old_of(index)),
            dropped: follows((&was.tasks, a), (&now.tasks, after), |index| pairs.new_of(index)),
        };
        let told: Vec<String> = a.lines.iter().map(|line| names.line(line)).collect();
        let change = StepChange {
            title: Pair { was: a.title.clone(), now: b.title.clone() },
            lines: lines(&told, &b.lines, str::to_owned),
            clamps: Pair::unequal(a.clamps, b.clamps),
            wait: Pair::unequal(waits(a), waits(b)),
            diagonals: diagonals(a, b, tape),
            after,
        };
        let same = change.lines.is_empty()
            && change.after.is_empty()
            && (change.clamps.is_none() && change.wait.is_none() && change.diagonals.is_none());
        if !same {
            changes.changed.push(change);
        }
    }
    let (dropped, added) = pairs.left_over();
    let steps = |side: &Workings<'_>, plan: &Assembly, left: Vec<usize>| {
        let tasks = left.into_iter().filter_map(|index| plan.tasks.get(index));
        tasks.map(|task| step(side, task)).collect()
    };
    changes.added = steps(new, now, added);
    changes.dropped = steps(old, was, dropped);
    (changes, Pair::unequal(work(was), work(now)))
}

/// A step is the same under one title with one of its parts, then under one
/// title, then with one kind of work on most of its parts.
fn pair(was: &Assembly, now: &Assembly, titles: &[String], matched: &Match) -> Pairs {
    let mut pairs = Pairs::new(was.tasks.len(), now.tasks.len());
    let mut with: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (index, task) in now.tasks.iter().enumerate() {
        for part in &task.parts {
            with.entry(part.0).or_default().push(index);
        }
    }
    let mut titled = Vec::new();
    let mut worked = Vec::new();
    for (before, (a, title)) in was.tasks.iter().zip(titles).enumerate() {
        let mut shared: BTreeMap<usize, usize> = BTreeMap::new();
        for part in a.parts.iter().filter_map(|part| matched.parts.new_of(part.0)) {
            for task in with.get(&part).into_iter().flatten() {
                *shared.entry(*task).or_default() += 1;
            }
        }
        for (after, count) in shared {
            let Some(b) = now.tasks.get(after) else { continue };
            let best = std::cmp::Reverse(count);
            if *title == b.title {
                titled.push((best, before, after));
            } else if a.work == b.work && count * 2 > a.parts.len().max(b.parts.len()) {
                worked.push((best, before, after));
            }
        }
    }
    pairs.pair_best(titled);
    let (left, _) = pairs.left_over();
    let mut by_title: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (index, task) in now.tasks.iter().enumerate() {
        by_title.entry(&task.title).or_default().push(index);
    }
    for before in left {
        let same = titles.get(before).and_then(|title| by_title.get(title.as_str()));
        let free = same.and_then(|same| same.iter().find(|now| pairs.old_of(**now).is_none()));
        if let Some(after) = free {
            pairs.pair(before, *after);
        }
    }
    pairs.pair_best(worked);
    pairs
}

/// The steps on both sides that a task waits for by itself, and that its
/// partner on the other side does not wait for in any way.
fn follows(
    (own, task): (&[Task], &Task),
    (others, partner): (&[Task], usize),
    other_of: impl Fn(usize) -> Option<usize>,
) -> Vec<String> {
    let direct = task.after.iter().filter_map(|index| Some((own.get(*index)?, other_of(*index)?)));
    let beyond = direct.filter(|(_, other)| !waits_for(others, partner, *other));
    beyond.map(|(step, _)| step.title.clone()).collect()
}

/// True where a task comes after another, whatever stands between them.
fn waits_for(tasks: &[Task], task: usize, other: usize) -> bool {
    let mut open = vec![task];
    let mut seen = BTreeSet::new();
    while let Some(next) = open.pop() {
        if next == other {
            return true;
        }
        // What a task needs stands before it.
        if next > other && seen.insert(next) {
            open.extend(tasks.get(next).into_iter().flat_map(|task| &task.after));
        }
    }
    false
}

fn waits(task: &Task) -> String {
    task.waits().unwrap_or_else(|| "no wait".to_owned())
}

fn diagonals(was: &Task, now: &Task, tape: Tape) -> Option<Pair<Option<Figure>>> {
    let of = |task: &Task| task.square.map(|own| trade::diagonal(own.sides.0, own.sides.1));
    let figure = |length| Figure::new(length, tape);
    let sides = |task: &Task| task.square.map(|own| own.sides);
    (sides(was) != sides(now)).then(|| match (of(was), of(now)) {
        (Some(was), Some(now)) => {
            let Pair { was, now } = Figure::both(was, now, tape);
            Pair { was: Some(was), now: Some(now) }
        }
        (was, now) => Pair { was: was.map(figure), now: now.map(figure) },
    })
}

fn step(side: &Workings<'_>, task: &Task) -> Step {
    let mark = |id: &PartId| side.parts.mark(*id).to_owned();
    Step { title: task.title.clone(), parts: task.parts.iter().map(mark).collect() }
}

fn work(plan: &Assembly) -> String {
    let (steps, days) = (plan.tasks.len(), plan.schedule.days);
    format!("{steps} steps, about {} of work, {days} days", plan.schedule.hands)
}
