//! Drawers on wood: the shop feels whether a box can shift to the side where it is pushed in.

use super::board::{Board, whole};
use super::figures::said;
use super::packet::{JointKind, Packet, RunsOn, Work};

/// How far a box may shift to both sides together, in millimeters: 1/8 in (3 mm). One that has more room hits
/// the sides and jams (common practice, no source).
const SHIFT: f64 = 3.2;

/// What is wrong beside the drawers on wood in a piece that stands.
pub(super) fn wrong(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let all = packet.operations.iter().filter_map(|operation| match &operation.work {
        Work::OnWood(own) => Some(own),
        _ => None,
    });
    all.filter_map(|own| off(packet, boards, own, tolerance)).collect()
}

fn off(packet: &Packet, boards: &[Board<'_>], own: &RunsOn, tolerance: f64) -> Option<String> {
    let most = packet.job.unit.mm(SHIFT);
    let slid = packet.joints.iter().filter(|joint| joint.kind == JointKind::Slid);
    let slid = slid.filter(|joint| own.on.contains(&joint.into));
    let marks: Vec<&String> = slid.map(|joint| &joint.part).collect();
    let sides = || boards.iter().filter(|board| marks.contains(&&board.part.mark));
    // A board that two drawers run on has the sides of both.
    let drawers: Vec<&str> =
        sides().filter_map(|side| side.part.path.strip_suffix("left-side")).collect();
    for drawer in drawers {
        let side =
            |name: &str| sides().find(|board| board.part.path.strip_suffix(name) == Some(drawer));
        let (Some(left), Some(right)) = (side("left-side"), side("right-side")) else { continue };
        let place = |board: &Board<'_>| board.placed(&whole(board.exact));
        let (own_left, own_right) = (place(left), place(right));
        let meets = |one: [f64; 2], other: [f64; 2]| one[0] < other[1] && other[0] < one[1];
        // What belongs to the drawer and stays in the case is a guide of it.
        let beside = boards.iter().filter(|board| {
            !board.part.path.starts_with(drawer) || board.part.path.ends_with("guide")
        });
        let beside: Vec<_> = beside
            .map(place)
            .filter(|at| meets(at[1], own_left[1]) && meets(at[2], own_left[2]))
            .collect();
        let least = |rooms: Vec<f64>| {
            rooms.into_iter().filter(|room| *room > -most).fold(f64::INFINITY, f64::min)
        };
        let at_left = least(beside.iter().map(|at| own_left[0][0] - at[0][1]).collect());
        let at_right = least(beside.iter().map(|at| at[0][0] - own_right[0][1]).collect());
        let shift = at_left + at_right;
        if shift > most + tolerance {
            return Some(format!(
                "the box of {drawer} shifts by {} from side to side",
                said(shift)
            ));
        }
    }
    None
}

#[cfg(test)]
mod spoiled {
    use serde_json::Value;

    use crate::bench::demos;
    use crate::bench::spoiled::noticed;
    use crate::support::{compile, spec};

    /// The guides at the left of the chest's drawers count as parts of their boxes, so that
    /// nothing stands there but the end.
    #[test]
    fn a_box_without_guides_at_one_side() {
        let compiled = compile(&spec("orchard-lane-chest.case"));
        let packet: Value = serde_json::from_str(&demos::packet(&compiled).unwrap()).unwrap();
        let spoil = |packet: &mut Value| {
            for own in packet["parts"].as_array_mut().unwrap() {
                let path = own["path"].as_str().unwrap().replace("left-guide", "left-strip");
                own["path"] = path.into();
            }
        };
        noticed(packet, spoil, "from side to side");
    }
}
