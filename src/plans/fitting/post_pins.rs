//! The rows of holes for shelf pins in posts.

use crate::measure::Length;
use crate::model::{Case, Opening, Piece, Set};
use crate::parts::{Direction, FeatureKind, Part, Which};

use super::backs::goes_in;
use super::pins::WEB;

/// The row in a post, from its front face or its back face: in the middle of what the shelf
/// covers of it, clear of the groove of the panel where the holes are as deep as that.
pub(super) fn row(
    post: &Part,
    shelf: &Part,
    opening: &Opening,
    (piece, case): (&Piece, &Case),
) -> ([Option<Length>; 2], bool) {
    let (near, far) = under_shelf(post, shelf, opening, (piece, case));
    let line = (near + far).half();
    let (front, back) = post.extent(Direction::Z);
    match post.which == Which::Back {
        true => ([None, Some(back - line)], true),
        false => ([Some(line - front), None], false),
    }
}

/// From where to where a row of pins may lie in a post, from the foremost face of the piece:
/// where the shelf lies over it, behind an inset door before it, before the screws of the back,
/// and clear of what is cut into the face toward the other post of its side.
#[must_use]
pub fn under_shelf(
    post: &Part,
    shelf: &Part,
    opening: &Opening,
    (piece, case): (&Piece, &Case),
) -> (Length, Length) {
    let (front, back) = post.extent(Direction::Z);
    let (from, to) = shelf.extent(Direction::Z);
    let before = match &opening.front {
        Some(fronts) if fronts.set == Set::Inset => front + piece.thickness(fronts.stock).length,
        _ => front,
    };
    let screwed = match case.back {
        Some(_) => to - goes_in(piece.tape().unit) - WEB,
        None => to,
    };
    let is_rear = post.which == Which::Back;
    let (mut near, mut far) = match is_rear {
        true => (from.max(front), screwed.min(back)),
        false => (from.max(before), to.min(back)),
    };
    let own = post.cuboid();
    let (inside, left) = match own.from.x < shelf.cuboid().from.x {
        true => (own.to.x, true),
        false => (own.from.x, false),
    };
    let grooves = post.features.iter().filter(|own| own.kind == FeatureKind::Groove);
    for groove in grooves.flat_map(|own| post.hollows(own)) {
        let behind = if left { inside - groove.to.x } else { groove.from.x - inside };
        if behind - WEB >= case.shelves.pins.deep {
            continue;
        }
        match is_rear {
            true => near = near.max(groove.to.z + WEB),
            false => far = far.min(groove.from.z - WEB),
        }
    }
    (near, far)
}
