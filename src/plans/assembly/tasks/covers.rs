//! Fitting covers over ends, when the cases stand and hold.

use crate::diagnostics::listed;
use crate::model::{Case, JointKind};
use crate::parts::{Direction, JointSort, Part, PartId, Role};
use crate::plans::fitting::Long;
use crate::plans::operations::{Covering, Doing, House};

use super::{Maker, Usual, Work};

impl Maker<'_, '_> {
    /// Every cover is scribed and screwed on from inside its case, while its doors and
    /// drawers are out: of the cases on the floor, or of those that are set on others; the
    /// task after which they are on.
    pub(super) fn covered(&mut self, after: usize, stacked: bool) -> usize {
        let is_here = |part: &Part| {
            self.piece.case(part.case).is_some_and(|case| case.on.is_some() == stacked)
        };
        let covers = self.ids(|part| part.role == Role::Cover && is_here(part));
        let all: Vec<Covering> = covers.iter().filter_map(|id| self.covering(*id)).collect();
        if all.is_empty() {
            return after;
        }
        let mut lines: Vec<String> = all.iter().flat_map(|own| self.cover(own)).collect();
        let scribed = |id: &PartId| self.parts.get(*id).is_some_and(|part| !part.spare.is_empty());
        if covers.iter().any(scribed) && self.finish_used().is_some() {
            lines.push(
                "seal every edge that you saw or plane in the house with finish, before the panel goes on"
                    .to_owned(),
            );
        }
        let title = match (all.as_slice(), stacked) {
            ([_], false) => "Fit the cover".to_owned(),
            (_, false) => "Fit the covers".to_owned(),
            ([_], true) => format!("Fit the cover of {}", self.covered_cases(&covers)),
            (_, true) => format!("Fit the covers of {}", self.covered_cases(&covers)),
        };
        let mut before = vec![after];
        before.extend(self.ready(&covers));
        let efforts = vec![Usual::Filler.times(all.len())];
        let task = self.simple(title, lines, covers.clone(), Work::Fit, efforts, before);
        let joints = self.picked(|joint| {
            joint.sort == JointSort::Wood(JointKind::Screw) && covers.contains(&joint.part)
        });
        self.closes(task, joints);
        let does = all.into_iter().map(|own| Doing::House(House::Cover(own)));
        self.does(task, does.collect());
        task
    }

    /// `hutch`, or `left and right`.
    fn covered_cases(&self, covers: &[PartId]) -> String {
        let cases = covers.iter().filter_map(|id| self.piece.case(self.parts.get(*id)?.case));
        let mut names: Vec<&str> = cases.map(|case| &*case.name).collect();
        names.dedup();
        listed(&names)
    }

    /// The end that a cover lies on, and its screws.
    fn covering(&self, cover: PartId) -> Option<Covering> {
        let mut joints = (0..).zip(&self.parts.joints);
        let (index, joint) = joints.find(|(_, joint)| joint.part == cover)?;
        let [part, end] = [cover, joint.into].map(|id| self.parts.get(id));
        let front = |part: &Part| part.side(Direction::Z, false).length;
        let mut fastened = self.work.fastened().fastenings.iter();
        let screws = fastened.find(|own| own.joint == Some(index));
        Some(Covering {
            part: cover,
            end: joint.into,
            ahead: front(end?) - front(part?),
            screws: screws.map_or(0, |own| own.count),
            long: screws.and_then(|own| match own.long {
                Long::Is(long) => Some(long),
                Long::BySheet | Long::AtLeast(_) | Long::Between(..) => None,
            }),
        })
    }

    fn cover(&self, own: &Covering) -> Vec<String> {
        let tape = self.piece.tape();
        let (mark, on) = (self.parts.mark(own.part), self.parts.mark(own.end));
        let case = self.parts.get(own.part).and_then(|part| self.piece.case(part.case));
        let framed = case.is_some_and(|case| case.frame.is_some());
        let place = match (framed, own.ahead.is_positive()) {
            (true, _) => "its front edge tight against the back of the stile".to_owned(),
            (false, false) => format!("its front edge even with that of {on}"),
            (false, true) => format!(
                "its front edge {} before that of {on}, even with the faces of the fronts",
                tape.text(own.ahead)
            ),
        };
        let mut lines = self.scribed_cover(own, case, framed);
        let long = own.long.map_or(String::new(), |long| format!(" {} long", tape.text(long)));
        lines.push(format!(
            "clamp {mark} to {on} with {place} and its top even with that of {on}, and screw it on from inside the empty case with {} screws{long}, through {on}, on the lines of the layout sheet, without glue",
            own.screws
        ));
        lines
    }

    /// How a cover comes to the floor and the wall: it is held beside its place, since the
    /// wood that comes off keeps it out of that.
    fn scribed_cover(&self, own: &Covering, case: Option<&Case>, framed: bool) -> Vec<String> {
        let Some(part) = self.parts.get(own.part) else { return Vec::new() };
        let tape = self.piece.tape();
        let (mark, on) = (&part.mark, self.parts.mark(own.end));
        let left = |axis: Direction| {
            let mut spare = part.spare.iter();
            spare.find(|spare| part.placement.direction(spare.face) == axis)
        };
        let (floor, wall) = (left(Direction::Y), left(Direction::Z));
        let told: Vec<String> = [(floor, "longer"), (wall, "wider")]
            .into_iter()
            .filter_map(|(spare, word)| {
                let spare = spare?;
                let edge = part.face_name(spare.face);
                Some(format!("{} {word} at its {edge}", tape.text(spare.by.length)))
            })
            .collect();
        if told.is_empty() {
            return Vec::new();
        }
        let against = match framed {
            true => "the outside of the stile",
            false => "the outside of the end",
        };
        let stands = match (floor.is_some(), wall.is_some()) {
            (true, true) => format!(
                "stand it on the floor against {against}, with its back edge at the wall, and shim it"
            ),
            (true, false) => format!("stand it on the floor against {against}, and shim it"),
            (false, _) => format!(
                "hold it against {against}, with its back edge at the wall and its top even with that of {on}, and turn it"
            ),
        };
        let mut lines = vec![
            format!("{mark} is left {} than it is drawn, to be scribed", listed(&told)),
            format!("{stands} until its front edge is parallel to that of {on}"),
        ];
        if floor.is_some() {
            lines.push(format!("set the compass to what its top stands above that of {on}, and draw the floor onto its lower end"));
        }
        if wall.is_some() {
            let place = match (framed, own.ahead.is_positive()) {
                (true, _) => "the back of the stile".to_owned(),
                (false, false) => format!("the front edge of {on}"),
                (false, true) => {
                    format!("the line {} before the front edge of {on}", tape.text(own.ahead))
                }
            };
            lines.push(format!("set the compass to what its front edge stands before {place}, and draw the wall onto its back edge"));
        }
        let falls = case.is_some_and(Case::is_on_floor) && floor.is_some();
        let where_ = match (falls, wall.is_some()) {
            (true, true) => "the floor and the wall are",
            (true, false) => "the floor is",
            (false, _) => "the wall is",
        };
        lines.push(format!("saw just outside the line and plane to it, leaning a few degrees under the face that is seen; where {where_} true, all that was left on comes off; where a line runs off {mark}, it is too small, and is cut again larger"));
        lines
    }
}
