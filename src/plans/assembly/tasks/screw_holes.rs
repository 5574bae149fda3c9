//! The holes of screws that stand on a line: they are bored before their boards come
//! together, in the step that drives the first of them; those of a back when it is cut,
//! because it is screwed on for a while when the case is glued up.

use std::collections::BTreeSet;

use crate::parts::{PartId, Role};
use crate::plans::fitting::Fastening;

use super::Maker;

impl Maker<'_, '_> {
    /// Tells each step what to bore first.
    pub(super) fn bored_first(&mut self) {
        let fastenings = &self.work.fastened().fastenings;
        let lined = fastenings.iter().filter(|own| !own.lines.is_empty());
        let by_joint: Vec<(usize, &Fastening<'_>)> =
            lined.filter_map(|own| Some((own.joint?, own))).collect();
        if by_joint.is_empty() {
            return;
        }
        let through = by_joint.iter().flat_map(|(_, own)| &own.lines).map(|line| line.through);
        let backs = through.filter(|part| part.role == Role::Back);
        let backs: BTreeSet<PartId> =
            backs.filter_map(|part| Some(self.parts.find(&part.key())?.0)).collect();
        let mut bored: BTreeSet<PartId> = BTreeSet::new();
        for index in 0..self.tasks.len() {
            let Some(task) = self.tasks.get(index) else { continue };
            let closes: BTreeSet<usize> = task.closes.iter().copied().collect();
            let lines = by_joint.iter().filter(|(joint, _)| closes.contains(joint));
            let through = lines.flat_map(|(_, own)| &own.lines).map(|line| line.through);
            let ids = through.filter_map(|part| self.parts.find(&part.key())).map(|(id, _)| id);
            let cut = task.parts.iter().copied().filter(|id| backs.contains(id));
            let new: BTreeSet<PartId> = cut.chain(ids).filter(|id| bored.insert(*id)).collect();
            if new.is_empty() {
                continue;
            }
            let is_cut_here = new.iter().all(|id| backs.contains(id));
            let marks = self.marks(&new.into_iter().collect::<Vec<_>>());
            let bore = format!("bore the screw holes through {marks}");
            let Some(task) = self.tasks.get_mut(index) else { continue };
            if is_cut_here {
                task.lines.push(format!("{bore} on the lines of the layout sheet"));
            } else {
                task.lines.insert(0, format!("{bore} first, on the lines of the layout sheet"));
            }
        }
    }
}
