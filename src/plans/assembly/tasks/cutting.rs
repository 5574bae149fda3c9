//! Cutting parts and joints; what is glued up or finished before them.

use std::collections::{BTreeMap, BTreeSet};

use crate::measure::{Length, MEASURED};
use crate::model::{OpeningId, Stock};
use crate::parts::{Bore, Direction, FeatureKind, Joint, JointSort, Part, PartId, Role};
use crate::plans::assembly::{Blank, gluing};

use super::{Maker, Task, Wait, Work, hands, minutes};

/// True for a front that is one board: it comes to size in its opening.
fn is_front_board(part: &Part) -> bool {
    part.role == Role::Slab
}

impl Maker<'_, '_> {
    pub(super) fn cut(&mut self) -> usize {
        let all = self.ids(|_| true);
        let minutes = minutes::CUT_PART * all.len() as i64;
        let lines = vec![
            "cut everything on the cut list, and mark each piece before it leaves the saw"
                .to_owned(),
        ];
        let title = "Cut the parts".into();
        let cut = self.simple(title, lines, Vec::new(), Work::Machine, minutes, Vec::new());
        let whole = self.ids(|part| !self.is_blank(part) && !is_front_board(part));
        if let Some(task) = self.tasks.get_mut(cut) {
            task.breaks.clone_from(&all);
        }
        self.mills(cut, whole);
        self.makes(&all, cut);
        cut
    }

    /// Shelf pins and hinge plates are bored for while the boards lie flat.
    pub(super) fn pins(&mut self) {
        let shelves: Vec<&Joint> =
            self.parts.joints.iter().filter(|j| j.sort == JointSort::Laid).collect();
        let mut pinned: Vec<PartId> = shelves.iter().map(|joint| joint.into).collect();
        pinned.sort_unstable();
        pinned.dedup();
        let plated =
            self.ids(|part| part.features.iter().any(|f| f.kind == FeatureKind::Bore(Bore::Plate)));
        let mut lines = Vec::new();
        if !pinned.is_empty() {
            lines.extend(self.templates(&shelves, &pinned));
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
        lines.push("keep the good faces on one side, with the grain falling the same way, so that each blank planes one way".to_owned());
        lines.push(
            "leave them oversize; plane them and cut them to size only when the glue has cured"
                .to_owned(),
        );
        let (clamp, cure) = (self.piece.shop.clamp, self.piece.shop.cure);
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
        for (id, part) in thick.iter().filter_map(|id| Some((*id, self.parts.get(*id)?))) {
            let layers = gluing::layers(self.piece, part);
            let (mark, thick) = (self.marks(&[id]), tape.text(part.thickness.length));
            lines.push(format!(
                "{mark}: laminate from {layers} layers face to face, then plane to {thick} thick"
            ));
        }
        lines.push(
            "clamp all round with cauls, and cut to size only when the glue has cured".to_owned(),
        );
        let (clamp, cure) = (self.piece.shop.clamp, self.piece.shop.cure);
        let after = self.ready(&thick);
        let task = self.add(Task {
            lines,
            parts: thick.clone(),
            hands: hands(minutes::LAYERS * thick.len() as i64),
            wait: cure.max(clamp),
            waits_for: if cure > clamp { Wait::Cure(clamp) } else { Wait::Clamps },
            blanks: thick.iter().map(|id| (*id, Blank::Layers)).collect(),
            after,
            ..Task::new("Glue up the thick parts from layers".into(), Work::Glue)
        });
        self.makes(&thick, task);
    }

    /// Glued-up parts come to their size when the glue has cured; a front waits
    /// for its opening.
    pub(super) fn sized(&mut self) {
        let blanks = self.ids(|part| self.is_blank(part) && !is_front_board(part));
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
        gluing::is_glued_up(self.piece, part) || gluing::layers(self.piece, part) > 1
    }

    /// What can't be reached once it is in its groove or rabbet.
    pub(super) fn prefinish(&mut self) {
        let Some(finish) = self.finish_used() else { return };
        let hidden = self.ids(|part| matches!(part.role, Role::FrontPanel | Role::Back));
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
        let lines = vec![format!("put the first coat of {} on {marks}{why}", finish.kind.word())];
        let title = "Finish what you can't reach later".into();
        let after = self.ready(&hidden);
        let coated = self.coat(finish, title, lines, hidden.clone(), after);
        self.makes(&hidden, coated);
    }
}
