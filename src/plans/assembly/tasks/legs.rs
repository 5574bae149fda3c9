//! Below the bottom of a case: the ends of its kick or base, and what holds its legs.

use crate::diagnostics::listed;
use crate::model::{CaseId, Side};
use crate::parts::{Assembly, Direction, Part, PartId, Role, Which};
use crate::plans::fitting::leg_block;
use crate::plans::operations::Doing;

use super::Maker;

impl Maker<'_, '_> {
    /// A kick of sheet goods runs over the notches, and shows its plies at an end that is
    /// seen.
    pub(super) fn kick_covered(&self, kick: PartId) -> Option<String> {
        let part = self.parts.get(kick)?;
        let ends = self.seen_beside(part);
        let is_sheet = self.piece.stock(part.stock).is_some_and(|own| !own.is_solid());
        let [it, they] = match self.is_finished() {
            true => ["; it gets its coats with the rest", "; they get their coats with the rest"],
            false => ["", ""],
        };
        (!ends.is_empty() && is_sheet).then(|| match ends.as_slice() {
            [only] => {
                let end = self.parts.mark(*only);
                format!("the end of {} is seen beside {end}: saw that end short by the thickness of the veneer that matches {end}, and iron or glue a strip of it on, so that the plies don't show{it}", part.mark)
            }
            _ => format!("both ends of {} are seen: saw both short by the thickness of the veneer that matches the ends of the case, and iron or glue strips of it on, so that the plies don't show{they}", part.mark),
        })
    }

    /// What is seen of a separate base: its screws in front, and the plies of its front and
    /// back at an end of the case that is seen.
    pub(super) fn base_seen(&self, base: CaseId) -> Vec<String> {
        let member = |which: Which| {
            self.ids(|part| {
                let own = (part.assembly, part.role, part.which);
                own == (Assembly::Base(base), Role::BaseMember, which)
            })
        };
        let (front, back) = (member(Which::Front), member(Which::Back));
        let Some(part) = front.first().and_then(|id| self.parts.get(*id)) else {
            return Vec::new();
        };
        let mut lines = vec![format!(
            "the front face of {} is seen: sink the heads of its screws, and fill the holes before it is sanded",
            part.mark
        )];
        let ends = self.seen_beside(part);
        if !ends.is_empty() && self.piece.stock(part.stock).is_some_and(|own| !own.is_solid()) {
            let told = |ids: &[PartId]| {
                listed(&ids.iter().map(|id| self.parts.mark(*id)).collect::<Vec<_>>())
            };
            let (long, beside) = (told(&[front, back].concat()), told(&ends));
            lines.push(format!(
                "the ends of {long} are seen beside {beside}: cover them there with veneer to match {beside}, ironed or glued on, so that their plies don't show"
            ));
        }
        lines
    }

    /// The ends of cases that are seen over the ends of a part below them, of which no strip
    /// covers the plies.
    fn seen_beside(&self, part: &Part) -> Vec<PartId> {
        let is_bare = |side: Side| {
            let end = part.placement.face(Direction::X, side == Side::Left);
            !part.strips.iter().any(|strip| strip.face == end)
        };
        let seen = self.parts.seen_over(self.piece, part).into_iter();
        seen.filter(|(side, _)| is_bare(*side)).map(|(_, id)| id).collect()
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
                self.text(block.square),
                self.text(block.long),
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
