//! Which boards the openings need behind the members between them, where the maker
//! says nothing: a floor for what stands on it, and a board beside each slide.

use crate::vocabulary::Nothing;
use crate::vocabulary::words::{self, Between, OpeningWord};

use super::opening::{Axis, Item};
use super::openings::Drafts;

impl Drafts<'_> {
    /// True for a rail that carries a shelf unasked: what stands on it keeps things
    /// on its floor, or a stile that ends at it has a partition behind it for the
    /// slide of a drawer.
    pub(super) fn needs_shelf(&self, rail: usize) -> bool {
        let [above, below] = self.neighbors(rail);
        let opening = |item: Option<&Item>| match item {
            Some(Item::Opening(id)) => Some(id.at),
            Some(Item::Member(_)) | None => None,
        };
        let (above, below) = (opening(above), opening(below));
        above.is_some_and(|above| self.keeps(above) || self.ends_at(above, true))
            || below.is_some_and(|below| self.ends_at(below, false))
    }

    /// True for a stile that needs a partition: the maker asks for one, or a drawer is
    /// right beside it.
    pub(super) fn needs_partition(&self, stile: usize) -> bool {
        let slides = |item: Option<&Item>, at_end| matches!(item, Some(Item::Opening(id)) if self.slides_at(id.at, at_end));
        let body = self.members.get(stile).and_then(|draft| draft.entry.body());
        let said = body.and_then(|body| body.one(words::stile::PARTITION));
        if let Some(said) = said {
            return !said.is(Nothing::None);
        }
        let [before, after] = self.neighbors(stile);
        slides(before, true) || slides(after, false)
    }

    /// The items before and after a member in its list.
    fn neighbors(&self, member: usize) -> [Option<&Item>; 2] {
        let list = self.members.get(member).and_then(|draft| self.openings.get(draft.list));
        let items = list.map_or(&[][..], |list| &list.items);
        let own = |item: &Item| matches!(item, Item::Member(id) if id.at == member);
        let Some(at) = items.iter().position(own) else { return [None; 2] };
        [at.checked_sub(1).and_then(|at| items.get(at)), items.get(at + 1)]
    }

    /// True where an opening, or one of those that lie lowest in a list, keeps
    /// things on its floor.
    fn keeps(&self, opening: usize) -> bool {
        let Some(draft) = self.openings.get(opening) else { return false };
        let keeps = |item: &Item| matches!(item, Item::Opening(inner) if self.keeps(inner.at));
        if let Some(behind) = draft.behind {
            return self.keeps(behind);
        }
        match (draft.list, draft.leaf) {
            (Some(Axis::Across), _) => draft.items.iter().any(keeps),
            (Some(Axis::Down), _) => draft.items.last().is_some_and(keeps),
            (None, Some(OpeningWord::Door | OpeningWord::Doors | OpeningWord::Open)) => true,
            (None, Some(OpeningWord::Drawer | OpeningWord::Tray)) => draft.on_wood,
            (None, Some(OpeningWord::False) | None) => false,
        }
    }

    /// True where a stile that needs a partition ends at the lower edge of an
    /// opening, or at its upper edge.
    fn ends_at(&self, opening: usize, lower: bool) -> bool {
        let Some(draft) = self.openings.get(opening) else { return false };
        let ends = |item: &Item| match item {
            Item::Opening(inner) => self.ends_at(inner.at, lower),
            Item::Member(member) => {
                match self.members.get(member.at).map(|it| (it.between, it.axis)) {
                    Some((Between::Stile, _)) => self.needs_partition(member.at),
                    // A board that stands behind doors ends at one that lies.
                    Some((Between::Divider, Axis::Across)) => draft.fills,
                    Some((Between::Divider, Axis::Down) | (Between::Rail, _)) | None => false,
                }
            }
        };
        match draft.list {
            Some(Axis::Across) => draft.items.iter().any(ends),
            Some(Axis::Down) if lower => draft.items.last().is_some_and(ends),
            Some(Axis::Down) => draft.items.first().is_some_and(ends),
            None => draft.behind.is_some_and(|behind| self.ends_at(behind, lower)),
        }
    }

    /// True where a drawer or tray lies at the right edge of an opening, or at its
    /// left edge.
    fn slides_at(&self, opening: usize, right: bool) -> bool {
        let Some(draft) = self.openings.get(opening) else { return false };
        let slides =
            |item: &Item| matches!(item, Item::Opening(id) if self.slides_at(id.at, right));
        if let Some(behind) = draft.behind {
            return self.slides_at(behind, right);
        }
        match (draft.list, draft.leaf) {
            (Some(Axis::Down), _) => draft.items.iter().any(slides),
            (Some(Axis::Across), _) if right => draft.items.last().is_some_and(slides),
            (Some(Axis::Across), _) => draft.items.first().is_some_and(slides),
            (None, Some(OpeningWord::Drawer | OpeningWord::Tray)) => true,
            (
                None,
                Some(
                    OpeningWord::Door | OpeningWord::Doors | OpeningWord::Open | OpeningWord::False,
                )
                | None,
            ) => false,
        }
    }
}
