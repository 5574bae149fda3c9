//! Stiles without a board behind them, which guides of drawers stand behind.

use crate::measure::Length;

use super::{Axis, Case, Member, MemberKind, Opening, OpeningKind, Partition, Side, Size};

impl Case {
    /// The stile beside an opening at a side that no board stands behind.
    fn stile_at(&self, opening: &Opening, side: Side) -> Option<&Member> {
        let beside = |member: &&Member| {
            let is_bare = matches!(member.kind, MemberKind::Stile(Partition::None));
            let meets = match side {
                Side::Left => member.x + member.wide.length == opening.x,
                Side::Right => member.x == opening.x + opening.wide.length,
            };
            is_bare
                && meets
                && member.axis == Axis::Across
                && is_level(opening, (member.y, member.long.length))
        };
        self.members.iter().find(beside)
    }

    /// A stile beside a drawer that no board stands behind, with the room there for the guide
    /// of the drawer: half of it where another drawer has its own there.
    #[must_use]
    pub fn bare_stile_beside(&self, opening: &Opening, side: Side) -> Option<(&Member, Size)> {
        let member = self.stile_at(opening, side)?;
        let shares = self.openings.iter().any(|other| {
            let is_drawer = matches!(other.kind, OpeningKind::Drawer { .. });
            let stile = self.stile_at(other, side.other());
            is_drawer
                && stile.is_some_and(|own| own.id == member.id)
                && is_level(opening, (other.y, other.high.length))
        });
        let room = if shares { member.wide.half() } else { member.wide.clone() };
        Some((member, room))
    }

    /// That room.
    #[must_use]
    pub fn bare_stile(&self, opening: &Opening, side: Side) -> Option<Size> {
        self.bare_stile_beside(opening, side).map(|(_, room)| room)
    }
}

/// True for what stands, from and so high, at the height of an opening.
fn is_level(opening: &Opening, (from, high): (Length, Length)) -> bool {
    from < opening.y + opening.high.length && opening.y < from + high
}
