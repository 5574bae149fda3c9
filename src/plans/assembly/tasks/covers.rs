//! Fitting covers over ends, when the cases stand and hold.

use crate::model::{Case, JointKind};
use crate::parts::{Direction, JointSort, PartId, Role};
use crate::plans::operations::{Doing, House};

use super::{Maker, Usual, Work};

impl Maker<'_, '_> {
    /// Every cover is scribed and screwed on from inside its case, while its doors and
    /// drawers are out; the task after which they are on.
    pub(super) fn covered(&mut self, after: usize) -> usize {
        let covers = self.ids(|part| part.role == Role::Cover);
        let all: Vec<(PartId, PartId)> =
            covers.iter().filter_map(|id| Some((*id, self.covered_end(*id)?))).collect();
        if all.is_empty() {
            return after;
        }
        let mut lines: Vec<String> =
            all.iter().flat_map(|(cover, end)| self.cover(*cover, *end)).collect();
        if self.finish_used().is_some() {
            lines.push(
                "seal every edge that you plane in the house with finish, before the panel goes on"
                    .to_owned(),
            );
        }
        let title = match all.len() {
            1 => "Fit the cover",
            _ => "Fit the covers",
        };
        let mut before = vec![after];
        before.extend(self.ready(&covers));
        let efforts = vec![Usual::Filler.times(all.len())];
        let task = self.simple(title.to_owned(), lines, covers, Work::Fit, efforts, before);
        let is_cover = |part| self.parts.get(part).is_some_and(|own| own.role == Role::Cover);
        let joints = self.picked(|joint| {
            joint.sort == JointSort::Wood(JointKind::Screw) && is_cover(joint.part)
        });
        self.closes(task, joints);
        let does = all.into_iter().map(|(part, end)| Doing::House(House::Cover { part, end }));
        self.does(task, does.collect());
        task
    }

    /// The end that a cover lies on.
    fn covered_end(&self, cover: PartId) -> Option<PartId> {
        let joints = self.parts.joints.iter();
        joints.into_iter().find(|joint| joint.part == cover).map(|joint| joint.into)
    }

    fn cover(&self, cover: PartId, end: PartId) -> Vec<String> {
        let (mark, on) = (self.parts.mark(cover), self.parts.mark(end));
        let case = self.parts.get(cover).and_then(|part| self.piece.case(part.case));
        let mut lines = Vec::new();
        if case.is_some_and(Case::is_on_floor) {
            lines.push(format!(
                "stand {mark} against {on} on shims, plumb and with its front edge in place; where the floor is out of level, scribe its lower end to the floor until its top is even with that of {on}"
            ));
        }
        if self.piece.site.fixed {
            lines.push(format!(
                "where the wall behind {mark} is not flat, plane its back edge to it until its front edge comes to its place"
            ));
        }
        let front = |id| self.parts.get(id).map(|part| part.side(Direction::Z, false).length);
        let place =
            match (case.is_some_and(|case| case.frame.is_some()), front(cover) == front(end)) {
                (true, _) => "its front edge tight against the back of the stile",
                (false, true) => "its front edge even with that of the end",
                (false, false) => "its front edge even with the faces of the fronts",
            };
        lines.push(format!(
            "clamp {mark} to {on} with {place}, and screw it on from inside the case, through {on}, on the lines of the layout sheet, without glue"
        ));
        lines
    }
}
