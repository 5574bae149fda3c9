//! Solid wood that is damper or drier than it was milled: what lies loose in
//! grooves or hangs in an opening must still have its room.

use std::collections::{BTreeMap, BTreeSet};

use super::board::{Board, Sort, whole};
use super::figures::said;
use super::packet::{JointKind, LayOn, Packet, ScrewRow, Work};
use super::screws;
use super::wood::{NOTHING, Space, common};

/// How far wood may be held from moving between two screws: 1/16 in (common practice,
/// no source).
const HELD: f64 = 1.6;

/// A screw of #8 is 4 mm wide, and its usual hole 4.5.
const SCREW: f64 = 4.0;
const SHANK: f64 = 4.5;

/// By so many points of moisture the year takes wood off what it was fixed at (common
/// practice, no source).
const YEAR: f64 = 2.0;

/// How far a countertop may lie from where it is laid by its figures: 2 mm.
const LAID: f64 = 2.0;

/// What lies nearer to a front than this is beside it: 10 mm.
const BESIDE: f64 = 10.0;

/// What has no room, so many points of moisture on. Wood that rested has come to the
/// moisture that it was drawn for.
pub(super) fn pinched(
    packet: &Packet,
    boards: &[Board<'_>],
    points: f64,
    rested: &BTreeSet<String>,
) -> Vec<String> {
    let season = Season { packet, boards, points, rested };
    let mut wrong: Vec<String> =
        (0..boards.len()).filter_map(|panel| season.panel(panel)).collect();
    wrong.extend(season.fronts());
    wrong.extend(season.laid_on());
    wrong.extend(season.set_on());
    wrong.extend(season.screwed());
    wrong
}

struct Season<'a> {
    packet: &'a Packet,
    boards: &'a [Board<'a>],
    points: f64,
    rested: &'a BTreeSet<String>,
}

impl Season<'_> {
    /// How much wider a board is by now.
    fn swells(&self, part: usize) -> f64 {
        let board = &self.boards[part];
        let stocks = self.packet.stocks.iter().filter(|own| !self.rested.contains(&own.name));
        let stock = stocks.into_iter().find(|stock| stock.name == board.part.stock);
        let movement = stock.and_then(|stock| stock.movement).unwrap_or(0.0);
        board.exact[1] * movement / 1e6 * self.points
    }

    fn space(&self, part: usize) -> Space {
        self.boards[part].placed(&whole(self.boards[part].exact))
    }

    fn find(&self, mark: &str) -> Option<usize> {
        self.boards.iter().position(|board| board.part.mark == mark)
    }

    /// A loose panel: damp, it must not reach the floors of both its grooves; dry, it
    /// must not come out of one when it lies in the other.
    fn panel(&self, panel: usize) -> Option<String> {
        let swells = self.swells(panel);
        if swells.abs() <= NOTHING {
            return None;
        }
        let (own, along) = (self.space(panel), self.boards[panel].along(1));
        let mark = &self.boards[panel].part.mark;
        let joints = self.packet.joints.iter();
        let (mut room, mut held) = (Vec::new(), f64::MAX);
        for joint in joints.filter(|own| own.kind == JointKind::Floating && own.part == *mark) {
            let Some(host) = self.find(&joint.into) else { continue };
            let host = &self.boards[host];
            let takes = host.cuts.iter().find(|cut| {
                cut.sort == Sort::Channel
                    && host.along(cut.face.axis) == along
                    && common(&host.placed(&cut.space), &own).is_some()
            });
            let Some(cut) = takes else { continue };
            let groove = host.placed(&cut.space)[along];
            // Its mouth looks toward the panel's middle.
            let lower = groove[0] + groove[1] < own[along][0] + own[along][1];
            let (floor, mouth) = match lower {
                true => (own[along][0] - groove[0], groove[1] - own[along][0]),
                false => (groove[1] - own[along][1], own[along][1] - groove[0]),
            };
            room.push(floor);
            held = held.min(mouth);
        }
        if room.len() < 2 {
            return None;
        }
        let all: f64 = room.iter().sum();
        let name = self.boards[panel].name();
        if swells > all + NOTHING {
            let (swells, all) = (said(swells), said(all));
            return Some(format!("{name}: it swells by {swells} and has {all} in its grooves"));
        }
        let farthest = room.iter().copied().fold(0.0, f64::max);
        (held - farthest + swells <= NOTHING)
            .then(|| format!("{name}: it shrinks by {} and comes out of its groove", said(-swells)))
    }

    /// Countertops that are screwed down from below.
    fn laid_on(&self) -> Vec<String> {
        let mut wrong = Vec::new();
        for operation in &self.packet.operations {
            let Work::LayOn(laid) = &operation.work else { continue };
            let found = self.find(&laid.part).ok_or("there is no such board".to_owned());
            let found = found.and_then(|top| {
                self.lies(top, laid)?;
                self.rides(top, laid)
            });
            wrong.extend(found.err().map(|what| format!("{}: {what}", laid.part)));
        }
        wrong
    }

    /// Cases that stand on countertops: those must slide under them.
    fn set_on(&self) -> Vec<String> {
        let mut wrong = Vec::new();
        for operation in &self.packet.operations {
            let Work::SetOn(set) = &operation.work else { continue };
            let Some(bottom) = set.bottom.as_ref().and_then(|mark| self.find(mark)) else {
                continue;
            };
            let board = &self.boards[bottom];
            for top in set.into.iter().filter_map(|mark| self.find(mark)) {
                let Some(held) = self.held(top) else { continue };
                let strain = self.swells(top) / self.boards[top].exact[1];
                for cut in board.cuts.iter().filter(|cut| cut.sort == Sort::Slot) {
                    let [x, _, z] = board.placed(&cut.space);
                    let moves = (strain * (f64::midpoint(z[0], z[1]) - held)).abs();
                    let room = (z[1] - z[0] - (x[1] - x[0])) / 2.0;
                    if moves > room + NOTHING {
                        let (mark, moves, room) = (&set.case, said(moves), said(room));
                        wrong.push(format!(
                            "{mark}: what it stands on moves {moves} in slots that leave {room}"
                        ));
                    }
                }
            }
        }
        wrong
    }

    /// Fronts of solid wood that are screwed on from behind: the holes under the heads leave
    /// what lies between the outermost screws its room.
    fn screwed(&self) -> Vec<String> {
        let mut all: BTreeMap<usize, (f64, Vec<f64>)> = BTreeMap::new();
        for operation in &self.packet.operations {
            let Work::Fasten(fasten) = &operation.work else { continue };
            let hole = fasten.hole.as_ref().map_or(self.packet.job.unit.mm(SHANK), |own| own.exact);
            for held in &fasten.held {
                let front = self.find(&held.part).filter(|part| {
                    let path = &self.boards[*part].part.path;
                    path.rsplit('.').next() == Some("front")
                });
                let Some(front) = front else { continue };
                let along = self.boards[front].along(1);
                for operation in &self.packet.operations {
                    let Work::ScrewLine(line) = &operation.work else { continue };
                    if line.into != held.part || !held.into.contains(&line.through) {
                        continue;
                    }
                    let screws =
                        screws::of_line(self.packet, self.boards, (operation.step, line), f64::MAX);
                    let known = all.entry(front).or_insert((hole, Vec::new()));
                    // Those that only set it come out again.
                    known.0 = known.0.max(hole);
                    known.1.extend(
                        screws.iter().map(|own| f64::midpoint(own[along][0], own[along][1])),
                    );
                }
            }
        }
        let mut wrong = Vec::new();
        for (front, (hole, places)) in all {
            let low = places.iter().copied().fold(f64::MAX, f64::min);
            let high = places.iter().copied().fold(f64::MIN, f64::max);
            let board = &self.boards[front];
            let mut stocks = self.packet.stocks.iter();
            let stock = stocks.find(|stock| stock.name == board.part.stock);
            let movement = stock.and_then(|stock| stock.movement).unwrap_or(0.0);
            let moves = movement / 1e6 * YEAR * (high - low).max(0.0);
            let room = (hole - self.packet.job.unit.mm(SCREW)) / 2.0;
            if moves > room + self.packet.job.unit.mm(HELD) {
                let (mark, moves, room) = (&board.part.mark, said(moves), said(room));
                wrong.push(format!("{mark}: it moves {moves} under screws that leave it {room}"));
            }
        }
        wrong
    }

    /// Where a countertop is held fast, from the front back.
    fn held(&self, top: usize) -> Option<f64> {
        let mark = &self.boards[top].part.mark;
        self.packet.operations.iter().find_map(|operation| match &operation.work {
            Work::LayOn(laid) if laid.part == *mark => {
                let fast = laid.rows.iter().find(|row| !row.slotted)?;
                self.row(fast).ok().map(|(at, _)| at)
            }
            _ => None,
        })
    }

    /// Where a row of screws runs front to back, and how far a screw may go each way in
    /// its slots.
    fn row(&self, row: &ScrewRow) -> Result<(f64, f64), String> {
        let board = self.find(&row.part).ok_or(format!("there is no {}", row.part))?;
        let board = &self.boards[board];
        let face = board.face(&row.from)?;
        let at = board.counted(face, [row.at.print; 2])[0];
        let mut own: Space = [[0.0; 2]; 3];
        own[face.axis] = [at; 2];
        let place = board.placed(&own)[2][0];
        if !row.slotted {
            return Ok((place, 0.0));
        }
        let over = |cut: &&super::board::Cut| {
            cut.sort == Sort::Slot
                && (cut.space[face.axis][0]..=cut.space[face.axis][1]).contains(&at)
        };
        let slots: Vec<_> = board.cuts.iter().filter(over).collect();
        if slots.len() != row.screws {
            return Err(format!(
                "{} has {} slots for {} screws",
                row.part,
                slots.len(),
                row.screws
            ));
        }
        let size = |range: [f64; 2]| range[1] - range[0];
        let room = slots.iter().map(|cut| {
            let across = (0..3).find(|axis| *axis != face.axis && *axis != cut.face.axis);
            let [from, to] = cut.space[face.axis];
            (to - at).min(at - from) - across.map_or(0.0, |axis| size(cut.space[axis])) / 2.0
        });
        Ok((place, room.fold(f64::MAX, f64::min)))
    }

    /// Whether it lies where it is laid by the figures that are printed.
    fn lies(&self, top: usize, laid: &LayOn) -> Result<(), String> {
        for past in &laid.past {
            let board = self.find(&past.board).ok_or(format!("there is no {}", past.board))?;
            let (own, under) = (self.space(top), self.space(board));
            let is = match past.side.as_str() {
                "left" => under[0][0] - own[0][0],
                "right" => own[0][1] - under[0][1],
                _ => under[2][0] - own[2][0],
            };
            if (is - past.by.print).abs() > self.mm(LAID) {
                return Err(format!(
                    "its {} edge lies {} past {}",
                    past.side,
                    said(is),
                    past.board
                ));
            }
        }
        Ok(())
    }

    /// Whether the wood can move over all its screws, and toward the wall behind it.
    fn rides(&self, top: usize, laid: &LayOn) -> Result<(), String> {
        let wide = self.boards[top].exact[1];
        let strain = if wide > NOTHING { self.swells(top) / wide } else { 0.0 };
        let rows: Vec<(f64, f64, bool)> = laid
            .rows
            .iter()
            .map(|row| self.row(row).map(|(at, room)| (at, room, row.slotted)))
            .collect::<Result<_, _>>()?;
        let fast: Vec<f64> = rows.iter().filter(|row| !row.2).map(|row| row.0).collect();
        let Some(held) = fast.first() else { return Err("no screw holds it fast".to_owned()) };
        // A sheet keeps its size.
        if strain.abs() <= NOTHING / 1000.0 {
            return Ok(());
        }
        for other in &fast {
            let moves = (strain * (other - held)).abs();
            if moves > self.mm(HELD) {
                return Err(format!("it moves {} between screws that hold it fast", said(moves)));
            }
        }
        for (at, room, _) in rows.iter().filter(|row| row.2) {
            let moves = (strain * (at - held)).abs();
            if moves > room + NOTHING {
                return Err(format!(
                    "it moves {} in slots that leave {}",
                    said(moves),
                    said(*room)
                ));
            }
        }
        let behind = strain * (self.space(top)[2][1] - held);
        match &laid.free {
            Some(free) if behind > free.print + NOTHING => Err(format!(
                "it swells {} toward the wall and has {}",
                said(behind),
                said(free.print)
            )),
            _ => Ok(()),
        }
    }

    /// Doors and drawer fronts between their neighbors.
    fn fronts(&self) -> Vec<String> {
        let doors = self.packet.opens.doors.iter().map(|door| &door.parts);
        let drawers = self.packet.opens.drawers.iter().map(|drawer| &drawer.parts);
        let mut front_of: BTreeMap<usize, usize> = BTreeMap::new();
        let mut fronts: Vec<Vec<usize>> = Vec::new();
        for marks in doors.chain(drawers) {
            let own: Vec<usize> = marks.iter().filter_map(|mark| self.find(mark)).collect();
            let foremost = own.iter().map(|part| self.space(*part)[2][0]).fold(f64::MAX, f64::min);
            // A drawer's box is behind its front.
            let before = |part: &usize| self.space(*part)[2][0] < foremost + BESIDE;
            let own: Vec<usize> = own.into_iter().filter(before).collect();
            front_of.extend(own.iter().map(|part| (*part, fronts.len())));
            fronts.push(own);
        }
        let mut wrong = Vec::new();
        for (number, front) in fronts.iter().enumerate() {
            for axis in [0, 1] {
                wrong.extend(self.between(front, axis, &|part| {
                    front_of.get(&part).is_some_and(|other| *other != number)
                }));
            }
        }
        wrong
    }

    /// A front that fills its opening when it swells along an axis. It shares a gap
    /// with another front.
    fn between(
        &self,
        front: &[usize],
        axis: usize,
        is_front: &dyn Fn(usize) -> bool,
    ) -> Option<String> {
        let mut around = self.space(*front.first()?);
        for part in front {
            for (all, own) in around.iter_mut().zip(self.space(*part)) {
                *all = [all[0].min(own[0]), all[1].max(own[1])];
            }
        }
        let other = 1 - axis;
        let high = around[other][1] - around[other][0];
        // Stiles run its whole length, and so does a slab; rails lie between.
        let across = front.iter().filter(|part| {
            let own = self.space(**part)[other];
            self.boards[**part].along(1) == axis && own[1] - own[0] > high - self.mm(1.0)
        });
        let swells: f64 = across.map(|part| self.swells(*part)).sum();
        if swells <= NOTHING {
            return None;
        }
        let mut room = [f64::MAX; 2];
        for part in (0..self.boards.len()).filter(|part| !front.contains(part)) {
            let space = self.space(part);
            let beside = (0..3).filter(|own| *own != axis).all(|own| {
                space[own][1].min(around[own][1]) - space[own][0].max(around[own][0]) > NOTHING
            });
            let share = if is_front(part) { 0.5 } else { 1.0 };
            let gaps = [around[axis][0] - space[axis][1], space[axis][0] - around[axis][1]];
            for (room, gap) in room.iter_mut().zip(gaps) {
                if beside && (-self.mm(1.0)..self.mm(BESIDE)).contains(&gap) {
                    *room = room.min(gap * share);
                }
            }
        }
        let all = room[0] + room[1];
        (swells > all + NOTHING).then(|| {
            let name = self.boards[front[0]].name();
            format!("{name}: it swells by {} and has {} round it", said(swells), said(all))
        })
    }

    fn mm(&self, millimeters: f64) -> f64 {
        self.packet.job.unit.mm(millimeters)
    }
}

#[cfg(test)]
mod spoiled {
    use crate::bench::demos;
    use crate::support::{compile, spec};

    /// A front of flatsawn maple on a box with screws 10-13/32 apart moves 0.073 in two points
    /// of moisture. Held in holes of 11/64 it would split; one wide hole more leaves it room.
    #[test]
    fn a_front_that_its_screws_hold_fast_is_noticed() {
        let text = spec("first.case")
            .replace("drawer upper { high 5 }", "drawer upper { high 14 }")
            .replace("species sugar-maple; sawn quarter", "species sugar-maple");
        let sound = demos::packet(&compile(&text)).unwrap();
        let found = |packet: &str| {
            let complaints = crate::bench::complaints(packet);
            complaints.iter().any(|own| own.contains("under screws that leave it"))
        };
        assert!(!found(&sound));
        let hole = "\"hole\":{\"exact\":\"3/8\",\"print\":\"3/8\"},";
        let spoiled: serde_json::Value = serde_json::from_str(&sound).unwrap();
        let spoiled = spoiled.to_string().replace(hole, "");
        assert!(found(&spoiled));
    }
}
