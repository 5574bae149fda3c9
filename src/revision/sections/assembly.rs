//! Steps of the assembly, in words.

use crate::revision::difference::{Difference, StepChange};
use crate::revision::two_sided::Pair;

use super::Entry;
use super::words::told;

pub(super) fn entries(difference: &Difference) -> Vec<Entry> {
    let steps = &difference.steps;
    let mut entries = Vec::new();
    entries.extend(steps.added.iter().map(|step| Entry::line(format!("new: {}", step.title))));
    entries.extend(steps.dropped.iter().map(|step| Entry::line(format!("gone: {}", step.title))));
    entries.extend(steps.changed.iter().map(changed));
    if let Some(Pair { was, now }) = &difference.work {
        let lines = vec![format!("was {was}"), format!("now {now}")];
        entries.push(Entry { head: "all steps together".to_owned(), lines });
    }
    entries
}

fn changed(step: &StepChange) -> Entry {
    let mut lines = told(&step.lines);
    if let Some(Pair { was, now }) = step.clamps {
        lines.push(format!("{was} → {now} clamps"));
    }
    if let Some(Pair { was, now }) = &step.wait {
        lines.push(format!("{was} → {now}"));
    }
    match &step.diagonals {
        Some(Pair { was: Some(was), now: Some(now) }) => {
            lines.push(format!("diagonals {} → {}", was.text, now.text));
        }
        Some(Pair { now: Some(now), .. }) => lines.push(format!("diagonals {} now", now.text)),
        Some(_) => lines.push("no diagonals to measure".to_owned()),
        None => {}
    }
    if !step.after.dropped.is_empty() {
        lines.push(format!("no longer after: {}", step.after.dropped.join("; ")));
    }
    if !step.after.added.is_empty() {
        lines.push(format!("now after: {}", step.after.added.join("; ")));
    }
    Entry { head: step.title.now.clone(), lines }
}
