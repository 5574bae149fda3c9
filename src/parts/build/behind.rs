//! The boards behind a frame that do not run the full height of the case: the shelf
//! behind a rail, a partition that stands on one or reaches up to one, and a divider,
//! which has no member of the frame before it.

use crate::model::{
    Beyond, Board, Edge, Fronts, Member, MemberKind, Opening, OpeningId, RailShelf, Set, Size,
};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::vocabulary::StopKind;

use super::builder::Builder;
use super::carcass::{bottom_height, shelf_between, upright};
use super::inside;
use super::web;

/// A lying board behind a rail.
pub(super) fn shelf(
    builder: &mut Builder<'_>,
    member: &Member,
    shelf: &RailShelf,
    ends: &[PartId; 2],
) {
    let thick = builder.thickness(shelf.board.stock);
    let y = &member.stands[1] + &member.wide - &shelf.lip - thick;
    let front = builder.planes.carcass.clone();
    lying(builder, (member, Role::FixedShelf), &shelf.board, (&y, front), ends);
}

/// The front edge of a board in a frame that has no member before it: behind the
/// frame, and behind the inset fronts that close before it where they are thicker. Behind a
/// door it stands back as [`behind_closed`] says.
fn behind_fronts(builder: &Builder<'_>, member: &Member) -> Size {
    let before = |opening: &&Opening| builder.case.door_before(opening).is_none();
    let fronts = builder.case.openings.iter().filter(before);
    let fronts = fronts.filter_map(|opening| opening.front.as_ref());
    let inset = fronts.filter(|fronts| fronts.set == Set::Inset);
    let behind = inset.map(|fronts| &builder.planes.frame + builder.thickness(fronts.stock));
    let plane = behind
        .chain([builder.planes.carcass.clone()])
        .max_by_key(|plane| plane.length)
        .unwrap_or_default();
    plane + behind_closed(builder, member)
}

/// How far a board among openings that a door closes stands back from the door: as shelves
/// do, so that no mid rail and no panel touches it; not at all where the door closes against
/// it.
fn behind_closed(builder: &Builder<'_>, member: &Member) -> Size {
    let list = builder.case.openings.get(member.list.at);
    let door = list.and_then(|list| match list.is_door() {
        true => Some(list),
        false => builder.case.door_before(list),
    });
    let stands_back = |fronts: &Fronts| match fronts.stop {
        Some(stop) => stop.value == StopKind::Strip,
        None => !builder.piece.needs_stop(fronts),
    };
    match door.and_then(|door| door.front.as_ref()) {
        Some(fronts) if fronts.set == Set::Inset && stands_back(fronts) => {
            builder.case.shelves.set_back.clone()
        }
        _ => Size::zero(),
    }
}

/// The front edge of a board of a case without a frame: behind the inset doors before
/// it, as far as shelves stand back, or in the plane of the case.
pub(super) fn behind_doors(builder: &Builder<'_>, member: &Member) -> Size {
    let list = builder.case.openings.get(member.list.at);
    let door = list.and_then(|list| builder.case.door_before(list));
    match door.and_then(|door| door.front.as_ref()) {
        Some(fronts) if fronts.set == Set::Inset => {
            let behind = &builder.planes.carcass + builder.thickness(fronts.stock);
            behind + behind_closed(builder, member)
        }
        _ => builder.planes.carcass.clone(),
    }
}

/// A lying board between two openings of a frame, with no rail before it.
pub(super) fn divider_lying(
    builder: &mut Builder<'_>,
    member: &Member,
    board: &Board,
    ends: &[PartId; 2],
) {
    let front = behind_fronts(builder, member);
    lying(builder, (member, Role::Divider), board, (&member.stands[1], front), ends);
}

/// A lying board from one upright board to the next.
fn lying(
    builder: &mut Builder<'_>,
    (member, role): (&Member, Role),
    board: &Board,
    (y, front): (&Size, Size),
    ends: &[PartId; 2],
) {
    let middle = y.length + builder.thickness(board.stock).length.half();
    let space = inside::between(builder, (member.x, member.long.length), middle, ends);
    let clear = &member.long + &space.packing[0] + &space.packing[1];
    let from = builder.side(space.boards[0], true, space.from) - &builder.case.beside;
    if let Some(web) = &board.web {
        let long = (&from, space.to - builder.case.x, &clear);
        web::build(builder, (member, board, web), long, (y, &front));
        return;
    }
    shelf_between(
        builder,
        (Of::Member(member.id), role, Which::Only),
        board.stock,
        &board.joint,
        (&from, space.to - builder.case.x, clear),
        y,
        front,
        board.span,
        board.notes.clone(),
    );
}

/// An upright board behind a stile.
pub(super) fn partition(builder: &mut Builder<'_>, member: &Member, board: &Board) {
    let front = builder.planes.carcass.clone();
    standing(builder, member, board, &front);
}

/// An upright board between two openings of a frame, with no stile before it.
pub(super) fn divider_upright(builder: &mut Builder<'_>, member: &Member, board: &Board) {
    let front = behind_fronts(builder, member);
    standing(builder, member, board, &front);
}

/// An upright board in the middle of a member, from the board below to the board
/// above.
fn standing(builder: &mut Builder<'_>, member: &Member, board: &Board, front: &Size) {
    let [left, low] = &member.stands;
    let x = left + member.wide.half() - builder.thickness(board.stock).half();
    let below = down_to(builder, member.list);
    let above = up_to(builder, member.list);
    let floor = low - &below;
    let ceiling = member.y + member.long.length + above.length;
    let clear = &member.long + &below + &above;
    upright(builder, member, board, &x, (&floor, ceiling), (clear, front));
}

/// From the lower edge of a list down to the top of the board that lies there.
fn down_to(builder: &Builder<'_>, list: OpeningId) -> Size {
    let case = builder.case;
    match case.beyond(list, Edge::Bottom) {
        Beyond::Member(id) => lip(builder, id),
        Beyond::Outside | Beyond::Opening(_) => {
            let rail = case.frame.as_ref().and_then(|frame| frame.bottom.as_ref());
            let edge = rail.map_or(case.base_high(), |rail| case.base_high() + &rail.wide);
            let thick = case.bottom.as_ref().map(|bottom| builder.thickness(bottom.board.stock));
            // Where a bottom is flush with the edge its terms cancel.
            edge - bottom_height(builder) - thick.unwrap_or_default()
        }
    }
}

/// From the upper edge of a list up to the underside of the board that lies there.
fn up_to(builder: &Builder<'_>, list: OpeningId) -> Size {
    let case = builder.case;
    match case.beyond(list, Edge::Top) {
        Beyond::Member(id) => match case.members.get(id.at).map(|member| (&member.kind, member)) {
            Some((MemberKind::Rail(Some(shelf)), rail)) => {
                &rail.wide - &shelf.lip - builder.thickness(shelf.board.stock)
            }
            _ => Size::zero(),
        },
        Beyond::Outside | Beyond::Opening(_) => {
            let rail = case.frame.as_ref().and_then(|frame| frame.top.as_ref());
            let thick = case.top.as_ref().map(|top| builder.thickness(top.board.stock));
            rail.map_or_else(Size::zero, |rail| rail.wide.clone()) - thick.unwrap_or_default()
        }
    }
}

/// From the top of a rail down to the shelf behind it; nothing at a divider.
fn lip(builder: &Builder<'_>, id: crate::model::MemberId) -> Size {
    match builder.case.members.get(id.at).map(|member| &member.kind) {
        Some(MemberKind::Rail(Some(shelf))) => shelf.lip.clone(),
        _ => Size::zero(),
    }
}
