//! Gaps through the year and weights, in words.

use crate::revision::difference::{Difference, Figure, GapChange, GapPlace, Pair, Room};

use super::Entry;
use super::words::{count, grouped, local};

/// Gaps that change alike together; new ones front by front.
pub(super) fn gaps(difference: &Difference) -> Vec<Entry> {
    let gaps = &difference.gaps;
    let all = gaps.changed.iter().chain(&difference.panels);
    let mut entries: Vec<Entry> = grouped(all.map(|gap| (rooms(&gap.room), gap)))
        .into_iter()
        .map(|(room, own)| Entry { head: places(&own), lines: vec![room] })
        .collect();
    entries.extend(fronts("new", &gaps.added));
    entries.extend(fronts("gone", &gaps.dropped));
    entries
}

/// Only the figures that change.
fn rooms(room: &Pair<Room>) -> String {
    let Pair { was, now } = room;
    let figure = |name: &str, was: &Figure, now: &Figure| {
        (was.text != now.text).then(|| format!("{name} {} → {}", was.text, now.text))
    };
    [
        figure("fitted", &was.fitted, &now.fitted),
        figure("least", &was.least, &now.least),
        figure("greatest", &was.greatest, &now.greatest),
    ]
    .into_iter()
    .flatten()
    .collect::<Vec<_>>()
    .join(", ")
}

/// `press.left-door: left, top; press.right-door: right`
fn places(own: &[&GapChange]) -> String {
    grouped(own.iter().map(|gap| (local(&gap.front.now), gap.edge)))
        .into_iter()
        .map(|(front, edges)| format!("{front}: {}", edges.join(", ")))
        .collect::<Vec<_>>()
        .join("; ")
}

fn fronts(word: &'static str, gaps: &[GapPlace]) -> impl Iterator<Item = Entry> {
    let fronts = grouped(gaps.iter().map(|gap| (local(&gap.front), gap)));
    fronts.into_iter().map(move |(front, own)| {
        let mut fitted: Vec<&Figure> = own.iter().map(|gap| &gap.room.fitted).collect();
        fitted.sort_unstable();
        fitted.dedup();
        let fitted: Vec<&str> = fitted.into_iter().map(|figure| figure.text.as_str()).collect();
        let gaps = count(own.len(), "gap");
        Entry::line(format!("{word}: {front}, {gaps} fitted at {}", fitted.join(" and ")))
    })
}

pub(super) fn weights(difference: &Difference) -> Vec<Entry> {
    let weights = &difference.weights;
    let changed = weights
        .changed
        .iter()
        .map(|change| format!("{}: {} → {}", change.now.what, change.was.text, change.now.text));
    let added = weights.added.iter().map(|one| format!("new: {}, {}", one.what, one.text));
    let dropped = weights.dropped.iter().map(|one| format!("gone: {}, {}", one.what, one.text));
    changed.chain(added).chain(dropped).map(Entry::line).collect()
}
