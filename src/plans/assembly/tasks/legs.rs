//! Below the bottom of a case: the ends of its kick, and what holds its legs.

use crate::model::{CaseId, Exposure, Side};
use crate::parts::{PartId, Role};
use crate::plans::fitting::leg_block;
use crate::plans::operations::Doing;

use super::Maker;

impl Maker<'_, '_> {
    /// A kick of sheet goods runs over the notches, and shows its plies at an end that is
    /// seen.
    pub(super) fn kick_covered(&self, case: CaseId, kicks: &[PartId]) -> Option<String> {
        let case = self.piece.case(case)?;
        let is_sheet = |id: &PartId| {
            let part = self.parts.get(*id);
            part.and_then(|part| self.piece.stock(part.stock)).is_some_and(|own| !own.is_solid())
        };
        let seen = [Side::Left, Side::Right].into_iter().filter(|side| {
            matches!(side.of(&case.exposure), Exposure::Seen)
                && side.of(&case.covers.ends).is_none()
        });
        let ends = self.ids_in(case.id, |part| {
            let of = |side| part.role == Role::End(side);
            seen.clone().any(of)
        });
        (!ends.is_empty() && kicks.iter().any(is_sheet)).then(|| {
            let kick = self.marks(kicks);
            match ends.as_slice() {
                [only] => {
                    let end = self.parts.mark(*only);
                    format!("the end of {kick} is seen beside {end}: before you fix it, iron or glue veneer of the wood of {end} on it, or its plies show there")
                }
                _ => format!("both ends of {kick} are seen: before you fix it, iron or glue veneer of the wood of the ends on them, or its plies show there"),
            }
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
            let side = if block.left { "left" } else { "right" };
            let count = block.screws;
            lines.push(format!(
                "{leg}: a board stands over it, where no screw can go down through {bottom}, so glue it on and hold it from below: glue a block {} square and {} long into the corner of {leg} and {bottom}, on the {side} of {leg} and in the middle of its length, and screw it with {count} screws up into {bottom} and {count} into {leg}, past each other",
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
