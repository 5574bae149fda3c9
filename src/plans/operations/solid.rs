//! What is left of a part when its joints are cut, as boxes in the axes of the
//! piece: what another part must not run into on its way.

use crate::measure::Length;
use crate::parts::{Cuboid, Direction, Feature, FeatureKind, Part, Point};
use crate::plans::made::Space;

/// The wood of a part. Holes and flutes are left out, since nothing goes
/// through them; dovetails and miters go by the joint and not by the part.
pub(super) fn solid(part: &Part) -> Vec<Cuboid> {
    let sizes = [part.length.length, part.width.length, part.thickness.length];
    let mut left = vec![Space::whole(sizes)];
    for feature in &part.features {
        for gone in removed(part, feature) {
            left = left.iter().flat_map(|wood| wood.without(&gone)).collect();
        }
    }
    left.iter().map(|wood| in_piece(part, wood)).collect()
}

fn removed(part: &Part, feature: &Feature) -> Vec<Space> {
    match feature.kind {
        FeatureKind::Dado
        | FeatureKind::Groove
        | FeatureKind::Rabbet
        | FeatureKind::Notch
        | FeatureKind::Mortise => vec![Space::of(part, feature)],
        FeatureKind::Tenon => {
            let tenon = Space::of(part, feature);
            let (_, whole) = (feature.face, part.face_size(feature.face));
            let end = Feature {
                u: (Length::ZERO, whole.0),
                v: (Length::ZERO, whole.1),
                ..feature.clone()
            };
            Space::of(part, &end).without(&tenon)
        }
        FeatureKind::Miter
        | FeatureKind::Pockets(..)
        | FeatureKind::Bore(_)
        | FeatureKind::Flute(_)
        | FeatureKind::Dovetails
        | FeatureKind::Dowels(..) => Vec::new(),
    }
}

fn in_piece(part: &Part, wood: &Space) -> Cuboid {
    let place = &part.placement;
    let at = |direction: Direction, is_end: bool| {
        let axes = [place.length, place.width, place.thickness];
        let axis = axes.iter().position(|axis| *axis == direction).unwrap_or(0);
        let (from, to) = wood.0[axis];
        place.origin.along(direction) + if is_end { to } else { from }
    };
    let corner = |is_end| {
        Point::new(at(Direction::X, is_end), at(Direction::Y, is_end), at(Direction::Z, is_end))
    };
    Cuboid { from: corner(false), to: corner(true) }
}
