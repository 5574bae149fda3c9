//! The holes for bought legs, in the underside of a bottom.

use crate::model::{BoughtLeg, Case, Fixing, OnLegs, Piece, Side, Size};
use crate::parts::feature::{Bore, Feature, FeatureKind};
use crate::parts::part::Part;
use crate::parts::space::Face;

use super::builder::Builder;
use super::carcass::Carcass;

/// A bought leg under a bottom. Every place counts along the bottom from its left end and
/// from its front edge.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LegAt {
    /// The middle of the leg.
    pub center: [Size; 2],
    /// The middle of each of its holes.
    pub holes: Vec<[Size; 2]>,
}

/// Bores them.
pub(super) fn build(builder: &mut Builder<'_>, carcass: &Carcass) {
    let (piece, case) = (builder.piece, builder.case);
    let Some((legs, leg)) = piece.legs_under(case) else { return };
    let Some(id) = carcass.bottom else { return };
    let Some(all) = builder.part(id).map(|bottom| legs_at(case, (legs, leg), bottom)) else {
        return;
    };
    let hole = leg.fixing.hole();
    let radius = hole.across.half();
    for [u, v] in all.iter().flat_map(|leg| &leg.holes) {
        let around = |at: &Size| (at.length - radius, at.length + radius);
        builder.cut(
            id,
            Feature {
                kind: FeatureKind::Bore(Bore::Leg),
                face: Face::ThickStart,
                u: around(u),
                v: around(v),
                deep: hole.deep,
                deep_at: None,
                takes: None,
                span: legs.span,
            },
        );
    }
    builder.note(id, &legs.notes);
}

/// The legs under the bottom of a case.
#[must_use]
pub fn legs_under(piece: &Piece, case: &Case, bottom: &Part) -> Vec<LegAt> {
    piece.legs_under(case).map_or(Vec::new(), |own| legs_at(case, own, bottom))
}

/// Those along the front first, from the left.
fn legs_at(case: &Case, (legs, leg): (&OnLegs, &BoughtLeg), bottom: &Part) -> Vec<LegAt> {
    let half = leg.wide.half();
    let [from, _, _] = &bottom.stands;
    let left = case.set_in(Side::Left) + &legs.set_in + &half - from;
    let right = &case.wide - case.set_in(Side::Right) - &legs.set_in - &half - from;
    let front = &legs.set_in + &half;
    let back = &bottom.width - &legs.set_in - &half;
    let steps = i64::from(legs.across.max(2)) - 1;
    let along: Vec<Size> =
        (0..=steps).map(|step| &left + (&right - &left) * step / steps).collect();
    let rows = [front, back];
    rows.iter()
        .flat_map(|across| along.iter().map(move |along| [along.clone(), across.clone()]))
        .map(|center| LegAt { holes: holes(leg, &center), center })
        .collect()
}

/// The holes of a leg: those of a plate in its corners, opposite ones first.
fn holes(leg: &BoughtLeg, center: &[Size; 2]) -> Vec<[Size; 2]> {
    match &leg.fixing {
        Fixing::Bolt(_) | Fixing::Dowel(_) => vec![center.clone()],
        Fixing::Plate { screws, from_edge, .. } => {
            let out = leg.wide.half() - from_edge;
            let [along, across] = center;
            let corner = |left: bool, front: bool| {
                let side = |at: &Size, less: bool| if less { at - &out } else { at + &out };
                [side(along, left), side(across, front)]
            };
            let corners = [
                corner(true, true),
                corner(false, false),
                corner(false, true),
                corner(true, false),
            ];
            let count = usize::try_from(*screws).unwrap_or(corners.len());
            corners.into_iter().take(count).collect()
        }
    }
}
