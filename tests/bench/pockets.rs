//! Pocket holes: where each of them is by the printed figures.

use super::board::Board;
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
