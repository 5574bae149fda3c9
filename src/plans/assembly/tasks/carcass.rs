//! Frame, base and carcass of a case, and what is planted on them.

use crate::parts::{Assembly, Joint, JointSort, PartId, Role};
use crate::plans::assembly::gluing;

use super::{Maker, Work, minutes};

impl Maker<'_> {
    /// Frame, base and carcass of one case; the task after which it stands.
    pub(super) fn case(
        &mut self,
        index: usize,
        routed: usize,
        pins: Option<usize>,
        prefinished: Option<usize>,
    ) -> usize {
        let name = self.piece.cases.get(index).map_or(String::new(), |case| case.name.clone());
        let frame =
            self.unit_glue(&Assembly::Frame(index), &format!("face frame of {name}"), vec![routed]);
        let base = self.unit_glue(&Assembly::Base(index), &format!("base of {name}"), vec![routed]);
        let mut before = vec![routed];
        before.extend(pins);
        let carcass =
            self.unit_glue(&Assembly::Carcass(index), &format!("carcass of {name}"), before);
        let mut stands = carcass.unwrap_or(routed);
        stands = self.planted(index, stands, base, prefinished);
        self.frame_on(index, stands, frame)
    }

    /// A glue-up of everything whose wood joints lie within one unit.
    fn unit_glue(&mut self, unit: &Assembly, what: &str, after: Vec<usize>) -> Option<usize> {
        let joints = self.joints_of(unit);
        if joints.is_empty() {
            return None;
        }
        let mut lines = self.joint_lines(&joints);
        if matches!(unit, Assembly::Frame(_)) {
            // Inner members can't be reached once the outer stiles are on.
            lines.reverse();
            lines
                .push("from the inside out: inner members first, the outer stiles last".to_owned());
        }
        let mut parts: Vec<PartId> =
            joints.iter().flat_map(|joint| [joint.part, joint.into]).collect();
        parts.sort_unstable();
        parts.dedup();
        let square = self.outline(&parts, unit);
        let load = gluing::joined(self.parts, &joints);
        let dry = vec!["no glue: every joint closes by hand, the diagonals agree, the clamps are set and lie ready".to_owned()];
        let dry = self.simple(
            format!("Dry-fit the {what}"),
            dry,
            parts.clone(),
            Work::Bench,
            minutes::DRY_FIT,
            after,
        );
        let minutes = minutes::JOINT * joints.len() as i64;
        Some(self.glue(
            format!("Glue up the {what}"),
            lines,
            parts,
            minutes,
            &load,
            square,
            vec![dry],
        ))
    }

    /// Base, kick board, legs and back: fixed to the carcass once it is square.
    fn planted(
        &mut self,
        index: usize,
        carcass: usize,
        base: Option<usize>,
        prefinished: Option<usize>,
    ) -> usize {
        let own: Vec<Joint> = self
            .parts
            .joints
            .iter()
            .filter(|joint| joint.sort == JointSort::Planted)
            .filter(|joint| self.parts.get(joint.part).is_some_and(|part| part.case == index))
            .cloned()
            .collect();
        let mut last = carcass;
        for (role, title) in [
            (Role::Bottom, "Set the carcass on its base"),
            (Role::Kick, "Fix the kick board"),
            (Role::Leg, "Set the legs under the bottom"),
            (Role::Back, "Fix the back"),
        ] {
            let joints: Vec<&Joint> = own
                .iter()
                .filter(|joint| self.parts.get(joint.part).is_some_and(|part| part.role == role))
                .collect();
            if joints.is_empty() {
                continue;
            }
            let mut parts: Vec<PartId> = joints.iter().map(|joint| joint.part).collect();
            parts.sort_unstable();
            parts.dedup();
            let mut after = vec![last];
            let mut lines = Vec::new();
            let marks = self.marks(&parts);
            match role {
                Role::Bottom => {
                    after.extend(base);
                    lines.push(
                        "screwed from inside, no glue, so that it comes apart for the stairs"
                            .to_owned(),
                    );
                }
                Role::Back => {
                    after.extend(prefinished);
                    lines.push(format!("{marks}: square the case with it, then pins or screws every 6 in or 150 mm, no glue"));
                }
                Role::Kick => lines.push(format!(
                    "{marks} across both notches, glued and screwed; leave it long at a wall"
                )),
                _ => lines.push(format!("{marks} glued and screwed from above")),
            }
            let minutes = minutes::JOINT * 3 * parts.len() as i64;
            last = self.simple(title.to_owned(), lines, parts, Work::Bench, minutes, after);
        }
        last
    }

    /// The frame goes on last: it squares the front and hides every edge.
    fn frame_on(&mut self, index: usize, stands: usize, frame: Option<usize>) -> usize {
        let crossing = self.units.frames_on.get(&index).cloned().unwrap_or_default();
        let Some(frame) = frame.filter(|_| !crossing.is_empty()) else { return stands };
        let mut lines = Vec::new();
        for joint in &crossing {
            let (stile, end) = (self.parts.mark(joint.part), self.parts.mark(joint.into));
            lines.push(match joint.sort {
                JointSort::Mitre => format!("{stile} to {end}: mitred seam, taped outside and folded shut; it must close before the rest is clamped"),
                _ => format!("{stile} to {end}: glued flush or over it, as drawn"),
            });
        }
        let parts = crossing.iter().map(|joint| joint.part).collect();
        let case = self.piece.cases.get(index);
        let load = gluing::laid_on(self.parts, &crossing);
        let square =
            case.map(|case| (case.wide.length, case.high.length - case.base_high().length));
        let name = case.map_or("", |case| case.name.as_str()).to_owned();
        self.glue(
            format!("Glue the face frame to the carcass of {name}"),
            lines,
            parts,
            40,
            &load,
            square,
            vec![stands, frame],
        )
    }
}
