//! The screws of pocket holes, by the wood that they bite.

use crate::model::{JointKind, Stock};
use crate::parts::{Feature, FeatureKind, JointSort, Part};
use crate::plans::Workings;
use crate::plans::made::Space;
use crate::trade;

use super::screws::{Fastening, Joined, Long, Purpose};

/// True where the screws of these pockets go into a board: it lies across the end of the
/// part where they are.
pub(crate) fn pockets_meet(part: &Part, pockets: &Feature, into: &Part) -> bool {
    if !matches!(pockets.kind, FeatureKind::Pockets(..)) {
        return false;
    }
    let at = part.in_piece(Space::of(part, pockets).0);
    let (into, place) = (into.cuboid(), &part.placement);
    !at.overlap_along(&into, place.length).is_negative()
        && at.overlap_along(&into, place.width).is_positive()
}

/// The pocket screws of each end.
pub(super) fn screws<'a>(
    work: &Workings<'a>,
    joints: &[Joined<'a>],
    found: &mut Vec<Fastening<'a>>,
) {
    let mut parts: Vec<&'a Part> = Vec::new();
    let pocketed = joints.iter().filter(|own| own.sort == JointSort::Wood(JointKind::Pocket));
    for own in pocketed.clone() {
        if !parts.iter().any(|part| std::ptr::eq(*part, own.part)) {
            parts.push(own.part);
        }
    }
    for part in parts {
        for feature in &part.features {
            let FeatureKind::Pockets(count, screw) = feature.kind else { continue };
            let meets = |own: &&Joined<'_>| {
                std::ptr::eq(own.part, part) && pockets_meet(part, feature, own.into)
            };
            let joint = pocketed.clone().find(meets);
            let bitten = work.piece.stock(joint.map_or(part, |own| own.into).stock);
            let is_hard = |stock: &Stock| {
                stock.is_solid() && trade::is_hard(stock.species.as_deref(), stock.gravity)
            };
            let purpose = match bitten.is_some_and(is_hard) {
                true => Purpose::HardPockets,
                false => Purpose::Pockets,
            };
            found.push(Fastening {
                purpose,
                long: screw.map_or(Long::BySheet, Long::Is),
                count,
                part,
                into: joint.map(|own| own.into).into_iter().collect(),
                joint: joint.map(|own| own.index),
                hole: None,
                lines: Vec::new(),
            });
        }
    }
}
