//! Cleats from the front post to the back one, which bring bought slides flush with the
//! inside faces of both.

use crate::model::{DrawerBoxes, Joinery, JointKind, Opening, Side, Size};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::joint::JointSort;
use crate::parts::part::Assembly;
use crate::parts::space::{Direction, Face};

use super::builder::{Builder, Draft, SIDEWAYS};
use super::posts;

/// The cleat of a drawer at one side, its lower edge so far above that of its opening. It is
/// as thick as the posts stand proud of the rails of the ends. Pocket screws hold its ends to
/// the posts, without glue, which does not hold on an end.
pub(super) fn build(
    builder: &mut Builder<'_>,
    opening: &Opening,
    boxes: &DrawerBoxes,
    side: Side,
    up: &Size,
) -> Option<PartId> {
    let own = [Which::Front, Which::Back].map(|which| posts::find(builder, side, which));
    let [front, back] = [own[0]?, own[1]?];
    let from = builder.part(front)?.side(Direction::Z, true);
    let to = builder.part(back)?.side(Direction::Z, false);
    let thickness = posts::recess(builder, side);
    let (x, show) = match side {
        Side::Left => (&opening.stands[0] - &thickness, Face::ThickStart),
        Side::Right => (&opening.stands[0] + &opening.wide, Face::ThickEnd),
    };
    let id = builder.add(Draft {
        of: Of::Opening(opening.id),
        which: Which::At(side),
        role: Role::Packer,
        assembly: Assembly::Loose(builder.id),
        stock: boxes.packer_stock,
        length: &to - &from,
        width: boxes.packer_wide.clone(),
        thickness: Some(thickness),
        stands: Builder::stands(x, &opening.stands[1] + up, from),
        axes: SIDEWAYS,
        // Its pockets look into the case, where a driver gets at them.
        show: Some(show),
        span: boxes.span,
        notes: Vec::new(),
    });
    let joint = Joinery::plain(JointKind::Pocket);
    let wide = builder.part(id)?.width.length;
    let ends = [(front, Face::LengthStart, true), (back, Face::LengthEnd, false)];
    for (post, end, far) in ends {
        let face = builder.part(post)?.placement.face(Direction::Z, !far);
        builder.join(JointSort::Wood(JointKind::Pocket), id, post, false, boxes.span);
        let held = (crate::measure::Length::ZERO, wide);
        builder.fasten_end((id, end), (post, face), held, &joint, boxes.span);
    }
    Some(id)
}
