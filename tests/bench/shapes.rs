//! What is sawn, pared, chopped, or bored by a jig.

use super::board::{Board, Cut, Sort};
use super::packet::{Face, Figure, MiterSaw, SawnMiter, Shape, Shaped, Span};
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
        Shaped::Glazing => Sort::Glazing,
        Shaped::Mortise => Sort::Mortise,
        Shaped::Tenon => Sort::Tenon,
        Shaped::Dovetails => Sort::Dovetails,
        Shaped::Miter => {
            let sort = miter(shape, face, &space, board)?;
            if let (Some(sawn), Sort::Miter(outer, long)) = (&shape.sawn, sort) {
                let wide = leans(sawn, (outer, long), board, slack)?;
                space[outer.axis] = board.counted(outer, [0.0, wide]);
            }
            sort
        }
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
        | Shaped::Glazing
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

/// How much of the edge a saw that leans 45 degrees takes away on the face without the long
/// point. The edge across from it lies at the fence, with the long point up, since the blade
/// leans away from the fence and rises outward; by hand the long point looks down. From that
/// line the cut comes out as far off as the board is thick: at the corner, or the board is
/// narrower than it is drawn, or keeps a square edge.
fn leans(
    sawn: &SawnMiter,
    (outer, long): (Face, Face),
    board: &Board<'_>,
    slack: f64,
) -> Result<f64, String> {
    let (on, up) = (board.face(&sawn.on)?, board.face(&sawn.up)?);
    if on.axis != outer.axis || on.is_end == outer.is_end {
        return Err(format!("the {} is not across from the mitered edge", sawn.on));
    }
    let is_up = up == long;
    let is_down = up.axis == long.axis && up.is_end != long.is_end;
    let lies = match sawn.with {
        MiterSaw::Fence => is_up,
        MiterSaw::StraightEdge => is_down,
    };
    if !lies {
        return Err(format!("with the {} up, the miter slopes the other way", sawn.up));
    }
    let thick = board.exact[long.axis];
    if (sawn.at.exact + thick - board.exact[outer.axis]).abs() > slack + NOTHING {
        return Err(format!("the blade at {} comes out beside the corner", sawn.at.print));
    }
    // The cut is come up to until it reaches the corner, however thick the board came out.
    Ok(thick)
}

/// The edge that a box lies along, other than the face it is cut into.
fn edge(face: Face, space: &Space, board: &Board<'_>) -> Option<Face> {
    (0..3).filter(|axis| *axis != face.axis).find_map(|axis| {
        let ends = [space[axis][0] <= NOTHING, space[axis][1] >= board.exact[axis] - NOTHING];
        (ends[0] != ends[1]).then_some(Face { axis, is_end: ends[1] })
    })
}
