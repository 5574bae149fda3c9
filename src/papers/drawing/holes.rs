//! Holes that are seen face on: circles.

use crate::parts::{Bore, Cuboid, Direction, FeatureKind, Part};

use super::svg::mm;

/// The round holes through a board that is seen along this direction, and with `pulls` those
/// for the screws of pulls in its front, as boxes of the piece.
pub(super) fn seen(part: &Part, along: Direction, pulls: bool) -> Vec<Cuboid> {
    let own = part.features.iter().filter(|own| {
        let is_seen = match own.kind {
            FeatureKind::Bore(Bore::Round) => true,
            FeatureKind::Bore(Bore::Pull) => pulls,
            FeatureKind::Bore(Bore::Cup | Bore::Plate | Bore::PlateBehind | Bore::Leg)
            | FeatureKind::Flute(_)
            | FeatureKind::Dado
            | FeatureKind::Groove
            | FeatureKind::Rabbet
            | FeatureKind::Glazing(_)
            | FeatureKind::Miter
            | FeatureKind::Notch
            | FeatureKind::Slot
            | FeatureKind::Pockets(..)
            | FeatureKind::Tenon
            | FeatureKind::Haunch
            | FeatureKind::Mortise
            | FeatureKind::Dovetails
            | FeatureKind::Dowels(..) => false,
        };
        is_seen && part.placement.direction(own.face) == along
    });
    own.flat_map(|own| part.hollows(own)).collect()
}

/// The radius of a hole that runs along a direction.
pub(super) fn radius(hole: &Cuboid, along: Direction) -> f64 {
    let across = if along == Direction::X { Direction::Y } else { Direction::X };
    mm(hole.size(across).half())
}

/// Its center, as `x`, `y`, and `z`.
pub(super) fn center(hole: &Cuboid) -> (f64, f64, f64) {
    let middle = |way| mm((hole.from.along(way) + hole.to.along(way)).half());
    (middle(Direction::X), middle(Direction::Y), middle(Direction::Z))
}
