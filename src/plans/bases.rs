//! How separate bases are set where they stand, and where cases stand on them.

use crate::measure::Length;
use crate::model::{Case, CaseId, Piece, Side};
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
    /// How far an end of it stands off the wall at that side; `None` between walls that
    /// the stiles over it are planed to.
    pub beside: Option<(Side, Length)>,
    /// Between such walls: which end stands farther from its wall than the other, and by
    /// how much. `None` where both stand alike, and elsewhere.
    pub farther: Option<(Side, Length)>,
    /// True between such walls.
    pub between: bool,
    /// How many blocks hold it to the floor, half of them along its front and half along
    /// its back.
    pub blocks: u32,
    /// How wide and thick they are.
    pub block: Length,
    /// Their screws into the base are no longer than this.
    pub most: Length,
}

/// A separate base of one case, shimmed level by itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Apart {
    /// Its front and its back.
    pub long: [PartId; 2],
    /// How far its back stands off the wall behind it; `None` where nothing is fixed to a
    /// wall.
    pub behind: Option<Length>,
    /// Between walls that the stiles over it are planed to: which end stands farther from
    /// its wall than the other, and by how much.
    pub farther: Option<(Side, Length)>,
}

/// Cases are stood on a base.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StoodOn {
    /// The cases, from the left.
    pub cases: Vec<CaseId>,
    /// The front of the base.
    pub base: PartId,
    /// What is measured: the outer stiles of their frames, or their ends.
    pub from: Vec<PartId>,
    /// How far these stand before the face of the base.
    pub before: Length,
    /// How far the outer sides of the first and the last end stand past the ends of the
    /// base; short of them below zero.
    pub past: [Length; 2],
}

/// Where cases stand on their base, measured from their frames or from their ends.
#[must_use]
pub(super) fn stood_on(
    piece: &Piece,
    parts: &Parts,
    cases: &[&Case],
    framed: bool,
) -> Option<StoodOn> {
    let (first, last) = (cases.first()?, cases.last()?);
    let [(base, front), _] = long(parts, piece.base_of(first.id))?;
    let end = |case: &Case, side: Side| {
        let mut own = parts.iter_case(case.id);
        own.find(|(_, part)| part.role == Role::End(side))
    };
    let [(_, left), (_, right)] = [end(first, Side::Left)?, end(last, Side::Right)?];
    let measured = |case: &&Case| -> Vec<(PartId, Length)> {
        let own = parts.iter_case(case.id).filter(|(_, part)| match framed {
            true => part.role == Role::Stile && matches!(part.which, Which::At(_)),
            false => matches!(part.role, Role::End(_)),
        });
        own.map(|(id, part)| (id, part.extent(Direction::Z).0)).collect()
    };
    let measured: Vec<(PartId, Length)> = cases.iter().flat_map(measured).collect();
    // Under a mitered stile one end reaches farther forward than the other.
    let foremost = measured.iter().map(|(_, at)| *at).min()?;
    let from = measured.iter().filter(|(_, at)| *at == foremost);
    let measured: Vec<PartId> = from.map(|(id, _)| *id).collect();
    let (from, to) = front.extent(Direction::X);
    Some(StoodOn {
        cases: cases.iter().map(|case| case.id).collect(),
        base,
        from: measured,
        before: front.extent(Direction::Z).0 - foremost,
        past: [from - left.extent(Direction::X).0, right.extent(Direction::X).1 - to],
    })
}

/// The base of one case, and where it stands; `between` walls that the stiles over it are
/// planed to.
#[must_use]
pub(super) fn apart(piece: &Piece, parts: &Parts, case: CaseId, between: bool) -> Option<Apart> {
    let [(front, part), (back, rear)] = long(parts, case)?;
    Some(Apart {
        long: [front, back],
        behind: behind(piece, rear),
        farther: farther(piece, part).filter(|_| between),
    })
}

/// The front and the back of the base that is counted with a case.
fn long(parts: &Parts, first: CaseId) -> Option<[(PartId, &Part); 2]> {
    let own = || parts.iter_case(first).filter(|(_, part)| part.assembly == Assembly::Base(first));
    let of = |which| own().find(|(_, part)| (part.role, part.which) == (Role::BaseMember, which));
    Some([of(Which::Front)?, of(Which::Back)?])
}

fn behind(piece: &Piece, rear: &Part) -> Option<Length> {
    piece.site.fixed.then(|| piece.wall() - rear.extent(Direction::Z).1)
}

/// Which end of a base lies deeper below what is planed to a wall, and by how much.
fn farther(piece: &Piece, front: &Part) -> Option<(Side, Length)> {
    let [left, right] = in_from_sides(piece, front);
    let more = left - right;
    match () {
        () if more.is_zero() => None,
        () if more.is_negative() => Some((Side::Right, -more)),
        () => Some((Side::Left, more)),
    }
}

/// Every base that several cases of a run stand on, from the left; `between` walls that
/// the stiles over them are planed to.
#[must_use]
pub(super) fn leveled(piece: &Piece, parts: &Parts, between: bool) -> Vec<Leveled> {
    let rows = piece.runs.iter().flat_map(|run| &run.bases);
    rows.filter_map(|row| one(piece, parts, row.first, between)).collect()
}

fn one(piece: &Piece, parts: &Parts, first: CaseId, between: bool) -> Option<Leveled> {
    let [(front, part), (back, rear)] = long(parts, first)?;
    let unit = piece.tape().unit;
    let block = trade::base_block(unit);
    Some(Leveled {
        long: [front, back],
        high: part.width.length,
        behind: behind(piece, rear),
        beside: beside(piece, part).filter(|_| !between),
        farther: farther(piece, part).filter(|_| between),
        between,
        blocks: trade::floor_blocks(part.length.length, unit),
        block,
        most: block + part.thickness.length - trade::short_of_face(unit),
    })
}

/// The wall that an end of it is measured from: the left one where there are two.
fn beside(piece: &Piece, front: &Part) -> Option<(Side, Length)> {
    let side = Side::BOTH.into_iter().find(|side| piece.wall_at(*side).is_some())?;
    Some((side, *side.of(&in_from_sides(piece, front))))
}

/// How far the ends of a base lie in from the left and the right side of the piece.
fn in_from_sides(piece: &Piece, front: &Part) -> [Length; 2] {
    let (from, to) = front.extent(Direction::X);
    [from, piece.wide() - to]
}
