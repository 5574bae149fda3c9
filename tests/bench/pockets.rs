//! Pocket holes: where each of them is by the printed figures.

use super::board::{Board, whole};
use super::figures::said;
use super::packet::{Packet, Shape, Shaped, Work};
use super::wood::NOTHING;

/// The step drill of a pocket is 3/8 in thick (common practice).
const DRILL: f64 = 9.5;

/// The axis that the pockets of a board stand along, and the place of each on it.
pub(super) fn places(board: &Board<'_>, shape: &Shape) -> Result<(usize, Vec<f64>), String> {
    let Some(own) = &shape.pockets else {
        return Err("nobody says where its pocket holes are".to_owned());
    };
    let edge = board.face(&own.from)?;
    let centers = own.centers.iter().map(|at| board.counted(edge, [at.print; 2])[0]);
    Ok((edge.axis, centers.collect()))
}

/// What is wrong with the pocket holes of a piece that stands: each lies whole on the
/// stretch that it holds, and no two run into each other.
pub(super) fn wrong(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let drill = packet.job.unit.mm(DRILL);
    let shapes = packet.operations.iter().filter_map(|operation| match &operation.work {
        Work::Shape(shape) if shape.what == Shaped::PocketHoles => Some(shape),
        _ => None,
    });
    let own = shapes.filter_map(|shape| {
        let board = boards.iter().find(|board| board.part.mark == shape.part)?;
        let what = misplaced(board, shape, (drill, tolerance)).err()?;
        Some(format!("{}: {what}", board.name()))
    });
    own.collect()
}

fn misplaced(
    board: &Board<'_>,
    shape: &Shape,
    (drill, tolerance): (f64, f64),
) -> Result<(), String> {
    let (axis, mut places) = places(board, shape)?;
    places.sort_by(f64::total_cmp);
    for span in &shape.spans {
        let from = board.face(&span.from)?;
        if from.axis != axis {
            continue;
        }
        let [start, end] = board.counted(from, [span.start.print, span.end.print]);
        let half = drill / 2.0 - tolerance - NOTHING;
        let out = places.iter().find(|at| **at - start < half || end - **at < half);
        if let Some(at) = out {
            return Err(format!("its pocket hole at {} runs out of its joint", said(*at)));
        }
    }
    let near = |pair: &&[f64]| pair[1] - pair[0] < drill - tolerance - NOTHING;
    match places.windows(2).find(near) {
        Some(_) => Err("two of its pocket holes run into each other".to_owned()),
        None => Ok(()),
    }
}

/// Drawers on wood that run over open pocket holes.
pub(super) fn run_over(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let find = |mark: &String| boards.iter().find(|board| board.part.mark == *mark);
    let place = |board: &Board<'_>| board.placed(&whole(board.exact));
    let plugged = packet.operations.iter().filter_map(|operation| match &operation.work {
        Work::Plug(own) => Some(&own.parts),
        _ => None,
    });
    let plugged: Vec<&String> = plugged.flatten().collect();
    let bored = packet.operations.iter().filter_map(|operation| match &operation.work {
        Work::Shape(shape) if shape.what == Shaped::PocketHoles => Some(shape),
        _ => None,
    });
    let open = bored.filter_map(|shape| find(&shape.part).map(|board| (board, shape)));
    // The upper face looks up in the piece, whose axes are x, y, and z.
    let open = open.filter(|(board, shape)| {
        board.face(&shape.face).is_ok_and(|face| board.way(face)[1] > 0.5)
            && !plugged.contains(&&board.part.mark)
    });
    let open: Vec<&Board<'_>> = open.map(|(board, _)| board).collect();
    let run = packet.operations.iter().filter_map(|operation| match &operation.work {
        Work::OnWood(own) => Some(own),
        _ => None,
    });
    let mut wrong = Vec::new();
    for own in run {
        for on in own.on.iter().filter_map(find).map(place) {
            // What lies level with a runner and meets it or goes on beside it is run over too.
            let over = open.iter().filter(|board| {
                let at = place(board);
                let meets = |axis: usize| {
                    at[axis][0] <= on[axis][1] + tolerance && on[axis][0] <= at[axis][1] + tolerance
                };
                (at[1][1] - on[1][1]).abs() <= tolerance && meets(0) && meets(2)
            });
            wrong.extend(over.map(|board| {
                format!("{}: {} runs over its open pocket holes", board.name(), own.opening)
            }));
        }
    }
    wrong.sort();
    wrong.dedup();
    wrong
}
