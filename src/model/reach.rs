//! How far each front reaches past the edges of its opening.
//!
//! An inset front leaves its gap to the frame. Where no wood is between two fronts,
//! or only a board behind them, they share what is between them and leave one gap.
//! An overlay that is not written follows from the gap in the same way. At the
//! bottom of the case it covers the board there; at the sides and the top it stays
//! back by half a gap, as the front of a case beside it does, and under a countertop,
//! over the floor of the room, beside a filler, or beside a case that reaches as far
//! forward by a whole one. Common practice, no source.

use super::edge::{Edge, Edges};
use super::edges::{Beyond, Elevation};
use super::front::{Fronts, Set};
use super::opening::{Member, MemberKind, Opening};
use super::size::Size;

/// What lies round the root list of a case.
#[derive(Clone, Debug)]
pub(super) struct Around {
    /// The case has a frame.
    pub(super) is_framed: bool,
    /// Something is laid on the case that its fronts stay under.
    pub(super) has_countertop: bool,
    /// It stands on the floor with its lowest board.
    pub(super) is_on_floor: bool,
    /// What stands beside it reaches as far forward as its fronts.
    pub(super) level: [bool; 2],
    /// The outer stiles, without their scribe, or the ends.
    pub(super) sides: [Size; 2],
    /// The upper rail, or the top.
    pub(super) above: Size,
    /// The lower rail, or the bottom.
    pub(super) below: Size,
}

/// Gives every opening with a front its reach.
pub(super) fn give(
    openings: &mut [Opening],
    members: &[Member],
    [has_bottom, has_top]: [bool; 2],
    around: &Around,
) {
    let elevation = Elevation { openings, members, has_bottom, has_top };
    let reaches: Vec<Option<Edges<Size>>> = openings
        .iter()
        .map(|opening| {
            let fronts = opening.front.as_ref()?;
            Some(Edges::new(|edge| reach(elevation, around, opening, fronts, edge)))
        })
        .collect();
    for (opening, reach) in openings.iter_mut().zip(reaches) {
        opening.reach = reach.unwrap_or_default();
    }
}

fn reach(
    elevation: Elevation<'_>,
    around: &Around,
    opening: &Opening,
    fronts: &Fronts,
    edge: Edge,
) -> Size {
    let shared = |wood: Size| (wood - &fronts.gap).half();
    let beyond = elevation.beyond(opening.id, edge);
    // Behind doors a front lies between boards that reach past its face.
    if elevation.is_behind_doors(opening) {
        return match beyond {
            Beyond::Opening(_) => shared(Size::zero()),
            Beyond::Member(_) | Beyond::Outside => -fronts.gap.clone(),
        };
    }
    let member = match beyond {
        Beyond::Member(id) => elevation.members.get(id.at),
        Beyond::Outside | Beyond::Opening(_) => None,
    };
    match (&fronts.set, beyond) {
        (Set::Overlay(overlay), _) if overlay.edges.of(edge).is_some() => {
            overlay.edges.of(edge).clone().unwrap_or_default()
        }
        (Set::Overlay(overlay), _) if overlay.by.is_some() => {
            overlay.by.clone().unwrap_or_default()
        }
        (_, Beyond::Opening(_)) => shared(Size::zero()),
        (Set::Overlay(_), Beyond::Member(_)) => {
            shared(member.map(|member| member.wide.clone()).unwrap_or_default())
        }
        (Set::Overlay(_), Beyond::Outside) => {
            let wood = match edge {
                Edge::Left => &around.sides[0],
                Edge::Right => &around.sides[1],
                Edge::Top => &around.above,
                Edge::Bottom => &around.below,
            };
            let free = match edge {
                Edge::Top if around.has_countertop => fronts.gap.clone(),
                Edge::Bottom if around.is_on_floor => fronts.gap.clone(),
                Edge::Left if around.level[0] => fronts.gap.clone(),
                Edge::Right if around.level[1] => fronts.gap.clone(),
                Edge::Bottom => Size::zero(),
                Edge::Left | Edge::Right | Edge::Top => fronts.gap.half(),
            };
            wood - &free
        }
        // Behind the frame a divider stands back by the thickness of the fronts.
        (Set::Inset, Beyond::Member(_)) => match member {
            Some(member) if around.is_framed && matches!(member.kind, MemberKind::Divider(_)) => {
                shared(member.wide.clone())
            }
            _ => -fronts.gap.clone(),
        },
        (Set::Inset, Beyond::Outside) => -fronts.gap.clone(),
    }
}
