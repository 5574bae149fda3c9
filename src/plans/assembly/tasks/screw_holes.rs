//! The holes of screws that stand on a line: they are bored before their boards come
//! together, in the step that drives the first of them; those of a back when it is cut,
//! because it is screwed on for a while when the case is glued up; and those that are
//! driven where the piece stands, while their board lies on the bench.

use std::collections::{BTreeMap, BTreeSet};

use crate::parts::{Assembly, PartId, Role};

use crate::plans::assembly::{Task, gluing};
use crate::plans::fitting::{Fastening, Purpose};
use crate::plans::operations::Doing;

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
            // The line counts from edges that a board has only when it is sawn to size.
            let Some(index) = own.or_else(|| self.comes_to_size(id)).or_else(near) else {
                continue;
            };
            // Other screws go through it sooner: then all its holes are bored before those.
            let drives = |task: &Task| {
                let mut through = task.closes.iter().filter_map(|joint| through.get(joint));
                through.any(|through| through.contains(&id))
            };
            let sooner = |(at, task): (usize, &Task)| drives(task) && !self.comes_before(index, at);
            if self.tasks.iter().enumerate().any(sooner) {
                continue;
            }
            bored.insert(id);
            let mark = self.marks(&[id]);
            let line =
                format!("bore the screw holes through {mark} on the lines of the layout sheet");
            let piloted = self.piloted(&[id]);
            if let Some(task) = self.tasks.get_mut(index) {
                task.lines.push(line);
                task.lines.extend(piloted);
                task.bores.push(id);
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
            let new: Vec<PartId> = new.into_iter().collect();
            let marks = self.marks(&new);
            let bore = format!("bore the screw holes through {marks}");
            let piloted = if is_cut_here { self.piloted(&new) } else { None };
            let Some(task) = self.tasks.get_mut(index) else { continue };
            task.bores.extend(new);
            if is_cut_here {
                task.lines.push(format!("{bore} on the lines of the layout sheet"));
                task.lines.extend(piloted);
            } else {
                task.lines.insert(0, format!("{bore} first, on the lines of the layout sheet"));
            }
        }
    }

    /// True where a task is done when another begins, or is that task.
    fn comes_before(&self, first: usize, then: usize) -> bool {
        let (mut open, mut seen) = (vec![then], BTreeSet::new());
        while let Some(at) = open.pop() {
            if at == first {
                return true;
            }
            if let Some(task) = self.tasks.get(at).filter(|_| seen.insert(at)) {
                open.extend(task.after.iter().chain(&task.cured).copied());
            }
        }
        false
    }

    /// The pilot holes of a back that squares its case while the glue is open: then there is
    /// no time to bore them.
    fn piloted(&self, ids: &[PartId]) -> Option<String> {
        let is_tacked = |id: &&PartId| {
            let part = self.parts.get(**id).filter(|part| part.role == Role::Back);
            part.is_some_and(|part| gluing::tacked(self.parts, &Assembly::Carcass(part.case)) > 0)
        };
        let backs: Vec<PartId> = ids.iter().filter(is_tacked).copied().collect();
        (!backs.is_empty()).then(|| {
            format!(
                "try {} in the case while that stands dry and square, and bore the pilot holes through its screw holes now: while the glue is open there is no time for them",
                self.marks(&backs)
            )
        })
    }

    /// The task after the first cuts that brings a part to its size or covers its edges;
    /// `None` where it has its size from the first cuts.
    fn comes_to_size(&self, id: PartId) -> Option<usize> {
        let first = self.tasks.iter().position(|task| !task.breaks.is_empty());
        let covers = |doing: &Doing| matches!(doing, Doing::Edge(part, _) if *part == id);
        let sizes = |task: &Task| {
            let later = &task.crosscuts;
            let sawn =
                [&task.mills, &later.parts, &later.sawn].into_iter().any(|own| own.contains(&id));
            sawn || task.does.iter().any(covers)
        };
        self.tasks.iter().rposition(sizes).filter(|index| Some(*index) != first)
    }

    /// The boards under a countertop, of a case on another, of a case beside another, under a
    /// cover, or of a box before its front, whose round holes stand on a line.
    fn driven_in_the_house(&self) -> BTreeSet<PartId> {
        let is_late = |own: &&Fastening<'_>| {
            matches!(
                own.purpose,
                Purpose::Countertops
                    | Purpose::Stacked
                    | Purpose::Covers
                    | Purpose::BackCovers
                    | Purpose::Fronts
                    | Purpose::Ties
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
        own.lines.iter().filter_map(|line| self.parts.id_of(line.through)).collect()
    }
}
