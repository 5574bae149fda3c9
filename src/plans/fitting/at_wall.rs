//! Doors that a wall beside the piece stops before their hinges do.

use crate::measure::{Angle, Length};
use crate::model::{Boundary, Side};
use crate::parts::Front;
use crate::plans::Workings;
use crate::trade::{Body, Hung, Patch};

/// A door beside a wall.
#[derive(Clone, Debug)]
pub struct AtWall<'a> {
    /// The door.
    pub front: &'a Front<'a>,
    /// At which side of the piece the wall is.
    pub side: Side,
    /// How far the door opens before it, or its pull, meets the wall.
    pub opens: Angle,
    /// How far its hinges would let it.
    pub swing: Angle,
    /// What meets the wall.
    pub body: Body,
}

/// Farther than any leaf reaches.
const FAR: Length = Length::mm(100_000);

/// Every door whose hinges would carry it, or its pull, into a wall. The wall is taken to
/// stand where the scribe ends.
#[must_use]
pub fn at_wall<'a>(work: &'a Workings<'_>) -> Vec<AtWall<'a>> {
    work.fronts().iter().filter_map(|front| door(work, front)).collect()
}

fn door<'a>(work: &Workings<'_>, front: &'a Front<'_>) -> Option<AtWall<'a>> {
    let piece = work.piece;
    let side = front.hung?;
    let (boundary, outer) = match side {
        Side::Left => (&piece.site.left, piece.cases.first()?),
        Side::Right => (&piece.site.right, piece.cases.last()?),
    };
    if !matches!(boundary, Boundary::Wall { .. }) || outer.id != front.case {
        return None;
    }
    let scribe = side.of(&outer.exposure).scribe().length;
    let hinge = front.fronts.hinge.and_then(|(hinge, _)| piece.hinge(hinge))?;
    let wall = match side {
        Side::Left => (-FAR, scribe),
        Side::Right => (piece.wide() - scribe, piece.wide() + FAR),
    };
    let hung = Hung::new(
        front.leaf(side, hinge),
        (front.hinge_edge(side), Length::ZERO),
        side == Side::Right,
        hinge.swing,
    );
    let patch = Patch { x: wall, out: (Length::ZERO, FAR) };
    let stop = |body| Some((hung.stopped(body, &patch, Length::ZERO)?, body));
    let (opens, body) =
        [Body::Leaf, Body::Pull].into_iter().filter_map(stop).min_by_key(|own| own.0)?;
    (opens < hinge.swing).then_some(AtWall { front, side, opens, swing: hinge.swing, body })
}
