//! Doors, drawer fronts and false fronts.

use crate::measure::Length;
use crate::model::{
    Build, JointKind, OpeningKind, PanelBuild, Pull, PullAt, PullHeight, PullId, Run, Set, Side,
    Size, Stock,
};
use crate::parts::feature::{Bore, Feature, FeatureKind};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::joint::JointSort;
use crate::parts::part::Assembly;
use crate::parts::space::{Direction, Face};

use super::builder::{ACROSS, Builder, Draft, STANDING};
use super::carcass::Carcass;
use super::front::{Front, leaves};
use super::{flutes, hinging};

pub(super) fn build(builder: &mut Builder<'_>, carcass: &Carcass) {
    let openings = builder.case.openings.clone();
    for opening in &openings {
        let Some(fronts) = &opening.front else { continue };
        for leaf in leaves(opening, fronts) {
            match &fronts.build {
                Build::Slab => slab(builder, carcass, &leaf),
                Build::Panel(panel) => frame_and_panel(builder, carcass, &leaf, panel),
            }
        }
    }
}

/// The front plane of a front, from the foremost face.
fn front_z(builder: &Builder<'_>, leaf: &Front<'_>) -> Size {
    match leaf.fronts.set {
        Set::Inset => {
            &builder.planes.frame + builder.piece.behind_doors(builder.case, leaf.opening)
        }
        Set::Overlay(_) => &builder.planes.frame - builder.thickness(leaf.fronts.stock),
    }
}

fn slab(builder: &mut Builder<'_>, carcass: &Carcass, leaf: &Front<'_>) {
    // Unless it is written, grain runs up a door, and along a drawer front or false front.
    let upright = match leaf.fronts.grain.map(|grain| grain.value) {
        Some(run) => run == Run::Vertical,
        None => leaf.hung.is_some(),
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
        stands: builder.stands(&leaf.stands[0], &leaf.stands[1], z),
        axes,
        show: Some(Face::ThickStart),
        span: leaf.opening.span,
        notes,
    });
    if let Some(spec) = &leaf.fronts.flutes {
        flutes::cut(builder, id, spec);
    }
    hardware(builder, carcass, leaf, [id; 2], id);
}

fn frame_and_panel(
    builder: &mut Builder<'_>,
    carcass: &Carcass,
    leaf: &Front<'_>,
    panel: &PanelBuild,
) {
    let z = front_z(builder, leaf);
    let thick = builder.thickness(leaf.fronts.stock);
    let panel_thick = builder.thickness(panel.panel_stock);
    let assembly = Assembly::Front(leaf.id);
    let member = |builder: &mut Builder<'_>,
                  which,
                  role,
                  length: Size,
                  width: &Size,
                  x: &Size,
                  y: &Size,
                  axes| {
        builder.add(Draft {
            of: Of::Front(leaf.id),
            which,
            role,
            assembly,
            stock: leaf.fronts.stock,
            length,
            width: width.clone(),
            thickness: None,
            stands: builder.stands(x, y, z.clone()),
            axes,
            show: Some(Face::ThickStart),
            span: panel.span,
            notes: Vec::new(),
        })
    };
    let stile_role = Role::FrontStile;
    let (stile, rail) = (&panel.stile, &panel.rail);
    let [x, y] = &leaf.stands;
    let right_x = x + &leaf.wide - stile;
    let left = member(
        builder,
        Which::At(Side::Left),
        stile_role,
        leaf.high.clone(),
        stile,
        x,
        y,
        STANDING,
    );
    let right = member(
        builder,
        Which::At(Side::Right),
        stile_role,
        leaf.high.clone(),
        stile,
        &right_x,
        y,
        STANDING,
    );
    let rail_long = &leaf.wide - stile * 2 + &panel.tenon * 2;
    let rail_x = x + stile - &panel.tenon;
    let top_y = y + &leaf.high - rail;
    let top = member(
        builder,
        Which::Top,
        Role::FrontRail,
        rail_long.clone(),
        rail,
        &rail_x,
        &top_y,
        ACROSS,
    );
    let bottom =
        member(builder, Which::Bottom, Role::FrontRail, rail_long, rail, &rail_x, y, ACROSS);
    let solid = builder.piece.stock(panel.panel_stock).is_some_and(Stock::is_solid);
    let reach = panel.reach(solid);
    let panel_wide = &leaf.wide - stile * 2 + &reach * 2;
    let panel_high = &leaf.high - rail * 2 + &reach * 2;
    let set_in = (&thick - &panel_thick).half();
    let inset = set_in.length;
    let id = builder.add(Draft {
        of: Of::Front(leaf.id),
        which: Which::Only,
        role: Role::FrontPanel,
        assembly,
        stock: panel.panel_stock,
        length: panel_high,
        width: panel_wide,
        thickness: None,
        stands: builder.stands(x + stile - &reach, y + rail - &reach, &z + &set_in),
        axes: STANDING,
        show: Some(Face::ThickStart),
        span: panel.span,
        notes: leaf.fronts.notes.clone(),
    });
    for (member, face) in [
        (left, Face::WidthEnd),
        (right, Face::WidthStart),
        (top, Face::WidthStart),
        (bottom, Face::WidthEnd),
    ] {
        let Some(part) = builder.part(member) else { continue };
        let long = part.length.length;
        let feature = Feature {
            kind: FeatureKind::Groove,
            face,
            u: (Length::ZERO, long),
            v: (inset, inset + panel_thick.length),
            deep: panel.groove.length,
            deep_at: None,
            takes: Some(id),
            span: panel.span,
        };
        builder.cut(member, feature);
        builder.join(JointSort::Floating, id, member, false, panel.span);
    }
    let mark = builder.piece.tape().mark;
    for (rail, is_top) in [(top, true), (bottom, false)] {
        let Some(part) = builder.part(rail) else { continue };
        let (wide, y) = (part.width.length, part.placement.origin.y);
        for (end, stile) in [(Face::LengthStart, left), (Face::LengthEnd, right)] {
            let feature = Feature {
                kind: FeatureKind::Tenon,
                face: end,
                u: (Length::ZERO, wide),
                v: (inset, inset + panel_thick.length),
                deep: panel.tenon.length,
                deep_at: None,
                takes: None,
                span: panel.span,
            };
            let v = feature.v;
            builder.cut(rail, feature);
            if let Some(deep) = panel.mortise() {
                let set_in = panel.set_in(mark);
                let side = |from: Length, to: Length| match is_top {
                    true => (wide - to, wide - from),
                    false => (from, to),
                };
                if set_in.is_positive() {
                    builder.cut(
                        rail,
                        Feature {
                            kind: FeatureKind::Haunch,
                            face: end,
                            u: side(Length::ZERO, set_in),
                            v,
                            deep: panel.tenon.length - panel.stub.length,
                            deep_at: None,
                            takes: None,
                            span: panel.span,
                        },
                    );
                }
                let (from, to) = side(set_in, wide - panel.groove.length);
                let Some(holder) = builder.part(stile) else { continue };
                let low = y - holder.placement.origin.y;
                let inner =
                    if end == Face::LengthStart { Face::WidthEnd } else { Face::WidthStart };
                builder.cut(
                    stile,
                    Feature {
                        kind: FeatureKind::Mortise,
                        face: inner,
                        u: (low + from, low + to),
                        v,
                        deep: deep.length,
                        deep_at: None,
                        takes: Some(rail),
                        span: panel.span,
                    },
                );
            }
            builder.join(JointSort::Wood(JointKind::Tenon), rail, stile, true, panel.span);
        }
    }
    let lead_side = match leaf.hung {
        Some(Side::Right) => left,
        Some(Side::Left) | None => right,
    };
    let pull_on = match leaf.hung {
        Some(_) => lead_side,
        None => carrier(builder, leaf, panel, [top, bottom, id]),
    };
    hardware(builder, carcass, leaf, [left, right], pull_on);
}

/// Hinge cups and pull holes, bored into the parts that carry them.
fn hardware(
    builder: &mut Builder<'_>,
    carcass: &Carcass,
    leaf: &Front<'_>,
    sides: [PartId; 2],
    pull: PartId,
) {
    let hinges = *leaf.hung.unwrap_or(Side::Left).of(&sides);
    if let (Some(side), Some((hinge, span))) = (leaf.hung, leaf.fronts.hinge) {
        hinging::hang(builder, carcass, leaf, hinges, side, (hinge, span));
    }
    if matches!(leaf.opening.kind, OpeningKind::False)
        && let Some((side, holder)) = fixed_to(builder, leaf, hinges)
    {
        builder.join(JointSort::FrontFixed, *side.of(&sides), holder, false, leaf.opening.span);
    }
    if let Some(pull_index) = leaf.fronts.pull {
        pull_holes(builder, leaf, pull, pull_index);
    }
}

/// What a false front is fixed to, and at which side: a stile beside it, else a
/// board that it lies against.
fn fixed_to(builder: &Builder<'_>, leaf: &Front<'_>, front: PartId) -> Option<(Side, PartId)> {
    let beside = || {
        let sides = Side::BOTH.into_iter();
        sides.filter_map(|side| Some((side, hinging::beside(builder, leaf, side)?.0)))
    };
    let is_stile = |(_, id): &(Side, PartId)| {
        builder.part(*id).is_some_and(|part| part.assembly == Assembly::Frame(builder.id))
    };
    let back = builder.part(front).map(|part| part.cuboid().to.z);
    // Without a frame the front lies on the boards or between them.
    let is_behind = |(_, id): &(Side, PartId)| {
        builder.case.frame.is_none() || builder.part(*id).map(|part| part.cuboid().from.z) == back
    };
    beside().find(is_stile).or_else(|| beside().find(is_behind))
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

/// What the pull of a drawer or false front is screwed to: the top rail, the bottom
/// rail, or the panel.
fn carrier(
    builder: &Builder<'_>,
    leaf: &Front<'_>,
    panel: &PanelBuild,
    [top, bottom, middle]: [PartId; 3],
) -> PartId {
    let pull = leaf.fronts.pull.and_then(|pull| builder.piece.pull(pull));
    let Some(pull) = pull else { return middle };
    let Some((_, y)) = pull_centers(leaf, pull).first().copied() else { return middle };
    // Clear of the groove for the panel.
    let wood = panel.rail.length - panel.groove.length - pull.screw.half();
    match (y <= wood, y >= leaf.high.length - wood) {
        (true, _) => bottom,
        (false, true) => top,
        (false, false) => middle,
    }
}

/// The centers of the pulls of a front, in its plane, from its lower left corner.
fn pull_centers(leaf: &Front<'_>, pull: &Pull) -> Vec<(Length, Length)> {
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
