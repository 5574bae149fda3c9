//! What is cut in a task: the set-ups of the router, holes, and joints made by
//! hand or saw.

use std::collections::{BTreeMap, BTreeSet};

use crate::measure::{Length, Span};
use crate::model::Hook;
use crate::parts::{Bore, Direction, Face, Feature, FeatureKind, Part, PartId};
use crate::plans::Workings;
use crate::plans::assembly::Task;
use crate::plans::fitting::slides::Hooks;

use super::{BoredFor, Doing, Holes};

/// The set-up that each feature is cut at, by the part and the number of the feature.
pub(super) type Settings = BTreeMap<(PartId, usize), usize>;

pub(super) fn settings(work: &Workings<'_>) -> Settings {
    let setups = work.setups().iter().enumerate();
    setups.flat_map(|(index, setup)| setup.cuts().map(move |cut| (cut, index))).collect()
}

/// The set-ups that cut sticks while they are whole.
pub(super) fn in_sticks(work: &Workings<'_>, settings: &Settings, task: &Task) -> Vec<Doing> {
    set_ups(work, settings, task, true).map(Doing::Setting).collect()
}

/// The set-ups of a task that cut sticks while they are whole, or all others.
fn set_ups(
    work: &Workings<'_>,
    settings: &Settings,
    task: &Task,
    in_sticks: bool,
) -> impl Iterator<Item = usize> {
    let own: BTreeSet<usize> =
        task.cuts.iter().filter_map(|cut| settings.get(cut)).copied().collect();
    let is_own = move |index: &usize| {
        work.setups().get(*index).is_some_and(|setup| setup.is_in_sticks() == in_sticks)
    };
    own.into_iter().filter(is_own)
}

/// Everything else that is cut in a task.
pub(super) fn cuts(work: &Workings<'_>, settings: &Settings, task: &Task) -> Vec<Doing> {
    let mut doings: Vec<Doing> = set_ups(work, settings, task, false).map(Doing::Setting).collect();
    // A miter takes the edge that all else counts from, so it comes last.
    let is_miter = |(id, number): &&(PartId, usize)| {
        let feature = work.parts.get(*id).and_then(|part| part.features.get(*number));
        feature.is_some_and(|feature| feature.kind == FeatureKind::Miter)
    };
    let mut bores: BTreeMap<Bored, usize> = BTreeMap::new();
    let others = task.cuts.iter().filter(|cut| !is_miter(cut));
    for (id, number) in others.chain(task.cuts.iter().filter(is_miter)) {
        let Some(part) = work.parts.get(*id) else { continue };
        let Some(feature) = part.features.get(*number) else { continue };
        match feature.kind {
            FeatureKind::Dado
            | FeatureKind::Groove
            | FeatureKind::Rabbet
            | FeatureKind::Flute(_) => {}
            FeatureKind::Bore(Bore::PlateBehind) => {}
            FeatureKind::Bore(bore) => {
                let alike = (*id, feature.face, bore, feature.u.1 - feature.u.0, feature.deep);
                let place = *bores.entry(alike).or_insert(doings.len());
                bored(&mut doings, place, part, feature, alike);
            }
            FeatureKind::Miter
            | FeatureKind::Glazing(_)
            | FeatureKind::Notch
            | FeatureKind::Slot
            | FeatureKind::Pockets(..)
            | FeatureKind::Tenon
            | FeatureKind::Haunch
            | FeatureKind::Mortise
            | FeatureKind::Dovetails
            | FeatureKind::Dowels(..) => doings.push(Doing::Shape(*id, *number)),
        }
    }
    doings
}

/// The holes of hinge plates that are bored on through blocks, when those are on.
pub(super) fn bored_through(work: &Workings<'_>, task: &Task) -> Vec<Doing> {
    let mut doings: Vec<Doing> = Vec::new();
    let mut bores: BTreeMap<Bored, usize> = BTreeMap::new();
    for (id, number) in &task.cuts {
        let Some(part) = work.parts.get(*id) else { continue };
        let Some(feature) = part.features.get(*number) else { continue };
        let FeatureKind::Bore(bore @ Bore::PlateBehind) = feature.kind else { continue };
        let alike = (*id, feature.face, bore, feature.u.1 - feature.u.0, feature.deep);
        let place = *bores.entry(alike).or_insert(doings.len());
        bored(&mut doings, place, part, feature, alike);
        let block = work.parts.block_before(*id, feature);
        if let (Some(Doing::Bore(holes)), Some(block)) = (doings.get_mut(place), block)
            && !holes.behind.contains(&block)
        {
            holes.behind.push(block);
        }
    }
    doings
}

/// Holes that are one operation: the part, the face, what they are for, their diameter
/// and how deep they are.
type Bored = (PartId, Face, Bore, Length, Length);

/// A hole joins those of its kind in its face, which are at this place if there are any.
fn bored(
    doings: &mut Vec<Doing>,
    place: usize,
    part: &Part,
    feature: &Feature,
    (id, face, bore, diameter, deep): Bored,
) {
    let (u, v) = feature.center();
    let from = sides(face).map(|(start, end)| part.datum([start, end]));
    let center = [part.distance(from[0], u), part.distance(from[1], v)];
    if let Some(Doing::Bore(holes)) = doings.get_mut(place) {
        holes.centers.push(center);
        holes.spans.push(feature.span);
        return;
    }
    doings.push(Doing::Bore(Holes {
        part: id,
        face,
        behind: Vec::new(),
        bore: BoredFor::Drawn(bore),
        from,
        centers: vec![center],
        diameter,
        deep,
        spans: vec![feature.span],
    }));
}

/// The two holes for hooks in the back of a box, from its outside.
#[must_use]
pub fn hook_holes(id: PartId, hooks: &Hooks<'_>, (hook, span): (Hook, Span)) -> Holes {
    let part = hooks.back;
    let face = part.placement.face(Direction::Z, false);
    let from = sides(face).map(|(start, end)| part.datum([start, end]));
    let long = part.length.length;
    let ends = [hooks.from_end, long - hooks.from_end];
    Holes {
        part: id,
        face,
        behind: Vec::new(),
        bore: BoredFor::Hook,
        from,
        centers: ends
            .map(|end| [part.distance(from[0], end), part.distance(from[1], hooks.up)])
            .to_vec(),
        diameter: hook.bore,
        deep: hook.deep,
        spans: vec![span],
    }
}

/// The faces that `u` and `v` of a face run between.
#[must_use]
pub fn sides(face: Face) -> [(Face, Face); 2] {
    let (long, wide, thick) = (
        (Face::LengthStart, Face::LengthEnd),
        (Face::WidthStart, Face::WidthEnd),
        (Face::ThickStart, Face::ThickEnd),
    );
    match face {
        Face::ThickStart | Face::ThickEnd => [long, wide],
        Face::WidthStart | Face::WidthEnd => [long, thick],
        Face::LengthStart | Face::LengthEnd => [wide, thick],
    }
}
