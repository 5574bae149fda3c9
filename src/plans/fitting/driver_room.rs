//! What stands where the driver of a filler's screws is.

use crate::parts::{Assembly, Bore, Cuboid, Feature, FeatureKind, Part, Role};
use crate::plans::Workings;

/// What stands on an end where the driver of a filler's screws is: the boards of its case
/// that come up to it, what is fixed on it, and the plates of hinges.
pub(super) fn before_face(work: &Workings<'_>, end: &Part, batten: &Part) -> Vec<Cuboid> {
    let axis = end.placement.thickness;
    let own = end.cuboid();
    let middle = |cuboid: &Cuboid| cuboid.from.along(axis) + cuboid.to.along(axis);
    let outward = middle(&batten.cuboid()) > middle(&own);
    let stands = |part: &&Part| {
        let stays = matches!(part.assembly, Assembly::Carcass(_) | Assembly::Loose(_));
        let loose = matches!(part.role, Role::AdjustableShelf | Role::Batten | Role::Filler);
        let other = part.cuboid();
        stays
            && !loose
            && !std::ptr::eq(*part, end)
            && !other.overlap_along(&own, axis).is_negative()
            && (middle(&other) < middle(&own)) == outward
    };
    let boards = work.parts.of_case(end.case).iter().filter(stands).map(Part::cuboid);
    let is_plate =
        |cut: &&Feature| matches!(cut.kind, FeatureKind::Bore(Bore::Plate | Bore::PlateBehind));
    let plates = end.features.iter().filter(is_plate);
    boards.chain(plates.flat_map(|plate| end.hollows(plate))).collect()
}
