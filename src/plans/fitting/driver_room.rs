//! The room for a driver at the screws of a line, and what stands there.

use crate::parts::{
    Assembly, Bore, Cuboid, Direction, Feature, FeatureKind, JointSort, Part, Parts, Role, reaches,
};
use crate::plans::Workings;
use crate::plans::made::Space;
use crate::trade::{self, Block, ScrewWay};

use super::screw_lines::ScrewLine;

/// The box of a space, as a driver may meet it.
pub(crate) fn block(space: &Cuboid) -> Block {
    let Cuboid { from, to } = space;
    trade::block([[from.x, to.x], [from.y, to.y], [from.z, to.z]])
}

/// What a driver may meet of a part: all of it but the notches through it, such as an end
/// has at its foot.
pub(crate) fn blocks(part: &Part) -> Vec<Block> {
    let is_through = |own: &&Feature| {
        own.kind == FeatureKind::Notch && own.face.is_broad() && own.deep == part.depth(own.face)
    };
    let notches: Vec<&Feature> = part.features.iter().filter(is_through).collect();
    if notches.is_empty() {
        return vec![block(&part.cuboid())];
    }
    let whole = Space::whole([&part.length, &part.width, &part.thickness].map(|own| own.length));
    let left = notches.into_iter().fold(vec![whole], |left, notch| {
        let gone = Space::of(part, notch);
        left.iter().flat_map(|piece| piece.without(&gone)).collect()
    });
    left.iter().map(|piece| block(&part.in_piece(piece.0))).collect()
}

/// Where each screw of a line may be driven: at its place, and as far to either side as the
/// layout sheet lets it move, where both boards are there.
pub(crate) fn places(line: &ScrewLine<'_>) -> Vec<Vec<ScrewWay>> {
    let long = line.through.placement.direction(line.end);
    let (own, other) = (line.through.cuboid(), line.into.cuboid());
    let from = own.from.along(long).max(other.from.along(long)).to_mm_f64();
    let to = own.to.along(long).min(other.to.along(long)).to_mm_f64();
    let (aside, beside) = trade::ASIDE;
    let place = |screw: ScrewWay| {
        let moved = [aside, -aside].map(|by| screw.moved(by)).into_iter();
        let holds = |own: &ScrewWay| from + beside <= own.along() && own.along() <= to - beside;
        std::iter::once(screw).chain(moved.filter(holds)).collect()
    };
    ways(line).into_iter().map(place).collect()
}

/// The screws of a line, as a driver comes to them.
fn ways(line: &ScrewLine<'_>) -> Vec<ScrewWay> {
    let place = &line.through.placement;
    let (axis, long) = (place.direction(line.face), place.direction(line.end));
    let to_end = !line.face.is_start();
    let heads = line.heads().into_iter().map(|head| {
        let at = Direction::ALL.map(|own| head.along(own));
        ScrewWay::square(at, (axis.index(), to_end), long.index())
    });
    heads.collect()
}

/// True where a driver gets at every screw of the lines between two boards in a carcass that
/// is put together, without its back.
pub(super) fn are_reached(parts: &Parts, both: [&Part; 2], lines: &[ScrewLine<'_>]) -> bool {
    let stands = |part: &&Part| {
        matches!(part.assembly, Assembly::Carcass(_))
            && part.role != Role::Back
            && !both.iter().any(|own| std::ptr::eq(*own, *part))
    };
    let boards = parts.of_case(both[0].case).iter().filter(stands);
    let blocks: Vec<Block> = boards.flat_map(blocks).collect();
    lines.iter().flat_map(ways).all(|screw| screw.stopped(&blocks).is_none())
}

/// The boards that are joined to a bottom and stand on it.
pub(super) fn standing_on(parts: &Parts, bottom: &Part) -> Vec<Cuboid> {
    let upper = bottom.cuboid().to.y;
    let joined = parts.joints_of(bottom.case).iter().filter(|joint| {
        let of = parts.get(joint.into).is_some_and(|into| std::ptr::eq(into, bottom));
        of && matches!(joint.sort, JointSort::Wood(_))
    });
    let stands = joined.filter_map(|joint| parts.get(joint.part)).map(Part::cuboid);
    stands.filter(|own| own.from.y <= upper && own.to.y > upper).collect()
}

/// The rooms of the hinges of all doors that hang on an end: their plates and arms lie over it.
pub(super) fn hinges_on(parts: &Parts, end: &Part) -> Vec<Cuboid> {
    let hung = parts.joints_of(end.case).iter().filter(|joint| {
        joint.sort == JointSort::Hung
            && parts.get(joint.into).is_some_and(|into| std::ptr::eq(into, end))
    });
    let doors = hung.filter_map(|joint| parts.get(joint.part));
    doors.flat_map(reaches).map(|reach| reach.space).collect()
}

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
