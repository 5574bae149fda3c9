//! A sheet as it comes of the search, made as a maker would cut it.

use super::{Node, Size, Way, What};

impl Node {
    /// The same cuts with each strip as narrow as what comes of it, and the rest left over.
    pub(super) fn tightened(&self) -> Self {
        self.within(self.size)
    }

    /// The size of what it holds.
    fn holds(&self) -> Size {
        match &self.what {
            What::Left => [0, 0],
            What::Piece { .. } => self.size,
            What::Cut(way, parts) => {
                let held = parts.iter().map(Self::holds);
                held.fold([0, 0], |all, own| {
                    let along = way.of(all) + way.of(own);
                    let across = way.other().of(all).max(way.other().of(own));
                    way.with(way.other().with(all, across), along)
                })
            }
        }
    }

    /// The same in a rectangle of this size, which is no smaller than what it holds.
    fn within(&self, size: Size) -> Self {
        match &self.what {
            What::Left => Self::left(size),
            What::Piece { .. } => {
                let rest = Way::BOTH.into_iter().find(|way| way.of(self.size) < way.of(size));
                let Some(way) = rest else { return self.clone() };
                let own = self.within(way.with(size, way.of(self.size)));
                cut(way, size, vec![own])
            }
            What::Cut(way, parts) => {
                let held = parts.iter().filter(|part| !part.is_left());
                let held = held.map(|part| part.within(way.with(size, way.of(part.holds()))));
                // What is no longer cut across is cut the same way as what it is in.
                let mut own: Vec<Self> = held
                    .flat_map(|part| match part.what {
                        What::Cut(inner, parts) if inner == *way => parts,
                        What::Cut(..) | What::Left | What::Piece { .. } => vec![part],
                    })
                    .filter(|part| !part.is_left())
                    .collect();
                // The widest first, and alike ones one after another.
                own.sort_by_key(|part| std::cmp::Reverse(way.of(part.size)));
                cut(*way, size, own)
            }
        }
    }

    /// The area of the largest rectangle that is left over.
    pub(super) fn largest_left(&self) -> i128 {
        match &self.what {
            What::Left => self.area(),
            What::Piece { .. } => 0,
            What::Cut(_, parts) => parts.iter().map(Self::largest_left).max().unwrap_or(0),
        }
    }

    /// How often the saw is set anew: for each cut another size than the one before.
    pub(super) fn settings(&self) -> usize {
        let What::Cut(way, parts) = &self.what else { return 0 };
        let mut sizes: Vec<i64> =
            parts.iter().filter(|part| !part.is_left()).map(|part| way.of(part.size)).collect();
        sizes.dedup();
        sizes.len() + parts.iter().map(Self::settings).sum::<usize>()
    }
}

/// A rectangle that is divided into these and what is left over.
fn cut(way: Way, size: Size, mut parts: Vec<Node>) -> Node {
    let rest = way.of(size) - parts.iter().map(|part| way.of(part.size)).sum::<i64>();
    if rest > 0 {
        parts.push(Node::left(way.with(size, rest)));
    }
    match parts.len() {
        1 => parts.remove(0),
        _ => Node { size, what: What::Cut(way, parts) },
    }
}
