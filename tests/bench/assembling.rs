//! Parts brought together in the order of their moves, and joints closed: what the
//! maker has in hand, laid over what must meet.

use super::compare::Tolerance;
use super::driver;
use super::figures::{printed, said};
use super::joining::Room;
use super::packet::{How, Join, Joint, JointKind, Move, Side};
use super::play::{Play, is_lasting};
use super::wood::NOTHING;

impl Play<'_> {
    pub(super) fn join(&mut self, index: usize, step: u32, work: &Join) {
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
            // What goes into a door opens with it.
            if lasts && self.hung.contains(&into) {
                self.hung.push(part);
            }
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
        // A door off its hinges comes without its case.
        let is_off = parts.iter().all(|part| self.off_hinges.contains(part));
        let fixed = if is_off { &self.built } else { &self.fixed };
        let parts = fixed.with(&parts);
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
        if joint.glued && self.is_glass(part) {
            self.about(index, part, "glue holds a pane fast, and it breaks");
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
        // A door stands open, and a drawer is pulled out.
        let leaf = |part: &usize| {
            let mark = &self.boards[*part].part.mark;
            let opens = &self.packet.opens;
            opens.doors.iter().any(|door| door.parts.contains(mark))
                || opens.drawers.iter().any(|drawer| drawer.parts.contains(mark))
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
}
