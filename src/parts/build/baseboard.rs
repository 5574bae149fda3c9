//! Notches for the baseboard behind the piece, at the lower back corners of what stands on the
//! floor.

use crate::measure::Length;
use crate::model::{Baseboard, Case, Piece, Size};
use crate::parts::feature::{Feature, FeatureKind};
use crate::parts::id::{PartId, Role};
use crate::parts::part::Part;
use crate::parts::space::{Direction, Face};

use super::builder::Builder;

/// Cuts them.
pub(super) fn build(builder: &mut Builder<'_>) {
    let (piece, case) = (builder.piece, builder.case);
    let Some(baseboard) = &piece.site.baseboard else { return };
    let own = builder.own().filter_map(|(id, part)| {
        let [up, out] = baseboard_notch(piece, case, part)?;
        Some((id, notch(part, baseboard, up.length, out.length)))
    });
    let notches: Vec<(PartId, Feature)> = own.collect();
    for (id, feature) in notches {
        builder.cut(id, feature);
    }
}

/// How high and how deep the notch for the baseboard is in a part of a case, from its lower
/// end and its back; `None` where it has none.
#[must_use]
pub fn baseboard_notch(piece: &Piece, case: &Case, part: &Part) -> Option<[Size; 2]> {
    let baseboard = piece.site.baseboard.as_ref()?;
    if !matches!(part.role, Role::End(_) | Role::Leg) {
        return None;
    }
    let up = baseboard.up() - part.side(Direction::Y, false);
    let out = part.side(Direction::Z, true) - &case.deep + baseboard.out();
    let cuts = up.length.is_positive() && out.length.is_positive();
    cuts.then_some([up, out])
}

fn notch(part: &Part, baseboard: &Baseboard, up: Length, out: Length) -> Feature {
    let range = |direction: Direction| match direction {
        Direction::Y => (Length::ZERO, up.min(part.along(direction).length)),
        Direction::X | Direction::Z => {
            let whole = part.along(direction).length;
            ((whole - out).max(Length::ZERO), whole)
        }
    };
    Feature {
        kind: FeatureKind::Notch,
        face: part.show.filter(|face| face.is_broad()).unwrap_or(Face::ThickStart),
        u: range(part.placement.length),
        v: range(part.placement.width),
        deep: part.thickness.length,
        deep_at: None,
        takes: None,
        span: baseboard.span,
    }
}
