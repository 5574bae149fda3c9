//! Bought legs under a case.

use serde::Serialize;

use crate::model::Fixing;
use crate::plans::on_legs::LegsOn;

use super::Maker;
use super::done::carried_by;
use super::record::Figure;

/// A case is turned over, and its legs are fixed under its bottom.
#[derive(Serialize)]
pub(super) struct LegsUnder<'d> {
    case: &'d str,
    by: String,
    leg: &'d str,
    on: &'d str,
    from: [String; 2],
    centers: Vec<[Figure; 2]>,
    how: &'static str,
    high: Figure,
    wide: Figure,
    foot: Figure,
    holes: u32,
    deep: Figure,
    #[serde(skip_serializing_if = "Option::is_none")]
    adjust: Option<Figure>,
}

impl<'d> Maker<'d, '_> {
    pub(super) fn legs_on(&self, own: &LegsOn) -> Option<LegsUnder<'d>> {
        let piece = self.work.piece;
        let (leg, on) = (piece.leg(own.leg)?, self.work.parts.get(own.on)?);
        Some(LegsUnder {
            case: &piece.case(own.case)?.name,
            by: carried_by(own.carry),
            leg: &leg.name,
            on: &on.mark,
            from: own.from.map(|face| on.face_name(face)),
            centers: own.centers.iter().map(|own| own.map(|at| self.figure(at))).collect(),
            how: match leg.fixing {
                Fixing::Plate { .. } => "plate",
                Fixing::Bolt(_) => "bolt",
                Fixing::Dowel(_) => "dowel",
            },
            high: self.figure(leg.high.length),
            wide: self.figure(leg.wide.length),
            foot: self.figure(leg.foot),
            holes: leg.holes(),
            deep: self.figure(leg.fixing.hole().deep),
            adjust: leg.adjust.is_positive().then(|| self.figure(leg.adjust)),
        })
    }
}
