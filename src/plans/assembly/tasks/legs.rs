//! Below the bottom of a case: the ends of its kick or base, and what holds its legs.

use crate::diagnostics::listed;
use crate::measure::Length;
use crate::model::CaseId;
use crate::parts::{Assembly, PartId, Role, Which};
use crate::plans::bare_ends::{BareEnds, Hidden, bare_ends_of};
use crate::plans::fitting::leg_block;
use crate::plans::operations::Doing;

use super::Maker;

impl Maker<'_, '_> {
    /// A kick of sheet goods runs over the notches, and shows its plies at an end that is
    /// seen.
    pub(super) fn kick_covered(&self, kick: PartId) -> Option<(String, Doing)> {
        let own = bare_ends_of(self.piece, self.parts, kick)?;
        let mark = self.parts.mark(kick);
        let line = match (own.by, own.beside.as_slice()) {
            (Hidden::Filler, [only]) => {
                let end = self.parts.mark(*only);
                format!(
                    "the end of {mark} is seen beside {end}: fill it with wood filler and sand it flush when that is hard, so that its plies don't show under the paint"
                )
            }
            (Hidden::Filler, _) => format!(
                "both ends of {mark} are seen: fill them with wood filler and sand them flush when that is hard, so that the plies don't show under the paint"
            ),
            (Hidden::Veneer(strip), [only]) => {
                let (end, it) = (self.parts.mark(*only), self.with_the_rest("it gets its"));
                format!(
                    "the end of {mark} is seen beside {end}: saw that end short by the thickness of the veneer that matches {end}, and iron or glue a strip of it on, {}, and trim it flush, so that the plies don't show{it}",
                    self.strip(strip)
                )
            }
            (Hidden::Veneer(strip), _) => {
                let they = self.with_the_rest("they get their");
                format!(
                    "both ends of {mark} are seen: saw both short by the thickness of the veneer that matches the ends of the case, and iron or glue strips of it on, {}, and trim them flush, so that the plies don't show{they}",
                    self.strip(strip)
                )
            }
        };
        Some((line, Doing::CoverEnds(own)))
    }

    fn with_the_rest(&self, they_get: &str) -> String {
        match self.is_finished() {
            true => format!("; {they_get} coats with the rest"),
            false => String::new(),
        }
    }

    /// What is seen of a separate base: its screws in front, and the plies of its front and
    /// back at an end of the case that is seen.
    pub(super) fn base_seen(&self, base: CaseId) -> (Vec<String>, Vec<Doing>) {
        let member = |which: Which| {
            self.ids(|part| {
                let own = (part.assembly, part.role, part.which);
                own == (Assembly::Base(base), Role::BaseMember, which)
            })
        };
        let (front, back) = (member(Which::Front), member(Which::Back));
        let Some(part) = front.first().and_then(|id| self.parts.get(*id)) else {
            return (Vec::new(), Vec::new());
        };
        let mut lines = vec![format!(
            "the front face of {} is seen: sink the heads of its screws, and fill the holes before it is sanded",
            part.mark
        )];
        let long: Vec<PartId> = [front, back].concat();
        let bare = long.iter().filter_map(|id| bare_ends_of(self.piece, self.parts, *id));
        let bare: Vec<BareEnds> = bare.collect();
        if let Some(first) = bare.first() {
            let told = |ids: &[PartId]| {
                listed(&ids.iter().map(|id| self.parts.mark(*id)).collect::<Vec<_>>())
            };
            let (long, beside) = (told(&long), told(&first.beside));
            lines.push(match first.by {
                Hidden::Veneer(_) => {
                    let mut sizes: Vec<String> = Vec::new();
                    for own in &bare {
                        let Hidden::Veneer(strip) = own.by else { continue };
                        let size = self.strip(strip);
                        if !sizes.contains(&size) {
                            sizes.push(size);
                        }
                    }
                    format!(
                        "the ends of {long} are seen beside {beside}: cover them there with veneer to match {beside}, strips of {}, ironed or glued on and trimmed flush, so that their plies don't show",
                        sizes.join(" and of ")
                    )
                }
                Hidden::Filler => format!(
                    "the ends of {long} are seen beside {beside}: fill them there with wood filler and sand them flush when that is hard, so that their plies don't show under the paint"
                ),
            });
        }
        (lines, bare.into_iter().map(Doing::CoverEnds).collect())
    }

    /// `4-3/4 x 31/32`
    fn strip(&self, strip: [Length; 2]) -> String {
        strip.map(|side| self.text(side)).join(" x ")
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
