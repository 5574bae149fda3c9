//! Flutes on a front: as many as fit, the same margin at both sides.

use crate::measure::Length;
use crate::model::{Flutes, Run};
use crate::parts::feature::{Feature, FeatureKind};
use crate::parts::part::PartId;
use crate::parts::space::{Direction, Face};
use crate::trade;

use super::builder::Builder;

/// Centre lines of the flutes across a front `wide` across the run: equally
/// spaced at `pitch`, symmetrical, with at least `land` left at both edges.
/// Empty where not even one fits.
pub(super) fn centres(wide: Length, flute: Length, pitch: Length, land: Length) -> Vec<Length> {
    let room = wide - land.twice() - flute;
    if room.is_negative() || !pitch.is_positive() {
        return Vec::new();
    }
    let steps = (room / pitch).floor().clamp(0, 10_000);
    let first = (wide - pitch * steps).half();
    (0..=steps).map(|number| first + pitch * number).collect()
}

pub(super) fn cut(builder: &mut Builder<'_>, id: PartId, spec: &Flutes) {
    let (Some(part), Some(bit)) = (builder.part(id).cloned(), builder.piece.bits.get(spec.bit))
    else {
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
    let run = (spec.stop, run - spec.stop);
    for centre in centres(across, flute, spec.pitch, spec.land) {
        let band = (centre - flute.half(), centre + flute.half());
        let (u, v) = if along_length { (run, band) } else { (band, run) };
        builder.cut(
            id,
            Feature {
                kind: FeatureKind::Flute(spec.bit),
                face: Face::ThickStart,
                u,
                v,
                deep: spec.deep,
                takes: None,
                span: spec.span,
            },
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 17-1/16 wide, flutes 0.464 at 3/4 with 3/16 land: (17.0625 − 0.375 −
    /// 0.464) / 0.75 = 21.6, so 22 flutes; margin (17.0625 − 21 × 0.75) / 2 =
    /// 0.65625 to the first centre.
    #[test]
    fn flutes_are_symmetrical() {
        let wide = Length::inches(273, 16);
        let lines =
            centres(wide, Length::inches(464, 1000), Length::inches(3, 4), Length::inches(3, 16));
        assert_eq!(lines.len(), 22);
        assert_eq!(lines[0], Length::inches(21, 32));
        assert_eq!(lines[0] + lines[21], wide);
    }
}
