//! What lies before a hole that is bored on through a block.

use super::feature::Feature;
use super::id::{PartId, Role};
use super::part::{Part, Parts};
use super::space::Direction;

impl Parts {
    /// The hinge block on a board that covers this hole of it; `None` where none does.
    #[must_use]
    pub fn block_before(&self, id: PartId, feature: &Feature) -> Option<PartId> {
        let part = self.get(id)?;
        let hole = part.hollows(feature).next()?;
        let axis = part.placement.direction(feature.face);
        let mut on = self.joints.iter().filter(|joint| joint.into == id).map(|joint| joint.part);
        on.find(|block| {
            let is_over = |block: &Part| {
                let space = block.cuboid();
                let mut others = Direction::ALL.into_iter().filter(|own| *own != axis);
                block.role == Role::HingeBlock
                    && others.all(|own| space.overlaps_along(&hole, own))
                    && !space.overlap_along(&hole, axis).is_negative()
            };
            self.get(*block).is_some_and(is_over)
        })
    }
}
