//! What stiles, rails and dividers are called that the maker gave no name: by
//! the nearest openings on both sides that have one, so that a revision
//! elsewhere does not rename them, and no two are ever called alike.

use std::collections::{BTreeMap, BTreeSet};

use crate::vocabulary::Kinds;
use crate::vocabulary::words::Between;

use super::id::{CaseId, OpeningId};
use super::opening::{Axis, Called, Item};
use super::openings::{Drafts, MemberDraft};
use super::size_names::last;

/// The forms of a name that are tried, shortest first.
const PLAIN: usize = 0;
const WITH_AND: usize = 1;

impl Drafts<'_> {
    /// Names every member of the case.
    pub(super) fn name_members(&mut self, case: CaseId) {
        let beside: Vec<[Option<usize>; 2]> =
            (0..self.members.len()).map(|index| self.beside(index)).collect();
        let mut taken: BTreeSet<String> = BTreeSet::new();
        let mut open: Vec<usize> = Vec::new();
        for index in 0..self.members.len() {
            let Some(name) = self.members[index].entry.name().map(|name| name.value.to_owned())
            else {
                open.push(index);
                continue;
            };
            let list = self.list_of(index);
            taken.insert(format!("{list}.{name}"));
            taken.insert(format!("{list}.{name}-partition"));
            taken.insert(format!("{list}.{name}-shelf"));
            self.members[index].path = format!("{list}.{name}");
            self.members[index].called = Called::Given(name);
        }
        for form in [PLAIN, WITH_AND] {
            let mut count: BTreeMap<String, usize> = BTreeMap::new();
            for index in &open {
                let words = self.words(beside[*index], form);
                for name in self.names(*index, &words) {
                    *count.entry(name).or_default() += 1;
                }
            }
            let mut left = Vec::new();
            for index in open {
                let words = self.words(beside[index], form);
                let names = self.names(index, &words);
                let clear = |name: &String| count.get(name) == Some(&1) && !taken.contains(name);
                if names.iter().all(clear) {
                    taken.extend(names);
                    self.call(index, case, beside[index], words, None);
                } else {
                    left.push(index);
                }
            }
            open = left;
        }
        // Members side by side have no names between them: they are numbered
        // from the left, or from the top.
        for index in open {
            let plain = self.words(beside[index], WITH_AND);
            for number in 1.. {
                let words = format!("{plain}-{number}");
                let names = self.names(index, &words);
                if names.iter().all(|name| !taken.contains(name)) {
                    taken.extend(names);
                    self.call(index, case, beside[index], words, Some(number));
                    break;
                }
            }
        }
    }

    fn call(
        &mut self,
        index: usize,
        case: CaseId,
        beside: [Option<usize>; 2],
        words: String,
        number: Option<u32>,
    ) {
        let path =
            format!("{}.{}-{words}", self.list_of(index), self.members[index].between.spelling());
        let beside = beside.map(|at| Some(OpeningId { case, at: at? }));
        self.members[index].path = path;
        self.members[index].called = Called::Between { beside, words, number };
    }

    fn list_of(&self, index: usize) -> &str {
        &self.openings[self.members[index].list].path
    }

    /// The names that a member, and the board behind it, would have.
    fn names(&self, index: usize, words: &str) -> Vec<String> {
        let (member, list) = (&self.members[index], self.list_of(index));
        let mut names = vec![format!("{list}.{}-{words}", member.between.spelling())];
        match member.between {
            Between::Stile => names.push(format!("{list}.partition-{words}")),
            Between::Rail => names.push(format!("{list}.shelf-{words}")),
            Between::Divider => {}
        }
        names
    }

    fn words(&self, beside: [Option<usize>; 2], form: usize) -> String {
        let [before, after] = beside.map(|opening| match opening {
            Some(opening) => last(&self.openings[opening].path),
            None => "edge",
        });
        match form {
            PLAIN => format!("{before}-{after}"),
            _ => format!("{before}-and-{after}"),
        }
    }

    /// The nearest openings with a name on both sides of a member.
    fn beside(&self, index: usize) -> [Option<usize>; 2] {
        let MemberDraft { list, axis, .. } = self.members[index];
        let items = &self.openings[list].items;
        let own = |item: &Item| matches!(item, Item::Member(member) if member.at == index);
        let Some(at) = items.iter().position(own) else { return [None; 2] };
        let opening = |item: &Item| match item {
            Item::Opening(opening) => Some(opening.at),
            Item::Member(_) => None,
        };
        let (before, after) = (items[..at].iter().rev(), items[at + 1..].iter());
        [
            before.filter_map(opening).find_map(|opening| self.nearest(opening, axis, true)),
            after.filter_map(opening).find_map(|opening| self.nearest(opening, axis, false)),
        ]
    }

    /// The opening with a name in this one that is nearest to its end, or to
    /// its start, along an axis; of those side by side the first.
    fn nearest(&self, opening: usize, axis: Axis, to_end: bool) -> Option<usize> {
        let draft = &self.openings[opening];
        if draft.entry.name().is_some() || draft.list.is_none() {
            return Some(opening);
        }
        let inner = |item: &Item| match item {
            Item::Opening(inner) => self.nearest(inner.at, axis, to_end),
            Item::Member(_) => None,
        };
        match to_end && draft.list == Some(axis) {
            true => draft.items.iter().rev().find_map(inner),
            false => draft.items.iter().find_map(inner),
        }
    }
}
