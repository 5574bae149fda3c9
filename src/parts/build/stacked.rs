//! Cases that stand on others: their bottoms are screwed down on them.

use crate::model::{JointKind, Piece};
use crate::parts::feature::Feature;
use crate::parts::id::PartId;
use crate::parts::joint::{Joint, JointSort};
use crate::parts::part::{Part, Parts};
use crate::parts::space::Direction;
use crate::parts::stacked::{stack_bottom, stack_carriers, stack_rows};

use super::countertop;

/// Screws every case that stands on another down on it, when all cases are there.
pub(super) fn fasten(piece: &Piece, parts: &mut Parts) {
    for (upper, on) in piece.stacked() {
        let Some((bottom, part)) = stack_bottom(parts, upper) else { continue };
        let joint = |(into, _): (PartId, &Part)| Joint {
            sort: JointSort::Wood(JointKind::Screw),
            part: bottom,
            into,
            glued: false,
            span: on.span,
        };
        let carriers = stack_carriers(piece, parts, upper).into_iter();
        let rows = stack_rows(piece, parts, upper);
        // The frame of the case may lie over a board that its bottom does not reach, or only
        // just.
        let held = |(id, board): &(PartId, &Part)| {
            board.touching(part) == Some(Direction::Y) && rows.iter().any(|row| row.into == *id)
        };
        let joints: Vec<Joint> = carriers.filter(held).map(joint).collect();
        let mut slots: Vec<Feature> = Vec::new();
        for row in &rows {
            let Some(long) = row.slot else { continue };
            let screws = row.screws.iter().flatten();
            slots.extend(countertop::slots(piece, part, (row.z, long), screws, on.span));
        }
        parts.joints.extend(joints);
        if let Some(part) = parts.all.get_mut(bottom.0) {
            part.features.extend(slots);
        }
    }
}
