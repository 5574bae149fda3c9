//! What is taken from the stock, glued up, and brought to size.

use super::board::Board;
use super::compare::Tolerance;
use super::figures::said;
use super::packet::{Axis, BreakDown, Figure, Form, GlueUp, Mill, Setting, StickOf, Way};
use super::planks;
use super::play::Play;
use super::sawing;
use super::wood::NOTHING;

/// No machine holds a solid board that is shorter than this, in millimeters (common
/// practice, no source: 12 in or 300 mm).
const HELD: f64 = 300.0;
/// No piece shorter than this is led over a bit, in millimeters (common practice, no source:
/// 6 in or 150 mm).
const ROUTED: f64 = 150.0;
/// What the saw takes with each piece that it crosscuts, in millimeters (common practice,
/// no source: 1/8 in).
const KERF: f64 = 3.0;

/// What is no wider is no strip that a saw takes off, in millimeters (common practice, no
/// source: 3/4 in).
const STRIP: f64 = 19.1;

impl Play<'_> {
    pub(super) fn break_down(&mut self, index: usize, work: &BreakDown) {
        let Some(part) = self.find(index, &work.part) else { return };
        self.take(index, (part, &work.part), &work.stock, &work.size, work.pieces);
    }

    /// All of them are that stick, until they are crosscut from it.
    pub(super) fn stick(&mut self, index: usize, work: &StickOf) {
        self.sticks.push(work.size[0].print);
        for mark in &work.parts {
            let Some(part) = self.find(index, mark) else { continue };
            self.take(index, (part, &work.parts[0]), &work.stock, &work.size, work.pieces);
            self.boards[part].stick = Some(self.sticks.len() - 1);
        }
    }

    /// A board is planed and ripped where the machine holds it.
    fn is_held(&self, part: usize) -> bool {
        let board = &self.boards[part];
        let stock = self.packet.stocks.iter().find(|stock| stock.name == board.part.stock);
        let sheet = stock.is_some_and(|stock| stock.form == Form::Sheet);
        sheet || board.size[0] >= self.packet.job.unit.mm(HELD) - NOTHING
    }

    /// What is left of a stick when one more part is crosscut from it.
    fn crosscut(&mut self, index: usize, part: usize, long: f64) {
        let Some(stick) = self.boards[part].stick else { return };
        let left = self.sticks[stick];
        if long > left + self.packet.job.tape.exact / 2.0 {
            self.about(index, part, &format!("its stick has only {} left", said(left)));
        }
        self.sticks[stick] = left - long - self.packet.job.unit.mm(KERF);
    }

    /// What is cut in a stick is cut in all of it, so that every piece of it has the cut; and
    /// what is not is cut in pieces that have their length.
    pub(super) fn whole_sticks(&mut self, index: usize, work: &Setting) {
        for piece in &work.pieces {
            let Some(part) = self.find(index, &piece.part) else { continue };
            let board = &self.boards[part];
            let is_crosscut = board.milled[0];
            let Some(stick) = board.stick.filter(|_| piece.in_stick) else {
                if piece.in_stick {
                    self.about(index, part, "it comes from no stick");
                } else if board.stick.is_some() && !is_crosscut {
                    self.about(index, part, "it is still in its stick");
                }
                continue;
            };
            if is_crosscut {
                self.about(index, part, "its stick is crosscut already");
            } else if !(board.milled[1] && board.milled[2]) {
                self.about(index, part, "its stick is still rough");
            }
            // How often each piece of the stick is cut here: a stick goes over once for all.
            let times = |other: &Board<'_>| {
                let own = work.pieces.iter().filter(|own| own.in_stick);
                own.filter(|own| own.part == other.part.mark).count()
            };
            let own = times(&self.boards[part]);
            let others = self.boards.iter().filter(|other| other.stick == Some(stick));
            let without: Vec<String> =
                others.filter(|other| times(other) != own).map(Board::name).collect();
            for other in without {
                self.about(
                    index,
                    part,
                    &format!("{other} comes from the same stick, and has not the cut"),
                );
            }
        }
    }

    /// A piece so short is not held beside a bit.
    pub(super) fn is_long_enough(&mut self, index: usize, part: usize) {
        let long = self.boards[part].size[0];
        if self.boards[part].pieces.is_some() && long < self.packet.job.unit.mm(ROUTED) - NOTHING {
            self.about(index, part, &format!("{} is too short to rout", said(long)));
        }
    }

    fn take(
        &mut self,
        index: usize,
        (part, first): (usize, &str),
        of: &str,
        size: &[Figure; 3],
        pieces: u32,
    ) {
        if self.boards[part].pieces.is_some() {
            self.about(index, part, "it is there already");
            return;
        }
        if of != self.boards[part].part.stock {
            self.about(index, part, &format!("it is not made of {of}"));
        }
        match self.packet.stocks.iter().find(|own| own.name == of) {
            None => self.about(index, part, &format!("there is no stock {of}")),
            Some(stock) if stock.form == Form::Sheet => {
                let off = (size[2].exact - stock.thickness.exact).abs();
                if off > Tolerance::of(self.packet).mating {
                    let thick = said(stock.thickness.exact);
                    self.about(index, part, &format!("{of} is {thick} thick"));
                }
            }
            Some(stock) if stock.form == Form::Glass => {
                self.about(index, part, "no saw cuts glass");
            }
            Some(_) => {}
        }
        let stock = self.packet.stocks.iter().find(|own| own.name == of);
        let sheet = stock.filter(|stock| stock.form == Form::Sheet);
        if let Some(stock) = sheet
            && !self.read.contains(&stock.name)
        {
            self.about(index, part, "its sheet is sawn and was never measured");
        }
        if sheet.is_none() && !self.rested.contains(of) {
            self.about(index, part, "nobody read how damp its wood is");
        }
        let marked = self.boards[part].part.mark.clone();
        // What is cut already is sawn from no sheet any more.
        let is_first = sheet.is_some() && first == marked && !self.boards[part].part.cut;
        if let Some(roughs) = is_first.then(|| self.roughs(&marked, of)).flatten() {
            let asked = [size[0].exact, size[1].exact];
            let slack = self.packet.job.tape.exact / 2.0;
            // Only a back, which is seen from inside, may lie either way.
            let own = &self.boards[part].part;
            let has_grain = own.grain == "length" && own.name != "back";
            let wrong = sawing::wrong_of(&roughs, asked, pieces as usize, has_grain, slack);
            if let Some(wrong) = wrong {
                self.about(index, part, &wrong);
            }
        }
        let is_solid = sheet.is_none() && first == marked && !self.boards[part].part.cut;
        if let Some(roughs) = is_solid.then(|| self.planks_for(&marked)).flatten() {
            let asked = [size[0].exact, size[1].exact];
            let over = (self.packet.job.tape.exact, self.packet.job.unit.mm(STRIP));
            if let Some(wrong) = planks::wrong_of(&roughs, (of, asked), pieces as usize, over) {
                self.about(index, part, &wrong);
            }
        }
        let odd = if part.is_multiple_of(2) { self.off.odd } else { 0.0 };
        let more = sheet.map_or(0.0, |stock| self.sheet(stock) - stock.thickness.exact + odd);
        let board = &mut self.boards[part];
        board.pieces = Some(pieces);
        board.size = size.each_ref().map(|size| size.print);
        board.exact = size.each_ref().map(|size| size.exact);
        (board.size[2], board.exact[2]) = (board.size[2] + more, board.exact[2] + more);
    }

    pub(super) fn glue_up(&mut self, index: usize, work: &GlueUp) {
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

    pub(super) fn mill(&mut self, index: usize, work: &Mill) {
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
            let wrong = if self.is_glass(part) {
                Some("no machine mills glass".to_owned())
            } else if axis == 2 && sheet && !board.layered {
                Some("a sheet is not planed".to_owned())
            } else if !(board.cuts.is_empty() || axis == 0 && board.is_channeled_stick()) {
                Some("its joints are cut already".to_owned())
            } else if board.closed.is_some() {
                Some("it is built in already".to_owned())
            } else if work.to.print > board.size[axis] + self.packet.job.tape.exact / 2.0 {
                Some(format!("it has only {}", said(board.size[axis])))
            } else if axis != 0 && !self.is_held(part) {
                Some(format!("no machine holds a board {} long", said(board.size[0])))
            } else {
                None
            };
            if let Some(wrong) = wrong {
                self.about(index, part, &wrong);
            }
            if axis == 0 {
                self.crosscut(index, part, work.to.print);
            }
            let sawn = if axis == 2 { 0.0 } else { self.off.kerf };
            let off = self.off.fence(index) - sawn;
            let board = &mut self.boards[part];
            board.size[axis] = work.to.print + off;
            board.exact[axis] = work.to.exact + off;
            board.milled[axis] = true;
            if axis == 0 {
                // What was cut in the stick runs out at both ends of each piece of it.
                for cut in &mut board.cuts {
                    cut.space[0] = [0.0, board.exact[0]];
                }
            }
            board.read &= axis != 2;
        }
    }
}
