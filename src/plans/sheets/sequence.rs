//! Fronts that are asked to come from one sheet beside each other, as they stand: a bank, a
//! row, or a pair is laid out as one piece, which is then cut into its fronts.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use crate::cutting::{Node, Order, Size, Stages, Wanted, Way, What};
use crate::measure::Length;
use crate::model::Sheet;
use crate::parts::{Direction, Face, Part, PartId, Role};

use super::super::Workings;
use super::super::boards::{Together, together};
use super::super::sawing::Blank;

/// What is laid out as one piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Item {
    /// The blanks in it, by their places among all, in the order in which they come off.
    pub(super) members: Vec<usize>,
    /// Which way it is cut into them; nothing for a blank by itself.
    way: Option<Way>,
}

impl Item {
    fn single(index: usize) -> Self {
        Self { members: vec![index], way: None }
    }

    /// True for several.
    pub(super) fn is_sequence(&self) -> bool {
        self.way.is_some()
    }

    /// It as one piece, out of its members.
    pub(super) fn wanted(&self, member: impl Fn(usize) -> Option<Wanted>) -> Option<Wanted> {
        let mut all = self.members.iter().filter_map(|index| member(*index));
        let first = all.next()?;
        let Some(way) = self.way else { return Some(first) };
        let size =
            all.fold(first.size, |size, own| way.with(size, way.of(size) + way.of(own.size)));
        Some(Wanted { size, turns: false })
    }
}

/// What is asked to come from one sheet as one item each, where that can be, and every other
/// blank by itself. `holds` says whether any sheet is large enough.
pub(super) fn items(
    work: &Workings<'_>,
    sheet: &Sheet,
    blanks: &[Blank],
    holds: impl Fn(&Item) -> bool,
) -> Vec<Item> {
    let mut groups: BTreeMap<Together, Vec<(usize, PartId, &Part)>> = BTreeMap::new();
    for (index, blank) in blanks.iter().enumerate() {
        let Some(part) = work.parts.get(blank.part).filter(|part| part.role == Role::Slab) else {
            continue;
        };
        let front = part.opening().and_then(|id| work.piece.opening(id)?.front.as_ref());
        if front.is_some_and(|front| front.in_sequence.is_some()) {
            let key = together(work.piece, blank.part, part);
            groups.entry(key).or_default().push((index, blank.part, part));
        }
    }
    let own: Vec<Item> = groups
        .into_values()
        .filter_map(|group| in_row(sheet, blanks, group))
        .filter(|item| holds(item))
        .collect();
    let is_alone = |index: &usize| own.iter().all(|item| !item.members.contains(index));
    let alone: Vec<Item> = (0..blanks.len()).filter(is_alone).map(Item::single).collect();
    alone.into_iter().chain(own).collect()
}

/// Fronts above each other from the top down, or beside each other from left to right, which
/// are alike across that; `None` for one alone, and for others.
fn in_row(sheet: &Sheet, blanks: &[Blank], mut group: Vec<(usize, PartId, &Part)>) -> Option<Item> {
    let same = |direction: Direction| {
        let mut all = group.iter().map(|(_, _, part)| part.extent(direction));
        let first = all.next();
        all.all(|own| Some(own) == first)
    };
    let run = match (same(Direction::X), same(Direction::Y)) {
        (true, false) => Direction::Y,
        (false, true) => Direction::X,
        (true, true) | (false, false) => return None,
    };
    group.sort_by_key(|(_, id, part)| {
        (Reverse(part.extent(Direction::Y).1), part.extent(Direction::X).0, *id)
    });
    let long = |part: &Part| part.placement.direction(Face::LengthStart);
    let (_, _, first) = group.first()?;
    let is_along = long(first) == run;
    let across = |index: usize| {
        let [long, wide] = blanks.get(index).map(|blank| blank.size)?;
        Some(if is_along { wide } else { long })
    };
    let is_alike = group
        .iter()
        .all(|(index, _, part)| long(part) == long(first) && across(*index) == across(group[0].0));
    // As two lengths along and across the grain lie on the sheet.
    let [along, _] =
        sheet.lying([Length::mm(i64::from(is_along)), Length::mm(i64::from(!is_along))]);
    let way = if along.is_zero() { Way::Rip } else { Way::Crosscut };
    let members = group.iter().map(|(index, ..)| *index).collect();
    is_alike.then_some(Item { members, way: Some(way) })
}

/// A plan of items as one of blanks, each by its place among all.
pub(super) fn taken_apart(node: &Node, items: &[Item], order: &[Wanted]) -> Node {
    match &node.what {
        What::Left => node.clone(),
        What::Cut(way, parts) => {
            let parts = parts.iter().map(|part| taken_apart(part, items, order)).collect();
            Node { size: node.size, what: What::Cut(*way, parts) }
        }
        What::Piece { index, turned } => {
            let piece = |index: usize, size: Size, turned: bool| Node {
                size,
                what: What::Piece { index, turned },
            };
            match items.get(*index) {
                Some(Item { members, way: Some(way) }) => {
                    let own = members.iter().map(|member| {
                        let size = order.get(*member).map_or(node.size, |own| own.size);
                        piece(*member, way.with(node.size, way.of(size)), false)
                    });
                    Node::divided(*way, node.size, own.collect())
                }
                Some(Item { members, way: None }) => {
                    piece(members.first().copied().unwrap_or(*index), node.size, *turned)
                }
                None => node.clone(),
            }
        }
    }
}

/// The most stages that the cuts of a sheet come to.
pub(super) fn stages_of(node: &Node, above: Option<(Way, u8)>, stages: &Stages) -> u8 {
    match &node.what {
        What::Left | What::Piece { .. } => above.map_or(0, |(_, stage)| stage),
        What::Cut(way, parts) => {
            let own = Some((*way, stages.of(above, *way)));
            parts.iter().map(|part| stages_of(part, own, stages)).max().unwrap_or(0)
        }
    }
}

/// The order with a stage less.
pub(super) fn with_stage_less(order: &Order) -> Order {
    let most = order.stages.most.map(|most| most.saturating_sub(1).max(1));
    Order { stages: Stages { most, ..order.stages }, ..order.clone() }
}
