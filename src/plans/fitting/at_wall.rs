//! Doors that a wall beside the piece stops before their hinges do, or a case beside theirs or
//! a keep-out once they are open 90 degrees; before that `door-stopped` tells of it.

use crate::measure::{Angle, Length};
use crate::model::{Case, CaseId, Exposure, KeepOutId, Piece, Side};
use crate::parts::{Assembly, Cuboid, Direction, Front, keep_out_space};
use crate::plans::Workings;
use crate::trade::{Body, Hung, Patch};

/// What stops a door.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Obstacle {
    /// The wall of the room at this side of the piece.
    Wall(Side),
    /// A case beside the door's, which reaches farther forward.
    Case(CaseId),
    /// What stands at the wall behind the piece and reaches out past the door's hinge edge.
    KeepOut(KeepOutId),
}

impl Obstacle {
    /// What it is called in a sentence.
    #[must_use]
    pub fn told(self, piece: &Piece) -> String {
        match self {
            Self::Wall(side) => format!("the {} wall", side.word()),
            Self::Case(id) => {
                format!("the side of {}", piece.case(id).map_or("", |case| case.name.as_str()))
            }
            Self::KeepOut(id) => {
                format!(
                    "the {}",
                    piece.site.keep_outs.get(id.0).map_or("", |own| own.name.as_str())
                )
            }
        }
    }
}

/// A door that something stops.
#[derive(Clone, Debug)]
pub struct AtWall<'a> {
    /// The door.
    pub front: &'a Front<'a>,
    /// What stops it.
    pub at: Obstacle,
    /// How far the door opens before it, or its pull, meets that.
    pub opens: Angle,
    /// How far its hinges would let it.
    pub swing: Angle,
    /// What meets it.
    pub body: Body,
}

/// Farther than any leaf reaches.
const FAR: Length = Length::mm(100_000);

/// Farther than this beyond its own width no door comes from its hinge edge.
const NEAR: Length = Length::mm(100);

/// A space in plan, out from the foremost face.
#[must_use]
pub fn patch(space: &Cuboid) -> Patch {
    Patch { x: (space.from.x, space.to.x), out: (-space.to.z, -space.from.z) }
}

/// Every door whose hinges would carry it, or its pull, into a wall or a case beside its own.
/// The wall is taken to stand where the scribe ends, of a stile or of a filler.
#[must_use]
pub fn at_wall<'a>(work: &'a Workings<'_>) -> Vec<AtWall<'a>> {
    let fronts = work.fronts().iter();
    fronts.filter_map(|front| wall(work, front).or_else(|| beside(work, front))).collect()
}

fn wall<'a>(work: &Workings<'_>, front: &'a Front<'_>) -> Option<AtWall<'a>> {
    let piece = work.piece;
    let side = front.hung?;
    // What stands apart has no wall beside it but at its own side.
    let own = piece.case(front.case).filter(|_| piece.stands_apart());
    if own.is_some_and(|case| !matches!(side.of(&case.exposure), Exposure::Wall { .. })) {
        return None;
    }
    let at = piece.wall_at(side)?;
    let x = match side {
        Side::Left => (-FAR, at),
        Side::Right => (at, at + FAR),
    };
    let patch = Patch { x, out: (Length::ZERO, FAR) };
    let own = stopped(work, front, Length::ZERO, (Obstacle::Wall(side), &[patch], Length::ZERO))?;
    Some(own.1)
}

/// The first of the other cases and of the keep-outs that it meets, wherever the cases stand:
/// beside its own, or on a case beside it. The corner of a door comes past them by as much as
/// its hinge leaves open.
fn beside<'a>(work: &Workings<'_>, front: &'a Front<'_>) -> Option<AtWall<'a>> {
    let (piece, parts) = (work.piece, work.parts);
    if piece.stands_apart() {
        return None;
    }
    let side = front.hung?;
    let mercy = front.fronts.hinge.and_then(|(hinge, _)| piece.hinge(hinge))?.mercy();
    let (edge, out) = (front.hinge_edge(side), -front.space.from.z);
    let pull = front.pull.as_ref().map_or(Length::ZERO, |(pull, _)| pull.stands);
    let reach = front.space.size(Direction::X) + pull + NEAR;
    let comes_near = |(from, to): (Length, Length)| from < edge + reach && edge - reach < to;
    let is_level = |space: &Cuboid| space.overlaps_along(&front.space, Direction::Y);
    let is_near =
        |case: &&Case| case.id != front.case && comes_near((case.x, case.x + case.wide.length));
    let met = |at: Obstacle, patches: &[Patch]| stopped(work, front, out, (at, patches, mercy));
    let cases = piece.cases.iter().filter(is_near).filter_map(|case| {
        let stands = parts.of_case(case.id).iter().filter(|part| {
            let is_loose = matches!(part.assembly, Assembly::DrawerBox(_) | Assembly::Loose(_));
            !is_loose && is_level(&part.cuboid())
        });
        let patches: Vec<Patch> = stands.map(|part| patch(&part.cuboid())).collect();
        met(Obstacle::Case(case.id), &patches)
    });
    let keep_outs = (0..).map(KeepOutId).zip(&piece.site.keep_outs);
    let keep_outs = keep_outs.filter_map(|(id, own)| {
        let space = keep_out_space(piece, own);
        let is_near = comes_near((space.from.x, space.to.x)) && is_level(&space);
        is_near.then(|| met(Obstacle::KeepOut(id), &[patch(&space)]))?
    });
    let first = cases.chain(keep_outs).min_by_key(|(surely, _)| *surely);
    first.filter(|(surely, _)| *surely > Angle::SQUARE).map(|(_, own)| own)
}

/// How far a door whose face stands so far out comes before it meets one of these: surely,
/// and before it may touch.
fn stopped<'a>(
    work: &Workings<'_>,
    front: &'a Front<'_>,
    out: Length,
    (at, patches, mercy): (Obstacle, &[Patch], Length),
) -> Option<(Angle, AtWall<'a>)> {
    let side = front.hung?;
    let hinge = front.fronts.hinge.and_then(|(hinge, _)| work.piece.hinge(hinge))?;
    let hung = Hung::new(
        front.leaf(side, hinge),
        (front.hinge_edge(side), out),
        side == Side::Right,
        hinge.swing,
    );
    let met = |mercy: Length| {
        let meets = |body| {
            let all = patches.iter().filter_map(|patch| hung.stopped(body, patch, mercy)).min();
            Some((all?, body))
        };
        [Body::Leaf, Body::Pull].into_iter().filter_map(meets).min_by_key(|own| own.0)
    };
    let (surely, body) = met(mercy)?;
    // Mercy is for the question whether a door is stopped at all: a stop is set to where the
    // door may touch.
    let touches = met(Length::ZERO).map_or(surely, |(angle, _)| angle);
    let opens = touches.max(surely.min(Angle::SQUARE));
    let swing = hinge.swing;
    (surely < swing).then_some((surely, AtWall { front, at, opens, swing, body }))
}
