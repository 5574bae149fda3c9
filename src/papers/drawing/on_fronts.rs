//! What is cut and bored into the face of a board, as the elevation shows it.

use crate::parts::{Assembly, Direction, Face, FeatureKind, Part};

use super::holes;
use super::labels::Labels;
use super::svg::{Fill, Line, Svg, mm};
use super::view::area;

/// Flutes, round holes, the holes of pulls, and finger pulls of a part that is seen from the
/// front, in a drawing so `high`.
pub(super) fn draw(svg: &mut Svg, labels: &mut Labels, part: &Part, high: f64) {
    for hole in holes::seen(part, Direction::Z, true) {
        let ((x, y, _), radius) = (holes::center(&hole), holes::radius(&hole, Direction::Z));
        let y = high - y;
        svg.circle((x, y), radius, Line::Narrow);
        labels.take(((x - radius, y - radius), (x + radius, y + radius)));
    }
    let origin = part.placement.origin;
    let up = part.placement.length == Direction::Y;
    for feature in part
        .features
        .iter()
        .filter(|f| f.face == Face::ThickStart && part.placement.thickness == Direction::Z)
    {
        let (u, v) = feature.center();
        let (x, y) = if up { (origin.x + v, origin.y + u) } else { (origin.x + u, origin.y + v) };
        match feature.kind {
            FeatureKind::Flute(_) => {
                let along_u = feature.u.1 - feature.u.0 > feature.v.1 - feature.v.0;
                let (a, b) = if along_u { feature.u } else { feature.v };
                let vertical = along_u == up;
                if vertical {
                    let (from, to) = (origin.y + a, origin.y + b);
                    svg.line((mm(x), high - mm(from)), (mm(x), high - mm(to)), Line::Narrow);
                } else {
                    let (from, to) = (origin.x + a, origin.x + b);
                    svg.line((mm(from), high - mm(y)), (mm(to), high - mm(y)), Line::Narrow);
                }
            }
            // A finger pull.
            FeatureKind::Notch if matches!(part.assembly, Assembly::Front(_)) => {
                let own = area(&part.hollow(feature, feature.v), high);
                svg.rect(own.0, own.1, Line::Narrow, Fill::White);
                labels.take(own);
            }
            _ => {}
        }
    }
}
