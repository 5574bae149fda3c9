//! What holds fronts from behind: the shop asks of each that screws hold it, at both sides
//! of its middle where it is a drawer's, and that none meets a hole of its pull, which goes
//! on through the front of the box.

use super::board::Board;
use super::figures::said;
use super::packet::{Fasten, JointKind, Packet, ScrewLine, Work};
use super::screws;
use super::wood::Space;

/// What is wrong with them in a piece that stands.
pub(super) fn wrong(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let mut wrong = Vec::new();
    let find = |mark: &String| boards.iter().find(|board| board.part.mark == *mark);
    for joint in packet.joints.iter().filter(|joint| joint.kind == JointKind::FrontFixed) {
        let (Some(front), Some(behind)) = (find(&joint.part), find(&joint.into)) else { continue };
        let name = format!("{} on {}", front.name(), behind.part.mark);
        let lines = packet.operations.iter().filter_map(|operation| match &operation.work {
            Work::ScrewLine(line) if line.through == joint.into => Some((operation.step, line)),
            _ => None,
        });
        let into_front = |line: &ScrewLine| {
            find(&line.into).is_some_and(|board| opening(board) == opening(front))
        };
        let mut screws: Vec<Space> = Vec::new();
        for (step, line) in lines.filter(|(_, line)| into_front(line)) {
            // Where it can't be struck, the line itself is wrong.
            screws.extend(screws::of_line(packet, boards, (step, line), tolerance));
        }
        let least = if is_box(behind) { 2 } else { 1 };
        if screws.len() < least {
            wrong.push(format!("{name}: {} screws hold it", screws.len()));
            continue;
        }
        if is_box(behind) {
            let own = behind.placed(&super::board::whole(behind.exact))[0];
            let middle = f64::midpoint(own[0], own[1]);
            let sides =
                [true, false].map(|left| screws.iter().any(|screw| (screw[0][1] < middle) == left));
            if sides.contains(&false) {
                wrong.push(format!("{name}: its screws stand at one side of its middle"));
            }
        }
        for pull in pulls(packet, boards, opening(front)) {
            let meets = |screw: &&Space| {
                (0..2).all(|axis| {
                    screw[axis][1].min(pull[axis][1]) - screw[axis][0].max(pull[axis][0])
                        > -packet.job.unit.mm(1.0)
                })
            };
            if screws.iter().any(|screw| meets(&screw)) {
                wrong.push(format!("{name}: a screw meets a hole of the pull"));
            }
        }
    }
    for operation in &packet.operations {
        let Work::Fasten(own) = &operation.work else { continue };
        if own.purpose.starts_with("drawer fronts, while you set them") {
            wrong.extend(held_for_now(packet, boards, own));
        }
    }
    wrong
}

/// What is wrong with screws through pull holes that hold fronts while they are set: each
/// passes its hole, and there is wood of the box behind it.
fn held_for_now(packet: &Packet, boards: &[Board<'_>], own: &Fasten) -> Vec<String> {
    let mut wrong = Vec::new();
    let find = |mark: &String| boards.iter().find(|board| board.part.mark == *mark);
    let wide = own.gauge.as_deref().map(|gauge| diameter(packet, gauge));
    for held in &own.held {
        let Some(front) = find(&held.part) else { continue };
        let name = format!("{}: the screws through its pull holes", front.name());
        let behind = held.into.iter().filter_map(find);
        let behind: Vec<Space> =
            behind.map(|board| board.placed(&super::board::whole(board.exact))).collect();
        let into = |hole: &Space| {
            behind.iter().any(|board| {
                (0..2).all(|axis| board[axis][0] < hole[axis][0] && hole[axis][1] < board[axis][1])
            })
        };
        let mut holes = pulls(packet, boards, opening(front));
        holes.retain(into);
        if holes.len() < held.count {
            wrong.push(format!(
                "{name}: {} are driven, and the box is behind {} holes",
                held.count,
                holes.len()
            ));
        }
        match wide {
            None => wrong.push(format!("{name}: nobody says how thick they are")),
            Some(wide) => {
                let tight =
                    |hole: &&Space| hole[0][1] - hole[0][0] < wide + packet.job.unit.mm(0.2);
                if holes.iter().any(|hole| tight(&hole)) {
                    wrong.push(format!("{name}: one {} thick does not pass", said(wide)));
                }
            }
        }
    }
    wrong
}

/// How thick a screw is, in the unit of the job: of a number in inches (ASME B18.6.1), or
/// what its name says.
fn diameter(packet: &Packet, gauge: &str) -> f64 {
    let mm = |millimeters: f64| packet.job.unit.mm(millimeters);
    match gauge.strip_prefix("No. ") {
        Some(number) => mm(25.4 * number.parse::<f64>().map_or(0.0, |own| 0.060 + 0.013 * own)),
        None => mm(gauge.trim_end_matches("-mm").parse().unwrap_or(0.0)),
    }
}

/// The opening that a board is of, by its path.
fn opening<'b>(board: &'b Board<'_>) -> &'b str {
    board.part.path.rsplit_once('.').map_or("", |(of, _)| of)
}

/// The front of a drawer box has an inside.
pub(super) fn is_box(board: &Board<'_>) -> bool {
    board.part.faces.thickness.iter().any(|face| face == "inside face")
}

/// The holes of the pull of a front, in the piece.
fn pulls(packet: &Packet, boards: &[Board<'_>], of: &str) -> Vec<Space> {
    let is_pull = |operation: usize| {
        let own = packet.operations.get(operation);
        own.is_some_and(|own| matches!(&own.work, Work::Bore(bore) if bore.what == "pull hole"))
    };
    let fronts = boards.iter().filter(|board| opening(board) == of);
    fronts
        .flat_map(|board| {
            let holes = board.cuts.iter().filter(|cut| is_pull(cut.operation));
            holes.map(|cut| board.placed(&cut.space)).collect::<Vec<_>>()
        })
        .collect()
}
