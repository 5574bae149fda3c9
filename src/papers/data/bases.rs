//! Separate bases, set where they stand, and cases on them.

use serde::Serialize;

use crate::measure::Length;
use crate::model::Side;
use crate::plans::bare_ends::{BareEnds, Hidden};
use crate::plans::bases::{Apart, Leveled, StoodOn};
use crate::plans::fitting;

use super::Maker;
use super::record::Figure;

/// A base that several cases stand on.
#[derive(Serialize)]
pub(super) struct BaseSet<'d> {
    parts: Vec<&'d str>,
    high: Figure,
    #[serde(skip_serializing_if = "Option::is_none")]
    behind: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    beside: Option<BaseBeside>,
    #[serde(skip_serializing_if = "Option::is_none")]
    farther: Option<BaseBeside>,
    blocks: u32,
    block: Figure,
    most: Figure,
}

/// A base of one case, shimmed level by itself.
#[derive(Serialize)]
pub(super) struct BaseApart<'d> {
    parts: Vec<&'d str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    behind: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    farther: Option<BaseBeside>,
}

/// Cases on their base.
#[derive(Serialize)]
pub(super) struct OnBase<'d> {
    cases: Vec<&'d str>,
    base: &'d str,
    from: Vec<&'d str>,
    before: Figure,
    #[serde(skip_serializing_if = "Option::is_none")]
    left: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    right: Option<Figure>,
}

/// Ends of a board that are seen, and what hides their plies.
#[derive(Serialize)]
pub(super) struct EndsCovered<'d> {
    part: &'d str,
    faces: Vec<String>,
    with: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    strip: Option<[Figure; 2]>,
}

/// A block in the corner of a leg and the bottom over it.
#[derive(Serialize)]
pub(super) struct LegBlocked<'d> {
    leg: &'d str,
    bottom: &'d str,
    side: &'static str,
    square: Figure,
    long: Figure,
    screws: u32,
}

/// An end of it and the wall there.
#[derive(Serialize)]
pub(super) struct BaseBeside {
    side: &'static str,
    off: Figure,
}

impl<'d> Maker<'d, '_> {
    pub(super) fn base_set(&self, own: &Leveled) -> BaseSet<'d> {
        BaseSet {
            parts: own.long.iter().map(|id| self.mark(*id)).collect(),
            high: self.figure(own.high),
            behind: own.behind.filter(|at| !at.is_zero()).map(|at| self.figure(at)),
            beside: own.beside.map(|own| self.base_beside(own)),
            farther: own.farther.map(|own| self.base_beside(own)),
            blocks: own.blocks,
            block: self.figure(own.block),
            most: self.at_most(own.most),
        }
    }

    pub(super) fn base_apart(&self, own: &Apart) -> BaseApart<'d> {
        BaseApart {
            parts: own.long.iter().map(|id| self.mark(*id)).collect(),
            // Nothing is measured where it lies against the wall.
            behind: own.behind.filter(|at| !at.is_zero()).map(|at| self.figure(at)),
            farther: own.farther.map(|own| self.base_beside(own)),
        }
    }

    pub(super) fn ends_covered(&self, own: &BareEnds) -> Option<EndsCovered<'d>> {
        let part = self.work.parts.get(own.part)?;
        let (with, strip) = match own.by {
            Hidden::Veneer(strip) => ("veneer", Some(strip.map(|side| self.figure(side)))),
            Hidden::Filler => ("filler", None),
        };
        Some(EndsCovered {
            part: &part.mark,
            faces: own.faces.iter().map(|face| part.face_name(*face)).collect(),
            with,
            strip,
        })
    }

    fn base_beside(&self, (side, at): (Side, Length)) -> BaseBeside {
        BaseBeside { side: side.word(), off: self.figure(at) }
    }

    pub(super) fn leg_blocked(&self, joint: usize) -> Option<LegBlocked<'d>> {
        let work = self.work;
        let joint = work.parts.joints.get(joint)?;
        let own = fitting::leg_block(work.parts, joint, work.piece.tape().unit)?;
        Some(LegBlocked {
            leg: &own.leg.mark,
            bottom: &own.bottom.mark,
            side: own.side.word(),
            square: self.figure(own.square),
            long: self.figure(own.long),
            screws: own.screws,
        })
    }

    pub(super) fn stood(&self, own: &StoodOn) -> OnBase<'d> {
        let name = |id| self.work.piece.case(id).map_or("", |case| &*case.name);
        let past = |at: Length| (!at.is_zero()).then(|| self.figure(at));
        OnBase {
            cases: own.cases.iter().map(|id| name(*id)).collect(),
            base: self.mark(own.base),
            from: self.marks(&own.from),
            before: self.figure(own.before),
            left: past(own.past[0]),
            right: past(own.past[1]),
        }
    }
}
