//! What an opening meets at its edges, and which boards of the case lie there.

use super::case::Case;
use super::id::{MemberId, OpeningId};
use super::opening::{Axis, Item, Member, MemberKind, Opening, OpeningKind, Partition};

/// What an opening or list meets at one of its edges.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Beyond {
    /// The frame's outer member, or the board of the case.
    Outside,
    /// A member between it and the next opening.
    Member(MemberId),
    /// The next opening, with nothing between.
    Opening(OpeningId),
}

/// The openings and members of a case, and whether its bottom and top are there.
#[derive(Clone, Copy, Debug)]
pub(super) struct Elevation<'a> {
    pub(super) openings: &'a [Opening],
    pub(super) members: &'a [Member],
    pub(super) has_bottom: bool,
    pub(super) has_top: bool,
}

impl Elevation<'_> {
    /// What an opening or list meets along `axis`: at its right or bottom edge
    /// for `after`, else at its left or top edge.
    pub(super) fn beyond(self, opening: OpeningId, axis: Axis, after: bool) -> Beyond {
        let mut at = opening;
        loop {
            let parent = self.openings.get(at.at).and_then(|opening| opening.parent);
            let Some(parent) = parent else { return Beyond::Outside };
            let next = self.openings.get(parent.at).and_then(|list| match &list.kind {
                OpeningKind::List(way, items) if *way == axis => {
                    let own = items.iter().position(|item| *item == Item::Opening(at))?;
                    let next = if after { own.checked_add(1) } else { own.checked_sub(1) };
                    items.get(next?).copied()
                }
                OpeningKind::List(..)
                | OpeningKind::Drawer { .. }
                | OpeningKind::Door(_)
                | OpeningKind::Doors
                | OpeningKind::Open
                | OpeningKind::False => None,
            });
            match next {
                Some(Item::Member(member)) => return Beyond::Member(member),
                Some(Item::Opening(opening)) => return Beyond::Opening(opening),
                None => at = parent,
            }
        }
    }

    /// True where a board of the case lies or stands at that edge.
    pub(super) fn has_board(self, opening: OpeningId, axis: Axis, after: bool) -> bool {
        match (self.beyond(opening, axis, after), axis, after) {
            (Beyond::Outside, Axis::Across, _) => true,
            (Beyond::Outside, Axis::Down, true) => self.has_bottom,
            (Beyond::Outside, Axis::Down, false) => self.has_top,
            (Beyond::Member(member), ..) => {
                self.members.get(member.at).is_some_and(Member::has_board)
            }
            (Beyond::Opening(_), ..) => false,
        }
    }
}

impl Member {
    /// True where a board of the case is behind it, or is what it is.
    #[must_use]
    pub fn has_board(&self) -> bool {
        match &self.kind {
            MemberKind::Stile(Partition::Board(_))
            | MemberKind::Rail(Some(_))
            | MemberKind::Divider(_) => true,
            MemberKind::Stile(Partition::None) | MemberKind::Rail(None) => false,
        }
    }
}

impl Opening {
    /// True where what it holds stands on its floor.
    #[must_use]
    pub fn keeps_things(&self) -> bool {
        match self.kind {
            OpeningKind::Door(_) | OpeningKind::Doors | OpeningKind::Open => true,
            OpeningKind::List(..) | OpeningKind::Drawer { .. } | OpeningKind::False => false,
        }
    }
}

impl Case {
    fn elevation(&self) -> Elevation<'_> {
        Elevation {
            openings: &self.openings,
            members: &self.members,
            has_bottom: self.bottom.is_some(),
            has_top: self.top.is_some(),
        }
    }

    /// What an opening or list meets along `axis`: at its right or bottom edge
    /// for `after`, else at its left or top edge.
    #[must_use]
    pub fn beyond(&self, opening: OpeningId, axis: Axis, after: bool) -> Beyond {
        self.elevation().beyond(opening, axis, after)
    }

    /// True where a board of the case lies under an opening.
    #[must_use]
    pub fn has_floor(&self, opening: OpeningId) -> bool {
        self.elevation().has_board(opening, Axis::Down, true)
    }
}
