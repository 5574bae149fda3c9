//! Gaps through the year and weights, in words.

use crate::revision::difference::{Difference, GapChange, GapPlace, Room, Weight};
use crate::revision::two_sided::{Figure, Pair};

use super::Entry;
use super::words::{count, grouped, listed};

/// Gaps that change alike together; new ones front by front.
pub(super) fn gaps(difference: &Difference) -> Vec<Entry> {
    let gaps = &difference.gaps;
    let all = gaps.changed.iter().chain(&difference.panels);
    let mut entries: Vec<Entry> = grouped(all.map(|gap| (fitted(&gap.room), gap)))
        .into_iter()
        .map(|(head, own)| {
            let alike = grouped(own.into_iter().map(|gap| (season(&gap.room), gap)));
            let line = |(season, own): (String, Vec<&GapChange>)| match season.is_empty() {
                true => places(&own),
                false => format!("{season}: {}", places(&own)),
            };
            Entry { head, lines: alike.into_iter().map(line).collect() }
        })
        .collect();
    entries.extend(fronts("new", &gaps.added));
    entries.extend(fronts("gone", &gaps.dropped));
    entries
}

fn figure(name: &str, was: &Figure, now: &Figure) -> Option<String> {
    (was.text != now.text).then(|| format!("{name} {} → {}", was.text, now.text))
}

fn fitted(room: &Pair<Room>) -> String {
    let changed = figure("fitted", &room.was.fitted, &room.now.fitted);
    changed.unwrap_or_else(|| "fitted as before".to_owned())
}

/// Only the figures that change.
fn season(room: &Pair<Room>) -> String {
    let Pair { was, now } = room;
    let least = figure("least", &was.least, &now.least);
    let greatest = figure("greatest", &was.greatest, &now.greatest);
    least.into_iter().chain(greatest).collect::<Vec<_>>().join(", ")
}

/// `left and top of press.left-door; top of bank.upper, bank.lower`
fn places(own: &[&GapChange]) -> String {
    let fronts = grouped(own.iter().map(|gap| (gap.front.now.short.as_str(), gap.edge)));
    let alike = grouped(fronts.into_iter().map(|(front, edges)| (listed(&edges), front)));
    alike
        .into_iter()
        .map(|(edges, fronts)| format!("{edges} of {}", fronts.join(", ")))
        .collect::<Vec<_>>()
        .join("; ")
}

fn fronts(word: &'static str, gaps: &[GapPlace]) -> impl Iterator<Item = Entry> {
    let fronts = grouped(gaps.iter().map(|gap| (gap.front.short.as_str(), gap)));
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
    let changed = weights.changed.iter().map(|change| {
        format!("{}: {} → {}", lifted(&change.now), change.was.text, change.now.text)
    });
    let added = weights.added.iter().map(|one| format!("new: {}, {}", lifted(one), one.text));
    let dropped = weights.dropped.iter().map(|one| format!("gone: {}, {}", lifted(one), one.text));
    changed.chain(added).chain(dropped).map(Entry::line).collect()
}

/// `drawer bank.upper`
fn lifted(weight: &Weight) -> String {
    match weight.what {
        "whole" => "the whole".to_owned(),
        "base" => format!("base of {}", weight.path.whole),
        what => format!("{what} {}", weight.path.short),
    }
}
