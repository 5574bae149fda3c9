//! Flutes on a front: as many as fit, the same margin at both sides.

use crate::model::{Flutes, Run};
use crate::parts::feature::{Feature, FeatureKind};
use crate::parts::id::PartId;
use crate::parts::space::{Direction, Face};
use crate::trade;

use super::builder::Builder;

pub(super) fn cut(builder: &mut Builder<'_>, id: PartId, spec: &Flutes) {
    let (Some(part), Some(bit)) = (builder.part(id).cloned(), builder.piece.bit(spec.bit)) else {
        return;
    };
    let flute = trade::flute_width(bit.diameter, spec.deep);
    let along_length = match spec.run {
        Run::Vertical => part.placement.length == Direction::Y,
        Run::Horizontal => part.placement.length == Direction::X,
    };
    let (run, across) = if along_length {
        (part.length.length, part.width.length)
    } else {
        (part.width.length, part.length.length)
    };
    // Shorter than it is wide it would lie across the others; that is refused.
    if spec.are_too_short(run, flute) {
        return;
    }
    let run = (spec.stop, run - spec.stop);
    for center in trade::flute_lines(across, flute, spec.pitch, spec.land) {
        let band = (center - flute.half(), center + flute.half());
        let (u, v) = if along_length { (run, band) } else { (band, run) };
        builder.cut(
            id,
            Feature {
                kind: FeatureKind::Flute(spec.bit),
                face: Face::ThickStart,
                u,
                v,
                deep: spec.deep,
                deep_at: None,
                takes: None,
                span: spec.span,
            },
        );
    }
}
