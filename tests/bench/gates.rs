//! What the maker measures, and what is done where it is off.

use super::board::Board;
use super::compare::Tolerance;
use super::figures::{printed, said};
use super::mating::Mated;
use super::packet::{Form, Moisture, Reading, Remedy, Rest, Verify};
use super::play::Play;
use super::wood::NOTHING;

/// No caliper reading is finer than this: 0.02 mm (common practice, no source).
const FINEST: f64 = 0.02;

/// A sheet that is not as thick as the papers have it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Stop {
    pub(super) sheet: String,
    /// As a caliper reads it.
    pub(super) thick: f64,
}

impl Play<'_> {
    /// Measures what is there, and mends what is off.
    pub(super) fn verify(&mut self, index: usize, reading: &Reading) {
        match reading {
            Reading::Thickness(work) => self.thickness(index, work),
            Reading::Moisture(work) => self.moisture(index, work),
        }
    }

    /// Wood that is too damp or too dry rests until it is not.
    fn moisture(&mut self, index: usize, work: &Moisture) {
        // Wood in a house is never drier or damper than this (Wood Handbook, ch. 13,
        // the moisture of wood indoors: 4 to 13 percent).
        if !(4.0..=13.0).contains(&work.percent.0) {
            self.complain(index, &format!("no wood is milled at {} %", said(work.percent.0)));
        }
        // As near as a meter reads, and less than what the gaps are reckoned for.
        if !(0.5..=1.5).contains(&work.within.0) {
            self.complain(index, &format!("within {} points helps nobody", said(work.within.0)));
        }
        for name in &work.stocks {
            let stock = self.packet.stocks.iter().find(|stock| stock.name == *name);
            if stock.is_none_or(|stock| stock.form == Form::Sheet) {
                self.complain(index, &format!("{name} is no solid wood"));
            }
            let Rest::Rest = work.otherwise;
            self.rested.insert(name.clone());
        }
    }

    fn thickness(&mut self, index: usize, work: &Verify) {
        for wrong in self.wrong_reading(work) {
            self.complain(index, &wrong);
        }
        match &work.sheet {
            Some(sheet) => self.measure_sheet(index, work, sheet),
            None => {
                for mark in &work.parts {
                    let Some(part) = self.find(index, mark) else { continue };
                    if self.is_whole(index, part) {
                        self.measure_board(index, work, part);
                    }
                }
            }
        }
    }

    /// A reading that nobody can take, or that helps nobody.
    fn wrong_reading(&self, work: &Verify) -> Vec<String> {
        let mm = |millimeters| self.packet.job.unit.mm(millimeters);
        let mut wrong = Vec::new();
        let within = work.within.exact;
        if within > Tolerance::of(self.packet).mating {
            wrong.push(format!("within {} a cut no longer fits its board", said(within)));
        } else if within < mm(FINEST) {
            wrong.push(format!("no caliper reads so fine as {}", said(within)));
        }
        // Thousandths of an inch, hundredths of a millimeter.
        let fine = printed(&work.fine);
        if fine.is_none_or(|fine| (fine - work.figure.exact).abs() > mm(0.0128)) {
            wrong.push(format!("{} is not {}", work.fine, said(work.figure.exact)));
        }
        let remedies = [work.thicker, work.thinner];
        let entered = remedies.iter().filter(|own| **own == Remedy::Enter).count();
        if work.sheet.is_some() != (entered == 2) || work.sheet.is_none() != (entered == 0) {
            wrong.push("papers are made anew for a whole sheet, and only for that".to_owned());
        }
        if work.thinner == Remedy::Plane {
            wrong.push("no plane makes a thin board thicker".to_owned());
        }
        wrong
    }

    /// Reads the sheets. Where one is off, all the others are read too, and then
    /// the work stops: the papers are made anew.
    fn measure_sheet(&mut self, index: usize, work: &Verify, sheet: &str) {
        let Some(stock) = self.packet.stocks.iter().find(|stock| stock.name == sheet) else {
            self.complain(index, &format!("there is no stock {sheet}"));
            return;
        };
        if stock.form != Form::Sheet {
            self.complain(index, &format!("{sheet} is no sheet"));
        }
        if (stock.thickness.exact - work.figure.exact).abs() > NOTHING {
            let thick = said(stock.thickness.exact);
            self.complain(index, &format!("{sheet} is {thick} thick"));
        }
        for (part, board) in self.boards.iter().enumerate() {
            let named = work.parts.contains(&board.part.mark);
            if named != (board.part.stock == sheet) {
                let name = self.boards[part].name();
                self.complaints.push(format!("{name}: the reading of {sheet} is wrong about it"));
            }
        }
        self.read.insert(sheet.to_owned());
        let thick = self.sheet(stock);
        if (thick - work.figure.exact).abs() <= work.within.exact + NOTHING {
            return;
        }
        if let Some(sawn) = self.boards.iter().find(|board| board.pieces.is_some()) {
            let name = sawn.name();
            self.complain(index, &format!("{name}: it is sawn by the old papers already"));
        }
        self.stops.push(Stop { sheet: sheet.to_owned(), thick: self.caliper(thick) });
    }

    /// Hundredths of a millimeter, thousandths of an inch.
    fn caliper(&self, thick: f64) -> f64 {
        let fine = if self.packet.job.unit.mm(1.0) < 1.0 { 1000.0 } else { 100.0 };
        (thick * fine).round() / fine
    }

    fn measure_board(&mut self, index: usize, work: &Verify, part: usize) {
        let sheet = self.is_sheet(&self.boards[part]);
        if sheet && work.thicker == Remedy::Plane {
            self.about(index, part, "a sheet is not planed");
        }
        if !sheet && work.thicker == Remedy::Replace {
            self.about(index, part, "a solid board is planed to its figure");
        }
        self.boards[part].read = true;
        let off = self.boards[part].exact[2] - work.figure.exact;
        if off.abs() <= work.within.exact + NOTHING {
            return;
        }
        if self.is_nominal() {
            let thick = said(self.boards[part].exact[2]);
            self.about(index, part, &format!("it is {thick} thick"));
            return;
        }
        if self.boards[part].closed.is_some() {
            self.about(index, part, "it is built in, and can't be planed or made again");
            return;
        }
        let remedy = if off > 0.0 { work.thicker } else { work.thinner };
        match remedy {
            // The complaint about it is made above.
            Remedy::Enter => return,
            Remedy::Plane if sheet || off < 0.0 => return,
            Remedy::Plane | Remedy::Replace => {}
        }
        self.mended += 1;
        let board = &mut self.boards[part];
        (board.exact[2], board.size[2]) = (work.figure.exact, work.figure.print);
    }

    /// True for a part that is as thick as its sheet.
    pub(super) fn is_sheet(&self, board: &Board<'_>) -> bool {
        let stock = self.packet.stocks.iter().find(|stock| stock.name == board.part.stock);
        stock.is_some_and(|stock| stock.form == Form::Sheet) && !board.layered
    }

    /// What a cut must take: each board that is there must have been measured, and
    /// must fit.
    pub(super) fn mates(&mut self, index: usize, mated: &[Mated]) {
        for own in mated {
            let board = &self.boards[own.guest];
            if board.pieces.is_some() {
                if !board.read {
                    let wrong = "it is not measured before the cut that takes it";
                    self.about(index, own.guest, wrong);
                }
                self.fits(own);
            } else if !self.is_sheet(board) {
                self.later.push(*own);
            } else if !self.read.contains(&board.part.stock) {
                self.about(index, own.guest, "its sheet was never measured");
            }
        }
    }

    /// How a board goes into its channel.
    pub(super) fn fits(&mut self, own: &Mated) {
        let most = Tolerance::of(self.packet).mating;
        let board = &self.boards[own.guest];
        let off = board.exact[2] - own.wide;
        let how = match () {
            () if off > most => "it doesn't go into its channel",
            () if off < -most => "it is loose in its channel",
            () => return,
        };
        let (name, by) = (board.name(), said(off.abs()));
        self.complaints.push(format!("{name}: {how}, by {by}"));
    }
}
