//! Panes: they come from the glazier at their size, and nothing is done to them.

use super::board::{Sort, whole};
use super::figures::said;
use super::packet::{Form, Glaze, JointKind, Pane, PaneEdges};
use super::play::Play;
use super::wood::{NOTHING, common};

impl Play<'_> {
    /// True for a pane.
    pub(super) fn is_glass(&self, part: usize) -> bool {
        let of = &self.boards[part].part.stock;
        self.packet.stocks.iter().any(|own| own.name == *of && own.form == Form::Glass)
    }

    /// The glazier cuts it to what is printed.
    pub(super) fn pane(&mut self, index: usize, work: &Pane) {
        let Some(part) = self.find(index, &work.part) else { return };
        if self.boards[part].pieces.is_some() {
            self.about(index, part, "it is there already");
            return;
        }
        if work.stock != self.boards[part].part.stock {
            self.about(index, part, &format!("it is not made of {}", work.stock));
        }
        match self.packet.stocks.iter().find(|own| own.name == work.stock) {
            Some(stock) if stock.form == Form::Glass => {
                if (stock.thickness.exact - work.size[2].exact).abs() > NOTHING {
                    let thick = said(stock.thickness.exact);
                    self.about(index, part, &format!("{} is {thick} thick", work.stock));
                }
            }
            Some(_) => self.about(index, part, "no glazier has its stock"),
            None => self.about(index, part, &format!("there is no stock {}", work.stock)),
        }
        let mark = &self.boards[part].part.mark;
        let own = self.packet.joints.iter().filter(|joint| joint.part == *mark);
        let (mut lies, mut open) = (false, Vec::new());
        for joint in own {
            lies |= joint.kind == JointKind::Laid;
            let host = self.boards.iter().find(|board| board.part.mark == joint.into);
            if host.is_some_and(|host| host.closed.is_none()) {
                open.push(joint.into.clone());
            }
        }
        // A pane that is ordered by the drawing does not fit what is made.
        for host in open {
            self.about(index, part, &format!("it is ordered before {host} is built in"));
        }
        if lies != (work.edges == PaneEdges::Polished) {
            self.about(index, part, "hands touch its edges, or a frame hides them");
        }
        let board = &mut self.boards[part];
        board.pieces = Some(1);
        board.size = work.size.each_ref().map(|size| size.print);
        board.exact = work.size.each_ref().map(|size| size.exact);
        board.milled = [true; 3];
    }
}

/// A pane has at least so much room on every side, in millimeters (published for cabinet doors:
/// an eighth of an inch off the width and the height of the rabbet, 3 mm).
const ROOM: f64 = 1.5;
/// A bead holds the edge of a pane by at least this, in millimeters (common practice, no
/// source: 1/8 in).
const HELD: f64 = 3.0;
/// A pin goes so far into the wood behind its bead, in millimeters, and two pins are no farther
/// apart than this (common practice, no source: 3/16 in, 8 in).
const BITE: f64 = 4.7;
const APART: f64 = 204.0;

/// How much of a stretch is left between these.
fn open([from, to]: [f64; 2], taken: &[[f64; 2]]) -> f64 {
    let mut taken = taken.to_vec();
    taken.sort_by(|one, other| one[0].total_cmp(&other[0]));
    let (end, open) = taken.iter().fold((from, 0.0), |(end, open), own| {
        (own[1].clamp(end, to), open + (own[0].min(to) - end).max(0.0))
    });
    open + (to - end)
}

#[test]
fn what_beads_leave_of_an_edge() {
    assert!((open([0.0, 30.0], &[]) - 30.0).abs() < NOTHING);
    // 8 and 22 are the ends of the beads along the rails, and 14 lie between them.
    assert!(open([0.0, 30.0], &[[8.0, 22.0], [-1.0, 8.0], [22.0, 31.0]]).abs() < NOTHING);
    assert!((open([0.0, 30.0], &[[-1.0, 8.0], [22.0, 31.0]]) - 14.0).abs() < NOTHING);
    assert!((open([0.0, 30.0], &[[5.0, 10.0], [6.0, 8.0]]) - 25.0).abs() < NOTHING);
}

impl Play<'_> {
    /// Doors come off their hinges, or a back comes off its case.
    pub(super) fn take_off(&mut self, index: usize, marks: &[String]) {
        for mark in marks {
            if let Some(part) = self.find(index, mark) {
                self.off_hinges.push(part);
            }
        }
    }

    /// A pane goes into its rabbet, and beads over it.
    pub(super) fn glaze(&mut self, index: usize, work: &Glaze) {
        let Some(pane) = self.find(index, &work.pane) else { return };
        if !self.is_glass(pane) {
            self.about(index, pane, "it is no glass");
        }
        self.panes.push(pane);
        let mut wrong = self.room_of(pane, work);
        let space = self.boards[pane].placed(&whole(self.boards[pane].exact));
        // Where beads lie over each of the four sides of the pane, along that side.
        let mut held: [[Vec<[f64; 2]>; 2]; 2] = Default::default();
        for own in &work.beads {
            let Some(bead) = self.find(index, &own.part) else { continue };
            if self.packet.joints.iter().any(|joint| joint.part == own.part && joint.glued) {
                wrong.push(format!("{} is glued, and a broken pane can't be replaced", own.part));
            }
            let board = &self.boards[bead];
            let placed = board.placed(&whole(board.exact));
            let gap = placed[2][0] - space[2][1];
            if !(-self.tolerance()..=self.packet.job.unit.mm(1.0)).contains(&gap) {
                wrong.push(format!("{} lies {} behind the glass", own.part, said(gap)));
            }
            let over = |axis: usize| {
                placed[axis][1].min(space[axis][1]) - placed[axis][0].max(space[axis][0])
            };
            for (axis, sides) in held.iter_mut().enumerate() {
                let other = 1 - axis;
                let at = [space[axis][0], space[axis][1]];
                let lies = over(axis) >= self.packet.job.unit.mm(HELD);
                for (side, at) in sides.iter_mut().zip(at) {
                    if lies && placed[axis][0] <= at && at <= placed[axis][1] {
                        side.push(placed[other]);
                    }
                }
            }
            let bite = work.pin.exact - board.exact[1].max(board.exact[2]);
            if bite < self.packet.job.unit.mm(BITE) {
                wrong.push(format!("the pins of {} go {} into the frame", own.part, said(bite)));
            }
            let apart = board.exact[0] / f64::from(own.pins.max(2) - 1).max(1.0);
            if own.pins < 2 || apart > self.packet.job.unit.mm(APART) {
                wrong.push(format!("{} pins don't hold {}", own.pins, own.part));
            }
        }
        // The ends of one bead hold what the beads square to it leave, in a low light most of it.
        let all = held.iter().enumerate().all(|(axis, sides)| {
            let long = space[1 - axis];
            sides.iter().all(|own| open(long, own) <= 2.0 * self.tolerance())
        });
        if !all {
            wrong.push("no bead holds it at one of its edges".to_owned());
        }
        for what in wrong {
            self.about(index, pane, &what);
        }
    }

    /// The room that the walls of its rabbet leave round a pane.
    fn room_of(&self, pane: usize, work: &Glaze) -> Vec<String> {
        let space = self.boards[pane].placed(&whole(self.boards[pane].exact));
        let mark = &self.boards[pane].part.mark;
        let mut wrong = Vec::new();
        let mut walls = 0;
        for joint in self.packet.joints.iter().filter(|joint| joint.part == *mark) {
            let Some(host) = self.boards.iter().find(|own| own.part.mark == joint.into) else {
                continue;
            };
            let rabbets = host.cuts.iter().filter(|cut| cut.sort == Sort::Glazing);
            let met = rabbets.map(|cut| host.placed(&cut.space));
            let met: Vec<_> = met.filter(|cut| common(cut, &space).is_some()).collect();
            let [rabbet] = met.as_slice() else {
                wrong.push(format!("{} has no rabbet for it", joint.into));
                continue;
            };
            // The wall lies across the board, at the side that looks away from the pane.
            let axis = host.along(1);
            let lower = rabbet[axis][0] < space[axis][0];
            let room = match lower {
                true => space[axis][0] - rabbet[axis][0],
                false => rabbet[axis][1] - space[axis][1],
            };
            walls += 1;
            let tolerance = self.tolerance();
            if room < self.packet.job.unit.mm(ROOM) - tolerance {
                wrong.push(format!("it has {} of room at {}", said(room), joint.into));
            }
            if (room - work.clear.exact).abs() > tolerance {
                let clear = said(work.clear.exact);
                wrong.push(format!("it has {} at {}, not {clear}", said(room), joint.into));
            }
            // It lies on the front lip, and nothing is left of the wood behind it.
            if (rabbet[2][0] - space[2][0]).abs() > tolerance {
                wrong.push(format!("it does not lie on the lip of {}", joint.into));
            }
            let back = host.placed(&whole(host.exact))[2][1];
            if (rabbet[2][1] - back).abs() > tolerance {
                wrong.push(format!("it does not come in past {}", joint.into));
            }
        }
        if walls < 4 {
            wrong.push(format!("{walls} sides of a frame hold it"));
        }
        wrong
    }
}
