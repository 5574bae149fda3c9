//! The holes under the heads of screws that hold a front of solid wood: it moves across its
//! grain, and they leave it room.

use std::collections::BTreeMap;

use crate::measure::Length;
use crate::model::Stock;
use crate::parts::Role;
use crate::plans::Workings;
use crate::trade;

use super::screw_lines::ScrewLine;
use super::screws::{Fastening, Purpose};

/// The hole in what they go through, of all screws of one purpose that hold fronts of solid
/// wood in one piece: as much wider than a screw as the wood between the outermost screws of a
/// front moves, where that is most.
pub(super) fn widen(work: &Workings<'_>, found: &mut [Fastening<'_>]) {
    let moves = |own: &Fastening<'_>| {
        matches!(own.purpose, Purpose::Fronts | Purpose::FalseFronts)
            && own.part.role == Role::Slab
            && work.piece.stock(own.part.stock).is_some_and(Stock::is_solid)
    };
    // From the first to the last of the screws of a front, across its grain.
    let mut reach: BTreeMap<&str, (Length, Length)> = BTreeMap::new();
    for own in found.iter().filter(|own| moves(own)) {
        let across = own.part.placement.width;
        for head in own.lines.iter().flat_map(ScrewLine::heads) {
            let at = head.along(across);
            let known = reach.entry(&own.part.path).or_insert((at, at));
            *known = (known.0.min(at), known.1.max(at));
        }
    }
    let mut holes: BTreeMap<Purpose, Length> = BTreeMap::new();
    for own in found.iter().filter(|own| moves(own)) {
        let (Some((from, to)), Some(stock)) =
            (reach.get(&*own.part.path), work.piece.stock(own.part.stock))
        else {
            continue;
        };
        let swelling = work.climate().swelling(stock, *to - *from);
        let most = swelling.driest.abs().max(swelling.dampest.abs());
        let hole = trade::moving_hole(most, work.piece.tape().unit);
        let known = holes.entry(own.purpose).or_insert(hole);
        *known = hole.max(*known);
    }
    for own in found.iter_mut().filter(|own| moves(own)) {
        own.hole = holes.get(&own.purpose).copied();
    }
}
