//! What is sawn, pared, chopped, or bored by a jig.

use super::board::{Board, Cut, Sort};
use super::packet::{Face, Figure, Shape, Shaped, Span};
use super::wood::{NOTHING, Space};

/// The wood that a shape takes of a board whose sizes may be off by the slack.
pub(super) fn cut(
    operation: usize,
    shape: &Shape,
    board: &Board<'_>,
    slack: f64,
) -> Result<Cut, String> {
    let face = board.face(&shape.face)?;
    let mut space: Space = [[0.0, -1.0]; 3];
    // A tenon is gauged to its mortise, however wide its rail came out.
    let slack = if shape.what == Shaped::Tenon { 0.0 } else { slack };
    let through = |figure: &Figure, read: f64, size: f64| through(figure, read, size, slack);
    let deep = through(&shape.deep, shape.deep.print, board.exact[face.axis]);
    space[face.axis] = board.counted(face, [0.0, deep]);
    for span in &shape.spans {
        let from = board.face(&span.from)?;
        if from.axis == face.axis {
            return Err(format!("the {} is no side of the {}", span.from, shape.face));
        }
        let [start, end] = figures(shape.what, span);
        let end = through(&span.end, end, board.exact[from.axis]);
        space[from.axis] = board.counted(from, [start, end]);
    }
    if space.iter().any(|range| range[1] - range[0] <= NOTHING) {
        return Err("its spans leave nothing to cut".to_owned());
    }
    let sort = match shape.what {
        Shaped::Notch | Shaped::Haunch => Sort::Notch,
        Shaped::Slot => Sort::Slot,
        Shaped::Mortise => Sort::Mortise,
        Shaped::Tenon => Sort::Tenon,
        Shaped::Dovetails => Sort::Dovetails,
        Shaped::Miter => miter(shape, face, &space, board)?,
        Shaped::PocketHoles | Shaped::DowelHoles => Sort::Hidden,
    };
    Ok(Cut { operation, sort, space, face, run: None })
}

/// What runs out at the far side runs out, however that is rounded, and however
/// thick the board came out.
fn through(figure: &Figure, read: f64, size: f64, slack: f64) -> f64 {
    if (figure.exact - size).abs() <= slack + NOTHING { size } else { read }
}

/// A tenon, its mortise, and a slot are gauged for width, as a bit or a chisel gives it,
/// from a place that is read off the tape; a notch is sawn to two marks.
fn figures(what: Shaped, span: &Span) -> [f64; 2] {
    match what {
        Shaped::Mortise | Shaped::Slot | Shaped::Tenon | Shaped::Haunch => {
            [span.start.print, span.start.print + span.end.exact - span.start.exact]
        }
        Shaped::Notch
        | Shaped::Dovetails
        | Shaped::Miter
        | Shaped::PocketHoles
        | Shaped::DowelHoles => [span.start.print, span.end.print],
    }
}

/// The edge that a miter takes away, and the face that keeps its corner. It is
/// cut into the edge itself, or into the face across from the long point.
fn miter(shape: &Shape, face: Face, space: &Space, board: &Board<'_>) -> Result<Sort, String> {
    let long = match &shape.long_point {
        Some(name) => board.face(name)?,
        None => Face { axis: face.axis, is_end: !face.is_end },
    };
    let outer = if long.axis == face.axis {
        if long.is_end == face.is_end {
            return Err("its long point lies where it is cut away".to_owned());
        }
        edge(face, space, board).ok_or("it lies along no edge")?
    } else {
        face
    };
    Ok(Sort::Miter(outer, long))
}

/// The edge that a box lies along, other than the face it is cut into.
fn edge(face: Face, space: &Space, board: &Board<'_>) -> Option<Face> {
    (0..3).filter(|axis| *axis != face.axis).find_map(|axis| {
        let ends = [space[axis][0] <= NOTHING, space[axis][1] >= board.exact[axis] - NOTHING];
        (ends[0] != ends[1]).then_some(Face { axis, is_end: ends[1] })
    })
}
