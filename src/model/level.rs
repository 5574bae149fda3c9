//! What stands beside a case as far forward as its fronts.

use crate::vocabulary::words::frame::Root;
use crate::vocabulary::words::{self, Nested, OnFloor, OpeningWord, fronts};
use crate::vocabulary::{Entries, Entry, HowSet, Said};

use super::{posts, stacked};

/// True for a case whose own foremost face is its frame or the edges of its boards: no front
/// stands before it, or its fronts stand in their openings.
pub(super) fn is_level(case: &Entry) -> bool {
    let Some(body) = case.body() else { return false };
    let frame = body.one(words::case::FRAME).and_then(Said::body);
    let holders = std::iter::once(body).chain(frame);
    let lists = holders.flat_map(Entries::in_order).filter(|own| own.kind::<Root>().is_some());
    let inset = body
        .one(words::case::FRONTS)
        .and_then(Said::body)
        .is_none_or(|own| own.get(fronts::SET).is_some_and(|set| set.value == HowSet::Inset));
    inset || !lists.into_iter().any(has_front)
}

/// The two items beside one, left and right: whether each is so.
pub(super) fn beside(index: usize, is_so: impl Fn(usize) -> bool) -> [bool; 2] {
    [index.checked_sub(1), index.checked_add(1)].map(|at| at.is_some_and(&is_so))
}

/// True for a list in which an opening has a front, however deep.
fn has_front(list: &Entry) -> bool {
    list.body().is_some_and(|body| {
        body.in_order().any(|own| match own.kind::<OpeningWord>() {
            Some(
                OpeningWord::Drawer | OpeningWord::Door | OpeningWord::Doors | OpeningWord::False,
            ) => true,
            Some(_) => false,
            None => own.kind::<Nested>().is_some() && has_front(own),
        })
    })
}

/// On which sides of a case by itself another one stands that reaches as far forward as its
/// fronts; one of them that hangs is beside another that does.
pub(super) fn beside_case(standing: &[(OnFloor, &Entry)], index: usize) -> [bool; 2] {
    let hangs = |entry: &Entry| entry.body().is_some_and(|own| own.says(words::case::HUNG));
    let is_apart = |(_, entry): &(OnFloor, &Entry)| entry.body().and_then(posts::said).is_some();
    if standing.get(index).is_some_and(is_apart) {
        return [false; 2];
    }
    let own = standing.get(index).is_some_and(|(_, entry)| hangs(entry));
    let beside = |next: Option<&(OnFloor, &Entry)>| {
        next.is_some_and(|(kind, entry)| {
            *kind == OnFloor::Case && hangs(entry) == own && is_level(entry)
        })
    };
    let is_lowest = |own: &&(OnFloor, &Entry)| !stacked::is_placed(own.0, own.1);
    let before = standing.get(..index).unwrap_or_default();
    let after = standing.get(index + 1..).unwrap_or_default();
    [beside(before.iter().rfind(is_lowest)), beside(after.iter().find(is_lowest))]
}
