//! What the names of parts in a spec or a command mean: the only place, beside
//! the reader, that looks into a name.

use std::collections::BTreeMap;

use crate::measure::nearest;
use crate::model::Piece;

use super::id::PartId;
use super::part::{Part, Parts};

impl Parts {
    /// The part with this whole name.
    #[must_use]
    pub fn named(&self, path: &str) -> Option<(PartId, &Part)> {
        self.iter().find(|(_, part)| part.path == path)
    }
}

/// True where a name that a maker writes suits a whole one: it is the whole, or
/// as many of its last words as are written. Part of a word suits nothing.
#[must_use]
pub fn suits(written: &str, whole: &str) -> bool {
    whole.strip_suffix(written).is_some_and(|before| before.is_empty() || before.ends_with('.'))
}

/// What a name of a part means.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Meant {
    /// This part.
    One(PartId),
    /// More than one.
    Many(Vec<PartId>),
    /// None.
    None,
}

/// The part that a name means: the whole of it, the end of it, or a mark.
#[must_use]
pub fn meant(parts: &Parts, name: &str) -> Meant {
    match by_path(parts, name) {
        Meant::None => {
            one_of(parts.iter().filter(|(_, part)| part.mark.eq_ignore_ascii_case(name)))
        }
        found => found,
    }
}

fn by_path(parts: &Parts, name: &str) -> Meant {
    if let Some((id, _)) = parts.named(name) {
        return Meant::One(id);
    }
    one_of(parts.iter().filter(|(_, part)| suits(name, &part.path)))
}

fn one_of<'a>(found: impl Iterator<Item = (PartId, &'a Part)>) -> Meant {
    let ids: Vec<PartId> = found.map(|(id, _)| id).collect();
    match ids.as_slice() {
        [] => Meant::None,
        [id] => Meant::One(*id),
        _ => Meant::Many(ids),
    }
}

/// What every `cut` of a piece means.
pub(super) fn cuts(piece: &Piece, parts: &Parts) -> Vec<Meant> {
    piece.cuts.iter().map(|cut| meant(parts, &cut.name.value)).collect()
}

/// The marks on record, by the part: of each the last word.
pub(super) fn recorded(piece: &Piece, parts: &Parts) -> BTreeMap<PartId, String> {
    let own = piece.cuts.iter().filter_map(|cut| {
        let mark = cut.mark.as_ref()?;
        match by_path(parts, &cut.name.value) {
            Meant::One(id) => Some((id, mark.value.clone())),
            Meant::Many(_) | Meant::None => None,
        }
    });
    own.collect()
}

/// The name of a part that is nearest to a misspelt one. One word of a whole
/// name may be wrong: most of two names is always the same.
#[must_use]
pub fn near<'a>(parts: &'a Parts, name: &str) -> Option<&'a str> {
    let split = || parts.all.iter().filter_map(|part| Some((part, part.path.rsplit_once('.')?)));
    let Some((list, last)) = name.rsplit_once('.') else {
        let ends = split().map(|(_, (_, end))| end);
        return nearest(name, ends.filter(|end| matches!(meant(parts, end), Meant::One(_))));
    };
    let beside = || split().filter(|(_, (own, _))| *own == list).map(|(_, (_, end))| end);
    let (to_last, to_list) = (nearest(last, beside()), || {
        nearest(list, split().filter(|(_, (_, end))| *end == last).map(|(_, (own, _))| own))
    });
    let meant = |list: &str, last: &str| {
        let found = split().find(|(_, (own, end))| *own == list && *end == last);
        found.map(|(part, _)| part.path.as_str())
    };
    match to_last {
        Some(end) => meant(list, end),
        None => meant(to_list()?, last),
    }
}
