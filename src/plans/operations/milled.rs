//! What is taken from the stock and brought to size.

use std::collections::BTreeMap;

use crate::measure::Length;
use crate::model::Stock;
use crate::parts::{Part, PartId};
use crate::plans::Workings;
use crate::plans::assembly::{Blank, Task, gluing};

use super::{Along, Doing, broken_down};

/// What is taken from the stock, glued up and milled in a task.
pub(super) fn taken(work: &Workings<'_>, task: &Task) -> Vec<Doing> {
    let part = |id: &PartId| work.parts.get(*id).map(|part| (*id, part));
    let broken = task.breaks.iter().filter_map(part);
    let mut doings: Vec<Doing> =
        broken.filter_map(|(id, part)| broken_down(work, id, part)).collect();
    doings.extend(cores(task.breaks.iter().filter_map(part)));
    for (id, way) in &task.blanks {
        let Some((id, part)) = part(id) else { continue };
        let rough = part.rough;
        let long = work.sticks().rough_long(id, part);
        let size = [long, rough.width, rough.thickness];
        let boards = gluing::boards(work.piece, part);
        let pieces = match way {
            Blank::Edges => boards.count,
            Blank::Layers => gluing::layers(work.piece, part),
        };
        let in_parts = *way == Blank::Edges && gluing::planed_in(work.piece, part).len() > 1;
        let wide = boards.wide;
        doings.push(Doing::GlueUp { part: id, way: *way, size, pieces, wide, in_parts });
    }
    let mills = |id: PartId, along: Along| match along {
        Along::Thickness => true,
        Along::Width => !task.thicknessed.contains(&id),
        Along::Length => !task.thicknessed.contains(&id) && !work.sticks().is_cut_first(id),
    };
    doings.extend(milled(work, &task.mills, mills));
    doings
}

/// What is crosscut from sticks when these have their channels, and what is sawn by that.
pub(super) fn crosscut(work: &Workings<'_>, task: &Task) -> Vec<Doing> {
    let own = &task.crosscuts;
    let mut doings = milled(work, &own.parts, |_, along| along == Along::Length);
    doings.extend(own.measures.iter().cloned());
    doings.extend(milled(work, &own.sawn, |_, along| along != Along::Thickness));
    doings
}

/// Parts that are brought to size, along those of their axes that `mills` lets through.
fn milled(
    work: &Workings<'_>,
    parts: &[PartId],
    mills: impl Fn(PartId, Along) -> bool,
) -> Vec<Doing> {
    let part = |id: &PartId| work.parts.get(*id).map(|part| (*id, part));
    let mut doings = Vec::new();
    for along in [Along::Thickness, Along::Width, Along::Length] {
        let mut sizes: BTreeMap<Length, Vec<PartId>> = BTreeMap::new();
        for (id, part) in parts.iter().filter_map(part).filter(|(id, _)| mills(*id, along)) {
            // A sheet is as thick as it is.
            if along == Along::Thickness && !is_planed(work, part) {
                continue;
            }
            // Its strips brought it to that size.
            if !part.strips.is_empty() && !part.is_cut_after(along.faces()) {
                continue;
            }
            sizes.entry(along.of(part)).or_default().push(id);
        }
        // The longest first: a piece that is spoiled gives a shorter one.
        let sizes = sizes.into_iter().rev();
        doings.extend(sizes.map(|(to, parts)| Doing::Mill { along, to, parts }));
    }
    doings
}

/// The sizes that parts are sawn to before strips go on them, where those bring them
/// to their finished ones.
fn cores<'p>(parts: impl Iterator<Item = (PartId, &'p Part)>) -> Vec<Doing> {
    let mut sizes: BTreeMap<(Along, Length), Vec<PartId>> = BTreeMap::new();
    for (id, part) in parts.filter(|(_, part)| !part.strips.is_empty()) {
        let [length, width] = part.core();
        for (along, size) in [(Along::Length, length), (Along::Width, width)] {
            if !part.is_cut_after(along.faces()) {
                sizes.entry((along, size.length)).or_default().push(id);
            }
        }
    }
    // Ripped before they are crosscut, the longest first.
    let mills = sizes.into_iter().rev();
    mills.map(|((along, to), parts)| Doing::Mill { along, to, parts }).collect()
}

/// True for a part that comes to its thickness by planing; a sheet is as thick as it
/// was bought, and so are layers of it.
fn is_planed(work: &Workings<'_>, part: &Part) -> bool {
    work.piece.stock(part.stock).is_none_or(Stock::is_solid)
}
