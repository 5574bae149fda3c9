//! Laying on countertops, when the cases stand and hold.

use crate::diagnostics::{counted, listed};
use crate::model::JointKind;
use crate::parts::{JointSort, Role};
use crate::plans::countertops::{self, Laid, Past, Row};
use crate::plans::operations::{Doing, House};
use crate::trade::Carry;

use super::{Maker, Usual, Work};

impl Maker<'_, '_> {
    /// Every countertop is laid on and screwed down from below, before doors and drawers
    /// stand in the way, and those of cases that stand on others when these stand; the task
    /// after which they lie.
    pub(super) fn laid_on(&mut self, after: usize, stacked: bool) -> usize {
        let mut all = countertops::laid(self.work);
        let case = |own: &Laid| self.piece.case(self.parts.get(own.part)?.case);
        all.retain(|own| case(own).is_some_and(|case| case.on.is_some() == stacked));
        if all.is_empty() {
            return after;
        }
        let over = match self.piece.tops.iter().any(|top| top.row.first != top.row.last) {
            true => "the tops of the cases",
            false => "the top of the case",
        };
        let mut lines = vec![format!(
            "lay a straightedge over {over}, front to back and end to end; plane down what stands proud, and shim what lies low"
        )];
        for own in &all {
            lines.extend(self.lay(own));
        }
        let count = all.len();
        let plural = if count == 1 { "" } else { "s" };
        let efforts = vec![Usual::Countertop.times(count)];
        let title = format!("Lay on the countertop{plural}");
        let task = self.simple(title, lines, Vec::new(), Work::Fit, efforts, vec![after]);
        self.does(task, all.into_iter().map(|own| Doing::House(House::Lay(own))).collect());
        let is_top = |part| {
            let top = self.parts.get(part).filter(|own| own.role == Role::Countertop);
            let case = top.and_then(|top| self.piece.case(top.case));
            case.is_some_and(|case| case.on.is_some() == stacked)
        };
        let joints = self
            .picked(|joint| joint.sort == JointSort::Wood(JointKind::Screw) && is_top(joint.part));
        self.closes(task, joints);
        task
    }

    /// `4 screws through round holes in FST, 2 from its front edge`.
    fn row(&self, row: &Row) -> String {
        let board = self.parts.get(row.board);
        let edge = board.map_or(String::new(), |board| board.face_name(row.edge));
        format!(
            "{} through {} in {}, {} from its {edge}",
            counted(row.screws, "screw"),
            if row.screws == 1 { "a round hole" } else { "round holes" },
            self.parts.mark(row.board),
            self.text(row.at)
        )
    }

    /// `its left end 3/4 past LS`.
    fn past(&self, past: &Past) -> String {
        let what = match past.side {
            None => "front edge".to_owned(),
            Some(side) => format!("{} end", side.word()),
        };
        let board = self.parts.mark(past.board);
        match (past.by.is_zero(), past.by.is_positive()) {
            (true, _) => format!("its {what} even with {board}"),
            (false, true) => format!("its {what} {} past {board}", self.text(past.by)),
            (false, false) => format!("its {what} {} short of {board}", self.text(past.by.abs())),
        }
    }

    fn lay(&self, own: &Laid) -> Vec<String> {
        let mark = self.parts.mark(own.part);
        let mut lines = Vec::new();
        match own.carry {
            Carry::People(1) => {}
            Carry::People(count) => lines.push(format!("carry {mark} with {count} people, on edge")),
            Carry::Gear => lines.push(format!("{mark} is too heavy for three people: bring it on a dolly, on edge, and lift it with a panel lift")),
        }
        for (side, most) in &own.ends {
            lines.push(format!(
                "scribe the {} end of {mark} to the wall; up to {} of it may come off, and what is planed is sealed with finish again",
                side.word(),
                self.text(*most)
            ));
        }
        // Off the wall its front edge stands where that leaves it.
        let set = own.past.iter().filter(|past| own.free.is_none() || past.side.is_some());
        let set: Vec<String> = set.map(|past| self.past(past)).collect();
        match set.is_empty() {
            true => lines.push(format!("lay {mark} in its place")),
            false => lines.push(format!("lay {mark} with {}", listed(&set))),
        }
        if let Some(free) = own.free {
            let front = own.past.iter().find(|past| past.side.is_none());
            let front = front.map_or(String::new(), |past| {
                format!("; lay it with {}, and then bring it forward by this gap", self.past(past))
            });
            lines.push(format!(
                "keep {mark} {} off the wall behind it, because it swells that much toward the wall in the dampest air; if a strip covers this gap, fasten that strip to the wall, not to {mark}{front}",
                self.text(free)
            ));
        }
        let slotted = own.boards(true);
        let round: Vec<String> =
            own.rows.iter().filter(|row| !row.slotted).map(|row| self.row(row)).collect();
        let round = listed(&round);
        if slotted.is_empty() {
            lines.push(format!("screw {mark} down from below, evenly spaced and clear of the uprights: {round}; set a stop on the bit for the holes in {mark}"));
        } else {
            let slotted = self.marks(&slotted);
            lines.push(format!("screw {mark} down from below: {round}, in line with the slots, which holds it fast; then through the middle of each slot, with a washer under the head; set a stop on the bit for the holes in {mark}"));
            lines.push(format!("turn the screws in the slots of {slotted} home until the washers touch, and then a quarter turn back: {mark} must slide under them"));
            lines.push(format!("use no glue under {mark}, or it splits or pulls the case apart"));
        }
        lines
    }
}
