//! What several cases of a run stand on, set where they stand.

use serde::Serialize;

use crate::plans::bases::{Leveled, StoodOn};

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

    pub(super) fn stood(&self, own: &StoodOn) -> OnBase<'d> {
        let name = |id| self.work.piece.case(id).map_or("", |case| &*case.name);
        OnBase {
            cases: own.cases.iter().map(|id| name(*id)).collect(),
            before: self.figure(own.before),
        }
    }
}
