//! Cases and openings, in words.

use crate::revision::difference::{Difference, OpeningSize};

use super::Entry;
use super::words::{grown, sizes};

pub(super) fn entries(difference: &Difference) -> Vec<Entry> {
    let openings = &difference.openings;
    let mut entries = Vec::new();
    for change in &openings.changed {
        let name = &change.path.now.short;
        if change.kind.was != change.kind.now {
            let kinds = format!("{name}: {} (was {})", change.kind.now, change.kind.was);
            entries.push(Entry::line(kinds));
        }
        if !change.resized.is_empty() {
            let (sizes, grown) = (sizes(&change.resized), grown(&change.resized));
            entries.push(Entry::line(format!("{name} {sizes}, {grown}")));
        }
    }
    let told = |word: &str, opening: &OpeningSize| {
        let OpeningSize { path, kind, wide, high } = opening;
        let name = &path.short;
        Entry::line(format!("{word}: {kind} {name}, {} wide and {} high", wide.text, high.text))
    };
    entries.extend(openings.added.iter().map(|opening| told("new", opening)));
    entries.extend(openings.dropped.iter().map(|opening| told("gone", opening)));
    entries
}
