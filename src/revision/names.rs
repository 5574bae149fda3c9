//! The old names in the words of the new revision.

use std::collections::BTreeMap;

use crate::model::Piece;
use crate::parts::{self, Of, Parts};

use super::difference::Renamed;
use super::matching::Match;
use super::two_sided::{Pair, Told};

/// What of a case is glued up in one go, by the end of its name.
const UNITS: [&str; 4] = ["face-frame", "base", "carcass", "frame-on"];

/// What things were called, and what the same things are called now.
#[derive(Debug, Default)]
pub(super) struct Names {
    /// Whole names of cases, openings and parts, and marks.
    renamed: BTreeMap<String, String>,
}

impl Names {
    pub(super) fn of(
        old: (&Piece, Option<&Parts>),
        new: (&Piece, Option<&Parts>),
        matched: &Match,
    ) -> Self {
        let mut renamed = BTreeMap::new();
        let mut rename = |was: &str, now: &str| {
            if was != now {
                renamed.insert(was.to_owned(), now.to_owned());
            }
        };
        let cases = old.0.cases.iter();
        for (was, now) in cases.filter_map(|was| Some((was, new.0.case(matched.case(was.id)?)?))) {
            rename(&was.name, &now.name);
            for unit in UNITS {
                rename(&format!("{}.{unit}", was.name), &format!("{}.{unit}", now.name));
            }
            for opening in &was.openings {
                if let Some(now) = matched.opening(opening.id).and_then(|id| new.0.opening(id)) {
                    rename(&opening.path, &now.path);
                }
            }
        }
        for (id, was) in old.1.into_iter().flat_map(Parts::iter) {
            let known = new.1.zip(matched.parts.new_of(id.0));
            match known.and_then(|(parts, index)| parts.all.get(index)) {
                Some(now) => {
                    rename(&was.path, &now.path);
                    rename(&was.mark, &now.mark);
                }
                // What is gone is told by its name in the list as it is now.
                None => {
                    if let Some(key) = matched.key(was.key()) {
                        rename(&was.path, &parts::path_of(new.0, &key));
                    }
                }
            }
        }
        Self { renamed }
    }

    /// The present name of a part, opening or case.
    pub(super) fn path(&self, was: &str) -> String {
        self.renamed.get(was).map_or_else(|| was.to_owned(), Clone::clone)
    }

    /// A line of the old papers with the present names and marks in it.
    pub(super) fn line(&self, was: &str) -> String {
        if self.renamed.is_empty() {
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
        let (mut openings, mut of) = (Vec::new(), Vec::new());
        for (before, after, pairs) in matched.both_cases(old, new) {
            if before.name != after.name {
                openings.push(Pair { was: Told::of_case(before), now: Told::of_case(after) });
                of.push(Of::Case(before.id));
            }
            for (was, now) in pairs.iter() {
                let (Some(was), Some(now)) = (before.openings.get(was), after.openings.get(now))
                else {
                    continue;
                };
                // An opening whose list was renamed keeps its own name.
                if was.name() != now.name() && was.named && now.named {
                    openings.push(Pair { was: Told::own(was), now: Told::own(now) });
                    of.push(Of::Opening(was.id));
                }
            }
        }
        let stocks = matched.stocks.iter().filter_map(|(was, now)| {
            let (was, now) = (old.stocks.get(was)?, new.stocks.get(now)?);
            Pair::unequal(was.name.clone(), now.name.clone())
        });
        Renamed { openings, of, stocks: stocks.collect(), marks: Vec::new() }
    }
}
