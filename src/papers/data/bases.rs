//! What several cases of a run stand on, set where they stand.

use serde::Serialize;

use crate::plans::bases::{Leveled, StoodOn};
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
    blocks: u32,
    block: Figure,
    most: Figure,
}

/// Cases on a base that is leveled already.
#[derive(Serialize)]
pub(super) struct OnBase<'d> {
    cases: Vec<&'d str>,
    before: Figure,
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
            behind: own.behind.map(|at| self.figure(at)),
            beside: own
                .beside
                .map(|(side, at)| BaseBeside { side: side.word(), off: self.figure(at) }),
            blocks: own.blocks,
            block: self.figure(own.block),
            most: self.at_most(own.most),
        }
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
        OnBase {
            cases: own.cases.iter().map(|id| name(*id)).collect(),
            before: self.figure(own.before),
        }
    }
}
