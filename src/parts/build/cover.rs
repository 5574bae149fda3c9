//! Panels over the sides of a case that are seen.

use crate::measure::Length;
use crate::model::{Case, CaseId, Cover, Covered, JointKind, Piece, Side, Size};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::joint::{Joint, JointSort};
use crate::parts::part::{Assembly, Part, Parts};
use crate::parts::space::{Direction, Face};

use super::builder::{ACROSS, Builder, Draft, LYING, STANDING, UPRIGHT};
use super::carcass::Carcass;

/// The covers of a case: that over its back first, since those over its ends lie beside it.
pub(super) fn build(builder: &mut Builder<'_>, carcass: &Carcass) {
    let [left, right] = carcass.ends;
    let back = builder.own().find(|(_, part)| part.role == Role::Back).map(|(id, _)| id);
    for (covered, cover) in builder.case.covers.all() {
        let (draft, board) = match covered {
            Covered::Left => (over_end(builder, Side::Left, cover), Some(left)),
            Covered::Right => (over_end(builder, Side::Right, cover), Some(right)),
            Covered::Back => {
                let row = builder.piece.back_cover_of(builder.id);
                // Of several cases that share one the first has it.
                if row.first().is_some_and(|first| *first != builder.id) {
                    continue;
                }
                (over_back(builder, cover, row.last().copied().unwrap_or(builder.id)), back)
            }
            Covered::Under => (under(builder, cover), carcass.bottom),
        };
        let id = builder.add(draft);
        spare(builder, id, &cover.scribe);
        if let Some(board) = board {
            builder.join(JointSort::Wood(JointKind::Screw), id, board, false, cover.span);
        }
    }
}

/// From the floor to the lower edge of what covers an upright side.
fn low(case: &Case) -> Size {
    let legs = case.on_legs.as_ref().map(|legs| &legs.high);
    legs.or(case.off_floor()).cloned().unwrap_or_default()
}

/// A cover over an end lies behind the stile of the frame, or flush with the fronts of a
/// frameless case, and reaches to the floor and to the very back, over the edge of the
/// cover there.
fn over_end(builder: &Builder<'_>, side: Side, cover: &Cover) -> Draft {
    let case = builder.case;
    let front: Size = match case.frame {
        Some(_) => builder.planes.carcass.clone(),
        None => Length::ZERO.into(),
    };
    let low = low(case);
    let [left, right] = builder.carcass_sides();
    let (x, outside) = match side {
        Side::Left => (left - &cover.thick, Face::ThickStart),
        Side::Right => (right, Face::ThickEnd),
    };
    Draft {
        of: Of::Case(builder.id),
        which: Which::At(side),
        role: Role::Cover,
        assembly: Assembly::Filler(builder.id, side),
        stock: cover.stock,
        length: &case.high - &low,
        width: &case.deep - &front,
        thickness: None,
        stands: Builder::stands(x, low, front),
        axes: UPRIGHT,
        show: Some(outside),
        span: cover.span,
        notes: cover.notes.clone(),
    }
}

/// A cover over the back lies on the ends and the back of its case, or of it and those
/// beside it up to the last, from the outside of one end to that of the other.
fn over_back(builder: &Builder<'_>, cover: &Cover, last: CaseId) -> Draft {
    let case = builder.case;
    let low = low(case);
    let [left, right] = builder.carcass_sides();
    let right = match builder.piece.case(last).filter(|last| last.id != case.id) {
        Some(last) => &last.beside - &case.beside + &last.wide - last.set_in(Side::Right),
        None => right,
    };
    let (high, wide) = (&case.high - &low, &right - &left);
    // Its length runs the longer way, as it lies on a sheet.
    let (length, width, axes) = match high.length > wide.length {
        true => (high, wide, STANDING),
        false => (wide, high, ACROSS),
    };
    Draft {
        of: Of::Case(builder.id),
        which: Which::Back,
        role: Role::Cover,
        assembly: Assembly::Loose(builder.id),
        stock: cover.stock,
        length,
        width,
        thickness: None,
        stands: Builder::stands(left, low, builder.planes.rear.clone()),
        axes,
        show: Some(Face::ThickEnd),
        span: cover.span,
        notes: cover.notes.clone(),
    }
}

/// What a cover under a case is shorter at an end that stands against another case: 1/32 in,
/// 1 mm (common practice, no source).
fn play(builder: &Builder<'_>, side: Side, at: (Length, Length)) -> Size {
    match builder.piece.hides(builder.case, side, at) {
        Some(_) => builder.piece.tape().unit.either(Length::inches(1, 32), Length::mm(1)).into(),
        None => Size::zero(),
    }
}

/// A cover under a case lies under all of it, from the face of its frame, or of its front
/// edges, to the wall. It goes up between cases beside it that reach lower, and has play there.
fn under(builder: &Builder<'_>, cover: &Cover) -> Draft {
    let case = builder.case;
    let front = builder.planes.frame.clone();
    let low = low(case) - &cover.thick;
    let at = (low.length, low.length + cover.thick.length);
    let [left, right] = Side::BOTH.map(|side| play(builder, side, at));
    Draft {
        of: Of::Case(builder.id),
        which: Which::Bottom,
        role: Role::Cover,
        assembly: Assembly::Loose(builder.id),
        stock: cover.stock,
        length: &case.wide - &left - right,
        width: &builder.planes.rear - &front,
        thickness: None,
        stands: Builder::stands(left, low, front),
        axes: LYING,
        show: Some(Face::ThickStart),
        span: cover.span,
        notes: cover.notes.clone(),
    }
}

/// The case at one end of the cover over a back.
pub(super) fn at_end<'p>(piece: &'p Piece, case: &'p Case, side: Side) -> &'p Case {
    let row = piece.back_cover_of(case.id);
    let end = match side {
        Side::Left => row.first(),
        Side::Right => row.last(),
    };
    end.and_then(|end| piece.case(*end)).unwrap_or(case)
}

/// Screws the cover over several backs on through each of them.
pub(super) fn fasten(piece: &Piece, parts: &mut Parts) {
    for row in piece.back_covers() {
        let [first, others @ ..] = row.as_slice() else { continue };
        let find = |case: CaseId, role: Role| {
            let mut own = parts.iter_case(case);
            own.find(|(_, part)| {
                part.role == role && (role != Role::Cover || part.which == Which::Back)
            })
        };
        let Some((cover, part)) = find(*first, Role::Cover) else { continue };
        let backs = others.iter().filter_map(|case| find(*case, Role::Back));
        let joints: Vec<Joint> = backs
            .map(|(back, _)| Joint {
                sort: JointSort::Wood(JointKind::Screw),
                part: cover,
                into: back,
                glued: false,
                span: part.span,
            })
            .collect();
        parts.joints.extend(joints);
    }
}

/// The cover that a part is.
pub(crate) fn cover_of<'a>(case: &'a Case, part: &Part) -> Option<&'a Cover> {
    match part.which {
        Which::At(side) => side.of(&case.covers.ends).as_ref(),
        Which::Back => case.covers.back.as_ref(),
        Which::Bottom => case.covers.under.as_ref(),
        Which::Only | Which::Top | Which::Front | Which::Number(_) | Which::AtNumber(..) => None,
    }
}

/// Leaves wood at the lower end of what stands on the floor, and at the back edge of what
/// stands before a wall.
fn spare(builder: &mut Builder<'_>, id: PartId, by: &Size) {
    let reaches = builder.case.is_on_floor() && builder.case.on_legs.is_none();
    let floor = reaches.then_some((Direction::Y, true));
    let wall = builder.piece.site.fixed.then_some((Direction::Z, false));
    builder.leave_on(id, floor.into_iter().chain(wall), by);
}
