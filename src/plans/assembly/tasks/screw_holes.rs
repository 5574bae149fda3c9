//! The holes of screws that stand on a line: they are bored before their boards come
//! together, in the step that drives the first of them; those of a back when it is cut,
//! because it is screwed on for a while when the case is glued up; and those that are
//! driven where the piece stands, while their board lies on the bench.

use std::collections::{BTreeMap, BTreeSet};

use crate::parts::{PartId, Role};

use crate::plans::fitting::{Fastening, Purpose};

use super::Maker;

impl Maker<'_, '_> {
    /// Tells each step what to bore first.
    pub(super) fn bored_first(&mut self) {
        let through = self.screwed_through();
        let is_back = |id: &PartId| self.parts.get(*id).is_some_and(|part| part.role == Role::Back);
        let backs: BTreeSet<PartId> = through.values().flatten().copied().filter(is_back).collect();
        let mut bored: BTreeSet<PartId> = BTreeSet::new();
        // What is driven where the piece stands is bored while its board lies on the bench.
        for id in self.driven_in_the_house() {
            // Its own joints are cut in that step, or those of its case.
            let case = self.parts.get(id).map(|part| part.case);
            let beside = |part: PartId| self.parts.get(part).map(|part| part.case) == case;
            let own =
                self.tasks.iter().position(|task| task.cuts.iter().any(|(part, _)| *part == id));
            let near = || {
                self.tasks.iter().position(|task| task.cuts.iter().any(|(part, _)| beside(*part)))
            };
            let Some(index) = own.or_else(near) else { continue };
            bored.insert(id);
            let mark = self.marks(&[id]);
            let line =
                format!("bore the screw holes through {mark} on the lines of the layout sheet");
            if let Some(task) = self.tasks.get_mut(index) {
                task.lines.push(line);
            }
        }
        for index in 0..self.tasks.len() {
            let Some(task) = self.tasks.get(index) else { continue };
            let cut = task.parts.iter().filter(|id| backs.contains(id));
            let screwed = task.closes.iter().filter_map(|joint| through.get(joint)).flatten();
            let new: BTreeSet<PartId> =
                cut.chain(screwed).copied().filter(|id| bored.insert(*id)).collect();
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

    /// The boards under a countertop, of a case on another, under a cover, or of a box before
    /// its front, whose round holes stand on a line.
    fn driven_in_the_house(&self) -> BTreeSet<PartId> {
        let is_late = |own: &&Fastening<'_>| {
            matches!(
                own.purpose,
                Purpose::Countertops
                    | Purpose::Stacked
                    | Purpose::Covers
                    | Purpose::BackCovers
                    | Purpose::Fronts
            )
        };
        let late = self.work.fastened().fastenings.iter().filter(is_late);
        late.flat_map(|own| self.lined(own)).collect()
    }

    /// The boards that screws on a line go through, by the joint that they hold.
    fn screwed_through(&self) -> BTreeMap<usize, Vec<PartId>> {
        let all = self.work.fastened().fastenings.iter();
        let through = all.filter_map(|own| Some((own.joint?, self.lined(own))));
        through.filter(|(_, through)| !through.is_empty()).collect()
    }

    /// The boards that the screws of a fastening go through on its lines.
    fn lined(&self, own: &Fastening<'_>) -> Vec<PartId> {
        let through = own.lines.iter().filter_map(|line| {
            let mut parts = self.parts.iter_case(line.through.case);
            parts.find(|(_, part)| std::ptr::eq(*part, line.through)).map(|(id, _)| id)
        });
        through.collect()
    }
}
