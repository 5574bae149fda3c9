//! Doors, drawer fronts and false fronts.

use crate::measure::Length;
use crate::model::{Build, OpeningKind, Pull, PullAt, PullHeight, PullId, Run, Set, Side, Size};
use crate::parts::feature::{Bore, Feature, FeatureKind};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::part::Assembly;
use crate::parts::space::{Direction, Face};

use super::builder::{ACROSS, Builder, Draft, STANDING};
use super::carcass::Carcass;
use super::front::{Front, leaves};
use super::{finger, flutes, framed, hinging, holding};

pub(super) fn build(builder: &mut Builder<'_>, carcass: &Carcass) {
    let openings = builder.case.openings.clone();
    for opening in &openings {
        let Some(fronts) = &opening.front else { continue };
        for leaf in leaves(opening, fronts) {
            match &fronts.build {
                Build::Slab => slab(builder, carcass, &leaf),
                Build::Panel(panel) => framed::build(builder, carcass, &leaf, panel),
            }
        }
    }
}

/// The front plane of a front, from the foremost face.
pub(super) fn front_z(builder: &Builder<'_>, leaf: &Front<'_>) -> Size {
    match leaf.fronts.set {
        Set::Inset => {
            &builder.planes.frame + builder.piece.behind_doors(builder.case, leaf.opening)
        }
        Set::Overlay(_) => &builder.planes.frame - builder.thickness(leaf.fronts.stock),
    }
}

fn slab(builder: &mut Builder<'_>, carcass: &Carcass, leaf: &Front<'_>) {
    // Unless it is written, grain runs up a door, and along the longer side of a drawer
    // front or false front: what is narrow across its grain moves least.
    let upright = match leaf.fronts.grain.map(|grain| grain.value) {
        Some(run) => run == Run::Vertical,
        None => leaf.hung.is_some() || leaf.high.length > leaf.wide.length,
    };
    let (length, width, axes) = if upright {
        (leaf.high.clone(), leaf.wide.clone(), STANDING)
    } else {
        (leaf.wide.clone(), leaf.high.clone(), ACROSS)
    };
    let z = front_z(builder, leaf);
    let mut notes = leaf.fronts.notes.clone();
    notes.extend(leaf.opening.notes.iter().cloned());
    let id = builder.add(Draft {
        of: Of::Front(leaf.id),
        which: Which::Only,
        role: Role::Slab,
        assembly: Assembly::Front(leaf.id),
        stock: leaf.fronts.stock,
        length,
        width,
        thickness: None,
        stands: Builder::stands(&leaf.stands[0], &leaf.stands[1], z),
        axes,
        show: Some(Face::ThickStart),
        span: leaf.opening.span,
        notes,
    });
    if let Some(spec) = &leaf.fronts.flutes {
        flutes::cut(builder, id, spec);
    }
    hardware(builder, carcass, leaf, [id; 2], [id; 2]);
}

/// Hinge cups and pull holes, bored into the parts that carry them, and finger pulls.
/// After the stiles comes what carries the pull, and what has the edge for the fingers.
pub(super) fn hardware(
    builder: &mut Builder<'_>,
    carcass: &Carcass,
    leaf: &Front<'_>,
    sides: [PartId; 2],
    [pull, edge]: [PartId; 2],
) {
    let hinges = *leaf.hung.unwrap_or(Side::Left).of(&sides);
    if let (Some(side), Some((hinge, span))) = (leaf.hung, leaf.fronts.hinge) {
        hinging::hang(builder, carcass, leaf, hinges, side, (hinge, span));
    }
    if matches!(leaf.opening.kind, OpeningKind::False) {
        holding::build(builder, carcass, leaf, sides);
    }
    if let Some(pull_index) = leaf.fronts.pull {
        pull_holes(builder, leaf, pull, pull_index);
    }
    if let Some(finger) = &leaf.fronts.finger {
        finger::cut(builder, leaf, edge, finger);
    }
}

fn pull_holes(builder: &mut Builder<'_>, leaf: &Front<'_>, id: PartId, pull: PullId) {
    let Some(pull) = builder.piece.pull(pull).cloned() else { return };
    let Some(part) = builder.part(id).cloned() else { return };
    let origin = part.placement.origin;
    let radius = pull.screw.half();
    let along = if leaf.hung.is_some() { Direction::Y } else { Direction::X };
    for (x, y) in pull_centers(leaf, &pull) {
        let (x, y) = (builder.case.x + leaf.x + x - origin.x, leaf.y + y - origin.y);
        let (u, v) = if part.placement.length == Direction::Y { (y, x) } else { (x, y) };
        let offsets = match pull.centers {
            Some(centers) => vec![-centers.half(), centers.half()],
            None => vec![Length::ZERO],
        };
        for offset in offsets {
            let (u, v) =
                if part.placement.length == along { (u + offset, v) } else { (u, v + offset) };
            builder.cut(
                id,
                Feature {
                    kind: FeatureKind::Bore(Bore::Pull),
                    face: Face::ThickStart,
                    u: (u - radius, u + radius),
                    v: (v - radius, v + radius),
                    deep: part.thickness.length,
                    deep_at: None,
                    takes: None,
                    span: leaf.fronts.pull_place.span.unwrap_or(pull.span),
                },
            );
        }
    }
}

/// The centers of the pulls of a front, in its plane, from its lower left corner.
pub(super) fn pull_centers(leaf: &Front<'_>, pull: &Pull) -> Vec<(Length, Length)> {
    let place = &leaf.fronts.pull_place;
    let (wide, high) = (leaf.wide.length, leaf.high.length);
    let by_pull = match (leaf.hung, pull.height) {
        (Some(_), _) | (None, PullHeight::Middle) => high.half(),
        (None, PullHeight::UpperThird) => high * 2 / 3,
    };
    let y = match place.at {
        Some(PullAt::FromTop(from)) => high - from,
        Some(PullAt::FromBottom(from)) => from,
        Some(PullAt::Middle) => high.half(),
        None => by_pull,
    };
    let from_edge = place.from_edge.unwrap_or(pull.from_edge);
    match leaf.hung.map(Side::other) {
        Some(Side::Left) => vec![(from_edge, y)],
        Some(Side::Right) => vec![(wide - from_edge, y)],
        // Each in the middle of its share of the width.
        None => {
            let count = i64::from(place.count);
            (0..count).map(|number| (wide * (2 * number + 1) / (2 * count), y)).collect()
        }
    }
}
