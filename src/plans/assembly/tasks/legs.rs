//! Below the bottom of a case: the ends of its kick, and what holds its legs.

use crate::model::Side;
use crate::parts::{Direction, Part, PartId, Role};
use crate::plans::fitting::leg_block;
use crate::plans::operations::Doing;

use super::Maker;

impl Maker<'_, '_> {
    /// A kick of sheet goods runs over the notches, and shows its plies at an end that is
    /// seen.
    pub(super) fn kick_covered(&self, kick: PartId) -> Option<String> {
        let part = self.parts.get(kick)?;
        let (from, to) = part.extent(Direction::X);
        // The ends whose outside faces its own ends are flush with.
        let is_at = |other: &Part| {
            let (left, right) = other.extent(Direction::X);
            other.role == Role::End(Side::Left) && left == from
                || other.role == Role::End(Side::Right) && right == to
        };
        let is_seen = |other: &Part| {
            let (Role::End(side), Some(case)) = (other.role, self.piece.case(other.case)) else {
                return false;
            };
            case.shows_end(side)
        };
        let ends = self.ids(|other| is_at(other) && is_seen(other));
        let is_sheet = self.piece.stock(part.stock).is_some_and(|own| !own.is_solid());
        (!ends.is_empty() && is_sheet).then(|| match ends.as_slice() {
            [only] => {
                let end = self.parts.mark(*only);
                format!("the end of {} is seen beside {end}: before you fix it, cover it with veneer to match {end}, ironed or glued on, so that its plies don't show", part.mark)
            }
            _ => format!("both ends of {} are seen: before you fix it, cover both with veneer to match the ends of the case, ironed or glued on, so that the plies don't show", part.mark),
        })
    }

    /// How legs are held under a bottom: with screws down through it, or with a block below
    /// where a board stands over them.
    pub(super) fn legs_held(&self, joints: &[usize]) -> (Vec<String>, Vec<Doing>) {
        let tape = self.piece.tape();
        let (mut screwed, mut lines, mut does) = (Vec::new(), Vec::new(), Vec::new());
        for index in joints {
            let Some(joint) = self.parts.joints.get(*index) else { continue };
            let Some(block) = leg_block(self.parts, joint, tape.unit) else {
                screwed.push(joint.part);
                continue;
            };
            let (leg, bottom) = (self.marks(&[joint.part]), self.marks(&[joint.into]));
            let side = block.side.word();
            let count = block.screws;
            lines.push(format!(
                "{leg}: boards over it leave no way for screws down through {bottom}, so glue it on and hold it from below: glue a block {} square and {} long into the corner of {leg} and {bottom}, on the {side} of {leg} and in the middle of its length, and screw it with {count} screws up into {bottom} and {count} into {leg}, placed so that they miss each other",
                tape.text(block.square),
                tape.text(block.long),
            ));
            does.push(Doing::LegBlock(*index));
        }
        if !screwed.is_empty() {
            let how = self.glue_and_screw(&screwed);
            lines.insert(
                0,
                format!(
                    "{}: {how} from above, on the lines of the layout sheet",
                    self.marks(&screwed)
                ),
            );
        }
        (lines, does)
    }
}
