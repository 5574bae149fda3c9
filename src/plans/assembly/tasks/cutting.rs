//! Cutting parts and joints; what is glued up or finished before them.

use std::collections::{BTreeMap, BTreeSet};

use crate::diagnostics::listed;
use crate::measure::{Length, MEASURED};
use crate::model::{OpeningId, Stock};
use crate::parts::{Assembly, Bore, Direction, FeatureKind, Joint, JointSort, Part, PartId, Role};
use crate::plans::assembly::{Blank, gluing, is_broken_down_first};
use crate::plans::finish::{self, Coat};
use crate::plans::operations::{Coating, Doing, Rest, Why};
use crate::plans::small_parts;
use crate::trade;

use super::finishing::{amount, is_finished_early};
use super::{Maker, Stage, Task, Wait, Work, hands, minutes, stage};

impl Maker<'_, '_> {
    pub(super) fn cut(&mut self) -> usize {
        let (early, sized) = (
            self.ids(|part| self.is_broken_down_first(part)),
            self.ids(|part| stage(part) == Stage::First && !self.is_blank(part)),
        );
        let mut lines = vec!["mark every piece before it leaves the saw".to_owned()];
        lines.push(format!("cut the parts of the {} to the sizes on the cut list", self.built()));
        if early.iter().any(|id| self.parts.get(*id).is_some_and(|part| self.is_blank(part))) {
            lines.push("saw the boards for wide and thick parts rough; they are glued up before they come to size".to_owned());
        }
        let later = |first: bool| {
            self.kinds(|part| {
                stage(part) != Stage::First && self.is_broken_down_first(part) == first
            })
        };
        if let Some(rough) = later(true) {
            lines.push(format!("saw the boards of the {rough} to their rough size only; they come to size when the case stands and is measured"));
        }
        if let Some(kept) = later(false) {
            lines.push(format!(
                "keep sheet for the {kept}, and saw none of it yet, for the same reason"
            ));
        }
        let all = early;
        let mut does = vec![Doing::Rest(Rest { why: Why::Acclimate, long: None })];
        does.extend((0..self.work.fitting().spacers.len()).map(Doing::Spacer));
        if let Some((line, stick)) = self.short(Stage::First) {
            lines.push(line);
            does.push(stick);
        }
        let solid = |part: &Part| self.piece.stock(part.stock).is_some_and(Stock::is_solid);
        let seen = |unit: &Assembly| matches!(unit, Assembly::Frame(_) | Assembly::Front(_));
        if self.parts.iter().any(|(_, part)| solid(part) && seen(&part.assembly)) {
            lines.push("mill a spare with each group of frame members and fronts; it is the test piece of their set-ups, and it takes the place of one that is spoiled".to_owned());
        }
        let minutes = minutes::CUT_PART * all.len() as i64;
        let title = "Break down the stock and cut the case parts".into();
        let cut = self.simple(title, lines, Vec::new(), Work::Machine, minutes, Vec::new());
        self.breaks(cut, &all);
        self.mills(cut, sized);
        self.does(cut, does);
        self.makes(&all, cut);
        cut
    }

    pub(super) fn is_broken_down_first(&self, part: &Part) -> bool {
        is_broken_down_first(self.piece, part)
    }

    /// What is too short to be planed by itself is planed as one stick.
    pub(super) fn short(&self, from: Stage) -> Option<(String, Doing)> {
        let is_short = |part: &Part| stage(part) == from && small_parts::is_short(self.piece, part);
        let parts = self.ids(is_short);
        let what = match from {
            Stage::First => (!parts.is_empty()).then(|| self.marks(&parts)),
            Stage::DryFit | Stage::Openings => {
                self.kinds(is_short).map(|kinds| format!("of the {kinds}"))
            }
        };
        let tape = self.piece.tape();
        let shorter = trade::shortest_planed(tape.unit);
        let line = what.map(|what| {
            format!(
                "plane and rip pieces shorter than {} as one long stick, and crosscut them last: {what}",
                tape.text(shorter)
            )
        })?;
        Some((line, Doing::Stick { shorter, parts }))
    }

    /// What stands before anything is fitted to it: `case, its base, and its face
    /// frame`.
    pub(super) fn built(&self) -> String {
        let has = |is: fn(&Assembly) -> bool| self.members.keys().any(|unit| is(unit));
        let mut names = vec![if self.piece.cases.len() == 1 { "case" } else { "cases" }];
        if has(|unit| matches!(unit, Assembly::Base(_))) {
            names.push("base");
        }
        if has(|unit| matches!(unit, Assembly::Frame(_))) {
            names.push("face frame");
        }
        listed(&names)
    }

    /// What kinds of parts `pick` picks, in words.
    pub(super) fn kinds(&self, pick: impl Fn(&Part) -> bool) -> Option<String> {
        let mut names: Vec<&str> = Vec::new();
        for (_, part) in self.parts.iter().filter(|(_, part)| pick(part)) {
            let name = match (part.role, &part.assembly) {
                (Role::Back, _) if self.piece.cases.len() == 1 => "back",
                (Role::Back, _) => "backs",
                (Role::FrontPanel, _) => "panels of the fronts",
                (Role::DrawerBottom, _) => "drawer bottoms",
                (Role::Packer, _) => "packers",
                (Role::HingeBlock, _) => "hinge blocks",
                (Role::AdjustableShelf, _) => "loose shelves",
                (_, Assembly::DrawerBox(_)) => "drawer boxes",
                _ => "fronts",
            };
            if !names.contains(&name) {
                names.push(name);
            }
        }
        (!names.is_empty()).then(|| listed(&names))
    }

    /// Shelf pins and hinge plates are bored for while the boards lie flat.
    pub(super) fn pins(&mut self, from: Stage) {
        let shelves: Vec<&Joint> =
            self.parts.joints.iter().filter(|j| j.sort == JointSort::Laid).collect();
        let here = |id: &PartId| self.parts.get(*id).is_some_and(|part| stage(part) == from);
        let mut pinned: Vec<PartId> = shelves.iter().map(|joint| joint.into).filter(here).collect();
        pinned.sort_unstable();
        pinned.dedup();
        let is_plate =
            |part: &Part| part.features.iter().any(|f| f.kind == FeatureKind::Bore(Bore::Plate));
        let plated = self.ids(|part| stage(part) == from && is_plate(part));
        let mut lines = Vec::new();
        if !pinned.is_empty() {
            lines.extend(self.templates(&shelves, &pinned));
            lines.push("the fitting sheet has the places of the rows on each board and the holes of each row".to_owned());
        }
        if !plated.is_empty() {
            lines.push(format!(
                "bore for the hinge plates in {}, with a stop on the bit",
                self.marks(&plated)
            ));
        }
        let title = match (pinned.is_empty(), plated.is_empty()) {
            (true, true) => return,
            (false, true) => "Bore for the shelf pins",
            (true, false) => "Bore for the hinge plates",
            (false, false) => "Bore for the shelf pins and hinge plates",
        };
        let minutes = minutes::BORE * (2 * pinned.len() + plated.len()) as i64;
        let mut boards = pinned;
        boards.extend(plated);
        boards.sort_unstable();
        boards.dedup();
        let after = self.ready(&boards);
        let task = self.simple(title.into(), lines, boards.clone(), Work::Bench, minutes, after);
        let plates = self.features(&boards, |f| f.kind == FeatureKind::Bore(Bore::Plate));
        self.cuts(task, plates);
        let rows = (0..).zip(&self.work.fitting().pins).flat_map(|(index, rows)| {
            let boards = (0..).zip(&rows.boards);
            let here = boards.filter(|(_, board)| stage(board.part) == from);
            here.map(move |(board, _)| Doing::Rows(index, board))
        });
        let rows: Vec<Doing> = rows.collect();
        self.does(task, rows);
        self.makes(&boards, task);
    }

    /// Rows of pins that face each other must be level, though the boards may
    /// end at different heights: an end on the floor, a partition on the bottom.
    fn templates(&self, shelves: &[&Joint], pinned: &[PartId]) -> Vec<String> {
        let foot = |id: PartId| self.parts.get(id).map(|part| part.extent(Direction::Y).0);
        let rows = format!("bore the pin rows in {} from one template", self.marks(pinned));
        let mut feet = pinned.iter().map(|id| foot(*id));
        let first = feet.next();
        if feet.all(|foot| Some(foot) == first) {
            return vec![format!("{rows}, with the template always on the bottom end")];
        }
        let mut lines =
            vec![format!("{rows}, measured from the lower edge of the shelves' opening")];
        let tape = self.piece.tape();
        let mut hosts: BTreeMap<PartId, Vec<PartId>> = BTreeMap::new();
        for joint in shelves {
            hosts.entry(joint.part).or_default().push(joint.into);
        }
        let mut told: BTreeSet<(OpeningId, Vec<(Length, PartId)>)> = BTreeSet::new();
        for joint in shelves {
            let Some(shelf) = self.parts.get(joint.part) else { continue };
            let opening = shelf.opening().and_then(|id| self.piece.opening(id));
            let Some(opening) = opening else { continue };
            let beside = hosts.get(&joint.part).into_iter().flatten();
            let mut boards: Vec<(Length, PartId)> =
                beside.filter_map(|host| Some((opening.y - foot(*host)?, *host))).collect();
            boards.sort_unstable();
            if !told.insert((opening.id, boards.clone())) {
                continue;
            }
            let above = boards.iter().map(|(above, board)| {
                let mark = if above.is_measured() { MEASURED } else { "" };
                let (above, board) = (tape.text(*above), self.marks(&[*board]));
                format!("{above}{mark} above the bottom end of {board}")
            });
            let above: Vec<String> = above.collect();
            lines.push(format!("it lies {}", above.join(", ")));
        }
        lines
    }

    /// Solid parts wider than a board are glued up first of all.
    pub(super) fn blanks(&mut self) {
        let wide = self.ids(|part| gluing::is_glued_up(self.piece, part));
        if wide.is_empty() {
            return;
        }
        let tape = self.piece.tape();
        let mut lines: Vec<String> = Vec::new();
        for (id, part) in wide.iter().filter_map(|id| Some((*id, self.parts.get(*id)?))) {
            let (mark, boards) = (self.marks(&[id]), gluing::boards(self.piece, part));
            lines.push(format!(
                "{mark}: {} boards edge to edge, each {} wide before it is jointed",
                boards.count,
                tape.text(tape.up(boards.wide))
            ));
        }
        let wider = |id: &&PartId| {
            let part = self.parts.get(**id);
            part.is_some_and(|part| part.rough.width > self.piece.shop.planer)
        };
        let wider: Vec<PartId> = wide.iter().filter(wider).copied().collect();
        if !wider.is_empty() {
            let planer = self.piece.shop.planer;
            let width = |id: &PartId| self.parts.get(*id).map(|part| part.rough.width);
            let parts = match wider.iter().filter_map(width).all(|wide| wide <= planer.twice()) {
                true => "halves",
                false => "parts",
            };
            lines.push(format!(
                "the planer takes no more than {}: glue up {} in {parts} that pass it, and plane them when they have cured",
                tape.text(planer),
                self.marks(&wider)
            ));
            lines.push(format!("then glue the {parts} to each other with their faces flush, and scrape that last joint by hand"));
        }
        lines.push("keep the good faces on one side, with the grain falling the same way, so that each blank planes one way".to_owned());
        let (clamp, cure) = (self.piece.shop.clamp, self.piece.shop.cure);
        lines.push(format!(
            "leave them oversize; plane, sand, and cut them to size only when the glue has cured {cure}"
        ));
        let minutes = minutes::BLANK * wide.len() as i64;
        // One after the other: the shop must have clamps for the longest.
        let panels = || {
            let of = |id: &PartId| self.parts.get(*id).map(|part| (*id, part));
            wide.iter()
                .filter_map(of)
                .map(|(id, part)| gluing::Load(vec![gluing::panel(self.piece, id, part)]))
        };
        let clamps = panels().map(|load| load.clamps()).max().unwrap_or(0);
        let spreading = panels().map(|load| load.spreading()).max().unwrap_or_default();
        let after = self.ready(&wide);
        let task = self.add(Task {
            lines,
            parts: wide.clone(),
            hands: hands(minutes),
            wait: cure.max(clamp),
            waits_for: if cure > clamp { Wait::Cure(clamp) } else { Wait::Clamps },
            clamps,
            spreading,
            blanks: wide.iter().map(|id| (*id, Blank::Edges)).collect(),
            after,
            ..Task::new("Glue up the wide blanks".into(), Work::Glue)
        });
        self.makes(&wide, task);
    }

    /// Parts thicker than their stock are laminated before anything is cut
    /// into them.
    pub(super) fn layers(&mut self) {
        let thick = self.ids(|part| gluing::layers(self.piece, part) > 1);
        if thick.is_empty() {
            return;
        }
        let tape = self.piece.tape();
        let mut lines: Vec<String> = Vec::new();
        let mut later = "sand";
        for (id, part) in thick.iter().filter_map(|id| Some((*id, self.parts.get(*id)?))) {
            let layers = gluing::layers(self.piece, part);
            let (mark, thick) = (self.marks(&[id]), tape.text(part.thickness.length));
            let solid = self.piece.stock(part.stock).is_none_or(Stock::is_solid);
            if solid {
                later = "plane, sand,";
            }
            lines.push(match solid {
                true => format!(
                    "{mark}: laminate from {layers} layers face to face, then plane to {thick} thick"
                ),
                // A sheet is as thick as it was bought, and so are its layers.
                false => format!("{mark}: laminate from {layers} layers face to face, {thick} thick in all"),
            });
        }
        // One after the other: the shop must have clamps for the largest.
        let of = |id: &PartId| self.parts.get(*id).map(gluing::laminated);
        let clamps = thick.iter().filter_map(of).max().unwrap_or(0);
        let (clamp, cure) = (self.piece.shop.clamp, self.piece.shop.cure);
        lines.push(format!(
            "clamp one after the other with cauls over the whole face; {later} and cut them to size only when the glue has cured {cure}"
        ));
        let after = self.ready(&thick);
        let task = self.add(Task {
            lines,
            parts: thick.clone(),
            hands: hands(minutes::LAYERS * thick.len() as i64),
            wait: cure.max(clamp),
            waits_for: if cure > clamp { Wait::Cure(clamp) } else { Wait::Clamps },
            clamps,
            blanks: thick.iter().map(|id| (*id, Blank::Layers)).collect(),
            after,
            ..Task::new("Glue up the thick parts from layers".into(), Work::Glue)
        });
        self.makes(&thick, task);
    }

    /// Glued-up parts come to their size when the glue has cured; a front, a drawer
    /// box and a back wait for what they go into.
    pub(super) fn sized(&mut self) {
        let blanks = self.ids(|part| self.is_blank(part) && stage(part) == Stage::First);
        if blanks.is_empty() {
            return;
        }
        let lines = vec![format!(
            "flatten and plane each blank, then rip and crosscut it to the size on the cut list: {}",
            self.marks(&blanks)
        )];
        let minutes = minutes::CUT_PART * blanks.len() as i64;
        let after = self.ready(&blanks);
        let title = "Bring the glued-up blanks to size".into();
        let task = self.simple(title, lines, blanks.clone(), Work::Machine, minutes, after);
        self.mills(task, blanks.clone());
        self.makes(&blanks, task);
    }

    /// True for a part that no single board of its stock gives.
    fn is_blank(&self, part: &Part) -> bool {
        gluing::is_blank(self.piece, part)
    }

    /// What can't be reached once it is in its groove or rabbet.
    pub(super) fn prefinish(&mut self) {
        let Some((used, finish)) = self.finish_used() else { return };
        let hidden = self.ids(is_finished_early);
        if hidden.is_empty() {
            return;
        }
        let marks = self.marks(&hidden);
        // A sheet keeps its size; it is only out of reach.
        let moves = hidden.iter().filter_map(|id| self.parts.get(*id));
        let moves = moves.filter_map(|part| self.piece.stock(part.stock)).any(Stock::is_solid);
        let why = match moves {
            true => ", edges too, because bare wood would show when a panel shrinks",
            false => ", because no brush gets into a groove or rabbet later",
        };
        let coat = Coat::of(finish, finish::of_parts(self.piece, self.parts, &hidden));
        let mut lines =
            vec![format!("put the first coat of {} on {marks}{why}", finish.kind.word())];
        lines.extend(amount(finish, &coat));
        let title = "Finish what you can't reach later".into();
        // A board is planed to fit its groove before it has finish on it.
        let after = self.ready(&self.ids(|part| matches!(part.assembly, Assembly::Front(_))));
        let coating = Coating {
            finish: used,
            number: 1,
            areas: Vec::new(),
            coat,
            parts: hidden.clone(),
            before: Vec::new(),
        };
        let coated = self.coat(finish, title, lines, coating, after);
        self.makes(&hidden, coated);
    }
}
