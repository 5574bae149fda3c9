//! Where every hinge goes: on its door, and on what the door hangs on.

use crate::measure::Length;
use crate::model::{Edge, HingeKind, JointKind, Side, Size};
use crate::parts::{
    self, Bore, Direction, Face, FeatureKind, Front, JointSort, Part, PartId, Reach, Role, Which,
};
use crate::plans::Workings;

use super::{Index, above_end, from_edge};

/// A hinge.
#[derive(Clone, Debug)]
pub struct HungAt<'a> {
    /// The part of the door that carries it.
    pub leaf: &'a Part,
    /// Its number, from the bottom.
    pub number: u32,
    /// Its center above the bottom end of that part.
    pub on_leaf: Length,
    /// Its center above the lower edge of the opening, as built.
    pub above_opening: Length,
    /// The stile or board that the door hangs on.
    pub holder: &'a Part,
    /// Its center above the bottom end of the holder.
    pub on_holder: Length,
    /// It is a butt hinge, without a cup.
    pub butt: bool,
    /// How far an overlay door lies over the edge of its opening on the side of its hinges.
    pub over: Option<Size>,
    /// The screws of its plate, where the spec gives it one.
    pub plate: Option<PlateAt<'a>>,
    /// The block that it stands on.
    pub block: Option<BlockAt<'a>>,
}

/// The screws of a plate.
#[derive(Clone, Copy, Debug)]
pub struct PlateAt<'a> {
    /// What they go into.
    pub part: &'a Part,
    /// Which face.
    pub face: Face,
    /// The lower and the upper one, above the bottom end of that part.
    pub screws: [Length; 2],
    /// From the front edge of that part to their line.
    pub line: Length,
    /// The diameter of their holes.
    pub hole: Length,
    /// How deep the holes are.
    pub deep: Length,
}

/// A hinge block in its place.
#[derive(Clone, Copy, Debug)]
pub struct BlockAt<'a> {
    /// The block.
    pub part: &'a Part,
    /// What it is fixed to.
    pub on: &'a Part,
    /// Its lower end above the bottom end of that.
    pub above_end: Length,
    /// Its lower end above the lower edge of the opening, as built.
    pub above_opening: Length,
}

pub(super) fn plan<'a>(work: &Workings<'a>, index: &Index<'a>) -> Vec<HungAt<'a>> {
    let mut found = Vec::new();
    for front in work.fronts() {
        let (Some(side), Some((hinge, _))) = (front.hung, front.fronts.hinge) else { continue };
        let Some(hinge) = work.piece.hinge(hinge) else { continue };
        let Some((leaf, holder)) = hung(front, index) else { continue };
        let count = work.piece.hinges_on(front.opening, front.fronts);
        let foot = front.space.from.y;
        let high = front.space.to.y - foot;
        let low = front.opening.corner_as_built().1;
        let ends = front.fronts.hinge_place.ends(hinge).map(Size::from);
        let (heights, apart): (Vec<Length>, _) = match hinge.kind {
            HingeKind::Cup { plate, .. } => {
                let cups = parts::reaches(leaf);
                (cups.iter().map(Reach::center).collect(), plate.map(|plate| plate.apart))
            }
            HingeKind::Butt { .. } => {
                let heights = parts::hinge_heights(&high.into(), &ends, count).into_iter();
                (heights.map(|height| foot + height.length).collect(), None)
            }
        };
        for (number, y) in (1..).zip(heights) {
            let block = block(front, side, number, index);
            let screws = apart.map(|apart| [y - apart.half(), y + apart.half()]);
            found.push(HungAt {
                leaf,
                number,
                on_leaf: above_end(leaf, y),
                above_opening: y - low,
                holder,
                on_holder: above_end(holder, y),
                butt: matches!(hinge.kind, HingeKind::Butt { .. }),
                over: front
                    .overlays()
                    .find(|(edge, _)| *edge == Edge::at(side))
                    .map(|(_, over)| over.clone()),
                plate: screws.and_then(|at| plate(front, side, at, block.map(|b| b.part), index)),
                block,
            });
        }
    }
    found
}

/// The part of a door that its hinges are on, and what they hang it on.
fn hung<'a>(front: &Front<'a>, index: &Index<'a>) -> Option<(&'a Part, &'a Part)> {
    let of_front = |part: &Part| part.assembly == crate::parts::Assembly::Front(front.id);
    let own: Vec<(PartId, &'a Part)> = index
        .of_opening(front.opening.id)
        .iter()
        .filter(|(_, part)| of_front(part))
        .copied()
        .collect();
    own.into_iter().find_map(|(id, part)| Some((part, index.holding(id, JointSort::Hung).next()?)))
}

fn block<'a>(front: &Front<'a>, side: Side, number: u32, index: &Index<'a>) -> Option<BlockAt<'a>> {
    let own = index.of_opening(front.opening.id).iter();
    let (id, part) = own.copied().find(|(_, part)| {
        part.role == Role::HingeBlock && part.which == Which::AtNumber(side, number)
    })?;
    let on = index.holding(id, JointSort::Wood(JointKind::Screw)).next()?;
    let (foot, low) = (part.extent(Direction::Y).0, front.opening.corner_as_built().1);
    Some(BlockAt { part, on, above_end: above_end(on, foot), above_opening: foot - low })
}

/// The plate whose screws are at these heights above the floor: on its block,
/// else on the part whose face is nearest to the opening.
fn plate<'a>(
    front: &Front<'a>,
    side: Side,
    heights: [Length; 2],
    block: Option<&'a Part>,
    index: &Index<'a>,
) -> Option<PlateAt<'a>> {
    let opening = front.opening;
    let edge = match side {
        Side::Left => front.space.from.x,
        Side::Right => front.space.to.x,
    };
    let parts: Vec<&'a Part> = match block {
        Some(block) => vec![block],
        None => index.parts.of_case(opening.case()).iter().collect(),
    };
    let holes = parts.into_iter().flat_map(|part| {
        let plates = part.features.iter().filter(|f| f.kind == FeatureKind::Bore(Bore::Plate));
        plates.flat_map(move |f| part.hollows(f).map(move |space| (part, f, space)))
    });
    let lower = holes.filter(|(.., space)| (space.from.y + space.to.y).half() == heights[0]);
    let away = |(part, feature, _): &(&Part, &parts::Feature, parts::Cuboid)| {
        let (from, to) = part.extent(Direction::X);
        (if feature.face.is_start() { from } else { to } - edge).abs()
    };
    let (part, feature, space) = lower.min_by_key(away)?;
    Some(PlateAt {
        part,
        face: feature.face,
        screws: heights.map(|y| above_end(part, y)),
        line: from_edge(part, (space.from.z + space.to.z).half()),
        hole: feature.u.1 - feature.u.0,
        deep: feature.deep,
    })
}
