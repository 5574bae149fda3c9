//! The face frame.

use crate::measure::Length;
use crate::model::{Axis, JointKind, MemberKind, Seam, Side, Size};
use crate::parts::feature::{Feature, FeatureKind};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::joint::JointSort;
use crate::parts::part::Assembly;
use crate::parts::space::{Direction, Face};

use super::builder::{ACROSS, Builder, Draft, STANDING};
use super::carcass::Carcass;

pub(super) fn build(builder: &mut Builder<'_>, carcass: &Carcass) {
    let Some(frame) = builder.case.frame.clone() else { return };
    let case = builder.case;
    let assembly = builder.frame_assembly();
    let z = builder.planes.frame.clone();
    let base = case.base_high();
    let high = &case.high - &base;
    let let_in = builder.let_in(&frame.joint);
    let id = builder.id;
    let draft = |(of, role, which): (Of, Role, Which),
                 length: Size,
                 width: Size,
                 stands: [Size; 3],
                 axes| {
        Draft {
            of,
            which,
            role,
            assembly,
            stock: frame.stock,
            length,
            width,
            thickness: None,
            stands,
            axes,
            show: Some(Face::ThickStart),
            span: frame.span,
            notes: Vec::new(),
        }
    };
    // Where posts stand, they are the outer stiles.
    let stiles = Side::BOTH.into_iter().zip(carcass.ends);
    for (side, end) in stiles.filter(|_| case.posts.is_none()) {
        let stile = side.of(&frame.stiles);
        let x = match side {
            Side::Left => Size::zero(),
            Side::Right => &case.wide - &stile.wide,
        };
        let mut stile_draft = draft(
            (Of::Case(id), Role::Stile, Which::At(side)),
            high.clone(),
            stile.wide.clone(),
            Builder::stands(x, &base, &z),
            STANDING,
        );
        (stile_draft.span, stile_draft.notes) = (stile.span, stile.notes.clone());
        let id = builder.add(stile_draft);
        miter(builder, id, end, side, stile.span);
    }
    let between = &case.wide - &frame.stiles[0].wide - &frame.stiles[1].wide;
    let left = &frame.stiles[0].wide;
    let x = left.length;
    for (which, rail) in [(Which::Top, &frame.top), (Which::Bottom, &frame.bottom)] {
        let Some(rail) = rail else { continue };
        let low = if which == Which::Top { &case.high - &rail.wide } else { base.clone() };
        let y = low.length;
        let length = &between + &let_in * 2;
        let stands = Builder::stands(left - &let_in, low, &z);
        let name = (Of::Case(id), Role::Rail, which);
        let mut rail_draft = draft(name, length, rail.wide.clone(), stands, ACROSS);
        (rail_draft.span, rail_draft.notes) = (rail.span, rail.notes.clone());
        let id = builder.add(rail_draft);
        meet(builder, id, (Direction::X, x, x + between.length), y + rail.wide.length.half());
    }
    let members = case.members.clone();
    // Members of outer lists come first, so that what an inner one meets is there.
    let mut order: Vec<usize> = (0..members.len()).collect();
    order.sort_by_key(|index| members[*index].list);
    for member in order.into_iter().map(|index| &members[index]) {
        let (role, axes) = match &member.kind {
            MemberKind::Stile(_) => (Role::Stile, STANDING),
            MemberKind::Rail(_) => (Role::Rail, ACROSS),
            MemberKind::Divider(_) => continue,
        };
        let name = (Of::Member(member.id), role, Which::Only);
        let (dx, dy) = match member.axis {
            Axis::Across => (Size::zero(), let_in.clone()),
            Axis::Down => (let_in.clone(), Size::zero()),
        };
        let length = &member.long + &let_in * 2;
        let [left, low] = &member.stands;
        let stands = Builder::stands(left - dx, low - dy, &z);
        let mut member_draft = draft(name, length, member.wide.clone(), stands, axes);
        (member_draft.span, member_draft.notes) = (member.span, member.notes.clone());
        let id = builder.add(member_draft);
        let half = member.wide.length.half();
        match member.axis {
            Axis::Across => {
                let run = (Direction::Y, member.y, member.y + member.long.length);
                meet(builder, id, run, member.x + half);
            }
            Axis::Down => {
                let run = (Direction::X, member.x, member.x + member.long.length);
                meet(builder, id, run, member.y + half);
            }
        }
    }
}

/// Rails and inner stiles are glued to what stands behind them: a rail to the board
/// that lies along it, a stile to the one that stands along it. A board that they
/// only cross holds nothing.
pub(super) fn backed(builder: &mut Builder<'_>) {
    if builder.case.frame.is_none() {
        return;
    }
    let mut found = Vec::new();
    for (id, member) in builder.own().filter(|(_, part)| part.assembly == builder.frame_assembly())
    {
        if !matches!(member.role, Role::Stile | Role::Rail) {
            continue;
        }
        let along = member.placement.length;
        let across = if along == Direction::X { Direction::Y } else { Direction::X };
        if member.role == Role::Stile && matches!(member.which, Which::At(_)) {
            continue;
        }
        let space = member.cuboid();
        for (host, board) in builder.own() {
            let built = board.assembly == Assembly::Carcass(builder.id);
            let other = board.cuboid();
            let touch =
                space.to.z == other.from.z && space.overlap_along(&other, across).is_positive();
            let lies = board.placement.thickness == across;
            if built
                && touch
                && lies
                && space.overlap_along(&other, along) * 2 >= member.length.length
            {
                found.push((id, host, member.span));
            }
        }
    }
    for (id, host, span) in found {
        builder.join(JointSort::Wood(JointKind::Butt), id, host, true, span);
    }
}

/// The mitered edge of a stile that wraps the corner into the end.
fn miter(
    builder: &mut Builder<'_>,
    stile: PartId,
    end: PartId,
    side: Side,
    span: crate::measure::Span,
) {
    let seam = side.of(&builder.case.ends).seam;
    if seam != Seam::Miter {
        builder.join(JointSort::Wood(JointKind::Butt), stile, end, true, span);
        return;
    }
    let Some(part) = builder.part(stile) else { return };
    let (length, thick) = (part.length.length, part.thickness.length);
    let face = if side == Side::Left { Face::WidthStart } else { Face::WidthEnd };
    builder.cut(
        stile,
        Feature {
            kind: FeatureKind::Miter,
            face,
            u: (Length::ZERO, length),
            v: (Length::ZERO, thick),
            deep: thick,
            deep_at: None,
            takes: None,
            span,
        },
    );
    builder.join(JointSort::Miter, stile, end, true, span);
}

/// Joins both ends of a member to the members they meet: its shoulders lie at
/// `from` and `to` along `direction`, its middle at `across` on the other axis.
fn meet(
    builder: &mut Builder<'_>,
    id: PartId,
    (direction, from, to): (Direction, Length, Length),
    across: Length,
) {
    let Some(frame) = builder.case.frame.clone() else { return };
    let assembly = builder.frame_assembly();
    let z = (builder.planes.frame.length + builder.planes.carcass.length).half();
    for (at, is_start) in [(from, true), (to, false)] {
        let near = match direction {
            Direction::X => builder.at(at, across, z),
            _ => builder.at(across, at, z),
        };
        let Some((host, face)) =
            builder.board_at(direction, near.along(direction), !is_start, near, &assembly)
        else {
            continue;
        };
        if host == id {
            continue;
        }
        let end = if is_start { Face::LengthStart } else { Face::LengthEnd };
        let whole = (Length::ZERO, builder.part(id).map_or(Length::ZERO, |it| it.width.length));
        let tenoned = frame.joint.kind == JointKind::Tenon;
        let held = if tenoned { set_in(builder, id, host, whole) } else { whole };
        builder.fasten_end((id, end), (host, face), held, &frame.joint, frame.span);
        if tenoned {
            mortise(builder, id, host, face, held);
        }
        let glued = frame.joint.kind.is_glued();
        builder.join(JointSort::Wood(frame.joint.kind), id, host, glued, frame.span);
    }
}

/// What of the width of `guest`, which is `whole`, is tenon in `host`: all of it, but
/// at the end of a stile, where the tenon is set in so that the mortise is closed.
fn set_in(
    builder: &Builder<'_>,
    guest: PartId,
    host: PartId,
    whole: (Length, Length),
) -> (Length, Length) {
    let (Some(frame), Some(part), Some(holder)) =
        (builder.case.frame.as_ref(), builder.part(guest), builder.part(host))
    else {
        return whole;
    };
    let along = holder.placement.length;
    let (own, stile) = (part.extent(along), holder.extent(along));
    let set_in = frame.joint.set_in(whole.1, builder.piece.tape().mark);
    let at_end = |flush: bool| if flush { set_in } else { Length::ZERO };
    (whole.0 + at_end(own.0 == stile.0), whole.1 - at_end(own.1 == stile.1))
}

/// The mortise in `host` that takes the tenon of `guest`, which lies from and to
/// along its width.
fn mortise(
    builder: &mut Builder<'_>,
    guest: PartId,
    host: PartId,
    face: Face,
    tenoned: (Length, Length),
) {
    let (Some(frame), Some(part), Some(holder)) =
        (builder.case.frame.as_ref(), builder.part(guest), builder.part(host))
    else {
        return;
    };
    let long = frame.joint.long.clone().unwrap_or_default().length;
    let tenon = frame.joint.thick.clone().unwrap_or_default().length;
    let (from, _) = part.extent(holder.placement.length);
    let start = holder.placement.origin.along(holder.placement.length);
    // Members are flush with each other and with posts, which are thicker, in front.
    let in_front = part.placement.origin.z - holder.placement.origin.z;
    let shoulder = in_front + (part.thickness.length - tenon).half();
    let feature = Feature {
        kind: FeatureKind::Mortise,
        face,
        u: (from - start + tenoned.0, from - start + tenoned.1),
        v: (shoulder, shoulder + tenon),
        deep: long + frame.joint.room,
        deep_at: None,
        takes: Some(guest),
        span: frame.span,
    };
    builder.cut(host, feature);
}
