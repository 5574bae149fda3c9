//! A sheet as a tree of cuts that each go from edge to edge.

use super::{Size, Stages, Wanted, Way, area};

/// A rectangle of a sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Node {
    /// Its size, a saw cut longer and wider.
    pub size: Size,
    /// What becomes of it.
    pub what: What,
}

/// What becomes of a rectangle.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum What {
    /// It is left over.
    Left,
    /// It is a piece.
    Piece {
        /// Which, by its place in the order.
        index: usize,
        /// It lies across the sheet.
        turned: bool,
    },
    /// It is divided one way. At most one of its parts is left over.
    Cut(Way, Vec<Node>),
}

/// A place for a piece in what is left over.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    /// How manyth leftover of the sheet.
    pub(super) leftover: usize,
    /// The piece lies across the sheet.
    pub(super) turned: bool,
    /// Its size so.
    pub(super) size: Size,
    /// Which way the leftover is cut first.
    pub(super) first: Way,
    /// What the leftovers gain in worth, which is the less bad the higher.
    pub(super) worth: f64,
}

/// A leftover of a sheet.
#[derive(Clone, Copy, Debug)]
pub(super) struct Leftover {
    pub(super) size: Size,
    /// The cut it comes of, and its stage.
    above: Option<(Way, u8)>,
}

/// What a rectangle is worth: more than two halves of it.
fn worth([long, wide]: Size) -> f64 {
    // Whole numbers of this size, their products, and square roots are the same floats on
    // every machine (IEEE 754).
    let area = long as f64 * wide as f64;
    area * area.sqrt()
}

impl Node {
    /// What is left over.
    #[must_use]
    pub fn left(size: Size) -> Self {
        Self { size, what: What::Left }
    }

    /// A rectangle that is divided into these and what is left over behind them.
    #[must_use]
    pub fn divided(way: Way, size: Size, mut parts: Vec<Self>) -> Self {
        let rest = way.of(size) - parts.iter().map(|part| way.of(part.size)).sum::<i64>();
        if rest > 0 {
            parts.push(Self::left(way.with(size, rest)));
        }
        match parts.len() {
            1 => parts.remove(0),
            _ => Self { size, what: What::Cut(way, parts) },
        }
    }

    /// The same with each piece by another number.
    #[must_use]
    pub fn named(&self, numbers: &[usize]) -> Self {
        let what = match &self.what {
            What::Left => What::Left,
            What::Piece { index, turned } => {
                let index = numbers.get(*index).copied().unwrap_or(*index);
                What::Piece { index, turned: *turned }
            }
            What::Cut(way, parts) => {
                What::Cut(*way, parts.iter().map(|part| part.named(numbers)).collect())
            }
        };
        Self { size: self.size, what }
    }

    /// True where nothing comes of it.
    #[must_use]
    pub fn is_left(&self) -> bool {
        matches!(self.what, What::Left)
    }

    /// Its area, the saw cut beside it counted.
    #[must_use]
    pub fn area(&self) -> i128 {
        area(self.size)
    }

    /// The area of the pieces in it.
    #[must_use]
    pub fn filled(&self) -> i128 {
        match &self.what {
            What::Left => 0,
            What::Piece { .. } => self.area(),
            What::Cut(_, parts) => parts.iter().map(Self::filled).sum(),
        }
    }

    /// Adds the pieces in it.
    pub(super) fn pieces(&self, into: &mut Vec<usize>) {
        match &self.what {
            What::Left => {}
            What::Piece { index, .. } => into.push(*index),
            What::Cut(_, parts) => parts.iter().for_each(|part| part.pieces(into)),
        }
    }

    /// How many of its rectangles hold a piece.
    pub(super) fn count(&self) -> usize {
        match &self.what {
            What::Left => 0,
            What::Piece { .. } => 1,
            What::Cut(_, parts) => 1 + parts.iter().map(Self::count).sum::<usize>(),
        }
    }

    /// Empties the `nth` rectangle that holds a piece, and adds what was in it.
    pub(super) fn take_out(&mut self, nth: &mut usize, into: &mut Vec<usize>) -> bool {
        if self.is_left() {
            return false;
        }
        if *nth == 0 {
            self.pieces(into);
            self.what = What::Left;
            return true;
        }
        *nth -= 1;
        let What::Cut(way, parts) = &mut self.what else { return false };
        let way = *way;
        let found = parts.iter_mut().any(|part| part.take_out(nth, into));
        if found {
            self.join_left(way);
        }
        found
    }

    /// Makes one of all parts of a cut that are left over. Their order is free.
    fn join_left(&mut self, way: Way) {
        let What::Cut(_, parts) = &mut self.what else { return };
        let rest = parts.iter().filter(|part| part.is_left());
        let rest: i64 = rest.map(|part| way.of(part.size)).sum();
        parts.retain(|part| !part.is_left());
        if parts.is_empty() {
            self.what = What::Left;
        } else if rest > 0 {
            parts.push(Self::left(way.with(self.size, rest)));
        }
    }

    /// Puts a piece in its place.
    pub(super) fn put(&mut self, nth: &mut usize, index: usize, place: &Place) -> bool {
        match &mut self.what {
            What::Left if *nth > 0 => {
                *nth -= 1;
                false
            }
            What::Left => {
                *self = cut_from(self.size, index, place);
                true
            }
            What::Piece { .. } => false,
            What::Cut(way, parts) => {
                let way = *way;
                let Some(at) = parts.iter_mut().position(|part| part.put(nth, index, place)) else {
                    return false;
                };
                // Cuts the same way in one of its parts are cuts of its own.
                let is_own = |part: &Self| matches!(&part.what, What::Cut(own, _) if *own == way);
                if parts.get(at).is_some_and(is_own)
                    && let What::Cut(_, inner) = parts.swap_remove(at).what
                {
                    parts.extend(inner);
                }
                true
            }
        }
    }

    /// What is left over of it, where it came of a cut or of none.
    pub(super) fn leftovers(&self, above: Option<(Way, u8)>, stages: &Stages) -> Vec<Leftover> {
        let mut all = Vec::new();
        self.walk(above, stages, &mut all);
        all
    }

    fn walk(&self, above: Option<(Way, u8)>, stages: &Stages, found: &mut Vec<Leftover>) {
        match &self.what {
            What::Left => found.push(Leftover { size: self.size, above }),
            What::Piece { .. } => {}
            What::Cut(way, parts) => {
                let below = Some((*way, stages.of(above, *way)));
                parts.iter().for_each(|part| part.walk(below, stages, found));
            }
        }
    }
}

impl Leftover {
    /// A whole sheet, or what came of a cut.
    pub(super) fn whole(size: Size, above: Option<(Way, u8)>) -> Self {
        Self { size, above }
    }

    /// Tells of every place for a piece in the `nth` leftover of a sheet.
    pub(super) fn places(
        &self,
        nth: usize,
        wanted: &Wanted,
        stages: &Stages,
        found: &mut impl FnMut(Place),
    ) {
        for (turned, size) in wanted.ways() {
            self.cuts(size, stages, |first, worth| {
                found(Place { leftover: nth, turned, size, first, worth });
            });
        }
    }

    /// Tells of each order of cuts that a piece comes from it by, and how worth changes.
    fn cuts(&self, size: Size, stages: &Stages, mut found: impl FnMut(Way, f64)) {
        let rest = [self.size[0] - size[0], self.size[1] - size[1]];
        if rest[0] < 0 || rest[1] < 0 {
            return;
        }
        for first in Way::BOTH {
            // Of one cut there is no order.
            if first == Way::Rip && rest.contains(&0) {
                continue;
            }
            // A whole sheet is cut as the saw asks, unless a piece is as wide as it is.
            let asked = stages.first.filter(|own| self.above.is_none() && own.of(rest) > 0);
            if asked.is_some_and(|own| own != first && !rest.contains(&0)) {
                continue;
            }
            let mut above = self.above;
            for way in [first, first.other()] {
                if way.of(rest) > 0 {
                    above = Some((way, stages.of(above, way)));
                }
            }
            let stage = above.map_or(0, |(_, stage)| stage);
            if stages.most.is_some_and(|most| stage > most) {
                continue;
            }
            let beyond = first.with(self.size, first.of(rest));
            let second = first.other();
            let beside = second.with(size, second.of(rest));
            found(first, worth(beyond) + worth(beside) - worth(self.size));
        }
    }
}

/// A rectangle with a piece in its corner.
fn cut_from(own: Size, index: usize, place: &Place) -> Node {
    let piece = What::Piece { index, turned: place.turned };
    let mut node = Node { size: place.size, what: piece };
    for way in [place.first.other(), place.first] {
        let rest = way.of(own) - way.of(node.size);
        if rest > 0 {
            let left = Node::left(way.with(node.size, rest));
            let size = way.with(node.size, way.of(own));
            node = Node { size, what: What::Cut(way, vec![node, left]) };
        }
    }
    node
}
