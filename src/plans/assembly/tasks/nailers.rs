//! Nailers are set in the made carcass, from behind: their screws are not driven while
//! the glue of the carcass waits for its clamps.

use crate::model::Case;
use crate::parts::{Assembly, PartId};
use crate::plans::assembly::gluing;
use crate::plans::operations::Doing;

use super::{Maker, Usual, Work};

impl Maker<'_, '_> {
    /// Sets the nailers of a case once its carcass stands, glued up and squared with its
    /// back or put together dry; the tasks after which all of it does.
    pub(super) fn nailers_set(
        &mut self,
        case: &Case,
        is_glued: bool,
        stands: Vec<usize>,
    ) -> Vec<usize> {
        let nailers = self.ids_in(case.id, |part| part.role.is_nailer());
        if nailers.is_empty() {
            return stands;
        }
        let joints = self.picked(|joint| nailers.binary_search(&joint.part).is_ok());
        let told: Vec<_> =
            joints.iter().filter_map(|index| self.parts.joints.get(*index)).collect();
        let mut lines = Vec::new();
        let (mut does, mut then) = (Vec::new(), Vec::new());
        let backs: Vec<PartId> = self.back_of(Some(case));
        let screws = gluing::tacked(self.parts, &Assembly::Carcass(case.id));
        let tacked = is_glued && !backs.is_empty();
        if tacked {
            let marks = self.marks(&backs);
            lines.push(format!(
                "first take off {marks}, so that you reach the pocket holes of the nailers from behind"
            ));
            does.push(Doing::TakeOff(backs.clone()));
        }
        lines.extend(self.joint_lines(&told));
        if tacked {
            let marks = self.marks(&backs);
            lines.push(format!("screw {marks} on again in its old holes, without glue: it keeps the case square until it comes off for the finish"));
            then.push(Doing::Tack(backs, screws));
        }
        let mut after = stands;
        after.extend(self.ready(&nailers));
        let efforts = vec![Usual::Planting.times(nailers.len())];
        let title = match nailers.len() {
            1 => format!("Set the nailer of {}", case.name),
            _ => format!("Set the nailers of {}", case.name),
        };
        let task = self.simple(title, lines, nailers.clone(), Work::Bench, efforts, after);
        self.closes(task, joints);
        self.does(task, does);
        self.then(task, then);
        self.makes(&nailers, task);
        vec![task]
    }
}
