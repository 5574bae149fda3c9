//! What opens: the doors with what they turn about, and the drawers with how far
//! they come out.

use serde::Serialize;

use crate::model::{Case, HingeKind, Opening, OpeningId, Side};
use crate::parts::{Assembly, Front, Part};
use crate::trade::Pivot;

use super::Maker;
use super::record::Figure;

#[derive(Serialize)]
pub(super) struct Opens<'d> {
    doors: Vec<Door<'d>>,
    drawers: Vec<Pulled<'d>>,
}

#[derive(Serialize)]
struct Door<'d> {
    parts: Vec<&'d str>,
    hung: &'static str,
    opens: String,
    #[serde(flatten)]
    turns: Turns,
}

#[derive(Serialize)]
#[serde(tag = "about", rename_all = "lowercase")]
enum Turns {
    Pin { ahead: Figure },
    Path { poses: Vec<Pose> },
    Corner,
}

#[derive(Serialize)]
struct Pose {
    at: String,
    out: Figure,
    aside: Figure,
}

#[derive(Serialize)]
struct Pulled<'d> {
    parts: Vec<&'d str>,
    travel: Figure,
}

impl<'d> Maker<'d, '_> {
    pub(super) fn opens(&self) -> Opens<'d> {
        let drawers =
            self.work.piece.cases.iter().flat_map(|case| {
                case.openings.iter().filter_map(|opening| self.pulled(case, opening))
            });
        Opens {
            doors: self.work.fronts().iter().filter_map(|front| self.door(front)).collect(),
            drawers: drawers.collect(),
        }
    }

    fn door(&self, front: &Front<'d>) -> Option<Door<'d>> {
        let hinge = front.fronts.hinge.and_then(|(id, _)| self.work.piece.hinge(id))?;
        let thick = front.parts.first()?.thickness.length;
        let unknown = match &hinge.kind {
            HingeKind::Cup { poses, .. } => poses.is_empty(),
            HingeKind::Butt { .. } => false,
        };
        let turns = match hinge.pivot(&front.fronts.set, thick) {
            Pivot::Pin { .. } if unknown => Turns::Corner,
            Pivot::Pin { ahead } => Turns::Pin { ahead: self.fine(ahead) },
            Pivot::Poses(poses) => Turns::Path {
                poses: poses
                    .iter()
                    .map(|pose| Pose {
                        at: super::exact(pose.at.0),
                        out: self.fine(pose.out),
                        aside: self.fine(pose.aside),
                    })
                    .collect(),
            },
        };
        Some(Door {
            parts: front.parts.iter().map(|part| &*part.mark).collect(),
            hung: match front.hung? {
                Side::Left => "left",
                Side::Right => "right",
            },
            opens: super::exact(hinge.swing.0),
            turns,
        })
    }

    fn pulled(&self, case: &Case, opening: &Opening) -> Option<Pulled<'d>> {
        let deep = self.work.piece.drawer_box(case, opening)?.deep;
        let parts = self.work.parts;
        let own = |part: &Part| match part.assembly {
            Assembly::DrawerBox(opening) => Some(opening),
            Assembly::Front(front) => Some(front.opening),
            Assembly::Base(_)
            | Assembly::Carcass(_)
            | Assembly::Frame(_)
            | Assembly::Countertop(_)
            | Assembly::Filler(..)
            | Assembly::Loose(_) => None,
        };
        let is_here = |id: OpeningId| id == opening.id;
        let marks: Vec<&'d str> = parts
            .of_case(opening.id.case)
            .iter()
            .filter(|part| own(part).is_some_and(is_here))
            .map(|part| &*part.mark)
            .collect();
        let travel = self.figure(deep.length);
        (!marks.is_empty()).then_some(Pulled { parts: marks, travel })
    }
}
