//! The old names in the words of the new revision.

use std::collections::BTreeMap;

use crate::model::Piece;
use crate::parts::Parts;

use super::difference::Renamed;
use super::matching::{Match, is_named};
use super::two_sided::Pair;

/// What things were called, and what the same things are called now.
#[derive(Debug, Default)]
pub(super) struct Names {
    openings: BTreeMap<String, String>,
    /// Whole names of parts, and marks.
    parts: BTreeMap<String, String>,
}

impl Names {
    pub(super) fn of(
        old: (&Piece, Option<&Parts>),
        new: (&Piece, Option<&Parts>),
        matched: &Match,
    ) -> Self {
        let openings = openings_renamed(old.0, new.0, matched);
        let mut parts = BTreeMap::new();
        for (was, now) in matched.parts.iter() {
            let part = |parts: Option<&Parts>, index: usize| {
                let part = parts?.all.get(index)?;
                Some((part.path.clone(), part.mark.clone()))
            };
            let (Some(was), Some(now)) = (part(old.1, was), part(new.1, now)) else { continue };
            if was.0 != now.0 {
                parts.insert(was.0, now.0);
            }
            if was.1 != now.1 {
                parts.insert(was.1, now.1);
            }
        }
        Self { openings, parts }
    }

    /// The present name of a part, opening or case.
    pub(super) fn path(&self, was: &str) -> String {
        self.parts.get(was).cloned().unwrap_or_else(|| path(&self.openings, was))
    }

    /// A line of the old papers with the present names and marks in it.
    pub(super) fn line(&self, was: &str) -> String {
        if self.openings.is_empty() && self.parts.is_empty() {
            return was.to_owned();
        }
        let inner = |c: char| c.is_alphanumeric() || matches!(c, '-' | '.' | '_');
        let mut line = String::with_capacity(was.len());
        let mut rest = was;
        while let Some(c) = rest.chars().next() {
            let end = rest.find(|next| inner(next) != inner(c));
            let (word, after) = rest.split_at(end.unwrap_or(rest.len()));
            line.push_str(&if inner(c) { self.path(word) } else { word.to_owned() });
            rest = after;
        }
        line
    }

    /// What is told of it, but for the marks.
    pub(super) fn told(&self, old: &Piece, new: &Piece, matched: &Match) -> Renamed {
        let mut openings = Vec::new();
        for (before, after, pairs) in matched.both_cases(old, new) {
            if before.name != after.name {
                openings.push(Pair { was: before.name.clone(), now: after.name.clone() });
            }
            for (was, now) in pairs.iter() {
                let (Some(was), Some(now)) = (before.openings.get(was), after.openings.get(now))
                else {
                    continue;
                };
                // An opening whose list was renamed keeps its own name.
                if was.name() != now.name() && is_named(before, was) && is_named(after, now) {
                    openings.push(Pair { was: was.path.clone(), now: now.path.clone() });
                }
            }
        }
        let stocks = matched.stocks.iter().filter_map(|(was, now)| {
            let (was, now) = (old.stocks.get(was)?, new.stocks.get(now)?);
            Pair::unequal(was.name.clone(), now.name.clone())
        });
        Renamed { openings, stocks: stocks.collect(), marks: Vec::new() }
    }
}

/// Every case and opening whose whole name changed.
pub(super) fn openings_renamed(
    old: &Piece,
    new: &Piece,
    matched: &Match,
) -> BTreeMap<String, String> {
    let mut renamed = BTreeMap::new();
    for (before, after, pairs) in matched.both_cases(old, new) {
        if before.name != after.name {
            renamed.insert(before.name.clone(), after.name.clone());
        }
        for (was, now) in pairs.iter() {
            if let (Some(was), Some(now)) = (before.openings.get(was), after.openings.get(now))
                && was.path != now.path
            {
                renamed.entry(was.path.clone()).or_insert_with(|| now.path.clone());
            }
        }
    }
    renamed
}

/// A name with the new name of the innermost opening in it that has one.
pub(super) fn path(openings: &BTreeMap<String, String>, was: &str) -> String {
    if openings.is_empty() {
        return was.to_owned();
    }
    let mut end = was.len();
    loop {
        let (head, rest) = was.split_at(end);
        if let Some(now) = openings.get(head) {
            return format!("{now}{rest}");
        }
        match head.rfind('.') {
            Some(dot) => end = dot,
            None => return was.to_owned(),
        }
    }
}
