//! Wood that drawers run on gets wax, and no finish.

use crate::model::FinishId;
use crate::parts::{Assembly, Part, PartId, Role};
use crate::plans::finish::{Coated, Surface};

use super::Maker;

impl Maker<'_, '_> {
    /// What a finish leaves bare of the case and of the boxes that it goes on, and the parts
    /// that this is told of; `None` where no drawer runs on wood.
    pub(super) fn left_bare(
        &self,
        used: FinishId,
        surface: &Surface,
    ) -> Option<(&'static str, Vec<PartId>)> {
        let all = &self.work.fitting().on_wood;
        let runs = |part: &Part| match part.assembly {
            Assembly::DrawerBox(id) => {
                part.role == Role::DrawerSide && all.iter().any(|own| own.opening.id == id)
            }
            Assembly::Base(_)
            | Assembly::Carcass(_)
            | Assembly::Frame(_)
            | Assembly::Filler(..)
            | Assembly::Front(_)
            | Assembly::Countertop(_)
            | Assembly::Loose(_) => all.iter().any(|own| {
                let strips = own.guides.iter().chain(&own.kickers).chain(&own.runners);
                own.on.iter().chain(strips).any(|other| std::ptr::eq(*other, part))
            }),
        };
        let mut own = self.ids(runs);
        own.retain(|id| self.has_finish(used, *id));
        let is_on = |sort: Coated| surface.sorts().any(|(own, _)| own == sort);
        let in_case = is_on(Coated::Cases) || is_on(Coated::Frames);
        let told = match (in_case, is_on(Coated::Boxes)) {
            (true, true) => {
                "leave bare what a drawer runs on, and the edges and faces that run on it, beside it, and under the strips over it; those get wax"
            }
            (true, false) => {
                "leave bare the boards and strips of the case that a drawer runs on, beside, and under, as far as it slides along them; those get wax"
            }
            (false, true) => {
                "of the boxes that run on wood, leave bare the outer faces and the lower and upper edges of the sides; those get wax"
            }
            (false, false) => return None,
        };
        (!own.is_empty()).then_some((told, own))
    }
}
