//! What hangs a door: its cups, and the plates that their arms are screwed to.

use crate::measure::{Length, Span};
use crate::model::{Axis, HingeId, HingeKind, JointKind, Plate, Set, Side, Size};
use crate::parts::feature::{Bore, Feature, FeatureKind};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::joint::JointSort;
use crate::parts::part::Assembly;
use crate::parts::space::{Direction, Face};

use super::builder::{Builder, Draft, UPRIGHT};
use super::carcass::Carcass;
use super::front::Front;
use super::inside;

/// Wood round the screws of a plate on its block (common practice, no source).
fn block_margin() -> Length {
    Length::mm(20)
}

/// Hangs a door: `id` is the part that its cups are bored into.
pub(super) fn hang(
    builder: &mut Builder<'_>,
    carcass: &Carcass,
    leaf: &Front<'_>,
    id: PartId,
    side: Side,
    (hinge, span): (HingeId, Span),
) {
    let Some(hinge) = builder.piece.hinge(hinge).cloned() else { return };
    let holder = beside(builder, leaf, side);
    if let Some((holder, _)) = holder {
        builder.join(JointSort::Hung, id, holder, false, span);
    }
    let HingeKind::Cup { diameter, bore, from_edge, plate, .. } = hinge.kind else { return };
    let count = builder.piece.hinges_on(leaf.opening, leaf.fronts);
    let Some(part) = builder.part(id).cloned() else { return };
    let radius = diameter.half();
    let ends = leaf.fronts.hinge_place.ends(&hinge).map(Size::from);
    let heights = hinge_heights(&leaf.high, &ends, count);
    let aside = |number| builder.aside.get(&(leaf.id, number)).copied().unwrap_or_default();
    let heights: Vec<Length> =
        (1..).zip(heights).map(|(number, height)| height.length + aside(number)).collect();
    for height in &heights {
        let upright = part.placement.length == Direction::Y;
        let wide = if upright { part.width.length } else { part.length.length };
        let center = match side {
            Side::Left => from_edge + radius,
            Side::Right => wide - from_edge - radius,
        };
        let (along, across) =
            ((*height - radius, *height + radius), (center - radius, center + radius));
        let (u, v) = if upright { (along, across) } else { (across, along) };
        builder.cut(
            id,
            Feature {
                kind: FeatureKind::Bore(Bore::Cup),
                face: Face::ThickEnd,
                u,
                v,
                deep: bore,
                deep_at: None,
                takes: None,
                span,
            },
        );
    }
    if let (Some(plate), Some((holder, face))) = (plate, holder) {
        plates(builder, carcass, leaf, side, (holder, face), &plate, &heights);
    }
}

/// Heights of the hinge centers above the lower end of a door, whose lowest is so far from
/// that end and whose uppermost so far from the other: in even steps, from which those of
/// cup hinges between them may step aside.
#[must_use]
pub fn hinge_heights(high: &Size, [bottom, top]: &[Size; 2], count: u32) -> Vec<Size> {
    let count = i64::from(count.max(2));
    let room = high - bottom - top;
    (0..count).map(|number| bottom + &room * number / (count - 1)).collect()
}

/// What a door hangs on, and its face towards the opening: the stile beside
/// the opening, else the end, partition, or divider.
pub(super) fn beside(
    builder: &Builder<'_>,
    leaf: &Front<'_>,
    side: Side,
) -> Option<(PartId, Face)> {
    let opening = leaf.opening;
    let x = match side {
        Side::Left => opening.x,
        Side::Right => opening.x + opening.wide.length,
    };
    let planes = &builder.planes;
    let at = |z: Length, assembly: Assembly| {
        let near = builder.at(x, opening.y + opening.high.length.half(), z);
        builder.board_at(Direction::X, near.x, side == Side::Right, near, &assembly)
    };
    let in_frame = (planes.frame.length + planes.carcass.length).half();
    let in_carcass = (planes.carcass.length + planes.inside.length).half();
    // A post belongs to the carcass, and a divider has no stile before it.
    at(in_frame, Assembly::Frame(builder.id))
        .or_else(|| {
            at(in_frame, Assembly::Carcass(builder.id)).filter(|own| is_post(builder, *own))
        })
        .or_else(|| at(in_carcass, Assembly::Carcass(builder.id)))
}

fn is_post(builder: &Builder<'_>, (holder, _): (PartId, Face)) -> bool {
    builder.part(holder).is_some_and(|part| matches!(part.role, Role::Post(_)))
}

/// The screw holes of the plates of a door.
///
/// On a board of the case they lie in its face, and on a post in its inside face. A stile is mostly as thick as
/// an inset door, which covers all of its inside edge: only where the line of
/// the screws still falls on that edge are they bored into it. Else the plate
/// sits behind the stile, on the board there if it is flush with the opening,
/// or on a block that brings it flush; with no board there the block hangs on
/// the stile.
fn plates(
    builder: &mut Builder<'_>,
    carcass: &Carcass,
    leaf: &Front<'_>,
    side: Side,
    (holder, face): (PartId, Face),
    plate: &Plate,
    heights: &[Length],
) {
    let planes = builder.planes.clone();
    let behind = match leaf.fronts.set {
        Set::Inset => planes.frame.length + builder.thickness(leaf.fronts.stock).length,
        Set::Overlay(_) => Length::ZERO,
    };
    let line = |front: Length| front.max(behind) + plate.back;
    let radius = plate.screw.half();
    if is_post(builder, (holder, face)) {
        screws(builder, holder, face, leaf, plate, line(planes.frame.length), heights);
        return;
    }
    if builder.case.frame.is_none() {
        screws(builder, holder, face, leaf, plate, line(planes.carcass.length), heights);
        return;
    }
    if builder.part(holder).is_some_and(|part| part.assembly == Assembly::Carcass(builder.id)) {
        // The door closes before the divider that it hangs on.
        screws(builder, holder, face, leaf, plate, planes.carcass.length + plate.back, heights);
        return;
    }
    let on_edge = line(planes.frame.length);
    if on_edge + radius <= planes.carcass.length {
        screws(builder, holder, face, leaf, plate, on_edge, heights);
        return;
    }
    let z = line(planes.carcass.length);
    let space = inside::space(builder, leaf.opening, carcass);
    let index = usize::from(side == Side::Right);
    let (mut board, mut packing) = (space.boards[index], space.packing[index].clone());
    let towards = if side == Side::Left { Face::ThickEnd } else { Face::ThickStart };
    if !packing.length.is_positive() {
        screws(builder, board, towards, leaf, plate, z, heights);
        return;
    }
    // No board stands behind this stile: the block hangs on the stile, and
    // leaves room for another door's.
    let stile = builder.part(holder).map(|stile| stile.width.clone()).unwrap_or_default();
    let on_stile = packing.length > stile.length;
    if on_stile {
        (board, packing) = (holder, stile.half());
    }
    // A block that reaches a board stands flush with the opening as built; one
    // on the stile goes by the stile.
    let off = match on_stile {
        true => Size::zero(),
        false => leaf.opening.grown(Axis::Across).half(),
    };
    let packing = &packing - &off;
    if !packing.length.is_positive() {
        screws(builder, board, towards, leaf, plate, z, heights);
        return;
    }
    block(builder, leaf, side, (board, packing.clone(), off.length), plate, z, heights);
    let rest = plate.deep - packing.length;
    if rest.is_positive() && !on_stile {
        // The screws go on through a thin block into the board behind it.
        let plate = Plate { deep: rest, ..*plate };
        holes(builder, (board, towards, Bore::PlateBehind), leaf, &plate, z, heights);
    }
}

/// A block for each hinge, from a board to the edge of the opening.
fn block(
    builder: &mut Builder<'_>,
    leaf: &Front<'_>,
    side: Side,
    (board, thickness, off): (PartId, Size, Length),
    plate: &Plate,
    z: Length,
    heights: &[Length],
) {
    let Some(frame) = builder.case.frame.as_ref() else { return };
    let (stock, front) = (frame.stock, builder.planes.carcass.length);
    let towards = if side == Side::Left { Face::ThickEnd } else { Face::ThickStart };
    let half = plate.apart.half() + block_margin();
    let x = match side {
        Side::Left => leaf.opening.x - off - thickness.length,
        Side::Right => leaf.opening.x + leaf.opening.wide.length + off,
    };
    let deep = plate.deep.min(thickness.length);
    // Within the opening, it comes in from the front past the rails; but its screws keep
    // wood beyond them.
    let least = plate.apart.half() + block_margin().half();
    let opening = leaf.opening;
    let sill = opening.y - leaf.y;
    let head = sill + opening.as_built(Axis::Down).length;
    for (number, height) in (1..).zip(heights) {
        let low = (*height - half).max(sill).min(*height - least);
        let high = (*height + half).min(head).max(*height + least);
        let id = builder.add(Draft {
            of: Of::Opening(leaf.opening.id),
            which: Which::AtNumber(side, number),
            role: Role::HingeBlock,
            assembly: Assembly::Loose(builder.id),
            stock,
            length: Size::from_terms(high - low, Vec::new()),
            width: Size::from_terms(z + block_margin() - front, Vec::new()),
            thickness: Some(thickness.clone()),
            stands: Builder::stands(x, &leaf.stands[1] + Size::from(low), front),
            axes: UPRIGHT,
            show: Some(towards),
            span: plate.span,
            notes: Vec::new(),
        });
        builder.join(JointSort::Wood(JointKind::Screw), id, board, true, plate.span);
        screws(builder, id, towards, leaf, &Plate { deep, ..*plate }, z, &[*height]);
    }
}

fn screws(
    builder: &mut Builder<'_>,
    id: PartId,
    face: Face,
    leaf: &Front<'_>,
    plate: &Plate,
    z: Length,
    heights: &[Length],
) {
    holes(builder, (id, face, Bore::Plate), leaf, plate, z, heights);
}

/// Two holes a hinge, above each other at `z` from the foremost face of the case.
fn holes(
    builder: &mut Builder<'_>,
    (id, face, bore): (PartId, Face, Bore),
    leaf: &Front<'_>,
    plate: &Plate,
    z: Length,
    heights: &[Length],
) {
    let Some(part) = builder.part(id) else { return };
    let (origin, radius) = (part.placement.origin, plate.screw.half());
    let v = z - origin.z;
    let up = leaf.y - origin.y;
    for height in heights {
        for offset in [-plate.apart.half(), plate.apart.half()] {
            let u = up + *height + offset;
            builder.cut(
                id,
                Feature {
                    kind: FeatureKind::Bore(bore),
                    face,
                    u: (u - radius, u + radius),
                    v: (v - radius, v + radius),
                    deep: plate.deep,
                    deep_at: None,
                    takes: None,
                    span: plate.span,
                },
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::measure::Length;
    use crate::model::MemoryFiles;
    use crate::parts::{Bore, Cuboid, FeatureKind, Parts, Role};
    use crate::pipeline;

    const FIRST: &str = include_str!("../../../specs/first.case");
    const ALCOVE: &str = include_str!("../../../specs/alcove-shelves.case");

    fn parts(text: &str) -> Parts {
        let compiled =
            pipeline::check(&MemoryFiles::one("a.case", text), "a.case").expect("readable");
        // That nothing is made by its drawers block is another matter.
        let found = compiled.diagnostics.iter().filter(|d| d.slug != "drawers-unused");
        let titles: Vec<_> = found.map(|d| &d.title).collect();
        assert!(titles.is_empty(), "{titles:?}");
        compiled.parts.expect("parts")
    }

    /// The plate holes of a piece: the part's name, and where they lie in space.
    fn holes(parts: &Parts) -> Vec<(&str, Cuboid)> {
        parts
            .all
            .iter()
            .flat_map(|part| part.features.iter().map(move |feature| (part, feature)))
            .filter(|(_, feature)| feature.kind == FeatureKind::Bore(Bore::Plate))
            .flat_map(|(part, feature)| {
                part.hollows(feature).map(|space| (part.path.as_str(), space))
            })
            .collect()
    }

    /// Worked by hand: the cupboard is 450 deep like the deepest case, its
    /// doors 19 thick, so the line lies 19 + 37 = 56 behind the front. The
    /// opening begins 80 + 18 = 98 above the floor, the door 2 higher at 100,
    /// its first cup at 180: screws at 164 and 196. The case begins at 800, its
    /// right end's inner face lies at 800 + 1200 − 18 = 1982.
    #[test]
    fn plates_lie_on_the_board_beside_an_inset_door() {
        let parts = parts(ALCOVE);
        let all = holes(&parts);
        assert_eq!(all.len(), 8);
        let right: Vec<_> = all.iter().filter(|(path, _)| *path == "cupboard.right-end").collect();
        let heights: Vec<Length> =
            right.iter().map(|(_, hole)| (hole.from.y + hole.to.y).half()).collect();
        assert_eq!(heights[..2], [Length::mm(164), Length::mm(196)]);
        for (_, hole) in right {
            assert_eq!((hole.from.z + hole.to.z).half(), Length::mm(56));
            assert_eq!((hole.from.x, hole.to.x), (Length::mm(1982), Length::mm(1994)));
        }
    }

    /// Worked by hand: an inset door of 3/4 covers a 3/4 stile, so the plate
    /// stands on a block behind it: 3/4 in + 37 mm back, the block 1-3/4 −
    /// 23/32 = 1-1/32 thick, its face at the opening's edge, 1-3/4 from the side.
    #[test]
    fn behind_a_stile_the_plate_stands_on_a_block() {
        let parts = parts(&FIRST.replace("swing 105 deg", "swing 105 deg; plate { }"));
        let blocks: Vec<_> =
            parts.all.iter().filter(|part| part.role == Role::HingeBlock).collect();
        assert_eq!(blocks.len(), 4);
        assert_eq!(blocks[0].thickness.length, Length::inches(33, 32));
        assert_eq!(blocks[0].cuboid().to.x, Length::inches(7, 4));
        let all = holes(&parts);
        assert_eq!(all.len(), 8);
        for (path, hole) in all {
            assert!(path.contains("hinge-block"), "{path}");
            assert_eq!((hole.from.z + hole.to.z).half(), Length::inches(3, 4) + Length::mm(37));
        }
        // What a block takes is its own: it shares space with no other part.
        for block in blocks {
            for other in parts.all.iter().filter(|other| other.path != block.path) {
                assert!(!block.cuboid().overlaps(&other.cuboid()), "{}", other.path);
            }
        }
    }

    /// Worked by hand: a stile of 1-1/2 in over a partition of 23/32 leaves
    /// (1-1/2 − 23/32) / 2 = 25/64 for a block; a screw of 12 mm goes 12 mm −
    /// 25/64 in on into the partition. With nothing behind the stile the block
    /// is half as thick as the stile is wide.
    #[test]
    fn a_thin_block_hands_its_screws_on_to_the_board() {
        let list = "doors store { share 1; shelf { adjustable 1 } }";
        let two = |partition: &str| {
            let list_with = format!(
                "across {{ share 1; door one {{ share 1; hung right }}\n stile {{ wide 1-1/2; partition {partition} }}\n door two {{ share 1; hung left }} }}"
            );
            FIRST
                .replace("swing 105 deg", "swing 105 deg; plate { }")
                .replace("pull knob { screw 5/32 }", "pull knob { screw 5/32; stands 1/4 }")
                .replace("down {                               # openings, top to bottom\n      drawer upper { high 5 }\n      rail { wide 1-1/2 }\n", "down {\n")
                .replace(list, &list_with)
        };
        let with = parts(&two("{ stock ply; joint dado { deep 1/4 } }"));
        let block = |parts: &Parts| {
            let mut blocks = parts.all.iter().filter(|part| part.role == Role::HingeBlock);
            blocks.next().map(|block| block.thickness.length)
        };
        assert_eq!(block(&with), Some(Length::inches(25, 64)));
        let through: Vec<Length> = with
            .all
            .iter()
            .filter(|part| part.role == Role::HingeBlock)
            .flat_map(|part| part.features.iter().map(|hole| hole.deep))
            .collect();
        assert_eq!(through, [Length::inches(25, 64); 8]);
        let partition = with.all.iter().find(|part| part.role == Role::Partition).expect("one");
        let rest: Vec<Length> = partition
            .features
            .iter()
            .filter(|f| f.kind == FeatureKind::Bore(Bore::PlateBehind))
            .map(|f| f.deep)
            .collect();
        assert_eq!(rest, [Length::mm(12) - Length::inches(25, 64); 8]);
        let without = parts(&two("none"));
        assert_eq!(block(&without), Some(Length::inches(3, 4)));
    }

    /// An overlay door leaves the inside edge of the stile free: a plate whose
    /// screws lie 3/8 behind the front of a 3/4 stile is bored into that edge.
    #[test]
    fn an_overlay_door_may_hang_on_the_edge_of_its_stile() {
        let text = FIRST
            .replace("swing 105 deg", "swing 105 deg; plate { back 3/8 }")
            .replace("set inset", "set overlay { by 1/2 }");
        let parts = parts(&text);
        let all = holes(&parts);
        assert_eq!(all.len(), 8);
        for (path, hole) in all {
            assert!(path.ends_with("-stile"), "{path}");
            // Behind the plane of the doors, which are 3/4 thick.
            assert_eq!((hole.from.z + hole.to.z).half(), Length::inches(9, 8));
        }
    }
}
