//! What drawers on wood run between, and what stops them.

use std::collections::BTreeMap;

use crate::diagnostics::listed;
use crate::model::OpeningKind;
use crate::parts::{Joint, Part, PartId, Role};
use crate::plans::fitting;

use super::{Maker, Usual, Work};

impl Maker<'_, '_> {
    /// The strips of drawers on wood before the fronts are fitted, where a front lies between
    /// two of them: behind doors they are the sides of its opening.
    pub(super) fn strips_first(&mut self, stands: &[usize]) -> Option<usize> {
        let inner = self.work.fitting().on_wood.iter().any(|own| own.behind_doors.is_some());
        self.stripped = if inner { self.strips_fixed(stands) } else { None };
        self.stripped
    }

    /// The strips that drawers on wood run between, before any drawer comes in.
    pub(super) fn strips_fixed(&mut self, stands: &[usize]) -> Option<usize> {
        let strips = self.ids(|part| part.role.is_of_runs() && part.role != Role::Stop);
        if strips.is_empty() {
            return None;
        }
        let mut lines = Vec::new();
        let mut does = Vec::new();
        let opens = self.take_off_backs(
            &strips,
            ("take off", "so that you reach the strips from behind"),
            (&mut lines, &mut does),
        );
        let between = |part: &Part| fitting::is_between_posts(self.piece, part);
        let posted = self.ids(between);
        if !posted.is_empty() {
            lines.push(format!(
                "{}: on the boards that the drawers run on, each behind its front post and flush with the inside face of that, as much farther apart at their rear ends as the fitting sheet says",
                self.marks(&posted)
            ));
        }
        let inner = self.work.fitting().on_wood.iter().any(|own| own.behind_doors.is_some());
        let beside = match inner {
            true => {
                "beside the openings, past their edges and as far back from the face as the fitting sheet says, else flush with them"
            }
            false => "beside the openings, flush with their edges",
        };
        for (role, how) in [
            (Role::Runner, "under the openings, level with their lower edges"),
            (Role::Guide, beside),
            (Role::Kicker, "over the openings, level with their upper edges"),
        ] {
            let own = self.ids(|part| part.role == role && !between(part));
            if !own.is_empty() {
                lines.push(format!(
                    "{}: {how}, {}",
                    self.marks(&own),
                    match role {
                        Role::Guide =>
                            "as much farther apart at their rear ends as the fitting sheet says",
                        _ => "straight and level from front to back",
                    }
                ));
            }
        }
        let joints = self.picked(|joint| strips.binary_search(&joint.part).is_ok());
        let of = |index: &usize| self.parts.joints.get(*index);
        let (glued, dry): (Vec<_>, Vec<_>) =
            joints.iter().filter_map(of).partition(|own| own.glued);
        if !glued.is_empty() {
            lines.extend(self.strips_glued(&glued));
        }
        if !dry.is_empty() {
            lines.push("no glue on solid wood, which moves under them: screw them through holes that are slots along the strip, but for the hole at the front end".to_owned());
        }
        let mut after = stands.to_vec();
        after.extend(self.ready(&strips));
        after.extend(self.opened_behind(&strips));
        let title = "Fix the strips that the drawers run between".to_owned();
        let efforts = vec![Usual::HingeBlock.times(strips.len())];
        let task = self.simple(title, lines, strips.clone(), Work::Bench, efforts, after);
        self.closes(task, joints);
        self.does(task, does);
        self.makes(&strips, task);
        self.opens(opens, task);
        Some(task)
    }

    /// How the strips are glued: those under a web frame to its runners only. No hammer
    /// and no clamp gets into the room of a drawer, so they are pressed with sticks.
    fn strips_glued(&self, glued: &[&Joint]) -> Vec<String> {
        let role = |id: PartId| self.parts.get(id).map(|part| part.role);
        let on_runner = |own: &&&Joint| role(own.into) == Some(Role::WebRunner);
        let marks = |joints: &[&&Joint]| {
            let mut parts: Vec<PartId> = joints.iter().map(|own| own.part).collect();
            parts.sort_unstable();
            parts.dedup();
            self.marks(&parts)
        };
        let (along, whole): (Vec<&&Joint>, Vec<_>) = glued.iter().partition(on_runner);
        let mut lines = Vec::new();
        if !whole.is_empty() {
            let mut onto: BTreeMap<PartId, Vec<PartId>> = BTreeMap::new();
            for own in &whole {
                onto.entry(own.part).or_default().push(own.into);
            }
            let each: Vec<String> = onto
                .iter()
                .map(|(strip, boards)| {
                    format!("{} to {}", self.marks(&[*strip]), self.marks(boards))
                })
                .collect();
            lines.push(format!(
                "glue each strip wherever it lies on its boards, and nowhere else: {}",
                each.join("; ")
            ));
        }
        if !along.is_empty() {
            lines.push(format!("glue {} to the runners of the web frame, whose grain runs as theirs does, and leave them dry where they cross its rails", marks(&along)));
        }
        lines.push("use no pins, because a hammer won't fit in there: press each strip with two sticks cut a hair too long for the space, sprung in upright over or under it, or across the opening for a guide, and leave them until the glue holds".to_owned());
        lines
    }

    /// How drawers on wood are fitted.
    pub(super) fn fitted_on_wood(&self) -> Vec<String> {
        let drawers = &self.work.fitting().on_wood;
        if drawers.is_empty() {
            return Vec::new();
        }
        let titles: Vec<&str> = drawers.iter().map(|own| own.opening.title()).collect();
        vec![format!(
            "slide in the boxes of {} and plane them until they run as the fitting sheet says; then shim each front to its gaps and screw it to its box as that sheet says",
            listed(&titles)
        )]
    }

    /// The blocks that stop drawers on wood, set from the front before any drawer comes in:
    /// behind, a nailer or the room under a bottom would leave no way for a hand.
    pub(super) fn stops_set(
        &mut self,
        stands: &[usize],
        boxes: &[usize],
        strips: Option<usize>,
    ) -> Option<usize> {
        let stops = self.ids(|part| part.role == Role::Stop);
        if stops.is_empty() {
            return None;
        }
        let lines = vec![
            "for each drawer, hold its front and its box together face to face, and set a marking gauge to the two thicknesses; from the face that the front will be flush with, strike that line across the board that the fitting sheet names for its stops".to_owned(),
            format!("glue the stops onto those boards with their front ends at the line and their grain from front to back, as far aside as the fitting sheet says; rub each to and fro until the glue grabs, and press it with a stick that is a hair too long, sprung in over it: {}", self.marks(&stops)),
        ];
        let mut after = stands.to_vec();
        after.extend(self.ready(&stops));
        after.extend_from_slice(boxes);
        after.extend(self.of_fronts(|kind| matches!(kind, OpeningKind::Drawer { .. })));
        after.extend(strips);
        let title = "Set the drawer stops".to_owned();
        let efforts = vec![Usual::HingeBlock.times(stops.len())];
        let task = self.simple(title, lines, stops.clone(), Work::Bench, efforts, after);
        self.closes(task, self.picked(|joint| stops.binary_search(&joint.part).is_ok()));
        self.makes(&stops, task);
        Some(task)
    }
}
