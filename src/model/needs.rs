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

    /// True for a stile that needs a partition: the maker asks for one, a drawer is right
    /// beside it, or it parts what is open from what a door closes, which would be open
    /// with it.
    pub(super) fn needs_partition(&self, stile: usize) -> bool {
        let body = self.members.get(stile).and_then(|draft| draft.entry.body());
        let said = body.and_then(|body| body.one(words::stile::PARTITION));
        if let Some(said) = said {
            return !said.is(Nothing::None);
        }
        let beside = |item: Option<&Item>, right| match item {
            Some(Item::Opening(id)) => self.at_edge(id.at, right),
            Some(Item::Member(_)) | None => Beside::default(),
        };
        let [before, after] = self.neighbors(stile);
        let (before, after) = (beside(before, true), beside(after, false));
        before.slides || after.slides || before.is_shut_off_from(after)
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

    /// What lies at the right edge of an opening, or at its left edge.
    fn at_edge(&self, opening: usize, right: bool) -> Beside {
        let Some(draft) = self.openings.get(opening) else { return Beside::default() };
        let of = |item: &Item| match item {
            Item::Opening(id) => self.at_edge(id.at, right),
            Item::Member(_) => Beside::default(),
        };
        let behind = draft.behind.map(|behind| self.at_edge(behind, right));
        match (draft.list, draft.leaf) {
            (Some(Axis::Down), _) => {
                draft.items.iter().map(of).fold(Beside::default(), Beside::and)
            }
            (Some(Axis::Across), _) if right => draft.items.last().map(of).unwrap_or_default(),
            (Some(Axis::Across), _) => draft.items.first().map(of).unwrap_or_default(),
            (None, Some(OpeningWord::Drawer | OpeningWord::Tray)) => {
                Beside { slides: true, ..Beside::default() }
            }
            (None, Some(OpeningWord::Door | OpeningWord::Doors)) => Beside {
                slides: behind.is_some_and(|behind| behind.slides),
                closed: true,
                open: false,
            },
            (None, Some(OpeningWord::Open)) => Beside { open: true, ..Beside::default() },
            (None, Some(OpeningWord::False) | None) => behind.unwrap_or_default(),
        }
    }
}

/// What lies at an edge of an opening.
#[derive(Clone, Copy, Debug, Default)]
struct Beside {
    /// A drawer or tray.
    slides: bool,
    /// What a door closes.
    closed: bool,
    /// What nothing closes.
    open: bool,
}

impl Beside {
    /// True where what is open at one side would open what a door closes at the other.
    /// Where both have both, one over the other, they may be in one line: then no board is
    /// needed.
    const fn is_shut_off_from(self, other: Self) -> bool {
        let both = self.open && self.closed && other.open && other.closed;
        !both && (self.open && other.closed || self.closed && other.open)
    }

    fn and(self, other: Self) -> Self {
        Self {
            slides: self.slides || other.slides,
            closed: self.closed || other.closed,
            open: self.open || other.open,
        }
    }
}
