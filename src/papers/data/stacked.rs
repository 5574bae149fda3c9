//! Cases that are set on others.

use serde::Serialize;

use crate::plans::stacked::Stacked;

use super::Maker;
use super::done::carried_by;
use super::record::Figure;

/// A case that is set on those that it stands on, before it is screwed down there.
#[derive(Serialize)]
pub(super) struct SetOn<'d> {
    case: &'d str,
    on: Vec<&'d str>,
    by: String,
    left: Figure,
    #[serde(skip_serializing_if = "Option::is_none")]
    from_end: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    back: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    bottom: Option<&'d str>,
    into: Vec<&'d str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    round: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    slotted: Option<u32>,
}

impl<'d> Maker<'d, '_> {
    pub(super) fn stacked(&self, own: &Stacked) -> SetOn<'d> {
        let name = |id| self.work.piece.case(id).map_or("", |case| &*case.name);
        SetOn {
            case: name(own.case),
            on: own.below.iter().map(|id| name(*id)).collect(),
            by: carried_by(own.carry),
            left: self.figure(own.left),
            from_end: own.from_end.map(|at| self.figure(at)),
            back: own.back.map(|at| self.figure(at)),
            bottom: own.bottom.map(|id| self.mark(id)),
            into: own.rests.iter().map(|id| self.mark(*id)).collect(),
            round: (own.round > 0).then_some(own.round),
            slotted: (own.slotted > 0).then_some(own.slotted),
        }
    }
}
