//! What openings are called on paper.

use std::collections::{BTreeMap, HashMap};

use super::case::Case;
use super::opening::{Item, Opening, OpeningKind};

/// Says what each opening is called on paper: by the end of its name that no
/// other opening of the case has.
pub(super) fn within(openings: &mut [Opening], case: &str) {
    let words = |path: &str| -> Vec<String> {
        let within = path.strip_prefix(case).unwrap_or(path).split('.').skip(1);
        let mut words: Vec<String> = within.map(str::to_owned).collect();
        words.reverse();
        words
    };
    let mut paths: Vec<Vec<String>> = openings.iter().map(|it| words(&it.path)).collect();
    paths.dedup();
    let mut count: BTreeMap<&str, usize> = BTreeMap::new();
    for words in &paths {
        *count.entry(words.first().map_or("", String::as_str)).or_default() += 1;
    }
    for opening in openings.iter_mut() {
        let words = words(&opening.path);
        let Some(last) = words.first() else {
            opening.title = opening.path.clone();
            continue;
        };
        let alike = || paths.iter().filter(|other| other.first() == Some(last) && **other != words);
        let shared = match count.get(last.as_str()) {
            Some(1) => 0,
            _ => alike()
                .map(|other| other.iter().zip(&words).take_while(|(a, b)| a == b).count())
                .max()
                .unwrap_or(0),
        };
        let own: Vec<&str> = words.iter().take(shared + 1).rev().map(String::as_str).collect();
        opening.title = own.join(" ");
    }
    nameless(openings);
}

/// Calls a list without a name that stands in another one after what is in it: `bowl with
/// doors`, `upper to lower`.
fn nameless(openings: &mut [Opening]) {
    let is_list = |opening: &Opening| matches!(opening.kind, OpeningKind::List(..));
    let within = |opening: &&Opening| {
        let parent = opening.parent.and_then(|parent| openings.get(parent.at));
        is_list(opening) && !opening.named && parent.is_some_and(is_list)
    };
    let told: Vec<(usize, String)> = openings
        .iter()
        .filter(within)
        .filter_map(|opening| {
            let leaves = leaves(openings, opening);
            let title = match leaves.as_slice() {
                [only] => (*only).to_owned(),
                [one, other] => format!("{one} with {other}"),
                [first, .., last] => format!("{first} to {last}"),
                [] => return None,
            };
            Some((opening.id.at, title))
        })
        .collect();
    for (at, title) in told {
        if let Some(opening) = openings.get_mut(at) {
            opening.title = title;
        }
    }
}

/// What the openings in a list are called, from the first to the last; a list with a name
/// counts as one.
fn leaves<'o>(openings: &'o [Opening], list: &'o Opening) -> Vec<&'o str> {
    let OpeningKind::List(_, items) = &list.kind else { return vec![&list.title] };
    let inner = items.iter().filter_map(|item| match item {
        Item::Opening(id) => openings.get(id.at),
        Item::Member(_) => None,
    });
    let told = inner.flat_map(|own| match own.named {
        true => vec![own.title.as_str()],
        false => leaves(openings, own),
    });
    told.collect()
}

/// Adds the case to what openings are called that have one title in several cases.
pub(super) fn across(cases: &mut [Case]) {
    if cases.len() < 2 {
        return;
    }
    // The case that a title is of, and `None` for that of several.
    let mut of: HashMap<String, Option<usize>> = HashMap::new();
    for (at, case) in cases.iter().enumerate() {
        for opening in &case.openings {
            let own = of.entry(opening.title.clone()).or_insert(Some(at));
            *own = own.filter(|other| *other == at);
        }
    }
    for case in cases {
        for opening in &mut case.openings {
            if of.get(&opening.title).is_some_and(Option::is_none) {
                opening.title_in_case = Some(format!("{} in {}", opening.title, case.name));
            }
        }
    }
}
