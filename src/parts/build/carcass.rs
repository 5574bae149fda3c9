//! The carcass: ends, bottom, top, partitions, dividers, back.

use crate::measure::Length;
use crate::model::{
    Axis, Board, Case, Joinery, JointKind, Member, MemberKind, Partition, Seam, Side, Size,
};
use crate::parts::feature::{Feature, FeatureKind};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::joint::JointSort;
use crate::parts::part::Assembly;
use crate::parts::space::{Direction, Face};

use super::behind;
use super::builder::{ACROSS, Builder, Draft, LYING, STANDING, UPRIGHT};
use super::nailers;
use super::posts;
use super::web;

/// What the other builders need of the carcass.
#[derive(Debug)]
pub(super) struct Carcass {
    /// Left and right end, or the front posts of both.
    pub(super) ends: [PartId; 2],
    /// The bottom.
    pub(super) bottom: Option<PartId>,
    /// From the floor to the underside of the bottom, or to the base.
    pub(super) bottom_y: Size,
    /// What carries the wall screws.
    pub(super) nailers: Vec<PartId>,
}

/// What holds the boards of a case at its left and at its right: its ends, or what they
/// are built of.
#[derive(Debug)]
pub(super) struct HeldBy {
    /// At the front.
    pub(super) front: [PartId; 2],
    /// At the back.
    pub(super) rear: [PartId; 2],
    /// Beside the bottom.
    pub(super) low: [PartId; 2],
    /// Beside the top.
    pub(super) high: [PartId; 2],
}

impl HeldBy {
    /// Ends of one board each.
    fn boards(ends: [PartId; 2]) -> Self {
        Self { front: ends, rear: ends, low: ends, high: ends }
    }
}

pub(super) fn build(builder: &mut Builder<'_>) -> Carcass {
    let held_by = match builder.case.posts.clone() {
        Some(posts) => posts::build(builder, &posts),
        None => HeldBy::boards([end(builder, Side::Left), end(builder, Side::Right)]),
    };
    let ends = held_by.front;
    let bottom_y = bottom_height(builder);
    let bottom = bottom(builder, &held_by.low, &bottom_y);
    top(builder, &held_by.high);
    let nailers = nailers::place(builder, &held_by.rear);
    let mut members: Vec<Member> = builder.case.members.clone();
    // Boards of outer lists first: inner ones are let into them.
    members.sort_by_key(|member| member.list);
    for member in &members {
        match &member.kind {
            MemberKind::Stile(Partition::Board(board)) => {
                behind::partition(builder, member, board);
            }
            MemberKind::Rail(Some(shelf)) => behind::shelf(builder, member, shelf, &ends),
            MemberKind::Divider(board) if builder.case.frame.is_some() => match member.axis {
                Axis::Across => behind::divider_upright(builder, member, board),
                Axis::Down => behind::divider_lying(builder, member, board, &ends),
            },
            MemberKind::Divider(board) => divider(builder, member, board),
            MemberKind::Stile(Partition::None) | MemberKind::Rail(None) => {}
        }
    }
    back(builder, &held_by.rear, &bottom_y);
    Carcass { ends, bottom, bottom_y, nailers }
}

fn end(builder: &mut Builder<'_>, side: Side) -> PartId {
    let case = builder.case;
    let spec = side.of(&case.ends).clone();
    let [left, right] = builder.carcass_sides();
    let thickness = builder.thickness(spec.stock);
    let x = match side {
        Side::Left => left,
        Side::Right => right - &thickness,
    };
    let mitered = spec.seam == Seam::Miter && case.frame.is_some();
    let front = if mitered { builder.planes.frame.clone() } else { builder.planes.carcass.clone() };
    // A back that is planted on covers the rear edges of the ends.
    let planted = case.back.as_ref().is_some_and(|back| back.joint.kind != JointKind::Rabbet);
    let rear = if planted { &builder.planes.inside } else { &builder.planes.rear }.clone();
    let foot = if case.ends_on_floor() { Size::zero() } else { case.base_high() };
    let outside = if side == Side::Left { Face::ThickStart } else { Face::ThickEnd };
    let id = builder.add(Draft {
        of: Of::Case(builder.id),
        which: Which::Only,
        role: Role::End(side),
        assembly: Assembly::Carcass(builder.id),
        stock: spec.stock,
        length: &case.high - &foot,
        width: &rear - &front,
        thickness: None,
        stands: Builder::stands(x, foot, front.clone()),
        axes: UPRIGHT,
        show: Some(outside),
        span: spec.span,
        notes: spec.notes,
    });
    let Some(part) = builder.part(id) else { return id };
    let (length, thick) = (part.length.length, part.thickness.length);
    if mitered {
        builder.cut(
            id,
            Feature {
                kind: FeatureKind::Miter,
                face: Face::WidthStart,
                u: (Length::ZERO, length),
                v: (Length::ZERO, thick),
                deep: thick,
                deep_at: None,
                takes: None,
                span: spec.span,
            },
        );
    }
    if let Some(base) = case.base.as_ref().filter(|base| !base.separate) {
        let kick = builder.thickness(base.stock);
        let edge = &builder.planes.frame + &base.set_back + kick - &front;
        builder.cut(
            id,
            Feature {
                kind: FeatureKind::Notch,
                face: outside,
                u: (Length::ZERO, base.high.length),
                v: (Length::ZERO, edge.length),
                deep: thick,
                deep_at: None,
                takes: None,
                span: base.span,
            },
        );
    }
    back_rabbet(builder, id, side, Length::ZERO);
    id
}

/// The rabbet that the back lies in, in an end or in a back post, from so high up.
fn back_rabbet(builder: &mut Builder<'_>, id: PartId, side: Side, from: Length) {
    let case = builder.case;
    let Some(back) = case.back.as_ref().filter(|back| back.joint.kind == JointKind::Rabbet) else {
        return;
    };
    let Some(part) = builder.part(id) else { return };
    let inner = part.placement.face(Direction::X, side == Side::Right);
    let (length, far) = part.face_size(inner);
    let wide = builder.thickness(back.stock).length;
    let (deep, deep_at) = builder.depth(back.joint.deep.as_ref());
    let rabbet = Feature {
        kind: FeatureKind::Rabbet,
        face: inner,
        u: (from, length),
        v: (far - wide, far),
        deep,
        deep_at,
        takes: None,
        span: back.span,
    };
    builder.cut(id, rabbet);
}

/// From the floor to the underside of the bottom.
pub(super) fn bottom_height(builder: &Builder<'_>) -> Size {
    let case = builder.case;
    let base = case.base_high();
    let Some(bottom) = case.bottom.as_ref().filter(|bottom| bottom.flush) else { return base };
    let rail = case.frame.as_ref().and_then(|frame| frame.bottom.as_ref());
    match rail {
        Some(rail) => base + &rail.wide - builder.thickness(bottom.board.stock),
        None => base,
    }
}

/// A lying board from end to end, let in as its joint says.
fn lying(
    builder: &mut Builder<'_>,
    ends: &[PartId; 2],
    (role, which): (Role, Which),
    board: &Board,
    y: &Size,
    (z, wide): (Size, Size),
) -> PartId {
    let [left, right] = builder.inner_sides();
    let [left, right] =
        [left - posts::recess(builder, Side::Left), right + posts::recess(builder, Side::Right)];
    let let_in = builder.let_in(&board.joint);
    let id = builder.add(Draft {
        of: Of::Case(builder.id),
        which,
        role,
        assembly: Assembly::Carcass(builder.id),
        stock: board.stock,
        length: &right - &left + &let_in * 2,
        width: wide,
        thickness: None,
        stands: Builder::stands(&left - &let_in, y, z),
        axes: LYING,
        show: None,
        span: board.span,
        notes: board.notes.clone(),
    });
    // Pockets are bored where they are not seen: over a stretcher lies the
    // worktop, under a bottom or shelf nobody looks.
    let hidden = if role == Role::Stretcher { Face::ThickEnd } else { Face::ThickStart };
    if let Some(part) = builder.parts.all.get_mut(id.0) {
        part.show = Some(hidden.opposite());
    }
    for (end, face) in ends.iter().zip([Face::ThickEnd, Face::ThickStart]) {
        builder.house(id, *end, face, &board.joint, board.span);
    }
    posts::notch(builder, id);
    id
}

fn bottom(builder: &mut Builder<'_>, ends: &[PartId; 2], y: &Size) -> Option<PartId> {
    let bottom = builder.case.bottom.clone()?;
    let planes = &builder.planes;
    let depth = (planes.carcass.clone(), &planes.inside - &planes.carcass);
    Some(lying(builder, ends, (Role::Bottom, Which::Only), &bottom.board, y, depth))
}

fn top(builder: &mut Builder<'_>, ends: &[PartId; 2]) {
    let Some(top) = builder.case.top.clone() else { return };
    let high = &builder.case.high - builder.thickness(top.board.stock);
    let (front, inside) = (builder.planes.carcass.clone(), builder.planes.inside.clone());
    let Some((count, wide)) = top.stretchers else {
        // A dado at the very end of a board is a rabbet.
        let mut board = top.board;
        if board.joint.kind == JointKind::Dado {
            board.joint.kind = JointKind::Rabbet;
        }
        let depth = (front.clone(), &inside - &front);
        lying(builder, ends, (Role::Top, Which::Only), &board, &high, depth);
        return;
    };
    let room = &inside - &front - &wide;
    for number in 0..count {
        let z = match count {
            1 => front.clone(),
            _ => &front + &room * i64::from(number) / i64::from(count - 1),
        };
        let which = match number {
            0 => Which::Front,
            n if n + 1 == count => Which::Back,
            n => Which::Number(n),
        };
        lying(builder, ends, (Role::Stretcher, which), &top.board, &high, (z, wide.clone()));
    }
}

/// An upright board between what lies below and above it.
pub(super) fn upright(
    builder: &mut Builder<'_>,
    member: &Member,
    board: &Board,
    left: &Size,
    (lower, ceiling): (&Size, Length),
    (clear, front): (Size, &Size),
) {
    let (x, floor) = (left.length, lower.length);
    let planes = builder.planes.clone();
    let thickness = builder.thickness(board.stock).length;
    let assembly = Assembly::Carcass(builder.id);
    let near = builder.at(
        x + thickness.half(),
        floor,
        (planes.carcass.length + planes.inside.length).half(),
    );
    let below = builder.board_at(Direction::Y, floor, false, near, &assembly);
    let above: Vec<(PartId, Face)> = hosts_above(builder, x + thickness.half(), ceiling, &assembly);
    let let_in = builder.let_in(&board.joint);
    let mut length = clear;
    let mut foot = lower.clone();
    if below.is_some() {
        foot = foot - &let_in;
        length = length + &let_in;
    }
    if !above.is_empty() {
        length = length + &let_in;
    }
    let stretches = match board.joint.kind {
        // What is bored at its ends is seen there, and nowhere else.
        JointKind::Pocket => {
            vec![(floor, floor + thickness.twice()), (ceiling - thickness.twice(), ceiling)]
        }
        JointKind::Dado
        | JointKind::Rabbet
        | JointKind::Screw
        | JointKind::Tenon
        | JointKind::Dowel
        | JointKind::Dovetail
        | JointKind::Butt => vec![(floor, ceiling)],
    };
    let id = builder.add(Draft {
        of: Of::Member(member.id),
        which: Which::Only,
        role: Role::Partition,
        assembly,
        stock: board.stock,
        length,
        width: &planes.inside - front,
        thickness: None,
        stands: Builder::stands(left, foot, front),
        axes: UPRIGHT,
        show: Some(shown_side(builder.case, (x, x + thickness), &stretches)),
        span: board.span,
        notes: board.notes.clone(),
    });
    nailers::notch(builder, id);
    for (host, face) in below.into_iter().chain(above) {
        builder.house(id, host, face, &board.joint, board.span);
    }
}

/// Every lying board whose underside is at this height over this place.
fn hosts_above(
    builder: &Builder<'_>,
    x: Length,
    y: Length,
    assembly: &Assembly,
) -> Vec<(PartId, Face)> {
    let x = builder.case.x + x;
    builder
        .own()
        .filter(|(_, part)| part.assembly == *assembly)
        .filter(|(_, part)| {
            let space = part.cuboid();
            space.from.y == y && space.from.x <= x && x <= space.to.x
        })
        .map(|(id, part)| (id, part.placement.face(Direction::Y, true)))
        .collect()
}

/// The face of an upright board that is shown, from what is seen of either
/// face over these stretches of its height: pockets are bored in the other.
/// Of two that are seen as much the right one is shown.
fn shown_side(
    case: &Case,
    (left, right): (Length, Length),
    stretches: &[(Length, Length)],
) -> Face {
    let sight = |x: Length| {
        let beside = stretches.iter().flat_map(|stretch| case.beside((x, x), *stretch));
        beside.map(crate::model::Opening::sight).max()
    };
    if sight(left) > sight(right) { Face::ThickStart } else { Face::ThickEnd }
}

/// A board between two openings of a frame-less case.
fn divider(builder: &mut Builder<'_>, member: &Member, board: &Board) {
    let front = behind::behind_doors(builder, member);
    if member.axis == Axis::Across {
        let [x, y] = &member.stands;
        let extent = (y, member.y + member.long.length);
        upright(builder, member, board, x, extent, (member.long.clone(), &front));
        return;
    }
    if let Some(web) = &board.web {
        let long = (&member.stands[0], member.x + member.long.length, &member.long);
        web::build(builder, (member, board, web), long, (&member.stands[1], &front));
        return;
    }
    shelf_between(
        builder,
        (Of::Member(member.id), Role::Divider, Which::Only),
        board.stock,
        &board.joint,
        (&member.stands[0], member.x + member.long.length, member.long.clone()),
        &member.stands[1],
        front,
        board.span,
        board.notes.clone(),
    );
}

/// The upright boards whose faces lie at these two places, at a height: each with that
/// face.
pub(super) fn hosts_beside(
    builder: &Builder<'_>,
    (left, right): (Length, Length),
    y: Length,
) -> [Option<(PartId, Face)>; 2] {
    let assembly = Assembly::Carcass(builder.id);
    let z = (builder.planes.carcass.length + builder.planes.inside.length).half();
    [(left, false), (right, true)].map(|(x, faces_start)| {
        let near = builder.at(x, y, z);
        builder.board_at(Direction::X, near.x, faces_start, near, &assembly)
    })
}

/// A lying board between two upright ones.
#[allow(clippy::too_many_arguments)]
pub(super) fn shelf_between(
    builder: &mut Builder<'_>,
    (of, role, which): (Of, Role, Which),
    stock: crate::model::StockId,
    joint: &Joinery,
    (left, right, clear): (&Size, Length, Size),
    y: &Size,
    front: Size,
    span: crate::measure::Span,
    notes: Vec<String>,
) {
    let planes = builder.planes.clone();
    let assembly = Assembly::Carcass(builder.id);
    let middle = y.length + builder.thickness(stock).length.half();
    let hosts = posts::hosts_beside(builder, (left.length, right), middle);
    let let_in = builder.let_in(joint);
    let mut length = clear;
    let mut x = left.clone();
    if !hosts[0].is_empty() {
        x = x - &let_in;
        length = length + &let_in;
    }
    if !hosts[1].is_empty() {
        length = length + &let_in;
    }
    let id = builder.add(Draft {
        of,
        which,
        role,
        assembly,
        stock,
        length,
        width: &planes.inside - &front,
        thickness: None,
        stands: Builder::stands(x, y, front),
        axes: LYING,
        show: Some(Face::ThickEnd),
        span,
        notes,
    });
    for (host, face) in hosts.into_iter().flatten() {
        builder.house(id, host, face, joint, span);
    }
}

fn back(builder: &mut Builder<'_>, ends: &[PartId; 2], bottom_y: &Size) {
    let Some(back) = builder.case.back.clone() else { return };
    let case = builder.case;
    let rabbeted = back.joint.kind == JointKind::Rabbet;
    let [left, right] = if rabbeted { builder.inner_sides() } else { builder.carcass_sides() };
    let let_in = if rabbeted { builder.let_in(&back.joint) } else { Size::zero() };
    let high = &case.high - bottom_y;
    let wide = &right - &left + &let_in * 2;
    // Its length runs the longer way, as it lies on a sheet.
    let (length, width, axes) = match high.length > wide.length {
        true => (high, wide, STANDING),
        false => (wide, high, ACROSS),
    };
    let id = builder.add(Draft {
        of: Of::Case(builder.id),
        which: Which::Only,
        role: Role::Back,
        assembly: Assembly::Carcass(builder.id),
        stock: back.stock,
        length,
        width,
        thickness: None,
        stands: Builder::stands(&left - &let_in, bottom_y, &builder.planes.inside),
        axes,
        show: Some(Face::ThickStart),
        span: back.span,
        notes: back.notes.clone(),
    });
    for (end, side) in ends.iter().zip(Side::BOTH) {
        builder.join(JointSort::Planted, id, *end, false, back.span);
        if builder.case.posts.is_some() {
            back_rabbet(builder, *end, side, bottom_y.length);
        }
    }
}
