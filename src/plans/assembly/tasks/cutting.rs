//! Cutting parts and joints; what is glued up or finished before them.

use std::collections::{BTreeMap, BTreeSet};

use crate::diagnostics::listed;
use crate::measure::{Length, MEASURED};
use crate::model::{Finish, FinishId, KeepOutId, OpeningId, Stock};
use crate::parts::{Assembly, Bore, Direction, FeatureKind, Joint, JointSort, Part, PartId, Role};
use crate::plans::assembly::{gluing, is_broken_down_first, is_sawn_later};
use crate::plans::finish::{self, Coat};
use crate::plans::fitting::PinRows;
use crate::plans::fitting::pins::RowBoard;
use crate::plans::operations::{Coating, Doing, Rest, Sand, Why, rough_pieces};
use crate::plans::sticks::Stick;
use crate::trade;

use super::finishing::{amount, sanded};
use super::{Maker, Stage, Usual, Work, stage};

impl Maker<'_, '_> {
    pub(super) fn cut(&mut self) -> usize {
        let (early, sized) = (
            self.ids(|part| self.is_broken_down_first(part)),
            self.ids(|part| {
                stage(part) == Stage::First && !self.is_blank(part) && part.strips.is_empty()
            }),
        );
        let mut lines = self.found_in_house();
        lines.push("mark every piece before it leaves the saw".to_owned());
        lines.push(format!("cut the parts of the {} to the sizes on the cut list", self.built()));
        if early.iter().any(|id| self.parts.get(*id).is_some_and(|part| self.is_blank(part))) {
            lines.push("saw the boards for wide and thick parts rough; they are glued up before they come to size".to_owned());
        }
        let edged: Vec<PartId> = early.iter().copied().filter(|id| self.is_edged(*id)).collect();
        if !edged.is_empty() {
            lines.push(format!(
                "saw {} to the core size on the cut list; their edges are covered in a step of its own",
                self.marks(&edged)
            ));
        }
        let later = self.ids(|part| stage(part) != Stage::First && self.is_broken_down_first(part));
        if let Some(rough) = self.kinds(&later) {
            lines.push(format!("saw the boards of the {rough} to their rough size only; they come to size when the case stands and is measured"));
        }
        let has_plan = |part: &Part| {
            self.piece.stock(part.stock).is_some_and(|stock| stock.planned().is_some())
        };
        if self.parts.iter().any(|(_, part)| has_plan(part)) {
            lines.push("saw the sheets by the sheet plans, cut by cut".to_owned());
        }
        let is_solid_left = |(id, part): (PartId, &Part)| {
            let stock = self.piece.stock(part.stock);
            stock.is_some_and(Stock::is_solid) && !self.work.ledger().is_cut(id)
        };
        if self.parts.iter().any(is_solid_left) {
            lines.push("saw the boards by the board plan, cut by cut".to_owned());
        }
        let kept = |planned: bool| {
            self.kinds(
                &self.ids(|part| is_sawn_later(self.piece, part) && has_plan(part) == planned),
            )
        };
        if let Some(rough) = kept(true) {
            lines.push(format!(
                "leave the pieces for the {rough} as large as the sheet plans show; they come to size when the case stands and is measured"
            ));
        }
        if let Some(kept) = kept(false) {
            lines.push(format!(
                "keep sheet for the {kept}, and saw none of it yet; it comes to size when the case stands and is measured"
            ));
        }
        let all = early;
        let mut does = vec![Doing::Rest(Rest { why: Why::Acclimate, long: None })];
        let keep_outs = (0..self.piece.site.keep_outs.len()).map(KeepOutId);
        does.extend(keep_outs.map(Doing::Find));
        does.extend(self.piece.site.baseboard.as_ref().map(|_| Doing::FindBaseboard));
        does.extend((0..self.work.fitting().spacers.len()).map(Doing::Spacer));
        lines.extend(self.sticks());
        let solid = |part: &Part| self.piece.stock(part.stock).is_some_and(Stock::is_solid);
        let seen = |unit: &Assembly| matches!(unit, Assembly::Frame(_) | Assembly::Front(_));
        if self.parts.iter().any(|(_, part)| solid(part) && seen(&part.assembly)) {
            lines.push("plane an offcut of each solid stock along with its parts: the test cuts of their set-ups are made in it".to_owned());
        }
        let efforts = vec![Usual::Sawing.times(all.len())];
        let title = "Break down the stock and cut the case parts".into();
        let cut = self.simple(title, lines, Vec::new(), Work::Machine, efforts, Vec::new());
        self.breaks(cut, &all);
        self.mills(cut, sized);
        self.does(cut, does);
        self.makes(&all, cut);
        cut
    }

    pub(super) fn is_broken_down_first(&self, part: &Part) -> bool {
        is_broken_down_first(self.piece, part)
    }

    /// The rough sticks that short parts are crosscut from.
    fn sticks(&self) -> Option<String> {
        let tape = self.piece.tape();
        let sawn = self.work.sticks().all.iter().filter_map(|stick| {
            let part = self.parts.get(*stick.parts.first()?)?;
            let stock = self.piece.stock(part.stock)?;
            let rough = rough_pieces(self.work, part);
            let [_, wide, _] = rough.size;
            let count =
                if rough.pieces > 1 { format!("{} of ", rough.pieces) } else { String::new() };
            let (long, wide) = (self.text(stick.long), self.text(tape.up(wide)));
            Some(format!("{count}{long} x {wide} of {} for {}", stock.name, self.stick_told(stick)))
        });
        let sawn: Vec<String> = sawn.collect();
        let shorter = self.text(trade::shortest_planed(tape.unit));
        (!sawn.is_empty()).then(|| {
            format!(
                "pieces that are rough shorter than {shorter} are not milled one by one: saw these sticks for them, plane and rip each stick as one, and crosscut it last: {}",
                sawn.join("; ")
            )
        })
    }

    /// The sticks that come to their size with the parts of a stage.
    pub(super) fn sticks_planed(&self, from: Stage) -> Option<String> {
        let is_here = |id: &PartId| self.parts.get(*id).is_some_and(|part| stage(part) == from);
        let sticks = self.work.sticks().all.iter().filter(|own| own.parts.iter().any(is_here));
        let told: Vec<String> = sticks.map(|own| self.stick_told(own)).collect();
        (!told.is_empty()).then(|| {
            format!("plane and rip each stick as one, and crosscut it last: {}", told.join("; "))
        })
    }

    /// `ST-TR, ST-BR, which stays whole until set-up 3 is made in it`
    fn stick_told(&self, stick: &Stick) -> String {
        let marks = self.marks(&stick.parts);
        let numbers = self.work.set_ups_in(stick);
        match numbers.as_slice() {
            [] => marks,
            [only] => format!("{marks}, which stays whole until set-up {only} is made in it"),
            many => {
                format!("{marks}, which stays whole until set-ups {} are made in it", listed(many))
            }
        }
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

    /// What kinds of parts these are, in words.
    pub(super) fn kinds(&self, ids: &[PartId]) -> Option<String> {
        let mut names: Vec<&str> = Vec::new();
        for part in ids.iter().filter_map(|id| self.parts.get(*id)) {
            let name = match (part.role, &part.assembly) {
                (Role::Back, _) if self.piece.cases.len() == 1 => "back",
                (Role::Back, _) => "backs",
                (Role::FrontPanel, _) => "panels of the fronts",
                (Role::DrawerBottom, _) => "drawer bottoms",
                (Role::Packer, _) => "packers",
                (Role::HingeBlock, _) => "hinge blocks",
                (Role::HoldingBlock, _) => "holding blocks",
                (Role::Guide, _) => "guides",
                (Role::Kicker, _) => "kickers",
                (Role::Runner, _) => "runners",
                (Role::Stop, _) => "drawer stops",
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
        // A board takes a row at the front and one at the back, a post one of them.
        let is_post = |id: &&PartId| {
            self.parts.get(**id).is_some_and(|part| matches!(part.role, Role::Post(_)))
        };
        let count = 2 * pinned.len() - pinned.iter().filter(is_post).count();
        let efforts = vec![Usual::Row.times(count + plated.len())];
        let mut boards = pinned;
        boards.extend(plated);
        boards.sort_unstable();
        boards.dedup();
        let after = self.ready(&boards);
        let task = self.simple(title.into(), lines, boards.clone(), Work::Bench, efforts, after);
        let plates = self.features(&boards, |f| f.kind == FeatureKind::Bore(Bore::Plate));
        self.cuts(task, plates);
        let rows = (0..).zip(self.work.pin_rows()).flat_map(|(index, rows)| {
            let boards = (0..).zip(&rows.boards);
            let here = boards.filter(|(_, board)| stage(board.part) == from);
            here.map(move |(board, _)| Doing::Rows(index, board))
        });
        let rows: Vec<Doing> = rows.collect();
        self.does(task, rows);
        self.makes(&boards, task);
    }

    /// Round holes that the maker asks for, through these boards.
    pub(super) fn round_holes(&mut self, boards: &[PartId]) -> Option<usize> {
        let holes = self.features(boards, |own| own.kind == FeatureKind::Bore(Bore::Round));
        let mut bored: Vec<PartId> = holes.iter().map(|(id, _)| *id).collect();
        bored.dedup();
        if bored.is_empty() {
            return None;
        }
        let (holes_of, centers) = match holes.len() {
            1 => ("hole", "the center"),
            _ => ("holes", "each center"),
        };
        let lines = vec![
            format!(
                "mark {centers} on the face that the cut list names, and bore {} from there",
                self.marks(&bored)
            ),
            "clamp scrap to the other face, or stop when the point comes through and finish from the other side; otherwise the face splinters".to_owned(),
            "clamp the board down: a wide bit or a hole saw turns it out of your hands".to_owned(),
        ];
        let efforts = vec![Usual::Hole.times(holes.len())];
        let after = self.ready(&bored);
        let title = format!("Bore the round {holes_of}");
        let task = self.simple(title, lines, bored.clone(), Work::Bench, efforts, after);
        self.cuts(task, holes);
        self.makes(&bored, task);
        Some(task)
    }

    /// Rows of pins that face each other must be level, though the boards may
    /// end at different heights: an end on the floor, a partition on the bottom.
    fn templates(&self, shelves: &[&Joint], pinned: &[PartId]) -> Vec<String> {
        let foot = |id: PartId| self.parts.get(id).map(|part| part.extent(Direction::Y).0);
        let rows = format!("bore the pin rows in {} from one template", self.marks(pinned));
        let mut feet = pinned.iter().map(|id| foot(*id));
        let first = feet.next();
        if feet.all(|foot| Some(foot) == first) {
            let notched = self.features(pinned, |own| own.kind == FeatureKind::Notch);
            let whole = match notched.is_empty() {
                true => "",
                false => ", before the notches are cut out of it",
            };
            let edge = self.template_edge(pinned);
            return vec![format!(
                "{rows}, with the template always on the bottom end{edge}{whole}"
            )];
        }
        let edge = self.template_edge(pinned);
        let mut lines =
            vec![format!("{rows}, measured from the lower edge of the shelves' opening{edge}")];
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
                let (above, board) = (self.text(*above), self.marks(&[*board]));
                format!("{above}{mark} above the bottom end of {board}")
            });
            let above: Vec<String> = above.collect();
            lines.push(format!("it lies {}", above.join(", ")));
        }
        lines
    }

    /// Which edge of these boards a template for their rows lies on.
    fn template_edge(&self, pinned: &[PartId]) -> &'static str {
        let is_here = |part: &Part| {
            pinned.iter().any(|id| self.parts.get(*id).is_some_and(|own| std::ptr::eq(own, part)))
        };
        let rows = self.work.pin_rows().iter();
        let rows = rows.filter(|rows| rows.boards.iter().any(|board| is_here(board.part)));
        let rows: Vec<&PinRows<'_>> = rows.collect();
        if rows.iter().all(|own| own.boards.iter().all(RowBoard::is_post)) {
            return " and on the face side of each post, with one setting for the front posts and one for the back posts";
        }
        let mut alike: Vec<_> = rows.into_iter().map(PinRows::alike).collect();
        alike.dedup();
        match alike.as_slice() {
            [Some((true, _))] => " and on the back edge",
            [Some((false, _))] => " and on the front edge",
            all if all.iter().all(Option::is_some) => {
                ", and set for each opening to the edge that the fitting sheet names"
            }
            _ => {
                ", and set anew on each board, since the rows lie at different distances from the edges"
            }
        }
    }

    /// Glued-up parts come to their size when the glue has cured; a front, a drawer
    /// box and a back wait for what they go into.
    pub(super) fn sized(&mut self) {
        let blanks = self.ids(|part| self.is_blank(part) && stage(part) == Stage::First);
        if blanks.is_empty() {
            return;
        }
        let wide = self.wider_than_planer(&blanks);
        let (in_parts, whole): (Vec<PartId>, Vec<PartId>) =
            blanks.iter().partition(|id| wide.iter().any(|(own, _)| own == *id));
        let mut lines = Vec::new();
        if !whole.is_empty() {
            lines.push(format!(
                "flatten and plane each blank, then rip and crosscut it to the size on the cut list: {}",
                self.marks(&whole)
            ));
        }
        lines.extend(self.scraped(&in_parts));
        if !in_parts.is_empty() {
            lines.push(format!(
                "rip and crosscut {} to the size on the cut list",
                self.marks(&in_parts)
            ));
        }
        let efforts = vec![Usual::Sawing.times(blanks.len())];
        let after = self.ready(&blanks);
        let title = "Bring the glued-up blanks to size".into();
        let task = self.simple(title, lines, blanks.clone(), Work::Machine, efforts, after);
        self.mills(task, blanks.clone());
        self.makes(&blanks, task);
    }

    /// True for a part that no single board of its stock gives.
    fn is_blank(&self, part: &Part) -> bool {
        gluing::is_blank(self.piece, part)
    }

    /// What can't be reached once it is in its groove or rabbet: the panels of ends, which
    /// are glued up with their cases, or those of fronts.
    pub(super) fn prefinish(&mut self, of_ends: bool) {
        let is_of_end = |part: &Part| part.role.end_side().is_some();
        for (used, finish) in self.finishes() {
            let mut hidden = self.early();
            hidden.retain(|id| {
                self.parts.get(*id).is_some_and(|own| is_of_end(own) == of_ends)
                    && self.has_finish(*used, *id)
            });
            if !hidden.is_empty() {
                self.prefinish_with((*used, finish), hidden, of_ends);
            }
        }
    }

    fn prefinish_with(
        &mut self,
        (used, finish): (FinishId, &Finish),
        hidden: Vec<PartId>,
        of_ends: bool,
    ) {
        let is_of_end = |part: &Part| part.role.end_side().is_some();
        let marks = self.marks(&hidden);
        // A sheet keeps its size; it is only out of reach.
        let moves = hidden.iter().filter_map(|id| self.parts.get(*id));
        let moves = moves.filter_map(|part| self.piece.stock(part.stock)).any(Stock::is_solid);
        let why = match moves {
            true => ", edges too, because bare wood would show when a panel shrinks",
            false => ", because no brush gets into a groove or rabbet later",
        };
        let coat = Coat::of(finish, finish::of_parts(self.piece, self.parts, &hidden));
        let known = trade::finish_named(finish.kind.slug());
        let woods = self.woods(hidden.iter().copied());
        let (grits, sheets_from) = known.map_or((&[][..], None), |kind| woods.grits(kind.sanding));
        let sand = match known.map(|kind| sanded(kind.sanding, woods)) {
            Some(how) => format!("before any finish, and with the grain, {how}: {marks}"),
            None => format!("sand {marks} first, with the grain"),
        };
        let cured = self.piece.shop.cure;
        let mut lines = vec![
            sand,
            format!("where one is glued up, its glue must have cured {cured} before you sand it"),
            format!("put the first coat of {} on {marks}{why}", finish.kind.word()),
        ];
        lines.extend(amount(finish, &coat, self.piece.tape()));
        let title = "Finish what you can't reach later".into();
        // A board is planed to fit its groove before it has finish on it.
        let after = self.ready(&self.ids(|part| match of_ends {
            true => is_of_end(part),
            false => matches!(part.assembly, Assembly::Front(_)),
        }));
        let coating = Coating {
            finish: used,
            number: 1,
            areas: Vec::new(),
            coat,
            parts: hidden.clone(),
            before: Vec::new(),
            bare: Vec::new(),
        };
        let coated = self.coat(finish, title, lines, coating, after);
        if let Some(task) = self.tasks.get_mut(coated) {
            task.does.insert(0, Doing::Sand(Sand { grits, sheets_from, cured }));
            task.sands = true;
        }
        self.makes(&hidden, coated);
    }
}
