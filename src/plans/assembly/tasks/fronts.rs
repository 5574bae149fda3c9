//! Fronts and drawer boxes, and hanging them.

use crate::model::{HingeKind, Opening, OpeningKind, Stock};
use crate::parts::{Assembly, Bore, FeatureKind, JointSort, Part, Role};
use crate::plans::assembly::gluing;

use super::{Maker, Work, minutes};

impl Maker<'_> {
    /// Fronts: framed ones glued up, then all to size, fluted and bored.
    pub(super) fn fronts(
        &mut self,
        routed: usize,
        blanks: Option<usize>,
        prefinished: Option<usize>,
    ) -> Option<usize> {
        let units = self.units(|unit| match unit {
            Assembly::Front(path) => Some(path),
            _ => None,
        });
        if units.is_empty() {
            return None;
        }
        let mut before = vec![routed];
        before.extend(blanks);
        let mut glued = Vec::new();
        let count = units.len() as i64;
        for (path, unit, parts) in units.into_iter().filter(|(.., parts)| parts.len() > 1) {
            let joints = self.joints_of(unit);
            let load = gluing::joined(self.parts, &joints);
            let mut lines = self.joint_lines(&joints);
            let panels = parts.iter().filter_map(|id| self.parts.get(*id));
            let mut panels = panels.filter(|part| part.role == Role::FrontPanel);
            let solid = |part: &Part| self.piece.stock(part.stock).is_some_and(Stock::is_solid);
            lines.push(match panels.any(solid) {
                true => "no glue in the panel's grooves: it must move".to_owned(),
                false => "the panel is a sheet and keeps its size: dry in its grooves, or with a little glue".to_owned(),
            });
            let square = self.outline(&parts, unit);
            let mut after = before.clone();
            after.extend(prefinished);
            glued.push(self.glue(
                format!("Glue up {path}"),
                lines,
                parts,
                minutes::FRONT,
                &load,
                square,
                after,
            ));
        }
        let all = self.ids(|part| matches!(part.assembly, Assembly::Front(_)));
        let has = |kind: fn(&FeatureKind) -> bool| {
            self.parts.all.iter().any(|part| part.features.iter().any(|f| kind(&f.kind)))
        };
        let mut lines = vec![
            "to length and width with a shaving left on: each is planed to its own opening when it is hung".to_owned(),
        ];
        if has(|kind| matches!(kind, FeatureKind::Flute(_))) {
            lines.push("flutes, from the set-up sheet, before any hole is bored".to_owned());
        }
        let cups = has(|kind| *kind == FeatureKind::Bore(Bore::Cup));
        let pulls = has(|kind| *kind == FeatureKind::Bore(Bore::Pull));
        let holes = match (cups, pulls) {
            (true, true) => "hinge cups and pull holes",
            (true, false) => "hinge cups",
            _ => "pull holes",
        };
        if cups || pulls {
            lines.push(format!(
                "{holes}, from a template that stands on the same end of every front"
            ));
        }
        if self.has_butts() {
            lines.push("the leaves of the butt hinges let in flush, in door and stile, marked from the hinge itself".to_owned());
        }
        let flutes: i64 = self
            .setups
            .iter()
            .filter(|s| matches!(s.kind, FeatureKind::Flute(_)))
            .map(|s| s.time.0.ceil())
            .sum();
        let minutes = minutes::FRONT * count + flutes;
        before.extend(glued);
        Some(self.simple("Make the fronts".into(), lines, all, Work::Router, minutes, before))
    }

    /// True where a door hangs on butt hinges.
    fn has_butts(&self) -> bool {
        let openings = self.piece.cases.iter().flat_map(|case| &case.openings);
        openings.filter(|opening| opening.is_door()).any(|opening| {
            let hinge = opening.front.as_ref().and_then(|front| front.hinge);
            hinge
                .and_then(|(index, _)| self.piece.hinges.get(index))
                .is_some_and(|hinge| matches!(hinge.kind, HingeKind::Butt { .. }))
        })
    }

    pub(super) fn boxes(&mut self, routed: usize, blanks: Option<usize>) -> Option<usize> {
        let units = self.units(|unit| match unit {
            Assembly::DrawerBox(path) => Some(path),
            _ => None,
        });
        let mut last = None;
        for (path, unit, parts) in units {
            let joints = self.joints_of(unit);
            let load = gluing::joined(self.parts, &joints);
            let mut lines = self.joint_lines(&joints);
            lines.push("the bottom goes in dry with the corners; it squares the box".to_owned());
            let square = self.outline(&parts, unit);
            let mut after = vec![routed];
            after.extend(blanks);
            after.extend(last);
            last = Some(self.glue(
                format!("Glue up the drawer box of {path}"),
                lines,
                parts,
                minutes::BOX,
                &load,
                square,
                after,
            ));
        }
        last
    }

    /// Doors, slides, drawers and their fronts; the tasks after which all hangs.
    pub(super) fn hang(
        &mut self,
        stands: &[usize],
        fronts: Option<usize>,
        boxes: Option<usize>,
    ) -> Vec<usize> {
        let mut done = stands.to_vec();
        let count = |sort: JointSort| {
            self.parts.joints.iter().filter(|joint| joint.sort == sort).count() as i64
        };
        let (hung, slid) = (count(JointSort::Hung), count(JointSort::Slid) / 2);
        if slid > 0 {
            let packers = self.ids(|part| part.role == Role::Packer);
            let mut lines = Vec::new();
            if !packers.is_empty() {
                let marks = self.marks(&packers);
                lines.push(format!(
                    "packers first, so that the slides stand flush with their openings: {marks}"
                ));
            }
            lines.push("slides level and parallel, as their maker's sheet says; then the boxes; then each front planed to its own opening, shimmed to its gap and screwed to its box".to_owned());
            let pulled = |opening: &Opening| {
                matches!(opening.kind, OpeningKind::Drawer { .. })
                    && opening.front.as_ref().is_some_and(|front| front.pull.is_some())
            };
            if self.piece.cases.iter().flat_map(|case| &case.openings).any(pulled) {
                lines.push(
                    "with a front in its place, its pull holes on through the front of the box"
                        .to_owned(),
                );
            }
            let mut after = stands.to_vec();
            after.extend(boxes);
            after.extend(fronts);
            done.push(self.simple(
                "Fit slides, drawers and their fronts".into(),
                lines,
                packers,
                Work::Bench,
                minutes::HANG * 2 * slid,
                after,
            ));
        }
        if hung > 0 {
            let mut after = stands.to_vec();
            after.extend(fronts);
            let blocks = self.ids(|part| part.role == Role::HingeBlock);
            let mut lines = Vec::new();
            if !blocks.is_empty() {
                let marks = self.marks(&blocks);
                lines.push(format!(
                    "the hinge blocks first, glued and screwed behind the stiles, flush with their openings: {marks}"
                ));
            }
            lines.push("plane every door to its own opening as it came out, hang it, set its gaps with shims, then mark each leaf and hinge".to_owned());
            done.push(self.simple(
                "Hang the doors".into(),
                lines,
                blocks,
                Work::Bench,
                minutes::HANG * hung,
                after,
            ));
        }
        if hung == 0 && slid == 0 {
            done.extend(fronts);
        }
        done
    }
}
