//! What is left of a board, where it stands in the piece: square bodies, and
//! the sloping ones of miters.

use super::board::{Board, Cut, Sort, whole};
use super::body::Body;
use super::wood::{NOTHING, Space, without};

/// The bodies of a board. Of `open` only the other half of the wood counts:
/// there two dovetailed parts lie in each other.
pub(super) fn bodies(board: &Board<'_>, open: Option<&Space>) -> Vec<Body> {
    let size = board.exact;
    // What is bored and fluted is out of the way of every joint.
    let shaped = |cut: &&Cut| !matches!(cut.sort, Sort::Bore | Sort::Flute | Sort::Hidden);
    let mut gone: Vec<Space> = Vec::new();
    let mut sloped: Vec<&Cut> = Vec::new();
    for cut in board.cuts.iter().filter(shaped) {
        match cut.sort {
            Sort::Dovetails => {}
            Sort::Miter(..) => sloped.push(cut),
            _ => gone.extend(cut.gone(size)),
        }
    }
    gone.extend(open);
    let mut square = gone.clone();
    square.extend(sloped.iter().map(|cut| cut.space));
    let mut bodies: Vec<Body> = without(&whole(size), &square)
        .iter()
        .map(|space| Body::new(&board.placed(space)))
        .collect();
    bodies.extend(sloped.iter().flat_map(|cut| slope(board, cut, &gone)));
    bodies
}

/// What a miter leaves of its box: the half toward the long point.
fn slope(board: &Board<'_>, cut: &Cut, gone: &[Space]) -> Vec<Body> {
    let Sort::Miter(outer, long) = cut.sort else { return Vec::new() };
    let axes = [outer.axis, long.axis];
    let [edge, broad] = axes;
    let side = |axis: usize, is_end: bool| cut.space[axis][usize::from(is_end)];
    let triangle = [
        [side(edge, outer.is_end), side(broad, long.is_end)],
        [side(edge, !outer.is_end), side(broad, long.is_end)],
        [side(edge, !outer.is_end), side(broad, !long.is_end)],
    ];
    let slope = [triangle[0][0] - triangle[2][0], triangle[0][1] - triangle[2][1]];
    let along = axes.map(|axis| board.along(axis));
    without(&cut.space, gone)
        .iter()
        .filter_map(|space| {
            let outline = clipped(&triangle, [space[edge], space[broad]]);
            let placed = board.placed(space);
            let start = along.map(|axis| board.drawn.at[axis].exact);
            let outline: Vec<[f64; 2]> =
                outline.iter().map(|flat| [flat[0] + start[0], flat[1] + start[1]]).collect();
            let run = placed[3 - along[0] - along[1]];
            (outline.len() > 2).then(|| Body::prism(&outline, along, run, &[slope]))
        })
        .collect()
}

/// A flat outline cut off along the sides of a rectangle.
fn clipped(outline: &[[f64; 2]], rectangle: [[f64; 2]; 2]) -> Vec<[f64; 2]> {
    let mut points = outline.to_vec();
    for (axis, range) in rectangle.iter().enumerate() {
        for (limit, sign) in [(range[0], 1.0), (range[1], -1.0)] {
            let inside = |point: &[f64; 2]| (point[axis] - limit) * sign;
            let mut kept = Vec::new();
            for (index, point) in points.iter().enumerate() {
                let next = &points[(index + 1) % points.len()];
                let (here, there) = (inside(point), inside(next));
                if here >= -NOTHING {
                    kept.push(*point);
                }
                if (here > NOTHING && there < -NOTHING) || (here < -NOTHING && there > NOTHING) {
                    let part = here / (here - there);
                    let other = 1 - axis;
                    let mut cross = [0.0; 2];
                    cross[axis] = limit;
                    cross[other] = point[other] + (next[other] - point[other]) * part;
                    kept.push(cross);
                }
            }
            points = kept;
            if points.is_empty() {
                return points;
            }
        }
    }
    points
}
