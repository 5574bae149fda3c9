//! What openings are called on paper.

use std::collections::{BTreeMap, HashMap};

use super::case::Case;
use super::opening::Opening;

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
