//! Short marks to pencil on the parts. A mark comes from names, never from
//! counting, so that a revision leaves the marks of untouched parts alone.

use std::collections::BTreeMap;

use crate::model::Piece;

use super::part::{Part, Parts, Role, within};

/// Gives every part its mark.
pub(super) fn give(parts: &mut Parts, piece: &Piece) {
    let names = names(piece);
    let many = piece.cases.len() > 1;
    let mut marks: Vec<String> = parts
        .all
        .iter()
        .map(|part| {
            let case = piece.cases.get(part.case).map_or("", |case| case.name.as_str());
            let local = within(&part.path, case);
            let mark = mark(part, local, &names);
            let prefix = names.get(case).filter(|_| many);
            prefix.map_or(mark.clone(), |prefix| format!("{prefix}-{mark}"))
        })
        .collect();
    // Two parts of one mark: both are written out further, so neither depends
    // on which of them comes first.
    let mut count: BTreeMap<&str, usize> = BTreeMap::new();
    for mark in &marks {
        *count.entry(mark).or_default() += 1;
    }
    let shared: Vec<bool> = marks.iter().map(|mark| count.get(mark.as_str()) > Some(&1)).collect();
    for ((mark, part), shared) in marks.iter_mut().zip(&parts.all).zip(shared) {
        if shared {
            *mark = part.path.to_uppercase();
        }
    }
    for (part, mark) in parts.all.iter_mut().zip(marks) {
        part.mark = mark;
    }
}

/// A short form of every name in the piece: the initials of a hyphened name,
/// else its first two letters; longer where two names would share it.
fn names(piece: &Piece) -> BTreeMap<String, String> {
    let mut all: Vec<&str> = Vec::new();
    for case in &piece.cases {
        all.push(&case.name);
        for opening in &case.openings {
            all.extend(opening.path.split('.').skip(1));
        }
    }
    all.sort_unstable();
    all.dedup();
    let short = |name: &str, letters: usize| {
        let words: Vec<&str> = name.split('-').filter(|word| !word.is_empty()).collect();
        let each = if words.len() > 1 { letters.saturating_sub(1).max(1) } else { letters };
        words.iter().map(|word| word.chars().take(each).collect::<String>()).collect::<String>()
    };
    let mut given = BTreeMap::new();
    let mut rest = all;
    let mut letters = 2;
    while !rest.is_empty() {
        let mut count: BTreeMap<String, usize> = BTreeMap::new();
        for name in &rest {
            *count.entry(short(name, letters)).or_default() += 1;
        }
        // A name that is written out whole is as long as it gets.
        rest.retain(|name| {
            let own = short(name, letters);
            let clear = count.get(&own) == Some(&1) || letters >= name.len();
            if clear {
                given.insert((*name).to_owned(), own.to_uppercase());
            }
            !clear
        });
        letters += 1;
    }
    given
}

fn mark(part: &Part, local: &str, names: &BTreeMap<String, String>) -> String {
    let mut path: Vec<&str> = local.split('.').collect();
    let own = path.pop().unwrap_or(local);
    // The innermost opening is enough to find a part; unnamed ones have none.
    let known = |word: &str| names.get(word).cloned();
    let within = |levels: usize| {
        let from = path.len().saturating_sub(levels);
        path[from..].iter().filter_map(|word| known(word)).collect::<Vec<_>>().join("")
    };
    // Only a member between two openings has their names in its own; an opening
    // called `left` is no reason to write a left end otherwise.
    let between = ["stile-", "rail-", "partition-", "divider-"].iter().any(|w| own.starts_with(w));
    let words: Vec<String> = own
        .split('-')
        .enumerate()
        .map(|(place, word)| match names.get(word).filter(|_| between && place > 0) {
            Some(short) => format!("-{short}"),
            None => short_word(word),
        })
        .collect();
    let own = words.join("");
    match part.role {
        Role::Stile | Role::Rail | Role::Partition | Role::Divider => own,
        Role::FrontStile | Role::FrontRail | Role::FrontPanel => {
            let leaf = path.pop().map(short_leaf).unwrap_or_default();
            let opening = path.last().and_then(|word| known(word)).unwrap_or_default();
            format!("{opening}{leaf}-{own}")
        }
        _ => match within(1) {
            opening if opening.is_empty() => own,
            opening => format!("{opening}-{own}"),
        },
    }
}

fn short_leaf(leaf: &str) -> String {
    match leaf {
        "left-door" => "L".to_owned(),
        "right-door" => "R".to_owned(),
        _ => String::new(),
    }
}

fn short_word(word: &str) -> String {
    let short = match word {
        "left" => "L",
        "right" => "R",
        "top" => "T",
        "bottom" => "B",
        "front" => "F",
        "back" => "K",
        "middle" => "M",
        "stile" => "S",
        "rail" => "RL",
        "end" => "E",
        "side" => "SD",
        "door" => "D",
        "panel" => "PN",
        "partition" => "P",
        "divider" => "DV",
        "stretcher" => "ST",
        "shelf" => "SH",
        "kick" => "KICK",
        "leg" => "LEG",
        "base" => "BS",
        "sleeper" => "SL",
        "box" => "X",
        "packer" => "PK",
        "hinge" => "H",
        "block" => "BK",
        "edge" => "-0",
        other => return other.to_uppercase(),
    };
    short.to_owned()
}
