//! How far the slides of trays stay clear of the open leaves before them.

use crate::trade::{self, Leaf};
use crate::vocabulary::{Origin, Side, Sourced};

use super::case::Case;
use super::edge::Edge;
use super::hinge::Hinge;
use super::lower::Lower;
use super::opening::Opening;
use super::size::Size;
use super::stock::Stock;

/// Gives every tray the room that the open leaves of its doors take at its edges.
pub(super) fn give(cases: &mut [Case], hinges: &[Hinge], stocks: &[Stock], ctx: &mut Lower) {
    for case in cases {
        let mut found = Vec::new();
        for (at, tray) in case.openings.iter().enumerate().filter(|(_, o)| o.is_tray()) {
            let Some(door) = case.door_before(tray) else { continue };
            found.push((
                at,
                Side::BOTH.map(|side| taken(case, door, tray, side, hinges, stocks, ctx)),
            ));
        }
        for (at, clear) in found {
            if let Some(tray) = case.openings.get_mut(at) {
                tray.clear = clear;
            }
        }
    }
}

/// What the leaf that hangs at one side of a tray takes of its opening there, up to the
/// next mark of the tape; nothing where no leaf hangs right beside it.
fn taken(
    case: &Case,
    door: &Opening,
    tray: &Opening,
    side: Side,
    hinges: &[Hinge],
    stocks: &[Stock],
    ctx: &mut Lower,
) -> Size {
    let edge_of = |opening: &Opening| match side {
        Side::Left => opening.x,
        Side::Right => opening.x + opening.wide.length,
    };
    let hung = door.leaves().iter().any(|leaf| door.hung(*leaf) == Some(side));
    let Some(fronts) = door.front.as_ref().filter(|_| hung && edge_of(door) == edge_of(tray))
    else {
        return Size::zero();
    };
    let Some((hinge, said)) = fronts.hinge.and_then(|(id, said)| Some((hinges.get(id.0)?, said)))
    else {
        return Size::zero();
    };
    let Some(stock) = stocks.get(fronts.stock.0) else { return Size::zero() };
    let thick = stock.thickness.length;
    let leaf = Leaf::new(door.leaf(fronts).0.length, thick, &hinge.pivot(&fronts.set, thick));
    let edge = match side {
        Side::Left => Edge::Left,
        Side::Right => Edge::Right,
    };
    let over = leaf.stands_over(hinge.swing) - door.reach.of(edge).length;
    let clear = over + trade::past_leaf(ctx.tape.unit);
    if !clear.is_positive() {
        return Size::zero();
    }
    // Right beside a board the packer is nothing but this room, and it is made of whole
    // layers of the sheet that it is cut from, which can't be planed.
    let sheet = case.drawers.as_ref().and_then(|boxes| stocks.get(boxes.packer_stock.0));
    let sheet = sheet.filter(|stock| case.frame.is_none() && !stock.is_solid());
    let layer = sheet.map(|stock| stock.thickness.length).filter(|layer| layer.is_positive());
    let value = match layer {
        Some(layer) => layer * (clear / layer).ceil(),
        None => ctx.tape.up(clear),
    };
    let name = format!("room for the open leaf of {}", door.name());
    ctx.facts.sourced(Sourced { value, origin: Origin::Written(said) }, name)
}
