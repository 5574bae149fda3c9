//! Drawer boxes, and the packers that bring their slides flush.

use crate::measure::{Length, Unit};
use crate::model::{
    Axis, DrawerBox, DrawerBoxes, FrontId, Hardware, JointKind, Leaf, Opening, OpeningKind, Runs,
    Side, Size, Slide, Stock,
};
use crate::parts::feature::{Feature, FeatureKind};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::joint::JointSort;
use crate::parts::part::{Assembly, Part};
use crate::parts::space::{Direction, Face};

use super::builder::{ACROSS, Builder, Draft, LYING, SIDEWAYS};
use super::carcass::Carcass;
use super::cleats;
use super::inside;
use super::on_wood;

pub(super) fn build(builder: &mut Builder<'_>, carcass: &Carcass) {
    let Some(boxes) = builder.case.drawers.clone() else { return };
    let openings = builder.case.openings.clone();
    for opening in &openings {
        let OpeningKind::Drawer { slide: Some(slide), .. } = opening.kind else { continue };
        let Some(slide) = builder.piece.slide(slide).cloned() else { continue };
        let Some(size) = builder.piece.drawer_box(builder.case, opening) else { continue };
        let made = drawer(builder, opening, &boxes, &slide, &size);
        let sides = made.sides;
        let space = inside::space(builder, opening, carcass);
        let slide = match &slide.runs {
            Runs::Hardware(slide) => slide,
            Runs::Wooden(_) => {
                on_wood::build(builder, opening, &boxes, &made, &space);
                continue;
            }
        };
        for (index, side) in Side::BOTH.into_iter().enumerate() {
            packer(builder, opening, &boxes, slide, side, &space);
            builder.join(JointSort::Slid, sides[index], space.boards[index], false, opening.span);
        }
    }
}

/// What others need of a box.
pub(super) struct Made {
    /// Left and right.
    pub(super) sides: [PartId; 2],
    /// The board behind its front, or its front.
    pub(super) front: PartId,
    /// Its bottom.
    pub(super) bottom: PartId,
}

fn drawer(
    builder: &mut Builder<'_>,
    opening: &Opening,
    boxes: &DrawerBoxes,
    slide: &Slide,
    size: &DrawerBox,
) -> Made {
    let thick = builder.thickness(boxes.stock);
    let [clear_left, clear_right] = &opening.clear;
    let clear = clear_left + clear_right;
    let [left, low] = &opening.stands;
    let x = left + clear_left + (&opening.wide - &clear - &size.outside).half();
    let y = low + &size.above;
    let z = &builder.planes.frame + builder.piece.before_box(builder.case, opening);
    let assembly = Assembly::DrawerBox(opening.id);
    let draft = |which, role, length: Size, width: &Size, stands, axes| Draft {
        of: Of::Opening(opening.id),
        which,
        role,
        assembly,
        stock: boxes.stock,
        length,
        width: width.clone(),
        thickness: None,
        stands,
        axes,
        show: None,
        span: opening.span,
        notes: Vec::new(),
    };
    let right_x = &x + &size.outside - &thick;
    let sides = [(Side::Left, &x), (Side::Right, &right_x)].map(|(side, x)| {
        let stands = Builder::stands(x, &y, &z);
        let mut side_draft = draft(
            Which::At(side),
            Role::DrawerSide,
            size.deep.clone(),
            &size.high,
            stands,
            SIDEWAYS,
        );
        // The outside is what shows with the drawer out.
        side_draft.show = Some(if side == Side::Left { Face::ThickStart } else { Face::ThickEnd });
        builder.add(side_draft)
    });
    // Front and back lie in rabbets of the sides, between them, or over their
    // whole width.
    let reach = match boxes.joint.kind {
        JointKind::Rabbet => boxes.joint.deep.clone().unwrap_or_default(),
        JointKind::Dovetail => thick.clone(),
        JointKind::Dado
        | JointKind::Pocket
        | JointKind::Screw
        | JointKind::Tenon
        | JointKind::Dowel
        | JointKind::Butt => Size::zero(),
    };
    let long = &size.inside + &reach * 2;
    let cross_x = &x + &thick - &reach;
    let back_z = &z + &size.deep - &thick;
    // On wood the back stands on the bottom, which is pushed in under it.
    let free = opening.on_wood.as_ref();
    let raised = free.map(|free| (&boxes.groove_up + builder.thickness(boxes.bottom_stock), free));
    let (back_y, back_high) = match &raised {
        Some((up, free)) => (&y + up, &size.high - up - &free.lower),
        None => (y.clone(), size.high.clone()),
    };
    let ends = [
        (Role::DrawerFront, &z, (&y, &size.high)),
        (Role::DrawerBack, &back_z, (&back_y, &back_high)),
    ];
    let ends = ends.map(|(role, z, (y, high))| {
        let stands = Builder::stands(&cross_x, y, z);
        let mut end = draft(Which::Only, role, long.clone(), high, stands, ACROSS);
        let outside = if role == Role::DrawerFront { Face::ThickStart } else { Face::ThickEnd };
        end.show = Some(outside);
        builder.add(end)
    });
    let corner = [&x + &thick, y, &z + &thick];
    let past = raised.as_ref().map(|(_, free)| &free.past);
    let bottom = bottom(builder, (boxes, size, past), corner, &thick, opening);
    corners(builder, boxes, &sides, &ends, &thick);
    match raised {
        Some(_) => {
            grooves(builder, boxes, bottom, &sides, &ends[..1]);
            let screwed = JointSort::Wood(JointKind::Screw);
            builder.join(screwed, bottom, ends[1], false, boxes.span);
        }
        None => grooves(builder, boxes, bottom, &sides, &ends),
    }
    if let Some(hardware) = slide.hardware()
        && let Some(notch) = hardware.notch.filter(|_| hardware.undermount)
    {
        notches(builder, ends[1], notch, slide, reach.length);
    }
    let of = Of::Front(FrontId { opening: opening.id, leaf: Leaf::Front });
    // The screws of a framed front go into what the box covers of its frame: most of it is
    // the lower rail, or the stiles of a box that begins above that.
    let held = |part: &Part| {
        part.of == of && matches!(part.role, Role::Slab | Role::FrontRail | Role::FrontStile)
    };
    let behind = builder.part(ends[0]).map(Part::cuboid);
    let covered = |part: &Part| {
        let (own, behind) = (part.cuboid(), behind.as_ref()?);
        let over = |side| own.overlap_along(behind, side).max(Length::ZERO);
        let [wide, high] =
            [Direction::X, Direction::Y].map(|side| over(side).in_unit(Unit::Millimetre));
        let area = wide * high;
        area.is_positive().then_some(area)
    };
    let boards = builder.own().filter(|(_, part)| held(part));
    // Of two alike the last, which is the lower one.
    let boards = boards.filter_map(|(id, part)| Some((covered(part)?, id)));
    let front = boards.reduce(|most, next| if next.0 >= most.0 { next } else { most });
    if let Some((_, front)) = front {
        builder.join(JointSort::FrontFixed, front, ends[0], false, opening.span);
    }
    Made { sides, front: ends[0], bottom }
}

/// A bottom in the grooves of all four boards. Where it is pushed in from behind, it runs
/// out under the back, and of solid wood `past` it, since it shrinks toward the front.
fn bottom(
    builder: &mut Builder<'_>,
    (boxes, size, past): (&DrawerBoxes, &DrawerBox, Option<&Size>),
    [x, y, z]: [Size; 3],
    thick: &Size,
    opening: &Opening,
) -> PartId {
    let reach = &boxes.groove_deep * 2 - &boxes.groove_play;
    let offset = reach.half();
    let solid = builder.piece.stock(boxes.bottom_stock).is_some_and(Stock::is_solid);
    let width = match past {
        Some(past) if solid => &size.deep - thick + &offset + past,
        Some(_) => &size.deep - thick + &offset,
        None => &size.deep - thick * 2 + &reach,
    };
    builder.add(Draft {
        of: Of::Opening(opening.id),
        which: Which::Only,
        role: Role::DrawerBottom,
        assembly: Assembly::DrawerBox(opening.id),
        stock: boxes.bottom_stock,
        length: &size.inside + &reach,
        width,
        thickness: None,
        stands: Builder::stands(x - &offset, y + &boxes.groove_up, z - &offset),
        axes: LYING,
        show: Some(Face::ThickEnd),
        span: opening.span,
        notes: boxes.notes.clone(),
    })
}

fn corners(
    builder: &mut Builder<'_>,
    boxes: &DrawerBoxes,
    sides: &[PartId; 2],
    ends: &[PartId; 2],
    thick: &Size,
) {
    for (side, inner) in sides.iter().zip([Face::ThickEnd, Face::ThickStart]) {
        for (other, at_start) in ends.iter().zip([true, false]) {
            let sort = JointSort::Wood(boxes.joint.kind);
            builder.join(sort, *other, *side, true, boxes.span);
            let end = if at_start { Face::LengthStart } else { Face::LengthEnd };
            if boxes.joint.kind == JointKind::Dovetail {
                let Some(part) = builder.part(*side) else { continue };
                let Some(pins) = builder.part(*other) else { continue };
                // The back of a box on wood is lower than its sides.
                let low = part.cuboid().from.y;
                let (from, to) = pins.extent(Direction::Y);
                let feature = Feature {
                    kind: FeatureKind::Dovetails,
                    face: end,
                    u: (from - low, to - low),
                    v: (Length::ZERO, part.thickness.length),
                    deep: thick.length,
                    deep_at: None,
                    takes: None,
                    span: boxes.span,
                };
                builder.cut(*side, feature);
            }
            if boxes.joint.kind != JointKind::Rabbet {
                continue;
            }
            let Some(part) = builder.part(*side) else { continue };
            let (length, width) = (part.length.length, part.width.length);
            let u = if at_start {
                (Length::ZERO, thick.length)
            } else {
                (length - thick.length, length)
            };
            let (deep, deep_at) = builder.depth(boxes.joint.deep.as_ref());
            builder.cut(
                *side,
                Feature {
                    kind: FeatureKind::Rabbet,
                    face: inner,
                    u,
                    v: (Length::ZERO, width),
                    deep,
                    deep_at,
                    takes: Some(*other),
                    span: boxes.span,
                },
            );
        }
    }
}

fn grooves(
    builder: &mut Builder<'_>,
    boxes: &DrawerBoxes,
    bottom: PartId,
    sides: &[PartId; 2],
    ends: &[PartId],
) {
    let high = builder.thickness(boxes.bottom_stock).length;
    let up = boxes.groove_up.length;
    let inner = [Face::ThickEnd, Face::ThickStart];
    // Inside faces: of the left side its right one, of the front its rear one.
    for (id, face) in sides.iter().zip(inner).chain(ends.iter().zip(inner)) {
        let Some(part) = builder.part(*id) else { continue };
        let length = part.length.length;
        let (deep, deep_at) = builder.depth(Some(&boxes.groove_deep));
        builder.cut(
            *id,
            Feature {
                kind: FeatureKind::Groove,
                face,
                u: (Length::ZERO, length),
                v: (up, up + high),
                deep,
                deep_at,
                takes: Some(bottom),
                span: boxes.groove_span,
            },
        );
        builder.join(JointSort::Floating, bottom, *id, false, boxes.groove_span);
    }
}

/// Lower corners of the back, cut out for the runners; the figure counts from
/// the inside of the drawer's sides.
fn notches(
    builder: &mut Builder<'_>,
    back: PartId,
    (wide, high): (Length, Length),
    slide: &Slide,
    reach: Length,
) {
    let Some(part) = builder.part(back) else { return };
    let (length, thick) = (part.length.length, part.thickness.length);
    for u in [(reach, reach + wide), (length - reach - wide, length - reach)] {
        builder.cut(
            back,
            Feature {
                kind: FeatureKind::Notch,
                face: Face::ThickEnd,
                u,
                v: (Length::ZERO, high),
                deep: thick,
                deep_at: None,
                takes: None,
                span: slide.span,
            },
        );
    }
}

/// Where what slides behind doors begins, where that is behind the front edges of the case's
/// boards.
pub(super) fn behind_doors(builder: &Builder<'_>, opening: &Opening) -> Option<Size> {
    builder.case.door_before(opening)?;
    let begins = &builder.planes.frame + builder.piece.behind_doors(builder.case, opening);
    (begins.length > builder.planes.carcass.length).then_some(begins)
}

/// A block between a board and the edge of the opening, so that the slide
/// stands flush with the frame.
fn packer(
    builder: &mut Builder<'_>,
    opening: &Opening,
    boxes: &DrawerBoxes,
    slide: &Hardware,
    side: Side,
    space: &inside::Space,
) {
    let index = if side == Side::Left { 0 } else { 1 };
    // Its lower edge is level with that of the slide where the sheet says how
    // high that is.
    let up = match (&slide.up, slide.undermount) {
        (Some(up), _) => up.clone(),
        (None, true) => Size::zero(),
        (None, false) => opening.box_middle(slide, &opening.high) - boxes.packer_wide.half(),
    };
    if builder.part(space.boards[index]).is_some_and(|own| matches!(own.role, Role::Post(_))) {
        cleats::build(builder, opening, boxes, side, &up);
        return;
    }
    let off = opening.grown(Axis::Across).half();
    let clear = &opening.clear[index];
    let thickness = &space.packing[index] + clear - &off;
    if !thickness.length.is_positive() {
        return;
    }
    let x = match side {
        Side::Left => &opening.stands[0] - &space.packing[index],
        Side::Right => &opening.stands[0] + &opening.wide + &off - clear,
    };
    // Behind doors it begins with the box of its tray, or with the front of its drawer,
    // which closes beside it.
    let (z, ahead) = match (behind_doors(builder, opening), &opening.front) {
        (Some(begins), Some(fronts)) => (begins, builder.thickness(fronts.stock)),
        (Some(begins), None) => (begins, Size::zero()),
        (None, _) => (builder.planes.carcass.clone(), Size::zero()),
    };
    let start = slide.behind_front.clone().filter(|_| !ahead.length.is_zero());
    let long = &slide.length + &ahead + start.unwrap_or_default();
    let id = builder.add(Draft {
        of: Of::Opening(opening.id),
        which: Which::At(side),
        role: Role::Packer,
        assembly: Assembly::Loose(builder.id),
        stock: boxes.packer_stock,
        length: long,
        width: boxes.packer_wide.clone(),
        thickness: Some(thickness),
        stands: Builder::stands(x, &opening.stands[1] + up, z),
        axes: SIDEWAYS,
        show: None,
        span: boxes.span,
        notes: Vec::new(),
    });
    // It runs across the grain of a solid end, which screws alone let move.
    let board = space.boards[index];
    let moves = builder.part(board).is_some_and(|own| {
        own.placement.width == SIDEWAYS[0]
            && builder.piece.stock(own.stock).is_some_and(Stock::is_solid)
    });
    builder.join(JointSort::Wood(JointKind::Screw), id, board, !moves, boxes.span);
}
