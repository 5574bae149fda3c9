//! A short form of every name of a piece, for marks: the initials of a name of
//! several words, else its first two letters; three where two names would share
//! it.

use std::collections::{BTreeMap, BTreeSet};

use crate::model::{CaseId, Opening, OpeningId, Piece};

/// As many letters as a short form has at most.
const LONGEST: usize = 3;

/// The short forms of a piece's names.
pub(super) struct ShortNames {
    by_name: BTreeMap<String, String>,
    cases: Vec<String>,
    openings: Vec<Vec<String>>,
}

impl ShortNames {
    pub(super) fn of(piece: &Piece) -> Self {
        let mut all: BTreeSet<&str> = BTreeSet::new();
        for case in &piece.cases {
            all.insert(&case.name);
            all.extend(case.openings.iter().map(Opening::name));
            all.extend(case.members.iter().filter_map(|member| member.given()));
        }
        let by_name = short(&all);
        let of = |name: &str| by_name.get(name).cloned().unwrap_or_default();
        let cases = piece.cases.iter().map(|case| of(&case.name)).collect();
        let openings = piece
            .cases
            .iter()
            .map(|case| case.openings.iter().map(|opening| of(opening.name())).collect());
        let openings = openings.collect();
        Self { by_name, cases, openings }
    }

    /// The short form of a name.
    pub(super) fn word(&self, name: &str) -> &str {
        self.by_name.get(name).map_or("", String::as_str)
    }

    pub(super) fn case(&self, id: CaseId) -> &str {
        self.cases.get(id.0).map_or("", String::as_str)
    }

    pub(super) fn case_letter(&self, id: CaseId) -> &str {
        first(self.case(id))
    }

    pub(super) fn opening(&self, id: OpeningId) -> &str {
        let case = self.openings.get(id.case.0);
        case.and_then(|case| case.get(id.at)).map_or("", String::as_str)
    }

    pub(super) fn opening_letter(&self, id: OpeningId) -> &str {
        first(self.opening(id))
    }

    /// The nearest list with a name that an opening stands in.
    pub(super) fn list_of(&self, piece: &Piece, opening: &Opening) -> Option<OpeningId> {
        let list = piece.opening(opening.parent?)?;
        self.named(piece, list)
    }

    /// A list itself, or the nearest round it that has a name of its own.
    pub(super) fn named(&self, piece: &Piece, list: &Opening) -> Option<OpeningId> {
        let parent = piece.opening(list.parent?)?;
        if list.named { Some(list.id) } else { self.named(piece, parent) }
    }
}

fn first(name: &str) -> &str {
    name.chars().next().and_then(|c| name.get(..c.len_utf8())).unwrap_or("")
}

/// Gives every name a form of its own while there are some; names that run out
/// of them share one.
fn short(all: &BTreeSet<&str>) -> BTreeMap<String, String> {
    let mut given: BTreeMap<String, String> = BTreeMap::new();
    let mut taken: BTreeSet<String> = BTreeSet::new();
    // Nearly every name has its first form: the others are made of those that have not.
    let mut open: Vec<(&str, Vec<String>)> =
        all.iter().map(|name| (*name, best(name).into_iter().collect())).collect();
    let (mut round, mut most) = (0, 1);
    while round < most {
        let asked = |forms: &[String]| forms.get(round).or(forms.last()).cloned();
        let mut count: BTreeMap<String, usize> = BTreeMap::new();
        for form in open.iter().filter_map(|(_, forms)| asked(forms)) {
            *count.entry(form).or_default() += 1;
        }
        let mut fresh = Vec::new();
        open.retain(|(name, forms)| {
            let Some(form) = asked(forms) else { return true };
            let clear = count.get(&form) == Some(&1) && !taken.contains(&form);
            if clear {
                given.insert((*name).to_owned(), form.clone());
                fresh.push(form);
            }
            !clear
        });
        taken.extend(fresh);
        if round == 0 {
            for (name, own) in &mut open {
                *own = forms(name);
                most = most.max(own.len());
            }
        }
        round += 1;
    }
    for (name, forms) in open {
        given.insert((*name).to_owned(), forms.first().cloned().unwrap_or_default());
    }
    given
}

/// The words of a name.
fn words(name: &str) -> impl Iterator<Item = &str> {
    name.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty())
}

/// Its letters, as capitals.
fn capitals(word: &str) -> impl Iterator<Item = char> {
    word.chars().flat_map(char::to_uppercase)
}

/// The best form of one name; `None` for one without a letter.
fn best(name: &str) -> Option<String> {
    let mut words = words(name);
    let first = words.next()?;
    Some(match words.next() {
        None => capitals(first).take(2).collect(),
        Some(second) => {
            let all = [first, second].into_iter().chain(words);
            all.filter_map(|word| capitals(word).next()).take(LONGEST).collect()
        }
    })
}

/// The forms of one name, the best first.
fn forms(name: &str) -> Vec<String> {
    let words: Vec<Vec<char>> = words(name).map(|word| capitals(word).collect()).collect();
    let mut forms: Vec<String> = best(name).into_iter().collect();
    let mut add = |form: String| {
        if !form.is_empty() && form.chars().count() <= LONGEST && !forms.contains(&form) {
            forms.push(form);
        }
    };
    match words.as_slice() {
        [] => {}
        [word] => {
            let start = |count: usize| word.iter().take(count).collect::<String>();
            add(start(3));
            for letter in word.iter().skip(3) {
                add(format!("{}{letter}", start(2)));
            }
            for pair in word.get(1..).unwrap_or(&[]).windows(2) {
                add(format!("{}{}", start(1), pair.iter().collect::<String>()));
            }
        }
        [first, .., last] => {
            let (first_letter, last_letter) = (first.first(), last.first());
            let (Some(a), Some(b)) = (first_letter, last_letter) else { return forms };
            for letter in last.iter().skip(1) {
                add(format!("{a}{b}{letter}"));
            }
            for letter in first.iter().skip(1) {
                add(format!("{a}{letter}{b}"));
            }
        }
    }
    forms
}
