//! Cutting the joints: all that is cut into the parts before they are closed in.

use std::collections::BTreeSet;

use crate::diagnostics::listed;
use crate::measure::Length;
use crate::model::JointKind;
use crate::parts::{Assembly, Feature, FeatureKind, Joint, JointSort, Part, PartId, Role};
use crate::plans::assembly::Crosscuts;
use crate::plans::setups::Setup;
use crate::plans::sticks::Stick;

use super::{Effort, Maker, ShopTime, Stage, Work, effort, stage};

/// What is cut elsewhere than on the set-up sheet: its name, how it is cut, and
/// what gives the time that each one takes.
type Sort = (fn(&FeatureKind) -> bool, &'static str, &'static str, ShopTime);

/// A part and the number of one of its features.
pub(super) type Cut = (PartId, usize);

/// In the order of the work. A mortise is cut first and its tenon fitted to it.
const SORTS: &[Sort] = &[
    (|k| matches!(k, FeatureKind::Pockets(..)), "bore the pocket holes", "", ShopTime::Pockets),
    (
        |k| matches!(k, FeatureKind::Dowels(..)),
        "bore the dowel holes",
        " and of what they join, from one jig",
        ShopTime::Dowels,
    ),
    (|k| matches!(k, FeatureKind::Mortise), "cut the mortises", "", ShopTime::Mortise),
    (
        |k| matches!(k, FeatureKind::Tenon),
        "cut the tenons",
        ", each to fit its mortise or groove",
        ShopTime::Tenon,
    ),
    (
        |k| matches!(k, FeatureKind::Haunch),
        "saw the tenons",
        " back to their haunches, which fill the grooves where those run out",
        ShopTime::Notch,
    ),
    (
        |k| matches!(k, FeatureKind::Dovetails),
        "cut the dovetails",
        " and of what they join, one half marked from the other",
        ShopTime::Dovetails,
    ),
    (|k| matches!(k, FeatureKind::Notch), "cut the notches", "", ShopTime::Notch),
    (
        |k| matches!(k, FeatureKind::Slot),
        "cut the slots for screws",
        ", in which the countertop moves: bore a row of holes and clear what is between them",
        ShopTime::Notch,
    ),
    (
        |k| matches!(k, FeatureKind::Miter),
        "cut the miters",
        ", with the long points on the outside faces of the ends and the front faces of the stiles",
        ShopTime::Miter,
    ),
];

/// True for what takes away an edge or an end that stops, distances, and templates
/// count from: it is cut when all else is.
fn is_trimmed(kind: FeatureKind) -> bool {
    matches!(kind, FeatureKind::Miter | FeatureKind::Notch)
}

/// True for a joint whose place is struck with a rule.
fn is_struck(kind: FeatureKind) -> bool {
    match kind {
        FeatureKind::Pockets(..)
        | FeatureKind::Dowels(..)
        | FeatureKind::Mortise
        | FeatureKind::Dovetails => true,
        FeatureKind::Dado
        | FeatureKind::Groove
        | FeatureKind::Rabbet
        | FeatureKind::Glazing(_)
        | FeatureKind::Miter
        | FeatureKind::Notch
        | FeatureKind::Slot
        | FeatureKind::Bore(_)
        | FeatureKind::Flute(_)
        | FeatureKind::Tenon
        | FeatureKind::Haunch => false,
    }
}

/// True for the holes that take the dowels of another part: they are bored with
/// those in its end, from the same jig, and their time is counted there.
fn is_other_half(feature: &Feature) -> bool {
    matches!(feature.kind, FeatureKind::Dowels(..)) && feature.takes.is_some()
}

impl Maker<'_, '_> {
    /// What can be cut into the parts as they come from the saw, and what waits
    /// for those that are glued up first. One half of dovetails and dowel holes
    /// is marked from the other: both are cut when the later of the two parts is
    /// there. A set-up is made once, when the last of its pieces is there: no
    /// machine is put back to a thousandth.
    pub(super) fn by_turn(&self, sawn: usize) -> (Vec<Cut>, Vec<Cut>) {
        let all = self.at(Stage::First);
        let mut late: BTreeSet<PartId> =
            all.iter().filter(|id| self.made.get(id) != Some(&sawn)).copied().collect();
        let marked = |joint: &&Joint| {
            matches!(joint.sort, JointSort::Wood(JointKind::Dovetail | JointKind::Dowel))
        };
        let pairs: Vec<&Joint> = self.parts.joints.iter().filter(marked).collect();
        let mut all_cuts = self.cut_into(&all);
        all_cuts.retain(|cut| !self.is_trim(cut));
        loop {
            let half = |joint: &&&Joint| late.contains(&joint.part) != late.contains(&joint.into);
            if let Some(joint) = pairs.iter().find(half) {
                late.extend([joint.part, joint.into]);
                continue;
            }
            // A channel is cut when what goes into it has its thickness.
            let waits_for = |cut: &Cut| {
                late.contains(&cut.0) || self.lodged(cut).iter().any(|guest| late.contains(guest))
            };
            let waits = self.setups.iter().filter(|setup| setup.cuts().any(|cut| waits_for(&cut)));
            let waiting: BTreeSet<Cut> = waits.flat_map(Setup::cuts).collect();
            let is_late = |cut: &Cut| waits_for(cut) || waiting.contains(cut);
            // Nothing else is cut into a part before its stick is crosscut.
            let whole = all_cuts.iter().filter(|cut| {
                is_late(cut) && !late.contains(&cut.0) && self.stick_of(cut).is_some()
            });
            let whole: Vec<PartId> = whole.map(|(id, _)| *id).collect();
            if whole.is_empty() {
                return all_cuts.into_iter().partition(|cut| !is_late(cut));
            }
            late.extend(whole);
        }
    }

    /// The stick that is still whole when this is cut, by its place among all.
    fn stick_of(&self, (id, number): &Cut) -> Option<usize> {
        self.work.sticks().cut_in(*id, *number)
    }

    /// The sticks that are whole when some of these cuts are made.
    fn sticks_of(&self, cuts: &[Cut]) -> BTreeSet<usize> {
        cuts.iter().filter_map(|cut| self.stick_of(cut)).collect()
    }

    /// What is crosscut before the rest of these joints is cut: how that is told, and what is
    /// sawn by it.
    fn crosscut(&self, cuts: &[Cut], here: &str) -> (Vec<String>, Crosscuts) {
        let sticks: Vec<&Stick> = self
            .sticks_of(cuts)
            .iter()
            .filter_map(|own| self.work.sticks().all.get(*own))
            .collect();
        if sticks.is_empty() {
            return Default::default();
        }
        let marks: Vec<String> = sticks.iter().map(|own| self.marks(&own.parts)).collect();
        let (stick, each) = match marks.len() {
            1 => ("this stick while it is whole", "it"),
            _ => ("each of these sticks while it is whole", "them"),
        };
        let is_cut: BTreeSet<Cut> = cuts.iter().copied().collect();
        let own = (1..)
            .zip(self.setups)
            .filter(|(_, own)| own.is_in_sticks() && own.cuts().any(|cut| is_cut.contains(&cut)));
        let numbers: Vec<usize> = own.map(|(number, _)| number).collect();
        let set_ups = match numbers.len() {
            1 => "set-up",
            _ => "set-ups",
        };
        let mut lines = vec![format!(
            "first make {set_ups} {} of the router-jig sheet, for {here}, with {stick}: {}; then crosscut {each} to length, before anything else is cut into these parts",
            listed(&numbers),
            marks.join("; ")
        )];
        let parts: Vec<PartId> = sticks.iter().flat_map(|own| own.parts.clone()).collect();
        let (mut measures, mut sawn) = (Vec::new(), Vec::new());
        if self.boxes_wait() && parts.iter().any(|id| self.is_box_board(*id)) {
            let (told, does) = self.bottoms_cut();
            lines.extend(told);
            measures.extend(does);
            sawn = self.cut_by_boxes();
        }
        (lines, Crosscuts { parts, measures, sawn })
    }

    /// What goes into a channel.
    fn lodged(&self, (id, number): &Cut) -> Vec<PartId> {
        let host = self.parts.get(*id);
        let feature = host.and_then(|host| host.features.get(*number));
        let channel = host.zip(feature).filter(|(_, feature)| feature.is_channel());
        channel.map_or_else(Vec::new, |(host, feature)| self.parts.lodged(host, feature))
    }

    fn is_trim(&self, (id, number): &Cut) -> bool {
        let feature = self.parts.get(*id).and_then(|part| part.features.get(*number));
        feature.is_some_and(|feature| is_trimmed(feature.kind))
    }

    /// Miters and notches of the case, its base, and its face frame: the last that is
    /// cut into them.
    pub(super) fn trimmed(&mut self) {
        let mut cuts = self.cut_into(&self.at(Stage::First));
        cuts.retain(|cut| self.is_trim(cut));
        let has = |kind: FeatureKind| {
            let of = |(id, number): &Cut| self.parts.get(*id)?.features.get(*number);
            cuts.iter().filter_map(of).any(|feature| feature.kind == kind)
        };
        let title = match (has(FeatureKind::Notch), has(FeatureKind::Miter)) {
            (true, true) => "Cut the notches and the miters",
            (true, false) => "Cut the notches",
            (false, _) => "Cut the miters",
        };
        self.joints(title, cuts);
    }

    /// What the edges that are cut off last are left for, in a step before that.
    fn left_square(&self, parts: &[PartId]) -> Option<String> {
        let has = |kind: FeatureKind| {
            let of = |id: &PartId| self.parts.get(*id);
            let mut features = parts.iter().filter_map(of).flat_map(|part| &part.features);
            features.any(|feature| feature.kind == kind)
        };
        let first =
            |id: &PartId| self.parts.get(*id).is_some_and(|part| stage(part) == Stage::First);
        if !parts.iter().all(first) {
            return None;
        }
        match (has(FeatureKind::Miter), has(FeatureKind::Notch)) {
            (true, _) => Some("leave the edges that will be mitered square until every set-up is made and every hole is bored: the stops and distances count from the edge while it is square, where the long point of the miter will be; the miters are cut last".to_owned()),
            (false, true) => Some("leave the corners that will be notched whole until every set-up is made: the stops and distances count from ends and edges that are still whole".to_owned()),
            (false, false) => None,
        }
    }

    /// All that is cut into these parts before they are closed in. Flutes and the
    /// holes for hardware have a time of their own.
    pub(super) fn cut_into(&self, parts: &[PartId]) -> Vec<Cut> {
        let late = self.runner_notches().into_iter().chain(self.finger_pulls());
        let late: BTreeSet<Cut> = late.collect();
        let mut cuts = self.features(parts, |feature| {
            !matches!(
                feature.kind,
                FeatureKind::Flute(_) | FeatureKind::Bore(_) | FeatureKind::Glazing(_)
            )
        });
        cuts.retain(|cut| !late.contains(cut));
        cuts
    }

    /// The notches for runners behind the pins of a dovetailed back: the lower half
    /// pin, lower than the notch, hangs on nothing else, and the side holds it only
    /// when the box is glued.
    pub(super) fn runner_notches(&self) -> Vec<Cut> {
        let of = |(id, part): (PartId, &Part)| -> Vec<Cut> {
            let long = part.length.length;
            let is_cut_off = |feature: &Feature| {
                let (from, to) = feature.u;
                let at_edge = feature.v.0 == Length::ZERO;
                feature.kind == FeatureKind::Notch && at_edge && from.is_positive() && to < long
            };
            let numbered = part.features.iter().enumerate();
            numbered.filter(|(_, own)| is_cut_off(own)).map(|(number, _)| (id, number)).collect()
        };
        let tails = JointSort::Wood(JointKind::Dovetail);
        let dovetailed = self.parts.joints.iter().filter(|joint| joint.sort == tails);
        let pinned: BTreeSet<PartId> = dovetailed.map(|joint| joint.part).collect();
        let backs = self.parts.iter().filter(|(_, part)| part.role == Role::DrawerBack);
        backs.filter(|(id, _)| pinned.contains(id)).flat_map(of).collect()
    }

    /// The finger pulls of fronts, whose place counts from edges that are planed first.
    pub(super) fn finger_pulls(&self) -> Vec<Cut> {
        let fronts = self.ids(|part| matches!(part.assembly, Assembly::Front(_)));
        self.features(&fronts, |feature| feature.kind == FeatureKind::Notch)
    }

    /// What set-ups are for: `the case and face frame`, `the drawer boxes`.
    fn stage_of(&self, cut: &[PartId]) -> String {
        let first = cut.first().and_then(|id| self.parts.get(*id)).map(stage);
        let routed = |part: &Part| {
            Some(stage(part)) == first && part.features.iter().any(Feature::is_channel)
        };
        match first {
            Some(Stage::First) | None => format!("the {}", self.built()),
            Some(Stage::DryFit | Stage::Openings) => {
                format!("the {}", self.kinds(&self.ids(routed)).unwrap_or_default())
            }
        }
    }

    /// Cuts these joints: the set-ups by their numbers, then what is cut
    /// elsewhere.
    pub(super) fn joints(&mut self, title: &str, cuts: Vec<Cut>) {
        if cuts.is_empty() {
            return;
        }
        let is_cut: BTreeSet<Cut> = cuts.iter().copied().collect();
        let mut cut: Vec<PartId> = cuts.iter().map(|(id, _)| *id).collect();
        cut.dedup();
        let (mut numbers, mut efforts): (Vec<usize>, Vec<Effort>) = (Vec::new(), Vec::new());
        for (number, setup) in (1..).zip(self.setups) {
            if setup.cuts().any(|own| is_cut.contains(&own)) {
                numbers.push(number);
                efforts.push(effort::set_up(number, setup));
            }
        }
        let here = self.stage_of(&cut);
        let (mut lines, crosscuts) = self.crosscut(&cuts, &here);
        let is_in_sticks = |number: &usize| {
            let setup = number.checked_sub(1).and_then(|index| self.setups.get(index));
            setup.is_some_and(Setup::is_in_sticks)
        };
        numbers.retain(|number| !is_in_sticks(number));
        match numbers.as_slice() {
            [] => {}
            [only] => lines.push(format!("make set-up {only} of the router-jig sheet, for {here}")),
            many => lines.push(format!(
                "make set-ups {} of the router-jig sheet, those for {here}, one after the other",
                listed(many)
            )),
        }
        let feature = |(id, number): &Cut| self.parts.get(*id)?.features.get(*number);
        match cuts.iter().all(|own| self.is_trim(own)) {
            true if cuts.iter().filter_map(feature).any(|own| own.kind == FeatureKind::Miter) => {
                lines.push("cut them only now that all set-ups for these parts are made and their holes are bored, and the miters last of all: the stops and distances count from the edge while it is square, where the long point of the miter will be".to_owned());
            }
            true => {}
            false => lines.extend(self.left_square(&cut)),
        }
        let layout = self.work.layout();
        let has_lines = |id: PartId| {
            layout.sticks.iter().any(|stick| stick.host == id)
                || layout.tails.iter().any(|tails| tails.part == id)
        };
        let struck = |cut: &&Cut| feature(cut).is_some_and(|own| is_struck(own.kind));
        if cuts.iter().filter(struck).any(|(id, _)| has_lines(*id)) {
            lines.push("strike the lines of the layout sheet before you cut to them".to_owned());
        }
        for (is_of, what, how, time) in SORTS {
            let own = cuts
                .iter()
                .filter(|cut| feature(cut).is_some_and(|f| is_of(&f.kind) && !is_other_half(f)));
            let mut of: Vec<PartId> = own.map(|(id, _)| *id).collect();
            let count = of.len();
            of.dedup();
            if !of.is_empty() {
                let own = time.times(&self.piece.shop.times, count);
                efforts.push(own);
                let plural = if of.len() == 1 { "" } else { "s" };
                // Several holes make one joint, and the time is that of the joint.
                let by_joint = matches!(time, ShopTime::Pockets | ShopTime::Dowels);
                let joints = match (by_joint, count) {
                    (true, 1) => " joint",
                    (true, _) => " joints",
                    (false, _) => "",
                };
                lines.push(format!(
                    "{what} of {} part{plural}{how} ({count}{joints} at {} each)",
                    of.len(),
                    own.each
                ));
            }
        }
        lines.extend(self.sawn_miters(&cuts));
        let of_box = |id: &PartId| {
            let part = self.parts.get(*id);
            part.is_some_and(|part| matches!(part.assembly, Assembly::DrawerBox(_)))
        };
        if cut.iter().any(of_box) {
            lines.push(
                "when the joints fit, sand the inside faces of the boxes, and keep off the joints"
                    .to_owned(),
            );
        }
        let mut after = self.ready(&cut);
        after.extend(self.ready(&crosscuts.sawn));
        let guests: Vec<PartId> = cuts.iter().flat_map(|cut| self.lodged(cut)).collect();
        after.extend(self.ready(&guests));
        let task = self.simple(title.into(), lines, Vec::new(), Work::Router, efforts, after);
        if let Some(task) = self.tasks.get_mut(task) {
            task.sands = cut.iter().any(of_box);
        }
        self.cuts(task, cuts);
        self.makes(&cut, task);
        self.makes(&crosscuts.sawn, task);
        if let Some(task) = self.tasks.get_mut(task) {
            task.crosscuts = crosscuts;
        }
    }
}
