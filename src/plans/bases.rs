//! How the base of several cases is set where they stand.

use crate::measure::Length;
use crate::model::{Boundary, CaseId, Piece, Side};
use crate::parts::{Assembly, Direction, Part, PartId, Parts, Role, Which};
use crate::trade;

/// A separate base that is leveled by itself, before the cases come onto it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Leveled {
    /// Its front and its back.
    pub long: [PartId; 2],
    /// From the highest place of the floor to its upper edges.
    pub high: Length,
    /// How far its back stands off the wall behind it; `None` where nothing is fixed to a
    /// wall.
    pub behind: Option<Length>,
    /// How far an end of it stands off the wall at that side.
    pub beside: Option<(Side, Length)>,
    /// How many blocks hold it to the floor, half of them along its front and half along
    /// its back.
    pub blocks: u32,
    /// How wide and thick they are.
    pub block: Length,
    /// Their screws into the base are no longer than this.
    pub most: Length,
}

/// Cases are stood on a base that is leveled already.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StoodOn {
    /// The cases, from the left.
    pub cases: Vec<CaseId>,
    /// How far their frames, or the front edges of their ends, stand before the face of
    /// the base.
    pub before: Length,
}

/// Every base that several cases of a run stand on, from the left.
#[must_use]
pub(super) fn leveled(piece: &Piece, parts: &Parts) -> Vec<Leveled> {
    let rows = piece.runs.iter().flat_map(|run| &run.bases);
    rows.filter_map(|row| one(piece, parts, row.first)).collect()
}

fn one(piece: &Piece, parts: &Parts, first: CaseId) -> Option<Leveled> {
    let own = || parts.iter_case(first).filter(|(_, part)| part.assembly == Assembly::Base(first));
    let of = |which| own().find(|(_, part)| (part.role, part.which) == (Role::BaseMember, which));
    let ((front, part), (back, rear)) = (of(Which::Front)?, of(Which::Back)?);
    let unit = piece.tape().unit;
    let block = trade::base_block(unit);
    Some(Leveled {
        long: [front, back],
        high: part.width.length,
        behind: piece.site.fixed.then(|| piece.wall() - rear.extent(Direction::Z).1),
        beside: beside(piece, part),
        blocks: trade::floor_blocks(part.length.length, unit),
        block,
        most: block + part.thickness.length - trade::short_of_face(unit),
    })
}

/// The wall that an end of it is measured from: the left one where there are two.
fn beside(piece: &Piece, front: &Part) -> Option<(Side, Length)> {
    let (from, to) = front.extent(Direction::X);
    let walled = |side: &Side| matches!(side_of(piece, *side), Boundary::Wall { .. });
    let side = Side::BOTH.into_iter().find(walled)?;
    let off = match side {
        Side::Left => from,
        Side::Right => piece.wide() - to,
    };
    Some((side, off))
}

fn side_of(piece: &Piece, side: Side) -> &Boundary {
    match side {
        Side::Left => &piece.site.left,
        Side::Right => &piece.site.right,
    }
}
