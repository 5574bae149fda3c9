//! How far what slides behind doors stays clear of them: at its sides of the open leaves,
//! and with its pull of the closed ones.

use crate::measure::{Angle, Length};
use crate::trade::{self, Body, Hung, Leaf, Patch};
use crate::vocabulary::{Origin, Side, Sourced, words};

use super::case::{Case, Exposure};
use super::edge::{Edge, Edges};
use super::front::Fronts;
use super::hardware::Pull;
use super::hinge::Hinge;
use super::lower::Lower;
use super::opening::{Opening, OpeningKind};
use super::size::Size;
use super::stock::Stock;

/// What fronts and drawers are made of and hang on.
pub(super) struct Fittings<'a> {
    pub(super) hinges: &'a [Hinge],
    pub(super) pulls: &'a [Pull],
    pub(super) stocks: &'a [Stock],
    /// The walls at the sides of the whole piece, from its left side: the outermost cases
    /// may stand off them by a filler.
    pub(super) walls: [Option<Length>; 2],
}

/// Gives every tray and drawer behind doors the room that the open leaves take at its
/// edges, and the front of a drawer its distance from the closed ones.
pub(super) fn give(cases: &mut [Case], fittings: &Fittings<'_>, ctx: &mut Lower) {
    let ends = [cases.first().map(|case| case.id), cases.last().map(|case| case.id)];
    for case in cases {
        // From the left side of this case.
        let walls = Side::BOTH.map(|side| {
            let wall = side.of(&fittings.walls).filter(|_| *side.of(&ends) == Some(case.id));
            wall.map(|wall| wall - case.x)
        });
        let mut found = Vec::new();
        for door in case.openings.iter().filter(|opening| opening.behind.is_some()) {
            let leaves = Side::BOTH.map(|side| taken((case, &walls), door, side, fittings, ctx));
            let is_behind = |tray: &Opening| {
                let slides = matches!(tray.kind, OpeningKind::Drawer { .. });
                slides && case.door_before(tray).is_some_and(|own| own.id == door.id)
            };
            for tray in case.openings.iter().filter(|opening| is_behind(opening)) {
                // A leaf is in the way only of what reaches its edge of the opening.
                let beside = |side: Side| {
                    let leaf = side.of(&leaves).as_ref();
                    leaf.filter(|_| edge_of(door, side) == edge_of(tray, side))
                };
                found.push((tray.id, Side::BOTH.map(|side| beside(side).cloned())));
            }
        }
        for (tray, sides) in found {
            let Some(tray) = case.openings.get_mut(tray.at) else { continue };
            tray.leaf_opens = sides.iter().flatten().map(|(_, opens)| *opens).min();
            tray.clear = sides.map(|side| side.map_or_else(Size::zero, |(clear, _)| clear));
            let Some(fronts) = &tray.front else { continue };
            tray.reach = Edges::new(|edge| {
                let side = Side::BOTH.into_iter().find(|side| Edge::at(*side) == edge);
                let clear = side.map_or_else(Size::zero, |side| side.of(&tray.clear).clone());
                tray.reach.of(edge) - &clear
            });
            if tray.set_back_span.is_none() {
                let pull = fronts.pull.and_then(|pull| fittings.pulls.get(pull.0));
                tray.set_back = behind_leaf(pull, ctx);
            }
        }
    }
}

/// From the back of the closed leaf to the face of a front whose pull clears it with
/// 1/4 in, 6 mm, to spare (common practice, no source).
fn behind_leaf(pull: Option<&Pull>, ctx: &mut Lower) -> Size {
    let block = words::drawer_behind::BLOCK.name;
    let origin = Origin::Default { block, word: words::drawer_behind::SET_BACK.spelling() };
    let value = ctx.tape.unit.either(Length::inches(1, 4), Length::mm(6));
    let clear = ctx.facts.sourced(Sourced { value, origin }, "clear of the closed doors");
    let Some(pull) = pull else { return clear };
    let origin = Origin::Written(pull.stands_span);
    let stands = Sourced { value: pull.stands, origin };
    ctx.facts.sourced(stands, format!("{} stands off", pull.name)) + clear
}

/// Where an opening ends at a side, from the left side of its case.
fn edge_of(opening: &Opening, side: Side) -> Length {
    match side {
        Side::Left => opening.x,
        Side::Right => opening.x + opening.wide.length,
    }
}

/// What the leaf that hangs at one side of an opening takes of it there, up to the next
/// mark of the tape, and how far it opens; `None` where no leaf hangs there.
fn taken(
    (case, walls): (&Case, &[Option<Length>; 2]),
    door: &Opening,
    side: Side,
    fittings: &Fittings<'_>,
    ctx: &mut Lower,
) -> Option<(Size, Angle)> {
    let hung = door.leaves().iter().any(|leaf| door.hung(*leaf) == Some(side));
    let fronts = door.front.as_ref().filter(|_| hung)?;
    let (hinge, said) = fronts.hinge?;
    let hinge = fittings.hinges.get(hinge.0)?;
    let thick = fittings.stocks.get(fronts.stock.0)?.thickness.length;
    let leaf = Leaf::new(door.leaf(fronts).0.length, thick, &hinge.pivot(&fronts.set, thick));
    let past = door.reach.of(Edge::at(side)).length;
    let hung_at = match side {
        Side::Left => edge_of(door, side) - past,
        Side::Right => edge_of(door, side) + past,
    };
    let wall = match (side.of(&case.exposure), side) {
        (Exposure::Wall { scribe }, Side::Left) => Some(scribe.length),
        (Exposure::Wall { scribe }, Side::Right) => Some(case.wide.length - scribe.length),
        (Exposure::Seen | Exposure::Neighbour, _) => *side.of(walls),
    };
    let wall = wall.map(|at| match side {
        Side::Left => (-FAR, at),
        Side::Right => (at, at + FAR),
    });
    let opens = match wall {
        Some(wall) => {
            before_wall(&leaf, door, fronts, hinge, (side, hung_at, wall), fittings.pulls)
        }
        None => hinge.opens(),
    };
    let clear = leaf.stands_over(opens) - past + trade::past_leaf(ctx.tape.unit);
    if !clear.is_positive() {
        return Some((Size::zero(), opens));
    }
    // Right beside a board the packer is nothing but this room, and it is made of whole
    // layers of the sheet that it is cut from, which can't be planed.
    let sheet = case.drawers.as_ref().and_then(|boxes| fittings.stocks.get(boxes.packer_stock.0));
    let sheet = sheet.filter(|stock| case.frame.is_none() && !stock.is_solid());
    let layer = sheet.map(|stock| stock.thickness.length).filter(|layer| layer.is_positive());
    let value = match layer {
        Some(layer) => layer * (clear / layer).ceil(),
        None => ctx.tape.up(clear),
    };
    let name = format!("room for the open leaf of {}", door.name());
    Some((ctx.facts.sourced(Sourced { value, origin: Origin::Written(said) }, name), opens))
}

/// Farther than any leaf is wide.
const FAR: Length = Length::mm(100_000);

/// How far a leaf opens before it, or its pull, meets the wall beside the piece. The pull
/// is taken to be at the lead edge, where it reaches the wall first.
fn before_wall(
    leaf: &Leaf,
    door: &Opening,
    fronts: &Fronts,
    hinge: &Hinge,
    (side, hung_at, wall): (Side, Length, (Length, Length)),
    pulls: &[Pull],
) -> Angle {
    let wide = door.leaf(fronts).0.length;
    let pull = fronts.pull.and_then(|pull| pulls.get(pull.0));
    let leaf = match pull {
        Some(pull) => leaf.clone().with_pull((wide * 9 / 10, wide), pull.stands),
        None => leaf.clone(),
    };
    let hung = Hung::new(leaf, (hung_at, Length::ZERO), side == Side::Right, hinge.opens());
    let patch = Patch { x: wall, out: (Length::ZERO, FAR) };
    let stops = [Body::Leaf, Body::Pull].map(|body| hung.stopped(body, &patch, Length::ZERO));
    let stop = stops.into_iter().flatten().min();
    stop.map_or_else(|| hinge.opens(), |stop| stop.min(hinge.opens()))
}
