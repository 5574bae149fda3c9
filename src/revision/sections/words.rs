//! Turns of phrase that the sections share.

use crate::revision::difference::Resized;

/// `1 part`, `3 parts`.
pub(super) fn count(number: usize, noun: &str) -> String {
    if number == 1 { format!("1 {noun}") } else { format!("{number} {noun}s") }
}

/// `1/2 longer and 1/4 narrower`
pub(super) fn grown(resized: &[Resized]) -> String {
    let one = |change: &Resized| {
        let more = change.by.length.is_positive();
        let word = match (change.size, more) {
            ("length", true) => "longer",
            ("length", false) => "shorter",
            ("width" | "wide", true) => "wider",
            ("width" | "wide", false) => "narrower",
            ("high", true) => "higher",
            ("high", false) => "lower",
            ("deep", true) => "deeper",
            ("deep", false) => "shallower",
            (_, true) => "thicker",
            (_, false) => "thinner",
        };
        format!("{} {word}", change.by.text.trim_start_matches(['+', '−']))
    };
    resized.iter().map(one).collect::<Vec<_>>().join(" and ")
}

/// `61-3/4 → 62-1/4 long, 4 → 3-3/4 wide`
pub(super) fn sizes(resized: &[Resized]) -> String {
    let one = |change: &Resized| {
        let word = match change.size {
            "length" => "long",
            "width" => "wide",
            "thickness" => "thick",
            other => other,
        };
        format!("{} → {} {word}", change.was.text, change.now.text)
    };
    resized.iter().map(one).collect::<Vec<_>>().join(", ")
}

/// Things with one key together, in the order in which the keys came.
pub(super) fn grouped<K: PartialEq, T>(items: impl Iterator<Item = (K, T)>) -> Vec<(K, Vec<T>)> {
    let mut groups: Vec<(K, Vec<T>)> = Vec::new();
    for (key, item) in items {
        match groups.iter_mut().find(|(known, _)| *known == key) {
            Some((_, own)) => own.push(item),
            None => groups.push((key, vec![item])),
        }
    }
    groups
}

/// The last part of a name.
pub(super) fn last(path: &str) -> &str {
    path.rsplit('.').next().unwrap_or(path)
}

/// A name without its case: `bank.upper`.
pub(super) fn local(path: &str) -> &str {
    path.split_once('.').map_or(path, |(_, local)| local)
}

/// `16 from the left end → 17 from the left end` with what both end in once.
pub(super) fn change(was: &str, now: &str) -> String {
    match (was.split_once(' '), now.split_once(' ')) {
        (Some((was, a)), Some((now, b))) if a == b => format!("{was} → {now} {a}"),
        _ => format!("{was} → {now}"),
    }
}
