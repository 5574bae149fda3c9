//! What is taken from the stock, glued up, and brought to size.

use super::compare::Tolerance;
use super::figures::said;
use super::packet::{Axis, BreakDown, Form, GlueUp, Mill, Way};
use super::play::Play;

impl Play<'_> {
    pub(super) fn break_down(&mut self, index: usize, work: &BreakDown) {
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
}
