//! The maker at work: one operation after the other, each on the wood that is
//! there.

use std::collections::{BTreeMap, BTreeSet};

use super::board::{Board, Cut, Sort, whole};
use super::compare::{self, Tolerance};
use super::figures::said;
use super::gates::Stop;
use super::joining::{Fixed, Room};
use super::mating::{Mated, mated};
use super::off::Off;
use super::packet::{
    Along, DrawnPart, Face, JointKind, Lift, Operation, Packet, Setting, Stock, WallStrip, Work,
};
use super::planks::FromBoard;
use super::sawing::Rough;
use super::wood::{NOTHING, Space, common, difference};
use super::{
    Report, apart, bare, bores, boxes, front_screws, guided, holes, keep_outs, leg_blocks, lines,
    narrow, on_bases, on_legs, opening, pins, planks, plates, pockets, rails, sawing, screws,
    scribing, season, shapes, slides, stacked, stops, strokes,
};

/// Plays a packet through, with wood and machines that are off. `sheets` says how
/// thick a sheet truly is that was measured already.
pub(super) fn play(packet: &Packet, off: Off, sheets: &BTreeMap<String, f64>) -> Report {
    let mut play = Play::new(packet, off.of(packet), sheets);
    let mut step = 0;
    for (index, operation) in packet.operations.iter().enumerate() {
        if operation.step < step {
            play.complain(index, "it comes after a later step");
        }
        step = operation.step;
        // The papers are made anew once all sheets are read.
        if !play.stops.is_empty() && !matches!(operation.work, Work::Verify(_)) {
            let Play { complaints, stops, .. } = play;
            return Report { complaints, stops, ..Report::default() };
        }
        play.operation(index, operation);
    }
    play.end();
    let taken = play.boards.iter().flat_map(|board| {
        let gone = board.cuts.iter().flat_map(|cut| cut.gone(board.exact));
        gone.map(|space| format!("{} {:?}", board.part.mark, space.map(|range| range.map(said))))
    });
    let taken = taken.collect();
    let Play { complaints, thin_walls, mended, .. } = play;
    Report { complaints, thin_walls, taken, mended, stops: Vec::new() }
}

pub(super) struct Play<'p> {
    pub(super) packet: &'p Packet,
    pub(super) boards: Vec<Board<'p>>,
    pub(super) off: Off,
    /// How thick each sheet is that was entered as measured.
    sheets: &'p BTreeMap<String, f64>,
    /// What comes of the sheets, by the part that it is for.
    roughs: BTreeMap<String, Vec<Rough>>,
    /// What comes of the boards.
    planks: planks::Sawn,
    /// How long is what is left of each stick.
    pub(super) sticks: Vec<f64>,
    /// The sheets that were measured.
    pub(super) read: BTreeSet<String>,
    /// Solid wood whose moisture was read; what was off has come to its figure.
    pub(super) rested: BTreeSet<String>,
    /// What stops the work.
    pub(super) stops: Vec<Stop>,
    /// How many boards were planed or made again.
    pub(super) mended: usize,
    /// Solid boards that are made when their channels are cut already.
    pub(super) later: Vec<Mated>,
    pub(super) fixed: Fixed,
    /// The same without what only hangs, slides, or lies.
    pub(super) built: Fixed,
    /// Doors by now on their hinges: they stand open while something goes in.
    pub(super) hung: Vec<usize>,
    /// What was taken off its hinges or its screws again.
    pub(super) off_hinges: Vec<usize>,
    /// Panes that are in their frames.
    pub(super) panes: Vec<usize>,
    /// What the wall screws go through, once they are in.
    walled: Vec<&'p String>,
    /// In which step each joint was closed.
    pub(super) closed: Vec<Option<u32>>,
    pub(super) complaints: Vec<String>,
    thin_walls: Vec<String>,
}

/// `step 3, set-up 5`.
fn name(packet: &Packet, index: usize) -> String {
    let Some(operation) = packet.operations.get(index) else { return String::new() };
    let what = match &operation.work {
        Work::BreakDown(_) => "break down".to_owned(),
        Work::Stick(_) => "stick".to_owned(),
        Work::Measure(_) => "measure".to_owned(),
        Work::Pane(_) => "order glass".to_owned(),
        Work::Glaze(_) => "put in glass".to_owned(),
        Work::Plug(_) => "plug pockets".to_owned(),
        Work::TakeOff(_) => "take off".to_owned(),
        Work::GlueUp(_) => "glue up".to_owned(),
        Work::Mill(_) => "mill".to_owned(),
        Work::Edge(own) => format!("edge the {}", own.face),
        Work::Verify(_) => "verify".to_owned(),
        Work::Setting(setting) => format!("set-up {}", setting.sheet),
        Work::Bore(bore) => format!("bore the {}", bore.what),
        Work::Shape(shape) => format!("{:?}", shape.what).to_lowercase(),
        Work::Join(_) => "join".to_owned(),
        Work::Legs(own) => format!("put legs under {}", own.on),
        Work::LayOn(_) => "lay on".to_owned(),
        Work::SetOn(_) => "set on a case".to_owned(),
        Work::LevelBase(_) => "level the base".to_owned(),
        Work::StandOn(_) => "stand it on its base".to_owned(),
        Work::OnBase(_) => "hold it on its base".to_owned(),
        Work::CoverEnds(_) => "cover the ends".to_owned(),
        Work::Finish(_) => "coat".to_owned(),
        Work::OnWood(_) => "run a drawer on wood".to_owned(),
        Work::Carry {} => "carry it".to_owned(),
        Work::StandApart(own) => format!("set {} by itself", own.case),
        Work::Together(_) => "fix cases to each other".to_owned(),
        Work::WallStrip(_) => "put up a strip".to_owned(),
        Work::Lift(_) => "lift onto a strip".to_owned(),
        Work::Walled(_) => "fix to the wall".to_owned(),
        Work::Rail(_) => "set the rail".to_owned(),
        Work::Stop(_) => "set the stop".to_owned(),
        Work::LegBlock(own) => format!("block {}", own.leg),
        Work::Fasten(_) => "drive the screws".to_owned(),
        Work::ScrewLine(_) => "strike the line of the screws".to_owned(),
        Work::Rows(_) => "bore the rows of pins".to_owned(),
        Work::Hinge(own) => format!("hang {} on hinge {}", own.door, own.number),
        Work::Slides(_) => "set the slides".to_owned(),
        Work::Scribe(_) => "scribe".to_owned(),
        Work::FitFiller(_) => "fit the filler".to_owned(),
        Work::Find(_) => "find in the house".to_owned(),
        Work::CutOut(_) => "cut out".to_owned(),
        Work::ScribeKick(_) => "scribe the kick".to_owned(),
        Work::FitCover(_) => "fit the cover".to_owned(),
        Work::Beside(_) => "beside".to_owned(),
    };
    format!("step {}, {what}", operation.step)
}

/// Joints that fix a part for good; the others let it out again.
pub(super) fn is_lasting(kind: JointKind) -> bool {
    !matches!(kind, JointKind::Hung | JointKind::Slid | JointKind::Laid | JointKind::FrontFixed)
}

impl<'p> Play<'p> {
    fn new(packet: &'p Packet, off: Off, sheets: &'p BTreeMap<String, f64>) -> Self {
        let mut complaints = Vec::new();
        let mut boards = Vec::new();
        for part in &packet.parts {
            let drawn: Option<&DrawnPart> =
                packet.drawn.parts.iter().find(|drawn| drawn.mark == part.mark);
            match drawn {
                Some(drawn) => boards.push(Board::new(part, drawn)),
                None => complaints.push(format!("{}, {} is not drawn", part.mark, part.name)),
            }
        }
        let (fixed, built) = (Fixed::new(boards.len()), Fixed::new(boards.len()));
        let closed = vec![None; packet.joints.len()];
        let sawn = sawing::saw(packet);
        complaints.extend(sawn.complaints);
        let mut planks = planks::saw(packet);
        complaints.append(&mut planks.complaints);
        let mut play = Self {
            packet,
            boards,
            off,
            sheets,
            roughs: sawn.roughs,
            planks,
            sticks: Vec::new(),
            read: BTreeSet::new(),
            rested: BTreeSet::new(),
            stops: Vec::new(),
            mended: 0,
            later: Vec::new(),
            fixed,
            built,
            hung: Vec::new(),
            off_hinges: Vec::new(),
            panes: Vec::new(),
            walled: Vec::new(),
            closed,
            complaints,
            thin_walls: Vec::new(),
        };
        play.names();
        play
    }

    /// True where nothing is off: then nothing stops the work.
    pub(super) fn is_nominal(&self) -> bool {
        self.off.slack() <= NOTHING && self.off.sheet.abs() <= NOTHING
    }

    /// How thick a sheet truly is.
    pub(super) fn sheet(&self, stock: &Stock) -> f64 {
        let entered = self.sheets.get(&stock.name).copied();
        entered.unwrap_or(stock.thickness.exact + self.off.sheet)
    }

    /// Marks and names that can't be told apart, and edges and ends whose names
    /// say another side than the one where they are.
    fn names(&mut self) {
        let sides: [[&[&str]; 2]; 3] =
            [[&["left"], &["right"]], [&["bottom"], &["top"]], [&["front"], &["back"]]];
        let mut wrong = Vec::new();
        for (index, board) in self.boards.iter().enumerate() {
            if self.boards[..index].iter().any(|other| other.part.mark == board.part.mark) {
                wrong.push(format!("{}: another part has its mark", board.name()));
            }
            let names: Vec<&String> = board.part.faces.all().into_iter().flatten().collect();
            for (place, name) in names.iter().enumerate() {
                if names[..place].contains(name) {
                    wrong.push(format!("{}: it has two faces called {name}", board.name()));
                }
                let face = Face { axis: place / 2, is_end: place % 2 == 1 };
                let Some((side, "edge" | "end")) = name.rsplit_once(' ') else { continue };
                let is_side = sides.iter().flatten().any(|words| words.contains(&side));
                let true_side = sides[board.along(face.axis)][usize::from(face.is_end)];
                if is_side && !true_side.contains(&side) {
                    wrong.push(format!("{}: its {name} is on another side", board.name()));
                }
            }
        }
        self.complaints.extend(wrong);
    }

    /// The pieces that the sheets give for a part; `None` where its stock has no plan.
    pub(super) fn roughs(&mut self, mark: &str, stock: &str) -> Option<Vec<Rough>> {
        let is_planned = self.packet.sheets.iter().any(|sheet| sheet.stock == stock);
        is_planned.then(|| self.roughs.remove(mark).unwrap_or_default())
    }

    /// The pieces that the boards give for a part; `None` where there is no plan of boards.
    pub(super) fn planks_for(&mut self, mark: &str) -> Option<Vec<FromBoard>> {
        let is_planned = !self.packet.boards.is_empty();
        is_planned.then(|| self.planks.roughs.remove(mark).unwrap_or_default())
    }

    /// What is left of the piece that a lip is ripped from; `None` where there is no plan of
    /// boards.
    pub(super) fn for_lip(&mut self, mark: &str, edge: &str) -> Option<Option<&mut FromBoard>> {
        if self.packet.boards.is_empty() {
            return None;
        }
        let own = self.planks.lips.remove(&(mark.to_owned(), edge.to_owned()));
        Some(own.and_then(|own| self.planks.for_lips.get_mut(own)))
    }

    pub(super) fn complain(&mut self, operation: usize, what: &str) {
        self.complaints.push(format!("{}: {what}", name(self.packet, operation)));
    }

    pub(super) fn about(&mut self, operation: usize, part: usize, what: &str) {
        let board = self.boards[part].name();
        self.complain(operation, &format!("{board}: {what}"));
    }

    pub(super) fn find(&mut self, operation: usize, mark: &str) -> Option<usize> {
        let found = self.boards.iter().position(|board| board.part.mark == mark);
        if found.is_none() {
            self.complain(operation, &format!("there is no part {mark}"));
        }
        found
    }

    fn operation(&mut self, index: usize, operation: &'p Operation) {
        let step = operation.step;
        match &operation.work {
            Work::BreakDown(work) => self.break_down(index, work),
            Work::Stick(work) => self.stick(index, work),
            // What is made by it is looked at when all is there.
            Work::Measure(_) => {}
            Work::Pane(work) => self.pane(index, work),
            Work::Glaze(work) => self.glaze(index, work),
            Work::Plug(work) => {
                let parts: Vec<usize> =
                    work.parts.iter().filter_map(|mark| self.find(index, mark)).collect();
                for part in parts {
                    // A plug over a screw that is still to be driven helps nobody.
                    if self.boards[part].closed.is_none() {
                        self.about(
                            index,
                            part,
                            "its pocket holes are plugged before their screws are in",
                        );
                    }
                }
            }
            Work::TakeOff(work) => self.take_off(index, &work.parts),
            Work::GlueUp(work) => self.glue_up(index, work),
            Work::Mill(work) => self.mill(index, work),
            Work::Edge(work) => self.edge(index, work),
            Work::Verify(work) => self.verify(index, work),
            Work::Setting(work) => self.setting(index, work),
            Work::Bore(work) => {
                let Some(part) = self.find(index, &work.part) else { return };
                let cuts = bores::cut(index, work, &self.boards[part], self.off.slack());
                let near = cuts
                    .iter()
                    .flat_map(|cuts| bores::too_near(self.packet, work, &self.boards[part], cuts));
                for wrong in near.collect::<Vec<_>>() {
                    self.about(index, part, &wrong);
                }
                match cuts {
                    Ok(cuts) if work.what == bores::HOOK => {
                        for wrong in bores::hooks(self.packet, work, &self.boards[part], &cuts) {
                            self.about(index, part, &wrong);
                        }
                    }
                    cuts => self.cut(index, part, cuts),
                }
            }
            Work::Shape(work) => {
                let Some(part) = self.find(index, &work.part) else { return };
                let cut = shapes::cut(index, work, &self.boards[part], self.off.slack());
                self.cut(index, part, cut.map(|cut| vec![cut]));
            }
            Work::Join(work) => self.join(index, step, work),
            Work::ScribeKick(work) => self.scribe_kick(index, work),
            Work::FitCover(work) => self.fit_cover(index, work),
            // Whether it can move, and what is there to scribe, is looked at when the piece
            // stands.
            Work::LayOn(_)
            | Work::SetOn(_)
            | Work::Scribe(_)
            | Work::FitFiller(_)
            | Work::Find(_)
            | Work::CutOut(_) => {}
            // In which order they come is looked at when the piece stands.
            Work::LevelBase(work) => {
                for mark in &work.parts {
                    self.find(index, mark);
                }
            }
            Work::StandOn(_)
            | Work::Carry {}
            | Work::StandApart(_)
            | Work::Together(_)
            | Work::WallStrip(_) => {}
            Work::CoverEnds(work) => self.cover_ends(index, work),
            // What drawers run on is looked at when the piece stands.
            Work::OnWood(_) => {}
            Work::Finish(work) => {
                if let Some(pane) = self.panes.first().copied() {
                    self.about(index, pane, "a coat goes on when it is in its frame");
                }
                for mark in work.parts.iter().chain(&work.bare) {
                    let part = self.find(index, mark);
                    if let Some(part) = part.filter(|part| self.is_glass(*part)) {
                        self.about(index, part, "no finish goes on glass");
                    }
                }
            }
            Work::Lift(lift) => self.lifted(index, lift),
            Work::Walled(work) => {
                if work.through.iter().any(|mark| self.walled.contains(&mark)) {
                    self.complain(index, "it is on the wall already");
                }
                self.walled.extend(&work.through);
            }
            Work::Legs(work) => {
                if let Some(part) = self.find(index, &work.on)
                    && self.boards[part].closed.is_none()
                {
                    self.complain(index, "its case is not put together yet");
                }
            }
            Work::LegBlock(work) => {
                self.find(index, &work.leg);
                self.find(index, &work.bottom);
            }
            Work::Stop(work) => {
                self.find(index, &work.on);
            }
            Work::Fasten(work) => {
                for held in &work.held {
                    self.find(index, &held.part);
                    for mark in &held.into {
                        self.find(index, mark);
                    }
                }
            }
            Work::ScrewLine(work) => {
                self.find(index, &work.through);
                self.find(index, &work.into);
            }
            // They are looked at when the piece stands.
            Work::Rows(work) => {
                self.find(index, &work.part);
            }
            Work::Hinge(work) => {
                self.find(index, &work.door);
                if let Some(plate) = &work.plate {
                    self.find(index, &plate.part);
                }
            }
            Work::Slides(work) => {
                for carrier in &work.on {
                    self.find(index, &carrier.board);
                }
            }
            Work::Rail(work) => {
                for cup in &work.on {
                    self.find(index, &cup.part);
                }
            }
            Work::Beside(work) | Work::OnBase(work) => {
                for mark in &work.parts {
                    self.find(index, mark);
                }
            }
        }
    }

    /// True where the mark on a strip, struck from the left side of the case below it, is
    /// where the left side of its own case is drawn.
    fn is_at_its_mark(&self, strip: &WallStrip) -> bool {
        let Some(over) = &strip.over else { return true };
        let left = |case: &str| {
            let own = self
                .boards
                .iter()
                .filter(|own| self.is_of(case, &own.part.mark) && own.part.name.contains("left"));
            own.map(|own| own.drawn.at[0].exact).fold(f64::INFINITY, f64::min)
        };
        let apart = left(&strip.case) - left(&over.case);
        (apart - over.left.print).abs() <= self.packet.job.unit.mm(1.0)
    }

    /// A case is lifted onto its strip while nobody holds another, and its screws follow
    /// before anything else is done.
    fn lifted(&mut self, index: usize, lift: &'p Lift) {
        let is_own = |mark: &String| self.is_of(&lift.case, mark);
        let screwed = self.walled.iter().any(|mark| is_own(mark));
        let mut before = self.packet.operations[..index].iter();
        let strip = before.find_map(|own| match &own.work {
            Work::WallStrip(strip) if strip.case == lift.case => Some(strip),
            _ => None,
        });
        let step = self.packet.operations[index].step;
        let held = match self.packet.operations.get(index + 1) {
            Some(Operation { step: next, work: Work::Walled(wall) }) if *next == step => {
                wall.through.iter().any(is_own)
            }
            Some(_) | None => false,
        };
        if screwed {
            self.complain(index, "the wall screws are in before it is lifted");
        }
        match strip {
            Some(strip) if !self.is_at_its_mark(strip) => {
                self.complain(index, "the mark on its strip is elsewhere");
            }
            Some(_) => {}
            None => self.complain(index, "there is no strip to lift it onto"),
        }
        if !held {
            self.complain(index, "somebody has to hold it while other work is done");
        }
    }

    /// True for a part of a case, by its mark.
    fn is_of(&self, case: &str, mark: &str) -> bool {
        let (own, of_run) = (format!("{case}."), format!(".{case}."));
        let is_its = |path: &str| path.starts_with(&own) || path.contains(&of_run);
        let mut boards = self.boards.iter();
        boards.any(|board| board.part.mark == mark && is_its(&board.part.path))
    }

    /// A part that is there and in one piece.
    pub(super) fn is_whole(&mut self, index: usize, part: usize) -> bool {
        match self.boards[part].pieces {
            None => self.about(index, part, "it is not broken down yet"),
            Some(1) => return true,
            Some(_) => self.about(index, part, "it is not glued up yet"),
        }
        false
    }

    fn setting(&mut self, index: usize, work: &Setting) {
        self.whole_sticks(index, work);
        for piece in &work.pieces {
            let Some(part) = self.find(index, &piece.part) else { continue };
            self.is_long_enough(index, part);
            if let Some(wrong) = self.tears(part, piece) {
                self.about(index, part, &wrong);
            }
            let off = self.off.fence(index);
            let routed = strokes::run(self.packet, index, work, piece, &self.boards[part], off);
            for wrong in routed.wrong {
                self.about(index, part, &wrong);
            }
            let taken: Vec<Mated> = routed
                .cuts
                .iter()
                .flat_map(|cut| mated(self.packet, &self.boards, part, cut))
                .collect();
            self.mates(index, &taken);
            self.cut(index, part, Ok(routed.cuts));
        }
    }

    fn cut(&mut self, index: usize, part: usize, cuts: Result<Vec<Cut>, String>) {
        if !self.is_whole(index, part) {
            return;
        }
        if self.is_glass(part) {
            self.about(index, part, "no tool of the shop cuts glass");
        }
        match cuts {
            Err(wrong) => self.about(index, part, &wrong),
            Ok(cuts) => {
                // The pins of a back hold only in its sides, so it is notched in its box.
                let pinned = self.is_pinned(part);
                let round = |cut: &Cut| match cut.sort {
                    Sort::Notch => pinned || self.is_reached(part, cut),
                    own => matches!(own, Sort::Bore | Sort::Flute | Sort::Glazing),
                };
                // A hand drill gets in where the plate's screws are driven.
                let through = matches!(
                    &self.packet.operations[index].work,
                    Work::Bore(bore) if !bore.behind.is_empty()
                );
                let closed = self.boards[part].closed.filter(|_| !through);
                if let Some(step) = closed
                    && !(cuts.iter().all(round) && self.is_loose(part))
                {
                    self.about(index, part, &format!("it is built in since step {step}"));
                }
                self.boards[part].cuts.extend(cuts);
            }
        }
    }

    /// True for a notch right through the free edge of a board that is built in, such as
    /// one for fingers in a door: nothing else lies in it or beside it at that edge.
    fn is_reached(&self, part: usize, cut: &Cut) -> bool {
        let board = &self.boards[part];
        let [_, across, through] = cut.space;
        let is_through = through[0] <= NOTHING && through[1] >= board.exact[2] - NOTHING;
        let ends = [across[0] <= NOTHING, across[1] >= board.exact[1] - NOTHING];
        // As far again out of the board.
        let mut way = cut.space;
        let deep = across[1] - across[0];
        way[1] = if ends[0] { [-deep, across[1]] } else { [across[0], across[1] + deep] };
        let way = board.placed(&way);
        let others = self.built.with(&[part]).into_iter().filter(|other| *other != part);
        let met = |other: usize| {
            let other = &self.boards[other];
            let Some(met) = common(&other.own(&way), &whole(other.exact)) else { return false };
            // Beside a tenon its rail is cut away, by its shoulders and its groove together.
            let gone: Vec<Space> =
                other.cuts.iter().flat_map(|cut| cut.gone(other.exact)).collect();
            difference(&met, &gone, &[met], self.tolerance()).is_some()
        };
        is_through && ends[0] != ends[1] && !others.into_iter().any(met)
    }

    /// True for a board whose ends are dovetailed into others.
    fn is_pinned(&self, part: usize) -> bool {
        let mark = &self.boards[part].part.mark;
        let mut joints = self.packet.joints.iter();
        joints.any(|joint| joint.part == *mark && joint.kind == JointKind::Dovetails)
    }

    /// True for what lies on the bench, such as a door that is glued up: it
    /// stands on no floor, and what still holds it lets it out again.
    pub(super) fn is_loose(&self, part: usize) -> bool {
        let own = self.built.with(&[part]);
        // A front that reaches the floor stands there only once it is on its case.
        let comes_on = self.packet.joints.iter().any(|joint| {
            let is_own = |mark: &String| {
                let found = self.boards.iter().position(|board| board.part.mark == *mark);
                found.is_some_and(|part| own.contains(&part))
            };
            matches!(joint.kind, JointKind::Hung | JointKind::FrontFixed)
                && is_own(&joint.part)
                && !is_own(&joint.into)
        });
        let lands = !comes_on && own.iter().any(|part| self.stands(*part));
        let held = self.packet.joints.iter().any(|joint| {
            let ends = [&joint.part, &joint.into].map(|mark| {
                let found = self.boards.iter().position(|board| board.part.mark == *mark);
                found.is_some_and(|part| own.contains(&part))
            });
            // Glass comes into its frame when all else is done to that.
            let later = matches!(joint.kind, JointKind::Glazed | JointKind::Pinned);
            ends[0] != ends[1] && is_lasting(joint.kind) && !later
        });
        !lands && !held
    }

    /// True for a part that reaches the floor, or a strip on the wall that a case is lifted
    /// onto.
    pub(super) fn stands(&self, part: usize) -> bool {
        self.is_on_floor(part) || self.is_on_strip(part)
    }

    fn is_on_floor(&self, part: usize) -> bool {
        let board = &self.boards[part];
        board.drawn.at[1].exact.abs() <= NOTHING || on_legs::stands(self.packet, board)
    }

    fn is_on_strip(&self, part: usize) -> bool {
        let strips = self.packet.operations.iter().filter_map(|own| match &own.work {
            Work::WallStrip(strip) => Some(strip.up.exact),
            _ => None,
        });
        let foot = self.boards[part].drawn.at[1].exact;
        let wall = (0..self.boards.len()).map(|other| self.rear(other)).fold(f64::MIN, f64::max);
        // A strip stands out from the wall by the thickness of a board.
        let reaches = wall - self.rear(part) < self.packet.job.unit.mm(18.0);
        reaches && strips.into_iter().any(|up| (foot - up).abs() <= NOTHING)
    }

    /// How far back a part reaches.
    fn rear(&self, part: usize) -> f64 {
        let drawn = self.boards[part].drawn;
        let deep = drawn.axes.iter().zip(&drawn.size).find(|(axis, _)| **axis == Along::Z);
        drawn.at[2].exact + deep.map_or(0.0, |(_, size)| size.exact)
    }

    /// True for parts that hang or only stand on others: their lowest one rests on a strip,
    /// or on what they are set on, and screws go through one of them into the wall.
    fn is_walled(&self, parts: &[usize]) -> bool {
        let foot = |part: &&usize| self.boards[**part].drawn.at[1].exact;
        // A panel that is screwed on from below came when they hung.
        let later = |part: &&usize| {
            let mark = &self.boards[**part].part.mark;
            self.packet.operations.iter().any(|own| match &own.work {
                Work::FitCover(cover) => cover.is(mark),
                _ => false,
            })
        };
        let lowest = parts.iter().filter(|part| !later(part));
        let lowest = lowest.min_by(|a, b| foot(a).total_cmp(&foot(b)));
        let screwed = |part: &usize| {
            let mark = &self.boards[*part].part.mark;
            self.walled.contains(&mark)
        };
        let rests = |part: usize| {
            self.is_on_strip(part)
                || stacked::rests(self.packet, &self.boards, part, self.tolerance())
        };
        lowest.is_some_and(|part| rests(*part)) && parts.iter().any(screwed)
    }

    /// A place may be off by half a mark, and a width by as much as it fits.
    pub(super) fn tolerance(&self) -> f64 {
        let tolerance = Tolerance::with(self.packet, &self.off);
        tolerance.free + tolerance.mating
    }

    /// Looks at the piece that came out.
    fn end(&mut self) {
        for (joint, closed) in self.packet.joints.iter().zip(&self.closed) {
            if closed.is_none() {
                self.complaints.push(format!("{} and {} are never joined", joint.part, joint.into));
            }
        }
        for (part, board) in self.boards.iter().enumerate() {
            if board.pieces.is_none() {
                self.complaints.push(format!("{}: it is never made", board.name()));
            }
            let wrong =
                compare::part(self.packet, board, &self.off, &|index| name(self.packet, index));
            self.complaints.extend(wrong.iter().map(|what| format!("{}: {what}", board.name())));
            self.thin_walls.extend(compare::thin_walls(self.packet, board));
            if board.drawn.at[1].exact < -NOTHING {
                self.complaints.push(format!("{}: it stands below the floor", board.name()));
            }
            let all = self.fixed.with(&[part]);
            let on_floor = all.iter().any(|other| self.is_on_floor(*other));
            let all: Vec<usize> = all.into_iter().collect();
            if !on_floor && !self.is_walled(&all) {
                self.complaints.push(format!("{}: nothing holds it up", board.name()));
            }
        }
        for own in std::mem::take(&mut self.later) {
            self.fits(&own);
        }
        self.complaints.extend(compare::agreeing(self.packet, &self.boards, &self.off));
        self.complaints.extend(lines::wrong(self.packet, &self.boards, &self.off));
        self.overlaps();
        let stuck = opening::stuck(self.packet, &self.boards, self.tolerance());
        self.complaints.extend(stuck);
        self.complaints.extend(apart::wrong(self.packet, &self.boards, self.tolerance()));
        self.complaints.extend(stops::wrong(self.packet, &self.boards, self.tolerance()));
        self.complaints.extend(leg_blocks::wrong(self.packet, &self.boards, self.tolerance()));
        self.complaints.extend(on_legs::wrong(self.packet, &self.boards, self.tolerance()));
        self.complaints.extend(slides::wrong(self.packet, &self.boards, self.tolerance()));
        self.complaints.extend(guided::wrong(self.packet, &self.boards, self.tolerance()));
        self.complaints.extend(pins::wrong(self.packet, &self.boards, self.tolerance()));
        self.complaints.extend(plates::covered(self.packet, &self.boards, self.tolerance()));
        self.complaints.extend(screws::wrong(self.packet, &self.boards, self.tolerance()));
        self.complaints.extend(pockets::wrong(self.packet, &self.boards, self.tolerance()));
        self.complaints.extend(pockets::run_over(self.packet, &self.boards, self.tolerance()));
        self.complaints.extend(bores::behind_blocks(self.packet, &self.boards, self.tolerance()));
        self.complaints.extend(front_screws::wrong(self.packet, &self.boards, self.tolerance()));
        self.complaints.extend(rails::wrong(self.packet, &self.boards, self.tolerance()));
        if self.is_nominal() {
            self.complaints.extend(boxes::wrong(self.packet, &self.boards));
        }
        self.complaints.extend(keep_outs::wrong(self.packet, &self.boards, self.tolerance()));
        self.complaints.extend(holes::wrong(self.packet, &self.boards));
        self.complaints.extend(scribing::wrong(self.packet, &self.boards, self.tolerance()));
        self.complaints.extend(bare::wrong(self.packet));
        self.complaints.extend(narrow::wrong(self.packet, &self.boards, self.tolerance()));
        self.complaints.extend(on_bases::wrong(self.packet, &self.boards, self.tolerance()));
        self.complaints.extend(stacked::wrong(self.packet, &self.boards, self.tolerance()));
        let points = self.off.moisture;
        let pinched = season::pinched(self.packet, &self.boards, points, &self.rested);
        self.complaints.extend(pinched);
    }

    /// Two parts in one place.
    fn overlaps(&mut self) {
        let mut room = Room::new(self.packet, &self.boards, self.tolerance());
        let spaces: Vec<_> =
            self.boards.iter().map(|board| board.placed(&whole(board.exact))).collect();
        let mut found = Vec::new();
        for one in 0..self.boards.len() {
            for other in one + 1..self.boards.len() {
                if super::wood::common(&spaces[one], &spaces[other]).is_some()
                    && room.hit(one, other, &[]).is_some()
                {
                    let names = [one, other].map(|part| self.boards[part].name());
                    found.push(format!("{}: it is in the place of {}", names[0], names[1]));
                }
            }
        }
        self.complaints.extend(found);
    }
}
