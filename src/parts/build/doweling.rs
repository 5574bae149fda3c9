//! Dowel joints: the holes in both halves.

use crate::measure::{Length, Span};
use crate::model::Joinery;
use crate::parts::feature::{Feature, FeatureKind};
use crate::parts::id::PartId;
use crate::parts::space::{Direction, Face};
use crate::trade;

use super::builder::Builder;

/// The dowels at both ends of a short board don't meet: each takes its share of
/// the length, and one share stays between them.
const SHARES: i64 = 3;

impl Builder<'_> {
    /// Bores the end of `part` and the `face` of the `host` that it meets. `held`
    /// is the stretch of its width that lies on the host. Both halves have as many
    /// holes, each across from the other.
    pub(super) fn dowel(
        &mut self,
        (part, end): (PartId, Face),
        (host, face): (PartId, Face),
        held: (Length, Length),
        joint: &Joinery,
        span: Span,
    ) {
        let (Some(guest), Some(holder)) = (self.part(part), self.part(host)) else { return };
        let (unit, diameter) = (self.piece.tape().unit, joint.diameter.unwrap_or_default());
        let reach = |there| trade::dowel_reach(diameter, there, joint.room, unit);
        // A miter comes nearest to the side of a dowel that lies farthest back.
        let middle = guest.thickness.length.half();
        let hole = (middle - diameter.half(), middle + diameter.half());
        let there = match face {
            Face::WidthStart | Face::WidthEnd => holder.depth_at(face, hole),
            Face::ThickStart | Face::ThickEnd | Face::LengthStart | Face::LengthEnd => {
                holder.depth(face)
            }
        };
        let [own, other] = [guest.length.length / SHARES, there].map(reach);
        let count = trade::pocket_count(held.1 - held.0);
        let kind = FeatureKind::Dowels(count, joint.diameter, own + other);
        let [deep, other_deep] = [own, other].map(|reach| reach + joint.room);
        let thick = guest.thickness.length;
        let own = Feature {
            kind,
            face: end,
            u: held,
            v: (Length::ZERO, thick),
            deep,
            deep_at: None,
            takes: None,
            span,
        };
        // Where that stretch and the thickness of the end lie on the host.
        let starts = |direction: Direction| {
            guest.placement.origin.along(direction) - holder.placement.origin.along(direction)
        };
        let on_host = |direction: Direction| {
            let from = starts(direction);
            match direction == guest.placement.width {
                true => (from + held.0, from + held.1),
                false => (from, from + thick),
            }
        };
        let axes = match face {
            Face::ThickStart | Face::ThickEnd => [holder.placement.length, holder.placement.width],
            Face::WidthStart | Face::WidthEnd => {
                [holder.placement.length, holder.placement.thickness]
            }
            Face::LengthStart | Face::LengthEnd => {
                [holder.placement.width, holder.placement.thickness]
            }
        };
        let [u, v] = axes.map(on_host);
        let other = Feature { face, u, v, deep: other_deep, takes: Some(part), ..own.clone() };
        self.cut(part, own);
        self.cut(host, other);
    }
}
