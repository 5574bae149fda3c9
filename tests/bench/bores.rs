//! Round holes, by their centers.

use super::board::{Board, Cut, Sort};
use super::figures::said;
use super::packet::Bore;
use super::wood::{NOTHING, Space};

/// The wood that the holes of one operation take, each as the box round it.
pub(super) fn cut(operation: usize, bore: &Bore, board: &Board<'_>) -> Result<Vec<Cut>, String> {
    let face = board.face(&bore.face)?;
    let from = [board.face(&bore.from[0])?, board.face(&bore.from[1])?];
    let axes: Vec<usize> = (0..3).filter(|axis| *axis != face.axis).collect();
    if axes != from.map(|face| face.axis) {
        return Err(format!(
            "no hole in the {} counts from the {} and the {}",
            bore.face, bore.from[0], bore.from[1]
        ));
    }
    // The bit has its size, whatever is printed.
    let radius = bore.diameter.exact / 2.0;
    let hole = |center: &[super::packet::Figure; 2]| {
        let mut space: Space = [[0.0; 2]; 3];
        space[face.axis] = board.counted(face, [0.0, bore.deep.print]);
        for (from, center) in from.iter().zip(center) {
            let center = center.print;
            space[from.axis] = board.counted(*from, [center - radius, center + radius]);
            let within = space[from.axis][0] >= -NOTHING
                && space[from.axis][1] <= board.exact[from.axis] + NOTHING;
            if !within {
                return Err(format!("a hole at {} runs out of the board", said(center)));
            }
        }
        Ok(Cut { operation, sort: Sort::Bore, space, face, run: None })
    };
    bore.centers.iter().map(hole).collect()
}
