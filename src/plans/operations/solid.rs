//! What is left of a part when its joints are cut, as boxes in the axes of the
//! piece: what another part must not run into on its way.

use crate::measure::Length;
use crate::parts::{Cuboid, Face, Feature, FeatureKind, Part};
use crate::plans::made::Space;

/// The wood of a part. Holes and flutes are left out, since nothing goes
/// through them; dovetails go by the joint and not by the part, and so do miters where two
/// of them meet.
pub(super) fn solid(part: &Part) -> Vec<Cuboid> {
    let mut left = vec![Space::whole(part.sizes())];
    for feature in &part.features {
        for gone in removed(part, feature) {
            // Of many boxes a cut meets few.
            let met = |wood: &Space| wood.common(&gone).is_some();
            let mut from = 0;
            while let Some(at) = left.iter().skip(from).position(met).map(|at| from + at) {
                let rest = left[at].without(&gone);
                from = at + rest.len();
                left.splice(at..=at, rest);
            }
        }
    }
    left.iter().map(|wood| part.in_piece(wood.0)).collect()
}

fn removed(part: &Part, feature: &Feature) -> Vec<Space> {
    match feature.kind {
        FeatureKind::Dado
        | FeatureKind::Groove
        | FeatureKind::Rabbet
        | FeatureKind::Glazing(_)
        | FeatureKind::Notch
        | FeatureKind::Slot
        | FeatureKind::Haunch
        | FeatureKind::Mortise => vec![Space::of(part, feature)],
        FeatureKind::Tenon => {
            let tenon = Space::of(part, feature);
            let (u, v) = part.face_size(feature.face);
            let end = Feature { u: (Length::ZERO, u), v: (Length::ZERO, v), ..feature.clone() };
            Space::of(part, &end).without(&tenon)
        }
        FeatureKind::Miter => steps(part, feature),
        FeatureKind::Pockets(..)
        | FeatureKind::Bore(_)
        | FeatureKind::Flute(_)
        | FeatureKind::Dovetails
        | FeatureKind::Dowels(..) => Vec::new(),
    }
}

/// Boxes in the wedge that a miter takes away, at 45 degrees from the corner that stays: a
/// stair of four steps, which lies whole in the wedge.
fn steps(part: &Part, miter: &Feature) -> Vec<Space> {
    const STEPS: i64 = 4;
    let (from, to) = miter.v;
    let step = |number: i64| {
        let deep = miter.deep * number / STEPS;
        let left = match part.show? {
            Face::ThickStart => (from + deep, to),
            Face::ThickEnd => (from, to - deep),
            Face::LengthStart | Face::LengthEnd | Face::WidthStart | Face::WidthEnd => return None,
        };
        Some(Space::of(part, &Feature { v: left, deep, ..miter.clone() }))
    };
    match miter.face {
        Face::WidthStart | Face::WidthEnd => (1..STEPS).filter_map(step).collect(),
        Face::LengthStart | Face::LengthEnd | Face::ThickStart | Face::ThickEnd => Vec::new(),
    }
}
