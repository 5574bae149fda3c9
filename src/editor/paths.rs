//! Dotted names: which case, opening or member a path, or the end of one, means.

use std::collections::BTreeMap;

use crate::measure::Span;

use super::meaning::{Meaning, NameId, NameKind};

/// Everything that has a dotted name.
#[derive(Debug, Default)]
pub(super) struct Paths {
    whole: BTreeMap<String, Thing>,
    /// Every end of a path, with all paths that have it.
    ends: BTreeMap<String, Vec<String>>,
}

#[derive(Clone, Copy, Debug)]
struct Thing {
    id: NameId,
    kind: NameKind,
    is_list: bool,
}

impl Paths {
    pub(super) fn add(&mut self, path: &str, kind: NameKind, is_list: bool, id: NameId) {
        let thing = Thing { id, kind, is_list };
        if self.whole.contains_key(path) {
            return;
        }
        self.whole.insert(path.to_owned(), thing);
        for (dot, _) in path.match_indices('.') {
            let end = path.get(dot + 1..).unwrap_or_default();
            self.ends.entry(end.to_owned()).or_default().push(path.to_owned());
        }
    }

    /// True for a list of openings.
    pub(super) fn is_list(&self, path: &str) -> bool {
        self.whole.get(path).is_some_and(|thing| thing.is_list)
    }

    /// The one path that a name means among those that are meant at all: the
    /// whole of it, else the only one that ends so.
    fn one(&self, name: &str, is_meant: impl Fn(&str, Thing) -> bool) -> Option<String> {
        let meant = |path: &str| self.whole.get(path).is_some_and(|thing| is_meant(path, *thing));
        if meant(name) {
            return Some(name.to_owned());
        }
        let mut ends = self.ends.get(name)?.iter().filter(|path| meant(path));
        match (ends.next(), ends.next()) {
            (Some(path), None) => Some(path.clone()),
            _ => None,
        }
    }

    /// The case, or the opening of it, that a size or `same` means.
    pub(super) fn in_case(&self, case: &str, name: &str) -> Option<String> {
        let within = |path: &str| {
            path.strip_prefix(case).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
        };
        self.one(name, |path, thing| thing.kind != NameKind::Member && within(path))
    }

    /// The case or the run that another case stands on.
    pub(super) fn footing(&self, name: &str) -> Option<String> {
        self.one(name, |_, thing| matches!(thing.kind, NameKind::Case | NameKind::Run))
    }

    /// The opening that can be measured.
    pub(super) fn leaf(&self, name: &str) -> Option<String> {
        self.one(name, |_, thing| thing.kind == NameKind::Opening && !thing.is_list)
    }

    /// Whatever a name means.
    pub(super) fn any(&self, name: &str) -> Option<String> {
        self.one(name, |_, _| true)
    }

    /// Tells what each word of a name means that stands for the end of `path`;
    /// true where the last of them has a meaning.
    pub(super) fn mentions(
        &self,
        path: Option<&str>,
        words: &[(String, Span)],
        mention: &mut dyn FnMut(Span, Meaning),
    ) -> bool {
        let Some(path) = path else { return false };
        let dots = path.match_indices('.').map(|(dot, _)| dot);
        let begins: Vec<&str> =
            dots.chain(std::iter::once(path.len())).filter_map(|end| path.get(..end)).collect();
        // A mark stands for a whole path.
        let Some(skipped) = begins.len().checked_sub(words.len()) else { return false };
        let mut known = false;
        for (begin, (word, span)) in begins.iter().skip(skipped).zip(words) {
            let last = begin.rsplit('.').next().unwrap_or(begin);
            let thing = self.whole.get(*begin).filter(|_| last == word);
            known = thing.is_some();
            if let Some(thing) = thing {
                mention(*span, Meaning::Name(thing.id));
            }
        }
        known
    }
}
