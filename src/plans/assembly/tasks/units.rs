//! Frames, bases and carcasses: fitted dry, and then glued up, stage by stage where
//! some parts go in as one.

use std::collections::BTreeSet;

use crate::diagnostics::listed;
use crate::model::{Case, CaseId, Item, MemberId, MemberKind, Opening, OpeningKind};
use crate::parts::{Assembly, FeatureKind, Joint, JointSort, Of, PartId, Role, Which, web_told};
use crate::plans::assembly::gluing;
use crate::plans::assembly::stages::{self, Lot};
use crate::plans::operations::{Doing, DryFit, Step};
use crate::plans::squareness::Square;
use crate::trade;

use super::{Maker, Usual, Work, effort};

impl<'a> Maker<'_, 'a> {
    /// Where diagonals are measured over ends with notches.
    fn diagonals_at(&self, parts: &[PartId]) -> Option<String> {
        let ends = parts.iter().filter_map(|id| self.parts.get(*id));
        let ends = ends.filter(|part| matches!(part.role, Role::End(_)));
        let (mut front, mut back) = (false, false);
        for end in ends {
            for own in end.features.iter().filter(|own| own.kind == FeatureKind::Notch) {
                front |= own.v.0.is_zero();
                back |= !own.v.0.is_zero();
            }
        }
        let line = match (front, back) {
            (false, false) => return None,
            (true, false) => {
                "measure the diagonals over the back edges, where the ends have no notches"
            }
            (false, true) => {
                "measure the diagonals over the front edges, where the ends have no notches"
            }
            (true, true) => {
                "measure the diagonals between the notches of the ends, as far from their front edges above as below"
            }
        };
        Some(line.to_owned())
    }

    /// A glue-up of everything whose wood joints lie within one unit; that of a
    /// case is squared with its back while the glue is open.
    pub(super) fn unit_glue(
        &mut self,
        unit: &Assembly,
        what: &str,
        case: Option<&Case>,
    ) -> Option<usize> {
        let all = self.joints_of(unit);
        let stages = self.work.stages().get(unit)?.clone();
        let (whole, first) = stages.split_last().filter(|_| !all.is_empty())?;
        let parts = ends(&all);
        let mut ready = vec![self.dry_fit(what, &parts, &all, case)];
        // It is tried in the dry case, which comes apart for the first glue.
        let back = case.and_then(|case| self.back_sawn(case, ready.clone(), true));
        ready.extend(back);
        for stage in first {
            self.stage_glue(stage, what, ready.clone());
        }
        let joints = self.wood_of(whole);
        let mut lines = self.joint_lines(&joints);
        let screws = gluing::tacked(self.parts, unit);
        let (slow, goes) = self.goes(whole, screws);
        lines.extend(slow);
        let mut tacked = Vec::new();
        if back.is_some() {
            let backs = self.back_of(case);
            lines.push(format!("while the glue is open, screw {} on without glue, one screw near each corner and one halfway between, all on its screw lines; pull the case square against it", self.marks(&backs)));
            tacked.push(Doing::Tack(backs, screws));
        }
        lines.extend(self.diagonals_at(&parts));
        lines.extend(self.beveled_cauls(&parts));
        lines.extend(self.spaced(unit));
        ready.extend(self.ready(&parts));
        let efforts = effort::joints(self.parts, &joints);
        let mut load = gluing::joined(self.parts, &joints);
        load.screws += screws;
        let square = self.outline(&parts, unit);
        let title = format!("Glue up the {what}");
        let glued = self.glue(title, lines, parts.clone(), efforts, &load, square, ready);
        self.in_goes(glued, goes);
        self.closes(glued, whole.joints.clone());
        self.does(glued, tacked);
        self.makes(&parts, glued);
        Some(glued)
    }

    /// The blocks that keep openings even while the members of a unit are screwed in.
    fn spaced(&self, unit: &Assembly) -> Option<String> {
        let of_unit = |case: CaseId, kind: &MemberKind| match (unit, kind) {
            (Assembly::Frame(own), MemberKind::Stile(_) | MemberKind::Rail(_)) => *own == case,
            (Assembly::Carcass(own), MemberKind::Divider(_)) => *own == case,
            _ => false,
        };
        let is_here = |list: &Opening| {
            let OpeningKind::List(_, items) = &list.kind else { return false };
            let case = list.id.case;
            items.iter().any(|item| match item {
                Item::Member(id) => {
                    self.piece.member(*id).is_some_and(|member| of_unit(case, &member.kind))
                }
                Item::Opening(_) => false,
            })
        };
        let spacers = self.work.fitting().spacers.iter().filter(|own| is_here(own.list));
        let names: Vec<&str> =
            spacers.flat_map(|own| &own.openings).map(|opening| opening.title()).collect();
        (!names.is_empty()).then(|| {
            format!(
                "while you drive the screws, keep the openings {} even with the spacer blocks of the fitting sheet, one at each end of each",
                listed(&names)
            )
        })
    }

    /// What no sander reaches in a closed case is sanded while it lies flat.
    fn sanded_inside(&self, parts: &[PartId]) -> Option<String> {
        let bare = |id: &PartId| {
            self.parts.get(*id).is_some_and(|part| part.finished_faces(self.piece).len() < 2)
        };
        parts.iter().any(bare).then(|| {
            "sand the faces that come to lie inside while they lie flat, with the grits of the last sanding, and keep off the joints and off what goes into them: a sanded board is loose in its dado".to_owned()
        })
    }

    /// The long point of a mitered stile bears no clamp.
    fn beveled_cauls(&self, parts: &[PartId]) -> Option<String> {
        let is_mitered = |id: &PartId| {
            let part = self.parts.get(*id).filter(|part| part.role == Role::Stile);
            part.is_some_and(|part| part.features.iter().any(|f| f.kind == FeatureKind::Miter))
        };
        let stiles: Vec<PartId> = parts.iter().copied().filter(is_mitered).collect();
        (!stiles.is_empty()).then(|| {
            format!(
                "under every clamp that bears on the mitered edge of {} lay a caul with a 45-degree face, so that it doesn't crush the long point",
                self.marks(&stiles)
            )
        })
    }

    /// What is measured on it is measured while it stands together dry.
    fn dry_fit(
        &mut self,
        what: &str,
        parts: &[PartId],
        joints: &[&Joint],
        case: Option<&Case>,
    ) -> usize {
        let load = gluing::joined(self.parts, joints);
        let mut lines = vec![
            "put it together without glue, in the order of its glue-up, down to the last clamp"
                .to_owned(),
            "check that every joint closes by hand, that the diagonals agree, and that nothing is twisted".to_owned(),
        ];
        let hurries = load.closing().0.is_positive() && load.clamps() > 0;
        let open = hurries.then_some(self.piece.shop.open_time);
        if let Some(open) = open {
            lines.push(format!("time yourself: the glue stays open {open}, from the first drop until the last clamp is tight"));
        }
        let mut does = vec![Doing::DryFit(DryFit { parts: parts.to_vec(), open })];
        if let Some((case, backs)) =
            case.map(|case| (case, self.back_of(Some(case)))).filter(|(_, backs)| !backs.is_empty())
        {
            lines.push(format!(
                "while it stands dry and square, measure it for {}: {}; write down the least of each",
                self.marks(&backs),
                self.measured_for_back(case)
            ));
            lines.push(format!(
                "leave it standing until {} is cut and has been tried in it; then take it apart in reverse order, and lay clamps, cauls, and parts ready as they come",
                self.marks(&backs)
            ));
            does.push(Self::case_measured(case, backs));
        } else {
            lines.push(
                "take it apart in reverse order, and lay clamps, cauls, and parts ready as they come"
                    .to_owned(),
            );
        }
        let inside = case.and_then(|_| self.sanded_inside(parts));
        let sands = inside.is_some();
        lines.extend(inside);
        let after = self.ready(parts);
        let title = format!("Dry-fit the {what}");
        let efforts = vec![Usual::DryFit.times(1)];
        let dry = self.simple(title, lines, parts.to_vec(), Work::Bench, efforts, after);
        self.does(dry, does);
        if let Some(task) = self.tasks.get_mut(dry) {
            task.sands = sands;
        }
        dry
    }

    /// Parts that go into the rest as one, since they no longer come in one by one.
    fn stage_glue(&mut self, stage: &Step, what: &str, mut after: Vec<usize>) {
        let joints = self.wood_of(stage);
        let parts = ends(&joints);
        let mut lines = self.joint_lines(&joints);
        let (slow, goes) = self.goes(stage, 0);
        lines.extend(slow);
        let web = self.web_of(&joints);
        let dry = web.and_then(|web| self.opens_shoulders(web, &parts));
        lines.extend(dry.iter().map(|(line, _)| line.clone()));
        let is_panel = |id: &&PartId| {
            let role = self.parts.get(**id).map(|part| part.role);
            role.is_some_and(|role| matches!(role, Role::DustPanel | Role::EndPanel(_)))
        };
        let end = self.end_of(&joints);
        let comes = stage.moves.iter().flat_map(|own| &own.parts);
        let panels: Vec<PartId> = comes.filter(is_panel).copied().collect();
        if !panels.is_empty() {
            lines.push(format!("{}: no glue, loose in the grooves", self.marks(&panels)));
        }
        lines.push(
            "check that it is square and flat, for it goes into the rest as one piece".to_owned(),
        );
        after.extend(self.ready(&panels));
        after.extend(self.ready(&parts));
        let efforts = effort::joints(self.parts, &joints);
        let load = gluing::joined(self.parts, &joints);
        let (title, square) = match (web, end) {
            (Some(web), _) => (format!("Glue up the {}", web_told(self.piece, web)), None),
            (None, Some((end, square))) => (format!("Glue up the {end}"), Some(square)),
            (None, None) => (format!("Glue up {} of the {what}", self.few(&parts)), None),
        };
        let glued = self.glue(title, lines, parts.clone(), efforts, &load, square, after);
        self.in_goes(glued, goes);
        self.closes(glued, stage.joints.clone());
        self.does(glued, dry.into_iter().map(|(_, doing)| doing).collect());
        self.makes(&parts, glued);
    }

    /// The web frame that these joints are of.
    fn web_of(&self, joints: &[&Joint]) -> Option<MemberId> {
        match stages::lot_of(self.parts, joints.first()?)? {
            Lot::Web(Of::Member(member)) => Some(member),
            Lot::Web(Of::Case(_) | Of::Row(_) | Of::Opening(_) | Of::Front(_)) | Lot::End(..) => {
                None
            }
        }
    }

    /// The paneled end that these joints are of: what it is called, and how square it
    /// must be.
    fn end_of(&self, joints: &[&Joint]) -> Option<(String, Square)> {
        let Lot::End(case, side) = stages::lot_of(self.parts, joints.first()?)? else {
            return None;
        };
        let case = self.piece.case(case)?;
        let deep = &case.deep - case.covers.behind() - self.piece.before_frame(case);
        let sides = (deep.length, case.high.length);
        let square = Square::plain(sides, trade::diagonals_within(sides.0.max(sides.1)));
        Some((format!("{} end of {}", side.word(), case.name), square))
    }

    /// How a web frame is put together between boards that move: with its back tenons dry,
    /// and room at their shoulders.
    fn opens_shoulders(&self, web: MemberId, parts: &[PartId]) -> Option<(String, Doing)> {
        let free = self.piece.case(web.case)?.web_of(web.at)?.free.as_ref()?;
        let is = |role: Role| {
            let of_role = move |id: &PartId| self.parts.get(*id).is_some_and(|it| it.role == role);
            parts.iter().copied().filter(of_role).collect::<Vec<PartId>>()
        };
        let (runners, rails) = (is(Role::WebRunner), is(Role::WebRail));
        let is_back = |id: &PartId| self.parts.get(*id).is_some_and(|it| it.which == Which::Back);
        let from = rails.into_iter().find(is_back)?;
        let by = free.gap.length;
        let line = format!(
            "leave the shoulders of the runners {} open at {}, all alike, and put no glue there; the ends shrink toward the front and close them",
            self.text(by),
            self.parts.mark(from)
        );
        Some((line, Doing::OpenShoulders { parts: runners, from, by }))
    }

    /// The wood joints of a step: a panel that is loose in its grooves takes no glue.
    fn wood_of(&self, step: &Step) -> Vec<&'a Joint> {
        let joints = step.joints.iter().filter_map(|index| self.parts.joints.get(*index));
        joints.filter(|joint| matches!(joint.sort, JointSort::Wood(_))).collect()
    }

    /// Parts by their marks, the first of them where they are many.
    fn few(&self, parts: &[PartId]) -> String {
        const FEW: usize = 6;
        let mut names: Vec<String> =
            parts.iter().take(FEW).map(|id| self.parts.mark(*id).to_owned()).collect();
        if parts.len() > FEW {
            names.push(format!("{} more", parts.len() - FEW));
        }
        listed(&names)
    }

    /// How to close what takes longer than the glue stays open: with a slower glue, or in
    /// several goes, which have these parts. So many screws hold the back on in the last.
    fn goes(&self, step: &Step, tacked: u32) -> (Option<String>, Vec<Vec<PartId>>) {
        let open = self.piece.shop.open_time;
        let closing = |joints: &[&Joint], more: u32| {
            let mut load = gluing::joined(self.parts, joints);
            load.screws += more;
            load.closing()
        };
        let all = closing(&self.wood_of(step), tacked);
        if all <= open {
            return (None, Vec::new());
        }
        let slower = format!("use a slower glue, one that stays open {all} or more");
        let fits = |joints: &[&Joint], more: &[&Joint]| {
            let both: Vec<&Joint> = joints.iter().chain(more).copied().collect();
            closing(&both, 0) <= open
        };
        let mut there: BTreeSet<PartId> = BTreeSet::new();
        let mut goes: Vec<(Vec<PartId>, Vec<&Joint>)> = vec![(Vec::new(), Vec::new())];
        for own in &step.moves {
            let comes = |id: PartId| own.parts.contains(&id);
            let closes: Vec<&Joint> = self
                .wood_of(step)
                .into_iter()
                .filter(|joint| {
                    comes(joint.part) && there.contains(&joint.into)
                        || comes(joint.into) && there.contains(&joint.part)
                })
                .collect();
            there.extend(&own.parts);
            match goes.last_mut() {
                Some((parts, joints)) if joints.is_empty() || fits(&joints[..], &closes) => {
                    parts.extend(&own.parts);
                    joints.extend(closes);
                }
                Some(_) | None => goes.push((own.parts.clone(), closes)),
            }
        }
        let last = goes.last().is_some_and(|(_, joints)| closing(joints, tacked) <= open);
        if goes.len() < 2 || !last || !goes.iter().all(|(_, joints)| fits(joints, &[])) {
            return (Some(slower), Vec::new());
        }
        let goes: Vec<Vec<PartId>> = goes.into_iter().map(|(parts, _)| parts).collect();
        let told: Vec<String> = goes.iter().map(|parts| self.marks(parts)).collect();
        let line = format!(
            "{slower}; or close it in {} goes, with all that comes later put on dry to hold the rest square, and each go left {} in the clamps before the dry parts come off again: first {}",
            goes.len(),
            self.piece.shop.clamp,
            told.join("; then ")
        );
        (Some(line), goes)
    }
}

/// All the parts of some joints, in their order.
fn ends(joints: &[&Joint]) -> Vec<PartId> {
    let all: BTreeSet<PartId> = joints.iter().flat_map(|joint| [joint.part, joint.into]).collect();
    all.into_iter().collect()
}
