//! Finger pulls: cut through the edge of a front.

use crate::measure::Length;
use crate::model::{Finger, Side, Size};
use crate::parts::feature::{Feature, FeatureKind};
use crate::parts::id::PartId;
use crate::parts::space::{Direction, Face};

use super::builder::Builder;
use super::front::Front;

/// Cuts the finger pull of a front into the board that has its edge: the top edge, or the
/// latch edge of a door.
pub(super) fn cut(builder: &mut Builder<'_>, leaf: &Front<'_>, id: PartId, finger: &Finger) {
    let Some(part) = builder.part(id) else { return };
    let (wide, high, deep) = (leaf.wide.length, leaf.high.length, finger.deep.length);
    let ends = |(from, to): (Size, Size)| (from.length, to.length);
    let (x, y) = match leaf.hung.map(Side::other) {
        None => (ends(finger.along(&leaf.wide, false)), (high - deep, high)),
        Some(Side::Left) => ((Length::ZERO, deep), ends(finger.along(&leaf.high, true))),
        Some(Side::Right) => ((wide - deep, wide), ends(finger.along(&leaf.high, true))),
    };
    let origin = part.placement.origin;
    let (left, low) = (builder.case.x + leaf.x - origin.x, leaf.y - origin.y);
    let (x, y) = ((left + x.0, left + x.1), (low + y.0, low + y.1));
    let (u, v) = if part.placement.length == Direction::Y { (y, x) } else { (x, y) };
    let feature = Feature {
        kind: FeatureKind::Notch,
        face: Face::ThickStart,
        u,
        v,
        deep: part.thickness.length,
        deep_at: None,
        takes: None,
        span: finger.span,
    };
    builder.cut(id, feature);
}
