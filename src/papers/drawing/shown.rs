//! What an elevation shows, and where: the boxes that are drawn of the parts, and
//! what a place on the drawing is a place of.

use std::cmp::Reverse;
use std::collections::BTreeSet;

use crate::model::{OpeningId, Piece};
use crate::parts::{Assembly, Cuboid, Part, Parts, Role};

use super::cut::{above_and_behind, toe};
use super::hidden::{is_behind_a_front, is_behind_doors, is_nailer_behind_fronts, is_of_door};
use super::svg::mm;
use super::view::{Doors, area, extent};
use crate::papers::{Place, PlaceOf};

/// What an elevation shows, nearest last.
#[derive(Debug)]
pub(super) struct Shown<'p> {
    /// The parts.
    pub(super) order: Vec<&'p Part>,
    /// The boxes that are drawn of them.
    pub(super) boxes: Vec<(&'p Part, Cuboid)>,
    /// How many parts stand there, with those that are hidden.
    pub(super) standing: usize,
}

impl<'p> Shown<'p> {
    pub(super) fn of(piece: &Piece, parts: &'p Parts, doors: Doors) -> Self {
        let stands = |part: &&Part| doors == Doors::Closed || !is_of_door(piece, part);
        let mut order: Vec<&Part> = parts.all.iter().filter(stands).collect();
        let standing = order.len();
        let closed: BTreeSet<OpeningId> = order
            .iter()
            .filter(|part| matches!(part.assembly, Assembly::Front(_)))
            .filter_map(|part| part.opening())
            .collect();
        order.retain(|part| {
            !is_behind_a_front(part, &closed)
                && !is_nailer_behind_fronts(piece, part, &closed)
                && !(doors == Doors::Closed && is_behind_doors(piece, part))
        });
        order.sort_by_cached_key(|part| (Reverse(part.cuboid().from.z), part.path.as_str()));
        // An end stands forward above its notch only: a kick may cover what is below it.
        let mut boxes: Vec<(&Part, Cuboid)> = Vec::with_capacity(order.len());
        for part in order.iter().copied() {
            match toe(part) {
                Some(at) => {
                    boxes.extend(above_and_behind(&part.cuboid(), at).map(|space| (part, space)));
                }
                None => boxes.push((part, part.shoulders())),
            }
        }
        boxes.sort_by_key(|(_, space)| Reverse(space.from.z));
        Self { order, boxes, standing }
    }
}

/// Where the parts and openings of the elevation lie on its drawing, those that cover
/// others behind them. The back of a case is covered by its openings.
pub(in crate::papers) fn places(piece: &Piece, parts: &Parts) -> Vec<Place> {
    let high = mm(extent(parts).to.y);
    let shown = Shown::of(piece, parts, Doors::Closed);
    let part = |(part, space): &(&Part, Cuboid)| {
        let (from, to) = area(space, high);
        let of = PlaceOf::Part { mark: part.mark.clone() };
        Place { from, to, name: part.path.clone(), of, span: part.span }
    };
    let (backs, before): (Vec<_>, Vec<_>) =
        shown.boxes.into_iter().partition(|(part, _)| part.role == Role::Back);
    let mut places: Vec<Place> = backs.iter().map(part).collect();
    for case in &piece.cases {
        let seen = case.openings.iter().filter(|own| own.is_leaf());
        places.extend(seen.filter(|own| case.door_before(own).is_none()).map(|own| {
            let (x, y) = (case.x + own.x, own.y);
            let (to_x, to_y) = (x + own.wide.length, y + own.high.length);
            let (from, to) = ((mm(x), high - mm(to_y)), (mm(to_x), high - mm(y)));
            Place { from, to, name: own.path.clone(), of: PlaceOf::Opening, span: own.span }
        }));
    }
    places.extend(before.iter().map(part));
    places
}
