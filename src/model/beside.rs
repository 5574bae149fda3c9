//! Which openings lie beside a board of the case.

use crate::measure::Length;

use super::case::Case;
use super::opening::{Axis, Item, Opening, OpeningKind};

impl Case {
    /// The drawers, doors and niches into whose room a stretch of a board
    /// looks: `x` and `y` say from where to where it runs, from the left side
    /// of the case and from the floor, and are equal for a face. A stretch
    /// behind the frame belongs to the opening next to it.
    #[must_use]
    pub fn beside(&self, x: (Length, Length), y: (Length, Length)) -> Vec<&Opening> {
        let mut found = Vec::new();
        let mut lists: Vec<&Opening> =
            self.openings.iter().filter(|opening| opening.parent.is_none()).collect();
        while let Some(opening) = lists.pop() {
            match &opening.kind {
                OpeningKind::List(axis, items) => {
                    let stretch = if *axis == Axis::Across { x } else { y };
                    lists.extend(self.nearest(*axis, items, stretch));
                }
                _ => found.push(opening),
            }
        }
        found.sort_by_key(|opening| (opening.x, opening.y));
        found
    }

    /// The items of a list that a stretch runs along; where it runs along
    /// none of them, the one that is nearest, or both of two as near.
    fn nearest(&self, axis: Axis, items: &[Item], stretch: (Length, Length)) -> Vec<&Opening> {
        let apart: Vec<(&Opening, Length)> = items
            .iter()
            .filter_map(|item| match item {
                Item::Opening(index) => self.openings.get(index.at),
                Item::Member(_) => None,
            })
            .map(|opening| {
                let from = if axis == Axis::Across { opening.x } else { opening.y };
                let to = from + opening.along(axis).length;
                // Less than nothing where they run side by side.
                (opening, (from - stretch.1).max(stretch.0 - to))
            })
            .collect();
        let least = apart.iter().map(|(_, gap)| *gap).min().unwrap_or_default();
        apart
            .into_iter()
            .filter(|(_, gap)| gap.is_negative() || *gap == least)
            .map(|(opening, _)| opening)
            .collect()
    }
}

/// How much of the room behind an opening is seen from the front.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sight {
    /// Nothing: a drawer or a false front stands before it.
    Hidden,
    /// All of it while its doors are open.
    BehindDoors,
    /// All of it, always.
    Open,
}

impl Opening {
    /// How much of the room behind it is seen.
    #[must_use]
    pub fn sight(&self) -> Sight {
        match self.kind {
            OpeningKind::Open => Sight::Open,
            OpeningKind::Door(_) | OpeningKind::Doors => Sight::BehindDoors,
            OpeningKind::Drawer { .. } | OpeningKind::False | OpeningKind::List(..) => {
                Sight::Hidden
            }
        }
    }
}
