//! Wood that is left on until a part is scribed where the piece stands.

use crate::model::Size;
use crate::parts::id::PartId;
use crate::parts::part::Spare;
use crate::parts::space::Direction;

use super::builder::Builder;

impl Builder<'_> {
    /// Leaves wood at these sides of a part, each with whether it is the lower, left, or
    /// front one, until it is scribed there.
    pub(super) fn leave_on(
        &mut self,
        id: PartId,
        sides: impl IntoIterator<Item = (Direction, bool)>,
        by: &Size,
    ) {
        let Some(part) = self.parts.all.get_mut(id.0) else { return };
        let across = part.placement.thickness;
        let meets = sides.into_iter().filter(|(side, _)| *side != across);
        let spare = meets.map(|(side, start)| part.placement.face(side, start));
        part.spare = spare.map(|face| Spare { face, by: by.clone() }).collect();
        let [length, width] = part.as_made();
        part.rough.length += length.length - part.length.length;
        part.rough.width += width.length - part.width.length;
    }
}
