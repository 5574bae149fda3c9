//! Panels over the outer faces of ends.

use crate::measure::Length;
use crate::model::{JointKind, Side, Size};
use crate::parts::id::{Of, Role, Which};
use crate::parts::joint::JointSort;
use crate::parts::part::Assembly;
use crate::parts::space::Face;

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
        let end = carcass.ends[usize::from(side == Side::Right)];
        builder.join(JointSort::Wood(JointKind::Screw), id, end, false, cover.span);
    }
}
