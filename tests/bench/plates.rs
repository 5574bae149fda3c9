//! The plates of hinges: no screw goes in where one is on already, or where the arm of its
//! hinge lies over it.

use super::board::Board;
use super::packet::{Packet, Work};
use super::screws::of_line;

/// A plate goes on beyond its screws by 8 mm (from memory), and the arm of its hinge behind
/// their line by 15 (from memory); the head of a screw takes 4 to either side.
const BEYOND: f64 = 8.0;
const BEHIND: f64 = 15.0;
const HEAD: f64 = 4.0;

/// The screws that no driver gets to since a plate or an arm is there.
pub(super) fn covered(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let mm = |millimeters: f64| packet.job.unit.mm(millimeters);
    let mut wrong = Vec::new();
    for operation in &packet.operations {
        let Work::Hinge(hinge) = &operation.work else { continue };
        let Some(plate) = &hinge.plate else { continue };
        let Some(board) = boards.iter().find(|own| own.part.mark == plate.part) else { continue };
        let [_, low, front] = board.drawn.at.each_ref().map(|at| at.exact);
        let room = [
            low + plate.screws[0].print - mm(BEYOND + HEAD),
            low + plate.screws[1].print + mm(BEYOND + HEAD),
        ];
        let behind = front + plate.line.print + mm(BEHIND + HEAD);
        let later = packet.operations.iter().filter(|own| own.step > operation.step);
        for own in later {
            let Work::ScrewLine(line) = &own.work else { continue };
            if line.through != plate.part || line.face != plate.face {
                continue;
            }
            let screws = of_line(packet, boards, (own.step, line), tolerance);
            let met = screws.iter().any(|screw| {
                let middle = |axis: usize| (screw[axis][0] + screw[axis][1]) / 2.0;
                room[0] < middle(1) && middle(1) < room[1] && middle(2) < behind
            });
            if met {
                wrong.push(format!(
                    "screws through {} into {}: hinge {} of {} lies over one of them",
                    line.through, line.into, hinge.number, hinge.door
                ));
            }
        }
    }
    wrong
}

#[cfg(test)]
mod spoiled {
    use serde_json::{Value, json};

    use crate::bench::spoiled::noticed;
    use crate::larder::LARDER;
    use crate::support::{compile, packet};

    /// The lower hinge of the larder's lower door is 85 from the bottom end, and the screws of
    /// its plate are at 69 and 101.
    #[test]
    fn a_screw_under_a_plate_is_noticed() {
        let under = |packet: &mut Value| {
            let all = packet["operations"].as_array_mut().unwrap().iter_mut();
            for own in all.filter(|own| own["kind"] == "screw line" && own["into"] == "LBT") {
                own["first"] = json!({"exact": "85", "print": "85"});
                own["count"] = 1.into();
            }
        };
        noticed(packet(&compile(LARDER)), under, "lies over one of them");
    }
}
