//! What takes its size from what is made: the back from the case fitted dry,
//! and fronts, drawer boxes, shelves and packers from their openings.

use crate::diagnostics::listed;
use crate::measure::Length;
use crate::model::{Case, JointKind, Opening, OpeningId, Set, Stock};
use crate::parts::{Assembly, Direction, Part, PartId, Role, Which, overlong};
use crate::plans::assembly::{gluing, stage};
use crate::plans::operations::{Along, Doing, Measure, Measured};
use crate::plans::wall;
use crate::trade;

use super::{Maker, Stage, Usual, Work};

/// Parts, what they are called, and how each kind is measured.
pub(super) struct Kind {
    pub(super) names: Vec<&'static str>,
    pub(super) parts: Vec<PartId>,
    pub(super) lines: Vec<String>,
}

impl Kind {
    /// True for a kind that goes by one of these names.
    fn is(&self, names: &[&str]) -> bool {
        self.names.iter().any(|own| names.contains(own))
    }
}

impl<'a> Maker<'_, 'a> {
    /// Saws the back of a case to what the case comes to. Where the case is fitted
    /// dry it is measured then, before it is taken apart.
    pub(super) fn back_sawn(
        &mut self,
        case: &Case,
        after: Vec<usize>,
        measured: bool,
    ) -> Option<usize> {
        let own = self.back_of(Some(case));
        own.first()?;
        // It is cut out of the back while that is bare and the saw is at hand.
        let behind = wall::behind(self.piece, self.parts, case);
        let marks = self.marks(&own);
        let mut lines: Vec<String> = behind
            .iter()
            .map(|(_, what)| {
                format!(
                    "measure the {} in the house where it really is, from where the left side of the piece comes and up from the highest place of the floor",
                    what.name
                )
            })
            .collect();
        let mut does = Vec::new();
        for (id, _) in &behind {
            let (within, less) = (None, Length::ZERO);
            let what = Measured::KeepOut(*id);
            does.push(Doing::Measure(Measure { what, within, less, parts: own.clone() }));
        }
        if measured {
            lines.push(format!("cut {marks} square, to the least width and height that you wrote down when you fitted the case dry, so that it goes in by hand"));
        } else {
            lines
                .push(format!("with the case square, measure it {}", self.measured_for_back(case)));
            does.push(Self::case_measured(case, own.clone()));
            lines.push(format!(
                "cut {marks} square, to the least of what you measured, so that it goes in by hand"
            ));
        }
        let spare = |keep_out| self.piece.clear_of_back(case, keep_out);
        for (id, what) in &behind {
            lines.push(format!(
                "cut {marks} round the {} with {} to spare on every side, and ease the edges, so that the finish seals them",
                what.name,
                self.text(spare(*id))
            ));
            lines.extend(own.iter().filter_map(|back| self.cut_out(*back, what, spare(*id))));
        }
        if !behind.is_empty() {
            lines.extend(own.iter().filter_map(|id| self.laid_out(*id)));
        }
        for (keep_out, what) in behind {
            let spare = spare(keep_out);
            let meets = |id: &&PartId| {
                let part = self.parts.get(**id);
                part.is_some_and(|part| wall::cut_out(part, what, spare).is_some())
            };
            let cut = |part: &PartId| Doing::CutOut { part: *part, keep_out, spare };
            does.extend(own.iter().filter(meets).map(cut));
        }
        let title = format!("Cut the back of {} to size", case.name);
        let task = self.sized_late(title, lines, &own, after);
        self.does(task, does);
        Some(self.round_holes(&own).unwrap_or(task))
    }

    /// The least width and height of a case, which its back is cut to.
    pub(super) fn case_measured(case: &Case, parts: Vec<PartId>) -> Doing {
        let what = Measured::Case(case.id);
        Doing::Measure(Measure { what, within: None, less: Length::ZERO, parts })
    }

    /// Where a case is measured for its back.
    pub(super) fn measured_for_back(&self, case: &Case) -> String {
        let rabbeted = case.back.as_ref().is_some_and(|back| back.joint.kind == JointKind::Rabbet);
        let between = match rabbeted {
            true => "between the walls of its rabbets",
            false => "over its outside",
        };
        // The rabbets may run on below the bottom; the back does not.
        let bottoms = self.ids_in(case.id, |part| part.role == Role::Bottom);
        let from = match bottoms.is_empty() {
            true => "the lower ends of its ends".to_owned(),
            false => format!("the underside of {}", self.marks(&bottoms)),
        };
        let tops = Self::tops_of(case);
        format!(
            "{between} at the top, the middle, and the bottom, and its height at both sides, from {from} to the tops of the {tops}"
        )
    }

    /// What stands highest at the sides of a case.
    pub(super) fn tops_of(case: &Case) -> &'static str {
        match case.posts {
            Some(_) => "posts",
            None => "ends",
        }
    }

    /// A task that saws parts to what was measured; sheets are taken from stock
    /// only now.
    fn sized_late(
        &mut self,
        title: String,
        lines: Vec<String>,
        parts: &[PartId],
        mut after: Vec<usize>,
    ) -> usize {
        after.extend(self.ready(parts));
        let count = parts.len();
        let efforts = vec![Usual::Measuring.times(count), Usual::Sawing.times(count)];
        let task = self.simple(title, lines, parts.to_vec(), Work::Machine, efforts, after);
        let sheet = |id: &&PartId| {
            self.parts.get(**id).is_some_and(|part| !self.is_broken_down_first(part))
        };
        let sheets: Vec<PartId> = parts.iter().filter(sheet).copied().collect();
        self.breaks(task, &sheets);
        self.mills(task, parts.iter().copied().filter(|id| !self.is_edged(*id)).collect());
        self.makes(parts, task);
        task
    }

    /// Saws what goes into the openings to what they come to, and cuts its joints.
    pub(super) fn cut_to_openings(&mut self, stands: &[usize]) {
        let packed = self.packed();
        let kinds: Vec<Kind> = [
            self.fronts_late(),
            self.boxes_late(),
            self.packers_late(&packed),
            self.strips_late(),
            self.holding_late(),
            self.shelves_late(),
        ]
        .into_iter()
        .filter(|kind| !kind.parts.is_empty())
        .collect();
        if kinds.is_empty() {
            return;
        }
        let mut parts: Vec<PartId> = self.at(Stage::Openings);
        parts.retain(|id| self.parts.get(*id).is_some_and(|part| !self.is_pane(part)));
        let (mut lines, mut does) = (Vec::new(), Vec::new());
        if kinds.iter().any(|kind| kind.is(&["fronts", "drawer boxes"])) {
            let mark = self.piece.tape().mark;
            lines.push("measure every opening that takes a front or a drawer: width and height at both ends and in the middle, and both diagonals".to_owned());
            lines.push(format!("if the smallest width or height of an opening is off its drawn figure by more than {}, stop; have it entered as measured, and cut by the new papers", self.text(mark)));
            does.extend(self.measured(mark));
        }
        lines.extend(self.planed_late());
        lines.extend(self.sticks_planed(Stage::Openings));
        does.extend(packed.into_iter().map(|(clear, parts)| {
            let what = Measured::Packed;
            Doing::Measure(Measure { what, within: None, less: -clear, parts })
        }));
        let strips = self.over_and_under();
        if !strips.is_empty() {
            let (within, less) = (None, Length::ZERO);
            does.push(Doing::Measure(Measure {
                what: Measured::OverUnder,
                within,
                less,
                parts: strips,
            }));
        }
        does.extend(self.plays(&self.wooden_shelves()).into_iter().map(|(less, parts)| {
            let what = Measured::Between;
            Doing::Measure(Measure { what, within: None, less, parts })
        }));
        lines.extend(kinds.iter().flat_map(|kind| kind.lines.iter().cloned()));
        let mut by_boxes = Vec::new();
        let waiting = match self.boxes_wait() {
            // They are sawn when the boards of the boxes are crosscut.
            true => self.cut_by_boxes(),
            false => {
                by_boxes.push(self.bottoms_cut());
                Vec::new()
            }
        };
        by_boxes.push(self.backs_cut());
        for (told, measured) in by_boxes {
            lines.extend(told);
            does.extend(measured);
        }
        if !waiting.is_empty() {
            lines.push(format!(
                "leave {} at their rough size for now; these drawer bottoms are sawn by the boards of their boxes, which are still in sticks that are grooved first",
                self.marks(&waiting)
            ));
        }
        let names: Vec<&str> = kinds.iter().flat_map(|kind| kind.names.iter().copied()).collect();
        let title = format!("Cut the {} to size", listed(&names));
        let task = self.sized_late(title, lines, &parts, stands.to_vec());
        self.does(task, does);
        if let Some(task) = self.tasks.get_mut(task) {
            task.thicknessed = waiting;
        }
        self.edged(Stage::Openings);
        let cut = self.cut_into(&parts);
        let of = |name: &str| {
            kinds.iter().any(|kind| kind.is(&[name]) && self.has_any(&cut, &kind.parts))
        };
        let jointed: Vec<&str> =
            ["fronts", "drawer boxes"].into_iter().filter(|name| of(name)).collect();
        let title = match jointed.is_empty() {
            true => "Cut the joints of the packers".to_owned(),
            false => format!("Cut the joints of the {}", listed(&jointed)),
        };
        self.joints(&title, cut);
        self.pins(Stage::Openings);
        self.round_holes(&parts);
        self.prefinish(false);
    }

    /// Boards that were only sawn rough, or glued up, come to their thickness here;
    /// packers do so when their room is measured. What is wider than the planer was
    /// planed in parts before its last joint.
    fn planed_late(&self) -> Vec<String> {
        let is_planed = |part: &Part| {
            let solid = self.piece.stock(part.stock).is_some_and(Stock::is_solid);
            let packs = part.role.fills();
            solid && !packs && stage(part) == Stage::Openings
        };
        let glued = self.ids(|part| is_planed(part) && gluing::is_blank(self.piece, part));
        let wide = self.wider_than_planer(&glued);
        let mut passing = self.ids(is_planed);
        passing.retain(|id| wide.iter().all(|(own, _)| own != id));
        let Some(what) = self.kinds(&passing) else {
            return self.scraped(&glued).into_iter().collect();
        };
        let narrow: Vec<PartId> =
            glued.iter().filter(|id| wide.iter().all(|(own, _)| own != *id)).copied().collect();
        let mut lines = vec![format!(
            "first flatten the boards of the {what}, joint an edge, and plane them to the thickness on the cut list"
        )];
        if !narrow.is_empty() {
            lines.push(format!(
                "scrape the glue off the glued-up ones, and plane them like the others: {}",
                self.marks(&narrow)
            ));
        }
        lines.extend(self.scraped(&glued));
        lines
    }

    fn has_any(&self, cut: &[super::joints::Cut], parts: &[PartId]) -> bool {
        cut.iter().any(|(id, _)| parts.contains(id))
    }

    fn fronts_late(&self) -> Kind {
        let parts = self.ids(|part| matches!(part.assembly, Assembly::Front(_)));
        let fronts = self.work.fronts();
        let inset = fronts.iter().filter(|front| front.fronts.set == Set::Inset).count();
        let mut lines = Vec::new();
        let framed = fronts.iter().any(|front| front.parts.len() > 1);
        let edged: Vec<PartId> = parts.iter().copied().filter(|id| self.is_edged(*id)).collect();
        if !edged.is_empty() {
            lines.push(format!(
                "saw {} to the core size on the cut list, changed by as much as the opening is off; their edges are covered in a step of its own",
                self.marks(&edged)
            ));
        }
        if edged.len() == parts.len() {
            return Kind { names: vec!["fronts"], parts, lines };
        }
        if inset == 0 {
            lines.push("cut the fronts to length and width".to_owned());
        } else {
            let tape = self.piece.tape();
            let which = if inset == fronts.len() { "" } else { ", the inset ones" };
            lines.push(format!(
                "cut the fronts{which} {} larger at every outer edge; that shaving comes off when they are fitted",
                self.text(trade::shaving(tape.unit))
            ));
        }
        if framed {
            let has = |role: Role, glass: bool| {
                parts
                    .iter()
                    .filter_map(|id| self.parts.get(*id))
                    .any(|part| part.role == role && self.is_pane(part) == glass)
            };
            if has(Role::FrontPanel, false) {
                lines.push("of a framed front cut the stiles, rails, and panel; rails and panel change with the width of the opening".to_owned());
            }
            if has(Role::FrontPanel, true) {
                lines.push("of a front with glass cut the stiles, the rails, and the beads; rails and beads change with the width of the opening".to_owned());
            }
            if inset > 0 {
                let tape = self.piece.tape();
                let shaving = trade::shaving(tape.unit);
                lines.push(format!(
                    "the stiles of an inset framed front are {} longer than on the cut list, and its stiles and outer rails {} wider; strike a line {} inside each outer edge, where the finished edge will be: joints and the layout sheet count from that line",
                    self.text(shaving.twice()),
                    self.text(shaving),
                    self.text(shaving)
                ));
            }
        }
        Kind { names: vec!["fronts"], parts, lines }
    }

    fn boxes_late(&self) -> Kind {
        let parts = self.ids(|part| matches!(part.assembly, Assembly::DrawerBox(_)));
        let on_wood = !self.work.fitting().on_wood.is_empty();
        let mut lines = Vec::new();
        if on_wood {
            lines.push("cut the boxes that run on wood by their openings, less the play of the fitting sheet; leave the sides and the box front a shaving high, and plane them to run when the box is tried".to_owned());
        }
        if !on_wood || !self.work.fitting().drawers.is_empty() {
            lines.push("cut the drawer boxes; a box keeps the play that its slides ask for, so its front, back, and bottom change with the width of its opening".to_owned());
        }
        Kind { names: vec!["drawer boxes"], parts, lines }
    }

    /// Strips over and under drawers on wood, and their stops.
    fn strips_late(&self) -> Kind {
        let (filling, stops) = (self.over_and_under(), self.ids(|part| part.role == Role::Stop));
        let has = |role: Role| self.parts.all.iter().any(|part| part.role == role);
        let mut kinds = Vec::new();
        let mut lines = Vec::new();
        for (role, name, from) in [
            (Role::Kicker, "kickers", "up to the board above it"),
            (Role::Runner, "runners", "down to the board below it"),
        ] {
            if has(role) {
                kinds.push(name);
                lines.push(format!("measure from the edge of the opening {from}, at the front and at the back, and plane the {name} to fill that"));
            }
        }
        if !stops.is_empty() {
            kinds.push("drawer stops");
        }
        if has(Role::Runner) {
            lines.push(
                "take hard, straight wood for the runners, with the grain along them".to_owned(),
            );
        }
        let parts = filling.into_iter().chain(stops).collect();
        Kind { names: kinds, parts, lines }
    }

    /// The strips that are planed to fill the room over or under an opening.
    fn over_and_under(&self) -> Vec<PartId> {
        self.ids(|part| matches!(part.role, Role::Kicker | Role::Runner))
    }

    /// How far a packer comes past the edge of its opening: that of a tray keeps it clear
    /// of the open door.
    pub(super) fn past_edge(&self, packer: &Part) -> Length {
        let (Role::Packer | Role::Guide, Which::At(side)) = (packer.role, packer.which) else {
            return Length::ZERO;
        };
        let opening = packer.opening().and_then(|id| self.piece.opening(id));
        opening.map_or(Length::ZERO, |opening| side.of(&opening.clear).length)
    }

    fn shelves_late(&self) -> Kind {
        let parts = self.wooden_shelves();
        let tape = self.piece.tape();
        let mut lines: Vec<String> = Vec::new();
        let plays = self.plays(&parts);
        let only = plays.len() == 1;
        for (play, own) in plays {
            let which = match only {
                true => "each loose shelf".to_owned(),
                false => self.marks(&own),
            };
            lines.push(format!(
                "measure between the boards on both sides of {which}, front and back, and cut the shelf {} shorter",
                self.text(play)
            ));
        }
        let lipped = |part: &Part| part.is_cut_after(Along::Length.faces());
        let over: Vec<PartId> =
            parts.iter().copied().filter(|id| self.parts.get(*id).is_some_and(lipped)).collect();
        if !over.is_empty() {
            lines.push(format!(
                "leave {} longer than that by {} for now, as the cut list has it; the shelf is cut to its length when its lip is on",
                self.marks(&over),
                self.text(overlong(tape.unit).1)
            ));
        }
        Kind { names: vec!["loose shelves"], parts, lines }
    }

    /// Every opening that takes a front or a drawer, with what is cut to it.
    fn measured(&self, within: Length) -> Vec<Doing> {
        // What stands behind doors has their opening.
        let measured = |own: OpeningId| self.piece.door_before(own).map_or(own, |door| door.id);
        let openings = self.piece.cases.iter().flat_map(|case| &case.openings);
        let openings = openings.filter(|opening| {
            opening.front.is_some() && self.piece.door_before(opening.id).is_none()
        });
        let measure = |opening: &Opening| Measure {
            what: Measured::Opening(opening.id),
            within: Some(within),
            less: Length::ZERO,
            parts: self.ids_in(opening.id.case, |part| match part.assembly {
                Assembly::Front(front) => measured(front.opening) == opening.id,
                Assembly::DrawerBox(own) => measured(own) == opening.id,
                Assembly::Base(_)
                | Assembly::Carcass(_)
                | Assembly::Frame(_)
                | Assembly::Countertop(_)
                | Assembly::Filler(..)
                | Assembly::Loose(_) => false,
            }),
        };
        openings.map(|opening| Doing::Measure(measure(opening))).collect()
    }

    /// The loose shelves that are sawn.
    fn wooden_shelves(&self) -> Vec<PartId> {
        self.ids(|part| part.role == Role::AdjustableShelf && !self.is_pane(part))
    }

    /// Loose shelves by how much shorter they are than the space between their boards.
    pub(super) fn plays(&self, shelves: &[PartId]) -> Vec<(Length, Vec<PartId>)> {
        let mut found: Vec<(Length, Vec<PartId>)> = Vec::new();
        for id in shelves.iter().copied() {
            let play = self.parts.get(id).and_then(|shelf| self.play(id, shelf));
            let Some(play) = play else { continue };
            match found.iter_mut().find(|(known, _)| *known == play) {
                Some((_, shelves)) => shelves.push(id),
                None => found.push((play, vec![id])),
            }
        }
        found
    }

    /// By how much a shelf is shorter than the space between its boards.
    fn play(&self, id: PartId, shelf: &Part) -> Option<Length> {
        let (from, to) = shelf.extent(Direction::X);
        let middle = (from + to).half();
        let hosts = self.laid.get(&id).into_iter().flatten();
        let extents: Vec<(Length, Length)> =
            hosts.filter_map(|host| Some(self.parts.get(*host)?.extent(Direction::X))).collect();
        let left = extents.iter().filter(|(_, end)| *end < middle).map(|(_, end)| *end).max()?;
        let right =
            extents.iter().filter(|(start, _)| *start > middle).map(|(start, _)| *start).min()?;
        Some(right - left - shelf.length.length)
    }
}
