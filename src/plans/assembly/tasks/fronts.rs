//! Fronts and drawer boxes: glued up, fitted, fluted and bored.

use std::collections::BTreeSet;

use crate::diagnostics::listed;
use crate::model::{FrontId, JointKind, Set, Stock};
use crate::parts::{
    Assembly, Bore, FeatureKind, JointSort, Part, PartId, Role, Which, box_told, front_told,
};
use crate::plans::assembly::gluing;
use crate::plans::operations::Doing;

use super::{Effort, Maker, ShopTime, Usual, Work, effort};

/// What to do with the panels of a front in the glue-up.
fn told_panels(solid: bool, is_one: bool) -> &'static str {
    match (solid, is_one) {
        (true, true) => "put no glue in the panel's grooves; it must move",
        (true, false) => "put no glue in the panels' grooves; they must move",
        (false, true) => {
            "the panel is a sheet and keeps its size: set it dry in its grooves; glue would not hold on its finish"
        }
        (false, false) => {
            "the panels are of a sheet and keep their size: set them dry in their grooves; glue would not hold on their finish"
        }
    }
}

impl Maker<'_, '_> {
    /// Fronts: framed ones glued up, inset ones planed to their openings, and only then fluted and bored, since that counts from
    /// edges that are still planed until then.
    pub(super) fn fronts(&mut self, stands: &[usize]) {
        let units = self.units(|unit| match unit {
            Assembly::Front(front) => Some(front_told(self.piece, *front)),
            _ => None,
        });
        if units.is_empty() {
            return;
        }
        let count = units.len();
        for (name, unit, mut parts) in units.into_iter().filter(|(.., parts)| parts.len() > 1) {
            // Glass comes in when the finish is dry.
            parts.retain(|id| self.parts.get(*id).is_some_and(|part| !self.is_glazing(part)));
            let joints = self.joints_of(unit);
            let load = gluing::joined(self.parts, &joints);
            let mut lines = self.joint_lines(&joints);
            let panels = parts.iter().filter_map(|id| self.parts.get(*id));
            let panels: Vec<&Part> = panels.filter(|part| part.role == Role::FrontPanel).collect();
            let solid = |part: &&Part| self.piece.stock(part.stock).is_some_and(Stock::is_solid);
            lines.push(match panels.is_empty() {
                false => told_panels(panels.iter().any(solid), panels.len() == 1).to_owned(),
                true => {
                    "leave the glass out: it comes in from behind when the finish is dry".to_owned()
                }
            });
            lines.extend(self.on_its_lines(&parts));
            let square = self.outline(&parts, unit);
            if self.is_inset(unit) {
                lines.push("the sizes to check are those with the shaving on at every outer edge; it comes off when the front is fitted".to_owned());
            }
            let (title, after) = (format!("Glue up {name}"), self.ready(&parts));
            let efforts = vec![Usual::Front.times(1)];
            let glued = self.glue(title, lines, parts.clone(), efforts, &load, square, after);
            self.closes(glued, self.closing.get(unit).cloned().unwrap_or_default());
            self.makes(&parts, glued);
        }
        self.rabbeted();
        let all =
            self.ids(|part| matches!(part.assembly, Assembly::Front(_)) && !self.is_glazing(part));
        let inset: BTreeSet<FrontId> = self
            .work
            .fronts()
            .iter()
            .filter(|front| front.fronts.set == Set::Inset)
            .map(|front| front.id)
            .collect();
        let fitted = self.ids(|part| {
            let is_inset =
                matches!(part.assembly, Assembly::Front(front) if inset.contains(&front));
            is_inset && !self.is_glazing(part)
        });
        if !fitted.is_empty() {
            let flutes =
                !self.features(&all, |own| matches!(own.kind, FeatureKind::Flute(_))).is_empty();
            let before = match flutes {
                true => {
                    "don't bore or rout the fronts any sooner, because every hole and flute is measured from these edges"
                }
                false => {
                    "don't bore the fronts any sooner, because every hole is measured from these edges"
                }
            };
            let lines = vec![
                "plane each one to its own opening as it came out, and shim it to its gaps"
                    .to_owned(),
                "mark the front and the opening alike".to_owned(),
                before.to_owned(),
            ];
            let mut after = stands.to_vec();
            after.extend(self.ready(&fitted));
            after.extend(self.packers_first(stands));
            after.extend(self.strips_first(stands));
            let efforts = vec![ShopTime::FitFront.times(&self.piece.shop.times, inset.len())];
            let title = "Fit the fronts to their openings".into();
            let fit = self.simple(title, lines, fitted.clone(), Work::Bench, efforts, after);
            self.does(fit, inset.into_iter().map(Doing::Fit).collect());
            self.makes(&fitted, fit);
        }
        self.flute_and_bore(&all, count);
    }

    /// Where the mid rails of a front stand, unless mortises place them.
    fn on_its_lines(&self, parts: &[PartId]) -> Option<String> {
        let own = |id: &PartId| self.parts.get(*id);
        let is_mid = |part: &Part| {
            part.role == Role::FrontRail && matches!(part.which, Which::Only | Which::Number(_))
        };
        let mortised = parts.iter().filter_map(own).flat_map(|part| &part.features);
        let mortised = mortised.filter(|cut| cut.kind == FeatureKind::Mortise).count() > 0;
        let mids = parts.iter().copied().filter(|id| own(id).is_some_and(is_mid));
        let mids: Vec<PartId> = mids.collect();
        (!mids.is_empty() && !mortised).then(|| {
            format!(
                "set {} on the lines of the layout sheet before the clamps are tight: until then tenons slide in the grooves",
                self.marks(&mids)
            )
        })
    }

    /// What counts from the edges of fronts that are at their size.
    fn flute_and_bore(&mut self, all: &[PartId], count: usize) {
        let is_flute = |kind: FeatureKind| matches!(kind, FeatureKind::Flute(_));
        let is_hole = |kind: FeatureKind| matches!(kind, FeatureKind::Bore(Bore::Cup | Bore::Pull));
        let is_own = |kind| is_flute(kind) || is_hole(kind) || kind == FeatureKind::Notch;
        let cuts = self.features(all, |f| is_own(f.kind));
        if cuts.is_empty() {
            return;
        }
        let has = |kind: fn(&FeatureKind) -> bool| {
            !self.features(all, |feature| kind(&feature.kind)).is_empty()
        };
        let fluted = has(|kind| matches!(kind, FeatureKind::Flute(_)));
        let cups = has(|kind| *kind == FeatureKind::Bore(Bore::Cup));
        let pulls = has(|kind| *kind == FeatureKind::Bore(Bore::Pull));
        let mut lines = Vec::new();
        if fluted {
            let numbers: Vec<usize> = (1..)
                .zip(self.setups)
                .filter(|(_, setup)| is_flute(setup.kind))
                .map(|(number, _)| number)
                .collect();
            let plural = if numbers.len() == 1 { "" } else { "s" };
            lines.push(format!(
                "cut the flutes by set-up{plural} {} of the router-jig sheet, before you bore any hole",
                listed(&numbers)
            ));
        }
        if cups {
            lines.push("bore the hinge cups in the back faces, with the hinge edge against the fence and the bottom end against the stop".to_owned());
            lines.push(
                "between a left-hung and a right-hung door the stop changes sides".to_owned(),
            );
        }
        if pulls {
            lines.push("strike the centers of the pull holes on the faces of the fronts by the cut list, and bore through from the face with scrap behind; where fronts are alike, a strip of scrap with the holes in it, set to two edges, spares the marking".to_owned());
        }
        let fingers = self.finger_pulls();
        if !fingers.is_empty() {
            let of: Vec<PartId> = fingers.iter().map(|(id, _)| *id).collect();
            lines.push(format!(
                "cut the finger pulls last: strike them by the cut list, saw out most of the waste, and rout to the lines along a template, with scrap behind; round their corners and ease both faces, where fingers go: {}",
                self.marks(&of)
            ));
        }
        let title = match (fluted, cups || pulls, fingers.is_empty()) {
            (true, true, _) => "Flute and bore the fronts",
            (true, false, _) => "Flute the fronts",
            (false, true, _) | (false, false, true) => "Bore the fronts",
            (false, false, false) => "Cut the finger pulls",
        };
        let routed = (1..).zip(self.setups).filter(|(_, setup)| is_flute(setup.kind));
        let mut efforts: Vec<Effort> =
            routed.map(|(number, setup)| effort::set_up(number, setup)).collect();
        if cups || pulls {
            efforts.push(Usual::Boring.times(count));
        }
        if !fingers.is_empty() {
            efforts.push(ShopTime::Notch.times(&self.piece.shop.times, fingers.len()));
        }
        let mut parts: Vec<PartId> = cuts.iter().map(|(id, _)| *id).collect();
        parts.dedup();
        let after = self.ready(&parts);
        let task = self.simple(title.into(), lines, parts.clone(), Work::Router, efforts, after);
        self.cuts(task, cuts);
        self.makes(&parts, task);
    }

    /// Drawer boxes; the tasks after which all of them are made.
    pub(super) fn boxes(&mut self) -> Vec<usize> {
        let units = self.units(|unit| match unit {
            Assembly::DrawerBox(opening) => Some(box_told(self.piece, *opening)),
            _ => None,
        });
        let bored = self.hooks_bored();
        let mut made: Vec<usize> = bored.into_iter().collect();
        for (name, unit, parts) in units {
            // A bottom that goes in from behind is screwed to the back.
            let late = self.pushed_in(&parts);
            let mut joints = self.joints_of(unit);
            joints.retain(|joint| Some(joint.part) != late);
            let load = gluing::joined(self.parts, &joints);
            let mut lines = self.joint_lines(&joints);
            if joints.iter().any(|joint| joint.sort == JointSort::Wood(JointKind::Rabbet)) {
                lines.push("a rabbet is open toward its end: clamp across the sides, knock each corner home against its shoulder, and where one won't stay there, hold it with brads through the side, their heads set below its face".to_owned());
            }
            lines.push(match late {
                None => "the bottom goes in dry with the corners; it has play in its grooves, so square the box by its diagonals".to_owned(),
                Some(_) => {
                    "leave the bottom out; it is pushed in from behind later, under the back"
                        .to_owned()
                }
            });
            let square = self.outline(&parts, unit);
            let mut after = self.ready(&parts);
            after.extend(bored);
            let title = format!("Glue up {name}");
            let efforts = vec![Usual::DrawerBox.times(1)];
            let glued = self.glue(title, lines, parts.clone(), efforts, &load, square, after);
            let mut closing = self.closing.get(unit).cloned().unwrap_or_default();
            closing.retain(|index| {
                self.parts.joints.get(*index).is_some_and(|joint| Some(joint.part) != late)
            });
            self.closes(glued, closing);
            self.makes(&parts, glued);
            made.push(glued);
        }
        let made = self.notched(&made).map_or(made, |task| vec![task]);
        self.bottoms_pushed_in(&made).map_or(made, |task| vec![task])
    }

    /// The bottom of a box that goes in from behind when the box is glued up.
    fn pushed_in(&self, parts: &[PartId]) -> Option<PartId> {
        let first = parts.iter().filter_map(|id| Some((self.screwed.get(id)?, *id))).min();
        let (_, bottom) = first?;
        let part = self.parts.get(bottom)?;
        (part.role == Role::DrawerBottom).then_some(bottom)
    }

    /// Pushes the bottoms of boxes on wood in from behind.
    fn bottoms_pushed_in(&mut self, boxes: &[usize]) -> Option<usize> {
        let bottoms = self.ids(|part| part.role == Role::DrawerBottom);
        let bottoms: Vec<PartId> =
            bottoms.into_iter().filter(|id| self.pushed_in(&[*id]).is_some()).collect();
        let first = bottoms.first().and_then(|id| self.parts.get(*id))?;
        let solid = self.piece.stock(first.stock).is_some_and(Stock::is_solid);
        let mut lines = vec![format!(
            "push them in from behind, in the grooves of the sides, until they meet the groove of the front: {}",
            self.marks(&bottoms)
        )];
        lines.push(
            "check that the box is square while they go in: the bottom holds it so".to_owned(),
        );
        lines.push(match solid {
            true => "glue only the front edge; screw it up into the back through slots that run from front to back, so that it can shrink and swell".to_owned(),
            false => "put no glue in the grooves; screw it up into the back".to_owned(),
        });
        let efforts = vec![Usual::DrawerBox.times(bottoms.len())];
        let mut after = self.ready(&bottoms);
        after.extend_from_slice(boxes);
        let title = "Push the bottoms into the drawer boxes".to_owned();
        let task = self.simple(title, lines, bottoms.clone(), Work::Bench, efforts, after);
        let joints = self.picked(|joint| bottoms.binary_search(&joint.part).is_ok());
        self.closes(task, joints);
        self.makes(&bottoms, task);
        Some(task)
    }

    /// The holes for the hooks of undermount runners: bored before the boxes are glued up,
    /// since their sides cover the ends of the backs then.
    fn hooks_bored(&mut self) -> Option<usize> {
        let hooked = self.hooked();
        let backs: Vec<PartId> = hooked.iter().map(|holes| holes.part).collect();
        if backs.is_empty() {
            return None;
        }
        let lines = vec![format!(
            "bore them for the hooks of their runners by the fitting sheet, from the outside faces: {}; its figures count from the ends of the backs, which the sides cover once the boxes are glued up",
            self.marks(&backs)
        )];
        let efforts = vec![Usual::Measuring.times(backs.len())];
        let after = self.ready(&backs);
        let title = "Bore the backs of the drawer boxes".to_owned();
        let task = self.simple(title, lines, backs.clone(), Work::Bench, efforts, after);
        self.does(task, hooked.into_iter().map(Doing::Bore).collect());
        self.makes(&backs, task);
        Some(task)
    }

    /// The notches for runners that are cut when their box holds together.
    fn notched(&mut self, boxes: &[usize]) -> Option<usize> {
        let cuts = self.runner_notches();
        let mut backs: Vec<PartId> = cuts.iter().map(|(id, _)| *id).collect();
        backs.dedup();
        if backs.is_empty() {
            return None;
        }
        let (each, count) = (self.piece.shop.times.notch, cuts.len());
        let plural = if backs.len() == 1 { "" } else { "s" };
        let lines = vec![
            format!(
                "cut the notches of {} part{plural} ({count} at {each} each): {}",
                backs.len(),
                self.marks(&backs)
            ),
            "cut them only now that the box is out of the clamps: a notch cuts behind the lower half pin, which the side alone holds then, and which would have fallen off before the glue-up".to_owned(),
            "saw both sides of a notch down to its line, and chop out the waste from both faces; the bottom above it stays".to_owned(),
        ];
        let efforts = vec![ShopTime::Notch.times(&self.piece.shop.times, count)];
        let title = "Notch the backs of the drawer boxes for their runners".to_owned();
        let mut after = self.ready(&backs);
        after.extend_from_slice(boxes);
        let task = self.simple(title, lines, backs.clone(), Work::Bench, efforts, after);
        self.cuts(task, cuts);
        self.makes(&backs, task);
        Some(task)
    }
}
