//! What an opening meets at its edges, and which boards of the case lie there.

use super::case::Case;
use super::edge::Edge;
use super::id::{MemberId, OpeningId};
use super::opening::{Item, Member, MemberKind, Opening, OpeningKind, Partition};

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
    /// What an opening or list meets at an edge.
    pub(super) fn beyond(self, opening: OpeningId, edge: Edge) -> Beyond {
        let mut at = opening;
        loop {
            let parent = self.openings.get(at.at).and_then(|opening| opening.parent);
            let Some(parent) = parent else { return Beyond::Outside };
            let next = self.openings.get(parent.at).and_then(|list| match &list.kind {
                OpeningKind::List(way, items) if *way == edge.axis() => {
                    let own = items.iter().position(|item| *item == Item::Opening(at))?;
                    let next = if edge.is_last() { own.checked_add(1) } else { own.checked_sub(1) };
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

    /// True for what stands in the list behind a door.
    pub(super) fn is_behind_doors(self, opening: &Opening) -> bool {
        door_before(self.openings, opening).is_some()
    }

    /// True where a board of the case lies or stands at that edge.
    pub(super) fn has_board(self, opening: OpeningId, edge: Edge) -> bool {
        match (self.beyond(opening, edge), edge) {
            (Beyond::Outside, Edge::Left | Edge::Right) => true,
            (Beyond::Outside, Edge::Bottom) => self.has_bottom,
            (Beyond::Outside, Edge::Top) => self.has_top,
            (Beyond::Member(member), _) => {
                self.members.get(member.at).is_some_and(Member::has_board)
            }
            (Beyond::Opening(_), _) => false,
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
            // What a list behind a door holds has floors of its own.
            OpeningKind::Door(_) | OpeningKind::Doors => self.behind.is_none(),
            OpeningKind::Open => true,
            // On hardware it hangs at the boards beside it.
            OpeningKind::Drawer { .. } => self.on_wood.is_some(),
            OpeningKind::List(..) | OpeningKind::False => false,
        }
    }
}

/// The door of a case that an opening lies behind, where it lies behind one.
fn door_before<'a>(openings: &'a [Opening], opening: &Opening) -> Option<&'a Opening> {
    let mut at = opening.parent;
    while let Some(parent) = at.and_then(|id| openings.get(id.at)) {
        if parent.is_leaf() {
            return Some(parent);
        }
        at = parent.parent;
    }
    None
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

    /// What an opening or list meets at an edge.
    #[must_use]
    pub fn beyond(&self, opening: OpeningId, edge: Edge) -> Beyond {
        self.elevation().beyond(opening, edge)
    }

    /// The door that an opening lies behind, where it lies behind one.
    #[must_use]
    pub fn door_before(&self, opening: &Opening) -> Option<&Opening> {
        door_before(&self.openings, opening)
    }

    /// True where a board of the case lies under an opening.
    #[must_use]
    pub fn has_floor(&self, opening: OpeningId) -> bool {
        self.elevation().has_board(opening, Edge::Bottom)
    }
}
