//! Strips beside the ends of a case, each with the batten that holds it.

use crate::measure::Length;
use crate::model::{Filler, JointKind, Side};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::joint::JointSort;
use crate::parts::part::Assembly;
use crate::parts::space::Face;

use super::builder::{Builder, Draft, STANDING, UPRIGHT};
use super::carcass::Carcass;

pub(super) fn build(builder: &mut Builder<'_>, carcass: &Carcass) {
    for filler in &builder.case.fillers {
        one(builder, filler, carcass.ends[usize::from(filler.side == Side::Right)]);
    }
}

/// The filler stands flush with the frame, or with the fronts of a frameless case, and
/// its batten behind it against the end.
fn one(builder: &mut Builder<'_>, filler: &Filler, end: PartId) {
    let case = builder.case;
    let side = filler.side;
    let low = case.base_high();
    let long = &case.high - &low;
    let front = match case.frame {
        Some(_) => builder.planes.frame.clone(),
        None => Length::ZERO.into(),
    };
    let [left, right] = builder.carcass_sides();
    let stock = *side.of(&[case.ends[0].stock, case.ends[1].stock]);
    let (thick, deep) = (builder.thickness(filler.stock), builder.thickness(stock));
    let (x, behind) = match side {
        Side::Left => (&left - &filler.wide, &left - &deep),
        Side::Right => (right.clone(), right),
    };
    let assembly = Assembly::Filler(builder.id, side);
    let strip = builder.add(Draft {
        of: Of::Case(builder.id),
        which: Which::At(side),
        role: Role::Filler,
        assembly,
        stock: filler.stock,
        length: long.clone(),
        width: filler.wide.clone(),
        thickness: None,
        stands: Builder::stands(x, &low, &front),
        axes: STANDING,
        show: Some(Face::ThickStart),
        span: filler.span,
        notes: filler.notes.clone(),
    });
    let batten = builder.add(Draft {
        of: Of::Case(builder.id),
        which: Which::At(side),
        role: Role::Batten,
        assembly,
        stock,
        length: long,
        width: filler.batten.clone(),
        thickness: None,
        stands: Builder::stands(behind, low, front + thick),
        axes: UPRIGHT,
        show: None,
        span: filler.span,
        notes: Vec::new(),
    });
    builder.join(JointSort::Wood(JointKind::Butt), batten, strip, true, filler.span);
    builder.join(JointSort::Wood(JointKind::Screw), batten, end, false, filler.span);
}
