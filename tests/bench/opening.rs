//! The piece stands: every door is opened and every drawer pulled out.

use std::collections::BTreeSet;

use super::board::{Board, whole};
use super::body::Body;
use super::figures::said;
use super::packet::{Door, Packet, Pose, Side, Turns};
use super::wood::Space;

/// Doors are tried every so many degrees.
const TURN: u32 = 3;
/// A door should open square; what it meets farther round only stops it there
/// (common practice, no source).
const SQUARE: f64 = 90.0;
/// A path that nobody has given is known to so much: 1/16 in (common practice, no
/// source).
const GUESSED: f64 = 1.6;

/// What is in the way of doors and drawers.
pub(super) fn stuck(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let room = Room { packet, boards, tolerance };
    let doors = packet.opens.doors.iter().filter_map(|door| room.door(door));
    let drawers = packet.opens.drawers.iter();
    let drawers =
        drawers.flat_map(|own| room.drawer(&own.parts, own.travel.print.min(own.travel.exact)));
    let mut wrong: Vec<String> = doors.chain(drawers).collect();
    wrong.extend(room.never_opened());
    wrong
}

struct Room<'a> {
    packet: &'a Packet,
    boards: &'a [Board<'a>],
    tolerance: f64,
}

impl Room<'_> {
    fn find(&self, marks: &[String]) -> BTreeSet<usize> {
        let own = |board: &Board<'_>| marks.contains(&board.part.mark);
        (0..self.boards.len()).filter(|part| own(&self.boards[*part])).collect()
    }

    fn space(&self, part: usize) -> Space {
        self.boards[part].placed(&whole(self.boards[part].exact))
    }

    /// What hangs or slides and is never opened.
    fn never_opened(&self) -> Vec<String> {
        use super::packet::JointKind::{Hung, Slid};
        let opens = &self.packet.opens;
        let opened: Vec<&String> = opens
            .doors
            .iter()
            .flat_map(|door| &door.parts)
            .chain(opens.drawers.iter().flat_map(|drawer| &drawer.parts))
            .collect();
        let joints = self.packet.joints.iter().filter(|own| matches!(own.kind, Hung | Slid));
        let mut shut: Vec<&String> =
            joints.map(|own| &own.part).filter(|part| !opened.contains(part)).collect();
        shut.dedup();
        shut.iter().map(|part| format!("{part}: nothing says how it opens")).collect()
    }

    /// What a door meets on its way round.
    fn door(&self, door: &Door) -> Option<String> {
        let leaf = self.find(&door.parts);
        if leaf.is_empty() || !matches!(door.hung, Side::Left | Side::Right) {
            return Some(format!("{}: it is no door", door.parts.join(", ")));
        }
        if let Some(other) = self.other_side(door, &leaf) {
            return Some(other);
        }
        let slack = match door.turns {
            Turns::Corner => self.packet.job.unit.mm(GUESSED),
            Turns::Pin { .. } | Turns::Path { .. } => 0.0,
        };
        let others: Vec<(usize, Body)> = (0..self.boards.len())
            .filter(|part| !leaf.contains(part))
            .map(|part| (part, Body::new(&self.space(part))))
            .collect();
        let most = door.opens.0.min(SQUARE);
        if most < SQUARE / 2.0 {
            return Some(format!("{}: it opens only {}", door.parts.join(", "), said(most)));
        }
        let angles = (1..).map(|turn| f64::from(turn * TURN)).take_while(|angle| *angle <= most);
        for angle in angles {
            let turned = self.turned(door, &leaf, angle);
            let hit = others.iter().find(|(_, other)| {
                turned.iter().any(|own| own.hits(other, self.tolerance + slack))
            });
            if let Some((part, _)) = hit {
                let names = [leaf.first().copied()?, *part].map(|own| self.boards[own].name());
                let angle = said(angle);
                return Some(format!("{}: open {angle} degrees it hits {}", names[0], names[1]));
            }
        }
        None
    }

    /// A leaf hangs on the board that its hinge edge is next to.
    fn other_side(&self, door: &Door, leaf: &BTreeSet<usize>) -> Option<String> {
        use super::packet::JointKind::Hung;
        let [from, to] = self.around(leaf)[0];
        let hung = self.packet.joints.iter().find(|own| {
            own.kind == Hung && leaf.iter().any(|part| self.boards[*part].part.mark == own.part)
        });
        let hung = hung?;
        let holder = self.find(std::slice::from_ref(&hung.into)).first().copied()?;
        let [left, right] = self.space(holder)[0];
        let on_left = (left - from).abs().min((right - from).abs())
            < (left - to).abs().min((right - to).abs());
        (on_left != (door.hung == Side::Left))
            .then(|| format!("{}: it hangs on {}, at its other side", hung.part, hung.into))
    }

    /// The box round a leaf.
    fn around(&self, leaf: &BTreeSet<usize>) -> Space {
        let mut around = [[f64::MAX, f64::MIN]; 3];
        for part in leaf {
            for (all, own) in around.iter_mut().zip(self.space(*part)) {
                *all = [all[0].min(own[0]), all[1].max(own[1])];
            }
        }
        around
    }

    /// A leaf that stands open so many degrees, in plan: out is toward the room,
    /// aside away from its hinge side.
    fn turned(&self, door: &Door, leaf: &BTreeSet<usize>, angle: f64) -> Vec<Body> {
        let (sin, cos) = angle.to_radians().sin_cos();
        let [out, aside] = match &door.turns {
            Turns::Pin { ahead } => [ahead.exact * (1.0 - cos), ahead.exact * sin],
            Turns::Path { poses } => along(poses, angle),
            Turns::Corner => [0.0; 2],
        };
        let around = self.around(leaf);
        let (hinge, to_room) = match door.hung {
            Side::Right => (around[0][1], -1.0),
            _ => (around[0][0], 1.0),
        };
        let front = around[2][0];
        let place = |x: f64, z: f64| {
            let (from, before) = ((x - hinge) * to_room, front - z);
            let aside = aside + from * cos - before * sin;
            let out = out + from * sin + before * cos;
            [hinge + to_room * aside, front - out]
        };
        let slopes = [[to_room * cos, -sin], [to_room * sin, cos]];
        leaf.iter()
            .map(|part| {
                let [x, y, z] = self.space(*part);
                let outline = [(x[0], z[0]), (x[1], z[0]), (x[1], z[1]), (x[0], z[1])]
                    .map(|(x, z)| place(x, z));
                Body::prism(&outline, [0, 2], y, &slopes)
            })
            .collect()
    }

    /// What a drawer meets on its way out. Doors that cover it stand open.
    fn drawer(&self, marks: &[String], travel: f64) -> Vec<String> {
        let own = self.find(marks);
        let deepest = own.iter().map(|part| {
            let [front, back] = self.space(*part)[2];
            back - front
        });
        let deep = deepest.fold(0.0, f64::max);
        let mut wrong = Vec::new();
        // Half of a box out is the least that a hand can use (common practice, no
        // source); no slide lets it out farther than it is long.
        if travel < deep / 2.0 || travel > deep * 1.5 {
            wrong.push(format!("{}: it comes out {}", marks.join(", "), said(travel)));
        }
        let out: Vec<(usize, Body)> = own
            .iter()
            .map(|part| (*part, Body::new(&self.space(*part)).swept([0.0, 0.0, -travel])))
            .collect();
        let in_way = |space: &Body| {
            out.iter().find(|(_, own)| own.hits(space, self.tolerance)).map(|(part, _)| *part)
        };
        let mut open = BTreeSet::new();
        for door in &self.packet.opens.doors {
            let leaf = self.find(&door.parts);
            if leaf.iter().any(|part| in_way(&Body::new(&self.space(*part))).is_some()) {
                open.extend(leaf.iter().copied());
                for body in self.turned(door, &leaf, door.opens.0) {
                    if let Some(part) = in_way(&body) {
                        let names = [part, *leaf.first().unwrap_or(&part)]
                            .map(|own| self.boards[own].name());
                        wrong.push(format!("{}: it hits the open {}", names[0], names[1]));
                    }
                }
            }
        }
        for other in
            (0..self.boards.len()).filter(|part| !own.contains(part) && !open.contains(part))
        {
            if let Some(part) = in_way(&Body::new(&self.space(other))) {
                let names = [part, other].map(|own| self.boards[own].name());
                wrong.push(format!("{}: pulled out it hits {}", names[0], names[1]));
            }
        }
        wrong
    }
}

/// Where a path leads: straight between its poses, and on where the last one is.
fn along(poses: &[Pose], angle: f64) -> [f64; 2] {
    let mut last = [0.0, 0.0, 0.0];
    for pose in poses {
        let next = [pose.at.0, pose.out.exact, pose.aside.exact];
        if angle <= next[0] {
            let part =
                if next[0] > last[0] { (angle - last[0]) / (next[0] - last[0]) } else { 1.0 };
            return [1, 2].map(|own| last[own] + (next[own] - last[own]) * part);
        }
        last = next;
    }
    [last[1], last[2]]
}
