//! Solid panels that float in the grooves of their frames.

use std::collections::BTreeMap;

use crate::measure::Length;
use crate::parts::{FeatureKind, Joint, JointSort, Part, PartId};
use crate::plans::Workings;

use super::Swelling;

/// A panel across its grain, between the bottoms of two grooves.
#[derive(Clone, Copy, Debug)]
pub struct Float<'a> {
    /// The panel.
    pub panel: &'a Part,
    /// How deep it sits in each groove.
    pub held: Length,
    /// What is left between its edge and the bottom of the groove, at each side.
    pub room: Length,
    /// The same on the driest day.
    pub driest: Length,
    /// And on the dampest.
    pub dampest: Length,
    /// What the panel does.
    pub swelling: Swelling,
}

/// Every solid panel that lies loose in grooves along both of its edges.
pub(in crate::plans) fn floats<'a>(work: &Workings<'a>) -> Vec<Float<'a>> {
    let Workings { piece, parts, .. } = *work;
    let climate = work.climate();
    let mut found = Vec::new();
    let mut floating: BTreeMap<PartId, Vec<&Joint>> = BTreeMap::new();
    for joint in parts.joints.iter().filter(|joint| joint.sort == JointSort::Floating) {
        floating.entry(joint.part).or_default().push(joint);
    }
    for (id, joints) in floating {
        let Some(panel) = parts.get(id) else { continue };
        let Some(stock) = piece.stock(panel.stock).filter(|stock| stock.wood.is_some()) else {
            continue;
        };
        let across = panel.placement.width;
        let mut room: Option<Length> = None;
        let mut held: Option<Length> = None;
        let mut sides = 0;
        for joint in joints {
            let Some(holder) = parts.get(joint.into) else { continue };
            let takes = |feature: &&crate::parts::Feature| {
                feature.kind == FeatureKind::Groove
                    && holder.houses(feature, id, panel)
                    && holder.placement.direction(feature.face) == across
            };
            let Some(groove) = holder.features.iter().find(takes) else { continue };
            let overlap = panel.cuboid().overlap_along(&holder.cuboid(), across);
            held = Some(held.map_or(overlap, |known: Length| known.min(overlap)));
            let left = groove.deep - overlap;
            room = Some(room.map_or(left, |known: Length| known.min(left)));
            sides += 1;
        }
        let (Some(room), Some(held), 2..) = (room, held, sides) else { continue };
        let swelling = climate.swelling(stock, panel.width.length);
        found.push(Float {
            panel,
            held,
            room,
            driest: room - swelling.driest.half(),
            dampest: room - swelling.dampest.half(),
            swelling,
        });
    }
    found
}

impl Float<'_> {
    /// The least of its room through the year.
    #[must_use]
    pub fn least(&self) -> Length {
        self.room.min(self.driest).min(self.dampest)
    }

    /// How deep it still sits in each groove when it is narrowest.
    #[must_use]
    pub fn held_least(&self) -> Length {
        let shrunk = self.swelling.driest.min(self.swelling.dampest).min(Length::ZERO);
        self.held + shrunk.half()
    }
}
