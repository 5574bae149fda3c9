//! Panels over cases, as they are fitted, and toe kicks, as they are scribed.

use serde::Serialize;

use crate::parts::{PartId, Spare};
use crate::plans::operations::Covering;

use super::Maker;
use super::record::Figure;

/// A panel over a side of a case.
#[derive(Serialize)]
pub(super) struct FittedCover<'d> {
    part: &'d str,
    through: Vec<&'d str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    ahead: Option<Figure>,
    screws: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    long: Option<Figure>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    scribed: Vec<ScribedEdge>,
}

/// A toe kick, before it is screwed on.
#[derive(Serialize)]
pub(super) struct ScribedKick<'d> {
    part: &'d str,
    scribed: Vec<ScribedEdge>,
}

/// Wood that is left on at an edge until it is scribed.
#[derive(Serialize)]
struct ScribedEdge {
    edge: String,
    left: Figure,
}

impl<'d> Maker<'d, '_> {
    pub(super) fn fitted_cover(&self, own: &Covering) -> FittedCover<'d> {
        FittedCover {
            part: self.mark(own.part),
            through: self.marks(&own.through),
            ahead: own.ahead.filter(|own| own.is_positive()).map(|own| self.figure(own)),
            screws: own.screws,
            long: own.long.map(|long| self.figure(long)),
            scribed: self.scribed_edges(own.part),
        }
    }

    pub(super) fn scribed_kick(&self, kick: PartId) -> ScribedKick<'d> {
        ScribedKick { part: self.mark(kick), scribed: self.scribed_edges(kick) }
    }

    fn scribed_edges(&self, id: PartId) -> Vec<ScribedEdge> {
        let Some(part) = self.work.parts.get(id) else { return Vec::new() };
        let edge = |spare: &Spare| ScribedEdge {
            edge: part.face_name(spare.face),
            left: self.figure(spare.by.length),
        };
        part.spare.iter().map(edge).collect()
    }
}
