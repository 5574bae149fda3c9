//! Parts that are in one place. Two boards can't be: what two parts share must
//! have been cut out of one of them, or be the joint by which they interlock.

use std::collections::BTreeSet;

use crate::measure::Length;

use super::feature::FeatureKind;
use super::id::PartId;
use super::joint::{Joint, JointSort};
use super::part::{Part, Parts};
use super::space::{Cuboid, Direction, Face};

/// Two parts in one place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Clash {
    /// The one.
    pub one: PartId,
    /// The other.
    pub other: PartId,
    /// How far they share space: to the right, up and back.
    pub by: [Length; 3],
}

/// Every two parts of one case that share space and make no way for each other,
/// and how many share any.
#[must_use]
pub fn clashes(parts: &Parts) -> (Vec<Clash>, usize) {
    let shaped = shaped_joints(parts);
    let (mut found, mut shared) = (Vec::new(), 0);
    // Case by case, as they stand there: few boards at a time are put in order.
    let all: Vec<(PartId, &Part)> = parts.iter().collect();
    for case in all.chunk_by(|(_, a), (_, b)| a.case == b.case) {
        let mut boards: Vec<(PartId, &Part, Cuboid)> =
            case.iter().map(|(id, part)| (*id, *part, part.cuboid())).collect();
        boards.sort_by_key(|(.., space)| space.from.x);
        for (index, (a, first, one)) in boards.iter().enumerate() {
            let rest = boards.get(index + 1..).unwrap_or(&[]);
            let near = |(.., space): &&(PartId, &Part, Cuboid)| space.from.x < one.to.x;
            for (b, second, two) in rest.iter().take_while(near) {
                if !one.overlaps(two) {
                    continue;
                }
                shared += 1;
                if makes_way(first, two) || makes_way(second, one) || pass(first, second) {
                    continue;
                }
                if clears_miter(first, second) || clears_miter(second, first) {
                    continue;
                }
                let joined = shaped.contains(&((*a).min(*b), (*a).max(*b)));
                if joined && (interlocks(first, one, two) || interlocks(second, two, one)) {
                    continue;
                }
                let by = Direction::ALL.map(|axis| one.overlap_along(two, axis));
                found.push(Clash { one: *a, other: *b, by });
            }
        }
    }
    (found, shared)
}

/// True for the joints at which one part is shaped to go into the other.
fn is_shaped(sort: JointSort) -> bool {
    match sort {
        JointSort::Miter => true,
        JointSort::Wood(kind) => kind.is_shaped(),
        JointSort::Floating
        | JointSort::Glazed
        | JointSort::Pinned
        | JointSort::Planted
        | JointSort::Hung
        | JointSort::Slid
        | JointSort::Laid
        | JointSort::FrontFixed => false,
    }
}

/// The two parts of each such joint, in their order.
fn shaped_joints(parts: &Parts) -> BTreeSet<(PartId, PartId)> {
    let joints = parts.joints.iter().filter(|joint| is_shaped(joint.sort));
    let pair = |joint: &Joint| (joint.part.min(joint.into), joint.part.max(joint.into));
    joints.map(pair).collect()
}

/// True where all that the two share has been cut out of `host`.
fn makes_way(host: &Part, guest: &Cuboid) -> bool {
    let cut = host.features.iter().filter(|f| {
        f.is_channel() || matches!(f.kind, FeatureKind::Notch | FeatureKind::Glazing(_))
    });
    host.makes_way(guest, cut)
}

/// True where two parts with tenons share the space round them, and no wood: one tenon
/// passes the other in the post that takes both.
fn pass(first: &Part, second: &Part) -> bool {
    let is_tenoned = |part: &Part| part.features.iter().any(|f| f.kind == FeatureKind::Tenon);
    if !is_tenoned(first) || !is_tenoned(second) {
        return false;
    }
    let others = wood(second);
    !wood(first).iter().any(|own| others.iter().any(|other| own.overlaps(other)))
}

/// True where all that a part with tenons shares with the box of a mitered one lies where the
/// miter has taken its wood away: at 45 degrees, nearer to the mitered edge than to the face
/// whose corner stays.
fn clears_miter(mitered: &Part, other: &Part) -> bool {
    let Some(show) = mitered.show else { return false };
    let own = mitered.cuboid();
    let from = |face: Face, at: &Cuboid| {
        let axis = mitered.placement.direction(face);
        match face.is_start() {
            true => (at.from.along(axis), at.to.along(axis)),
            false => (Length::ZERO - at.to.along(axis), Length::ZERO - at.from.along(axis)),
        }
    };
    let miters = mitered.features.iter().filter(|f| f.kind == FeatureKind::Miter);
    let mut edges = miters.map(|miter| miter.face).filter(|face| !face.is_broad());
    edges.any(|edge| {
        wood(other).iter().filter(|wood| wood.overlaps(&own)).all(|wood| {
            let deepest = from(edge, wood).1 - from(edge, &own).0;
            let nearest = from(show, wood).0 - from(show, &own).0;
            nearest >= deepest
        })
    })
}

/// The wood of a part with tenons: between its shoulders, and each tenon.
fn wood(part: &Part) -> Vec<Cuboid> {
    let along = part.placement.length;
    let mut body = part.cuboid();
    let mut all = Vec::new();
    for tenon in part.features.iter().filter(|f| f.kind == FeatureKind::Tenon) {
        let own = part.hollow(tenon, tenon.v);
        match tenon.face.is_start() {
            true => body.from.set(along, own.to.along(along)),
            false => body.to.set(along, own.from.along(along)),
        }
        all.push(own);
    }
    all.push(body);
    all
}

/// True where a part is shaped at the edge or end that goes into the other, no
/// deeper than the shape.
fn interlocks(part: &Part, own: &Cuboid, other: &Cuboid) -> bool {
    part.features.iter().any(|f| {
        matches!(f.kind, FeatureKind::Miter | FeatureKind::Tenon | FeatureKind::Dovetails)
            && own.overlap_along(other, part.placement.direction(f.face)) <= f.deep
    })
}
