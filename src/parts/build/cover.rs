//! Panels over the outer faces of ends.

use crate::measure::Length;
use crate::model::{JointKind, Side, Size};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::joint::JointSort;
use crate::parts::part::{Assembly, Spare};
use crate::parts::space::{Direction, Face};

use super::builder::{Builder, Draft, UPRIGHT};
use super::carcass::Carcass;

/// A cover lies behind the stile of the frame, or flush with the fronts of a frameless
/// case, and reaches to the floor and to the back of its case.
pub(super) fn build(builder: &mut Builder<'_>, carcass: &Carcass) {
    let case = builder.case;
    for (side, cover) in Side::BOTH.into_iter().zip(&case.covers) {
        let Some(cover) = cover else { continue };
        let front: Size = match case.frame {
            Some(_) => builder.planes.carcass.clone(),
            None => Length::ZERO.into(),
        };
        let low = case.off_floor().cloned().unwrap_or_default();
        let [left, right] = builder.carcass_sides();
        let (x, outside) = match side {
            Side::Left => (left - &cover.thick, Face::ThickStart),
            Side::Right => (right, Face::ThickEnd),
        };
        let id = builder.add(Draft {
            of: Of::Case(builder.id),
            which: Which::At(side),
            role: Role::Cover,
            assembly: Assembly::Filler(builder.id, side),
            stock: cover.stock,
            length: &case.high - &low,
            width: &builder.planes.rear - &front,
            thickness: None,
            stands: builder.stands(x, low, front),
            axes: UPRIGHT,
            show: Some(outside),
            span: cover.span,
            notes: cover.notes.clone(),
        });
        spare(builder, id, &cover.scribe);
        let end = carcass.ends[usize::from(side == Side::Right)];
        builder.join(JointSort::Wood(JointKind::Screw), id, end, false, cover.span);
    }
}

/// Leaves wood at the lower end of what stands on the floor, and at the back edge of what
/// stands before a wall.
fn spare(builder: &mut Builder<'_>, id: PartId, by: &Size) {
    let floor = builder.case.is_on_floor().then_some((Direction::Y, true));
    let wall = builder.piece.site.fixed.then_some((Direction::Z, false));
    let Some(part) = builder.parts.all.get_mut(id.0) else { return };
    if !by.length.is_positive() {
        return;
    }
    let faces = floor.into_iter().chain(wall);
    let spare = faces.map(|(side, start)| part.placement.face(side, start));
    part.spare = spare.map(|face| Spare { face, by: by.clone() }).collect();
    let [length, width] = part.as_made();
    (part.rough.length, part.rough.width) = (length.length, width.length);
}
