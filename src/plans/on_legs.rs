//! How bought legs go on under a case.

use crate::measure::Length;
use crate::model::{Case, CaseId, LegId, Piece};
use crate::parts::{self, Face, Part, PartId, Parts, Role};
use crate::trade::Carry;

use super::Workings;
use super::weights::Lifted;

/// A case is turned over, and its legs go on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LegsOn {
    /// The case.
    pub case: CaseId,
    /// The leg.
    pub leg: LegId,
    /// The bottom that they go on.
    pub on: PartId,
    /// The end and the edge of it that the places count from.
    pub from: [Face; 2],
    /// The middle of each leg, from there.
    pub centers: Vec<[Length; 2]>,
    /// Who turns the case over.
    pub carry: Carry,
}

/// The bottom that the legs of a case are fixed under.
#[must_use]
pub fn bottom_on_legs<'p>(parts: &'p Parts, case: &Case) -> Option<(PartId, &'p Part)> {
    case.on_legs.as_ref()?;
    parts.iter_case(case.id).find(|(_, part)| part.role == Role::Bottom)
}

/// How the legs of a case go on; `None` where it stands on none.
#[must_use]
pub fn legs_on(work: &Workings<'_>, case: &Case) -> Option<LegsOn> {
    let (on, bottom) = bottom_on_legs(work.parts, case)?;
    let from = [
        bottom.datum([Face::LengthStart, Face::LengthEnd]),
        bottom.datum([Face::WidthStart, Face::WidthEnd]),
    ];
    let centers = parts::legs_under(work.piece, case, bottom).into_iter().map(|leg| {
        let [along, across] = leg.center.map(|at| at.length);
        [bottom.distance(from[0], along), bottom.distance(from[1], across)]
    });
    Some(LegsOn {
        case: case.id,
        leg: case.on_legs.as_ref()?.leg,
        on,
        from,
        centers: centers.collect(),
        carry: work.weights().carry(&Lifted::Case(case.id)),
    })
}

/// From the foremost face of the piece back to the front edge of the feet of a case.
#[must_use]
pub fn front_of_feet(piece: &Piece, parts: &Parts, case: &Case) -> Option<Length> {
    let (_, leg) = piece.legs_under(case)?;
    let (_, bottom) = bottom_on_legs(parts, case)?;
    let centers = parts::legs_under(piece, case, bottom).into_iter();
    let front = centers.map(|leg| leg.center[1].length).min()?;
    Some(bottom.cuboid().from.z + front - leg.foot.half())
}
