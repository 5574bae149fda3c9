//! What an elevation leaves out because a front stands before it.

use std::collections::BTreeSet;

use crate::measure::Length;
use crate::model::{Opening, OpeningId, Piece};
use crate::parts::{Assembly, Of, Part};

/// True for a part of a front that opens on hinges.
pub(super) fn is_of_door(piece: &Piece, part: &Part) -> bool {
    match part.assembly {
        Assembly::Front(front) => piece.opening(front.opening).is_some_and(Opening::is_door),
        Assembly::Base(_)
        | Assembly::Carcass(_)
        | Assembly::Frame(_)
        | Assembly::DrawerBox(_)
        | Assembly::Countertop(_)
        | Assembly::Filler(..)
        | Assembly::Loose(_) => false,
    }
}

/// True for what the list behind a door holds.
pub(super) fn is_behind_doors(piece: &Piece, part: &Part) -> bool {
    let list = match part.of {
        Of::Member(member) => piece.member(member).map(|member| member.list),
        Of::Opening(opening) => Some(opening),
        Of::Front(front) => Some(front.opening),
        Of::Case(_) | Of::Row(_) => None,
    };
    list.is_some_and(|list| piece.door_before(list).is_some())
}

/// True for a shelf or a drawer box behind a front: what is seen of it through the
/// gap is a stray line on paper.
pub(super) fn is_behind_a_front(part: &Part, closed: &BTreeSet<OpeningId>) -> bool {
    let is_front = matches!(part.assembly, Assembly::Front(_));
    !is_front && part.opening().is_some_and(|opening| closed.contains(&opening))
}

/// True for a nailer that stands behind closed fronts only: through their gaps it would be
/// seen as ticks.
pub(super) fn is_nailer_behind_fronts(
    piece: &Piece,
    part: &Part,
    closed: &BTreeSet<OpeningId>,
) -> bool {
    let Some(case) = piece.case(part.case).filter(|_| part.role.is_nailer()) else { return false };
    let space = part.cuboid();
    let before = |opening: &&Opening| {
        let x = case.x + opening.x;
        let meets = |(from, to): (Length, Length), (start, end): (Length, Length)| {
            from.max(start) < to.min(end)
        };
        let across = meets((x, x + opening.wide.length), (space.from.x, space.to.x));
        let up = (opening.y, opening.y + opening.high.length);
        opening.is_leaf()
            && case.door_before(opening).is_none()
            && across
            && meets(up, (space.from.y, space.to.y))
    };
    case.openings.iter().filter(before).all(|opening| closed.contains(&opening.id))
}
