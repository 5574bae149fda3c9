//! The maker at work: one operation after the other, each on the wood that is
//! there.

use std::collections::{BTreeMap, BTreeSet};

use super::board::{Board, Cut, Sort, whole};
use super::compare::{self, Tolerance};
use super::figures::{printed, said};
use super::gates::Stop;
use super::joining::{Fixed, Room};
use super::mating::{Mated, mated};
use super::off::Off;
use super::packet::{
    Axis, BreakDown, DrawnPart, Face, Form, GlueUp, How, Join, Joint, JointKind, Mill, Move,
    Operation, Packet, Setting, Side, Stock, Way, Work,
};
use super::wood::NOTHING;
use super::{Report, bores, driver, lines, opening, season, shapes, strokes};

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
    off: Off,
    /// How thick each sheet is that was entered as measured.
    sheets: &'p BTreeMap<String, f64>,
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
    fixed: Fixed,
    /// The same without what only hangs, slides, or lies.
    built: Fixed,
    /// Doors by now on their hinges: they stand open while something goes in.
    hung: Vec<usize>,
    /// In which step each joint was closed.
    closed: Vec<Option<u32>>,
    pub(super) complaints: Vec<String>,
    thin_walls: Vec<String>,
}

/// `step 3, set-up 5`.
fn name(packet: &Packet, index: usize) -> String {
    let Some(operation) = packet.operations.get(index) else { return String::new() };
    let what = match &operation.work {
        Work::BreakDown(_) => "break down".to_owned(),
        Work::GlueUp(_) => "glue up".to_owned(),
        Work::Mill(_) => "mill".to_owned(),
        Work::Verify(_) => "verify".to_owned(),
        Work::Setting(setting) => format!("set-up {}", setting.sheet),
        Work::Bore(bore) => format!("bore the {}", bore.what),
        Work::Shape(shape) => format!("{:?}", shape.what).to_lowercase(),
        Work::Join(_) => "join".to_owned(),
        Work::Bench(_) | Work::Finish(_) | Work::Install(_) => "bench".to_owned(),
    };
    format!("step {}, {what}", operation.step)
}

/// Joints that fix a part for good; the others let it out again.
fn is_lasting(kind: JointKind) -> bool {
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
        let mut play = Self {
            packet,
            boards,
            off,
            sheets,
            read: BTreeSet::new(),
            rested: BTreeSet::new(),
            stops: Vec::new(),
            mended: 0,
            later: Vec::new(),
            fixed,
            built,
            hung: Vec::new(),
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
            Work::GlueUp(work) => self.glue_up(index, work),
            Work::Mill(work) => self.mill(index, work),
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
                self.cut(index, part, cuts);
            }
            Work::Shape(work) => {
                let Some(part) = self.find(index, &work.part) else { return };
                let cut = shapes::cut(index, work, &self.boards[part], self.off.slack());
                self.cut(index, part, cut.map(|cut| vec![cut]));
            }
            Work::Join(work) => self.join(index, step, work),
            Work::Bench(work) | Work::Finish(work) | Work::Install(work) => {
                for mark in &work.parts {
                    self.find(index, mark);
                }
            }
        }
    }

    fn break_down(&mut self, index: usize, work: &BreakDown) {
        let Some(part) = self.find(index, &work.part) else { return };
        if self.boards[part].pieces.is_some() {
            self.about(index, part, "it is there already");
            return;
        }
        if work.stock != self.boards[part].part.stock {
            self.about(index, part, &format!("it is not made of {}", work.stock));
        }
        match self.packet.stocks.iter().find(|stock| stock.name == work.stock) {
            None => self.about(index, part, &format!("there is no stock {}", work.stock)),
            Some(stock) if stock.form == Form::Sheet => {
                let off = (work.size[2].exact - stock.thickness.exact).abs();
                if off > Tolerance::of(self.packet).mating {
                    let thick = said(stock.thickness.exact);
                    self.about(index, part, &format!("{} is {thick} thick", work.stock));
                }
            }
            Some(_) => {}
        }
        let stock = self.packet.stocks.iter().find(|stock| stock.name == work.stock);
        let sheet = stock.filter(|stock| stock.form == Form::Sheet);
        if let Some(stock) = sheet
            && !self.read.contains(&stock.name)
        {
            self.about(index, part, "its sheet is sawn and was never measured");
        }
        if sheet.is_none() && !self.rested.contains(&work.stock) {
            self.about(index, part, "nobody read how damp its wood is");
        }
        let odd = if part % 2 == 0 { self.off.odd } else { 0.0 };
        let more = sheet.map_or(0.0, |stock| self.sheet(stock) - stock.thickness.exact + odd);
        let board = &mut self.boards[part];
        board.pieces = Some(work.pieces);
        board.size = work.size.map(|size| size.print);
        board.exact = work.size.map(|size| size.exact);
        (board.size[2], board.exact[2]) = (board.size[2] + more, board.exact[2] + more);
    }

    fn glue_up(&mut self, index: usize, work: &GlueUp) {
        let Some(part) = self.find(index, &work.part) else { return };
        let board = &self.boards[part];
        let Some(pieces) = board.pieces else {
            self.about(index, part, "it is not broken down yet");
            return;
        };
        let axis = match work.way {
            Way::EdgeToEdge => 1,
            Way::FaceToFace => 2,
        };
        let come_to = board.size[axis] * f64::from(pieces);
        let least = work.size[axis].print;
        let untouched = board.cuts.is_empty() && board.closed.is_none();
        if pieces < 2 {
            self.about(index, part, "there is only one piece of it");
        } else if come_to < least - self.packet.job.tape.exact {
            self.about(index, part, &format!("its pieces come to {}", said(come_to)));
        }
        if !untouched {
            self.about(index, part, "it is cut or built in already");
        }
        let board = &mut self.boards[part];
        board.pieces = Some(1);
        board.layered = work.way == Way::FaceToFace;
        // The blank is as large as its pieces come to, at least what is asked.
        let exact = board.exact[axis] * f64::from(pieces);
        board.size = work.size.map(|size| size.print);
        board.exact = work.size.map(|size| size.exact);
        (board.size[axis], board.exact[axis]) = (come_to, exact);
    }

    fn mill(&mut self, index: usize, work: &Mill) {
        let axis = match work.axis {
            Axis::Length => 0,
            Axis::Width => 1,
            Axis::Thickness => 2,
        };
        for mark in &work.parts {
            let Some(part) = self.find(index, mark) else { continue };
            if !self.is_whole(index, part) {
                continue;
            }
            let board = &self.boards[part];
            let stock = self.packet.stocks.iter().find(|stock| stock.name == board.part.stock);
            let sheet = stock.is_some_and(|stock| stock.form == Form::Sheet);
            let wrong = if axis == 2 && sheet && !board.layered {
                Some("a sheet is not planed".to_owned())
            } else if !board.cuts.is_empty() {
                Some("its joints are cut already".to_owned())
            } else if board.closed.is_some() {
                Some("it is built in already".to_owned())
            } else if work.to.print > board.size[axis] + self.packet.job.tape.exact / 2.0 {
                Some(format!("it has only {}", said(board.size[axis])))
            } else {
                None
            };
            if let Some(wrong) = wrong {
                self.about(index, part, &wrong);
            }
            let sawn = if axis == 2 { 0.0 } else { self.off.kerf };
            let off = self.off.fence(index) - sawn;
            let board = &mut self.boards[part];
            board.size[axis] = work.to.print + off;
            board.exact[axis] = work.to.exact + off;
            board.milled[axis] = true;
            board.read &= axis != 2;
        }
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
        for piece in &work.pieces {
            let Some(part) = self.find(index, &piece.part) else { continue };
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
        match cuts {
            Err(wrong) => self.about(index, part, &wrong),
            Ok(cuts) => {
                let round = |cut: &Cut| matches!(cut.sort, Sort::Bore | Sort::Flute);
                let closed = self.boards[part].closed;
                if let Some(step) = closed
                    && !(cuts.iter().all(round) && self.is_loose(part))
                {
                    self.about(index, part, &format!("it is built in since step {step}"));
                }
                self.boards[part].cuts.extend(cuts);
            }
        }
    }

    /// True for what lies on the bench, such as a door that is glued up: it
    /// stands on no floor, and what still holds it lets it out again.
    fn is_loose(&self, part: usize) -> bool {
        let own = self.built.with(&[part]);
        let lands = own.iter().any(|part| self.stands(*part));
        let held = self.packet.joints.iter().any(|joint| {
            let ends = [&joint.part, &joint.into].map(|mark| {
                let found = self.boards.iter().position(|board| board.part.mark == *mark);
                found.is_some_and(|part| own.contains(&part))
            });
            ends[0] != ends[1] && is_lasting(joint.kind)
        });
        !lands && !held
    }

    /// True for a part that reaches the floor.
    fn stands(&self, part: usize) -> bool {
        self.boards[part].drawn.at[1].exact.abs() <= NOTHING
    }

    fn join(&mut self, index: usize, step: u32, work: &Join) {
        let mut there: Vec<usize> = Vec::new();
        // How many were there after each move.
        let mut after = Vec::new();
        for (number, own) in work.moves.iter().enumerate() {
            self.moved(index, number, own, &mut there);
            after.push(there.len());
        }
        let mut done: Vec<(usize, usize, bool)> = Vec::new();
        let mut hung = Vec::new();
        for number in &work.joints {
            let Some(joint) = self.packet.joints.get(*number) else {
                self.complain(index, &format!("there is no joint {number}"));
                continue;
            };
            if let Some(step) = self.closed[*number] {
                let pair = format!("{} and {}", joint.part, joint.into);
                self.complain(index, &format!("{pair} were joined in step {step}"));
            }
            self.closed[*number] = Some(step);
            if let JointKind::Hung | JointKind::Slid | JointKind::FrontFixed = joint.kind {
                let own = work.moves.iter().find(|own| own.parts.contains(&joint.part));
                let last = own.and_then(|own| own.legs.last());
                if last.is_some_and(|leg| leg.from != Side::Front) {
                    self.complain(index, &format!("{} belongs in from the front", joint.part));
                }
            }
            if let Some((part, into)) = self.closes(index, joint, &there) {
                self.driven(index, joint, [part, into], &there, &after);
                done.push((part, into, is_lasting(joint.kind)));
                if joint.kind == JointKind::Hung {
                    hung.push(part);
                }
            }
        }
        for (part, into, lasts) in done {
            self.fixed.join(part, into);
            if lasts {
                self.built.join(part, into);
                self.boards[part].closed.get_or_insert(step);
                self.boards[into].closed.get_or_insert(step);
            }
        }
        self.hung.extend(self.built.with(&hung));
        if let Some(square) = &work.square {
            let [a, b] = square.sides.map(|side| side.exact);
            let most = Tolerance::of(self.packet).free + self.packet.job.unit.mm(0.01);
            let true_one = a.hypot(b);
            let read = printed(&square.diagonal);
            if read.is_none_or(|read| (read - true_one).abs() > most) {
                let said = said(true_one);
                self.complain(index, &format!("the diagonal is {said}, not {}", square.diagonal));
            }
        }
    }

    /// Brings parts in.
    fn moved(&mut self, index: usize, number: usize, own: &Move, there: &mut Vec<usize>) {
        let mut parts = Vec::new();
        for mark in &own.parts {
            let Some(part) = self.find(index, mark) else { continue };
            if self.is_whole(index, part) {
                parts.push(part);
            }
        }
        for part in self.built.with(&parts) {
            if !parts.contains(&part) {
                self.about(index, part, "it is fixed to what is moved and is not named");
            }
        }
        let parts = self.fixed.with(&parts);
        if let Some(part) = parts.iter().find(|part| there.contains(part)).copied() {
            self.about(index, part, "it is there already");
            return;
        }
        let what = own.parts.join(", ");
        if number > 0 && own.legs.is_empty() && own.how.is_none() {
            self.complain(index, &format!("{what}: nothing says from where"));
        }
        if number == 0 && !own.legs.is_empty() {
            self.complain(index, &format!("{what}: it lies there and comes in all the same"));
        }
        if own.legs.iter().skip(1).any(|leg| leg.by.is_none_or(|by| by.exact <= NOTHING)) {
            self.complain(index, &format!("{what}: nothing says how far it is pushed"));
        }
        let mut room = Room::new(self.packet, &self.boards, self.tolerance());
        let standing: Vec<usize> =
            there.iter().copied().filter(|part| !self.hung.contains(part)).collect();
        let mut hits = Vec::new();
        for part in parts.iter().copied().filter(|_| number > 0) {
            if own.how == Some(How::Tilted) {
                let side = own.legs.first().map_or(Side::Front, |leg| leg.from);
                hits.extend(room.stuck(part, &standing, side).map(|stuck| (part, stuck)));
                continue;
            }
            for fixed in &standing {
                let hit = room.hit(part, *fixed, &own.legs);
                let from = own.legs.first().map_or(String::new(), |leg| {
                    format!(" on its way from {:?}", leg.from).to_lowercase()
                });
                hits.extend(hit.map(|hit| (part, format!("{hit}{from}"))));
            }
        }
        for (part, hit) in hits {
            self.about(index, part, &hit);
        }
        there.extend(parts);
    }

    /// Both halves of a joint, if they meet.
    fn closes(&mut self, index: usize, joint: &Joint, there: &[usize]) -> Option<(usize, usize)> {
        let part = self.find(index, &joint.part)?;
        let into = self.find(index, &joint.into)?;
        for half in [part, into] {
            if !there.contains(&half) {
                self.about(index, half, "it is not among what is brought together");
                return None;
            }
        }
        let mut room = Room::new(self.packet, &self.boards, self.tolerance());
        if let Some(parted) = room.parted(joint, part, into) {
            self.complain(index, &parted);
        }
        Some((part, into))
    }

    /// Screws are driven as soon as both their boards are there.
    fn driven(
        &mut self,
        index: usize,
        joint: &Joint,
        pair: [usize; 2],
        there: &[usize],
        after: &[usize],
    ) {
        let last = pair.iter().filter_map(|half| there.iter().position(|own| own == half)).max();
        let count = after.iter().find(|count| last.is_some_and(|last| last < **count));
        let there = &there[..count.copied().unwrap_or(there.len())];
        // A door stands open.
        let leaf = |part: &usize| {
            let mark = &self.boards[*part].part.mark;
            self.packet.opens.doors.iter().any(|door| door.parts.contains(mark))
        };
        let shut: Vec<usize> = there
            .iter()
            .copied()
            .filter(|part| self.fixed.are(*part, pair[0]) || !leaf(part))
            .collect();
        let tolerance = self.tolerance();
        let wrong = driver::blocked(self.packet, &self.boards, joint, pair, &shut, tolerance);
        if let Some(wrong) = wrong {
            self.complain(index, &wrong);
        }
    }

    /// A place may be off by half a mark, and a width by as much as it fits.
    fn tolerance(&self) -> f64 {
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
            if !self.fixed.with(&[part]).iter().any(|other| self.stands(*other)) {
                self.complaints.push(format!("{}: nothing holds it up", board.name()));
            }
        }
        for own in std::mem::take(&mut self.later) {
            self.fits(&own);
        }
        self.complaints.extend(compare::agreeing(self.packet, &self.boards, &self.off));
        self.complaints.extend(lines::wrong(self.packet, &self.boards));
        self.overlaps();
        let stuck = opening::stuck(self.packet, &self.boards, self.tolerance());
        self.complaints.extend(stuck);
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
