//! A sheet as it comes of the search, made as a maker would cut it.

use super::{Node, Size, What};

impl Node {
    /// Makes each strip as narrow as what comes of it, and the rest left over.
    pub(super) fn tighten(&mut self) {
        let size = self.size;
        *self = std::mem::replace(self, Self::left(size)).within(size);
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
    fn within(self, size: Size) -> Self {
        let (way, parts) = match self.what {
            What::Left => return Self::left(size),
            // It is as wide as its strip, which is no wider than the widest in it.
            What::Piece { .. } => return self,
            What::Cut(way, parts) => (way, parts),
        };
        let mut own = Vec::with_capacity(parts.len() + 1);
        for part in parts {
            if part.is_left() {
                continue;
            }
            let wide = way.of(part.holds());
            let Self { size, what } = part.within(way.with(size, wide));
            match what {
                What::Left => {}
                // What is no longer cut across is cut the same way as what it is in.
                What::Cut(inner, parts) if inner == way => {
                    own.extend(parts.into_iter().filter(|part| !part.is_left()));
                }
                What::Cut(..) | What::Piece { .. } => own.push(Self { size, what }),
            }
        }
        // The widest first, and alike ones one after another.
        own.sort_by_key(|part| std::cmp::Reverse(way.of(part.size)));
        Self::divided(way, size, own)
    }

    /// The area of the largest rectangle that is left over.
    pub(super) fn largest_left(&self) -> i128 {
        match &self.what {
            What::Left => self.area(),
            What::Piece { .. } => 0,
            What::Cut(_, parts) => parts.iter().map(Self::largest_left).max().unwrap_or(0),
        }
    }

    /// How often the saw is set anew, for each cut another size than the one before, and
    /// what is awkward: cuts of a third stage, which are made in short pieces, and those
    /// that take less than a saw cut off, so that the blade runs half in the air.
    pub(super) fn effort(&self, kerf: i64, stage: usize) -> usize {
        let What::Cut(way, parts) = &self.what else { return 0 };
        let held = parts.iter().filter(|part| !part.is_left()).map(|part| way.of(part.size));
        let mut last = None;
        let settings = held.filter(|size| last.replace(*size) != Some(*size)).count();
        let left = parts.iter().filter(|part| part.is_left());
        let slivers = left.filter(|part| way.of(part.size) < kerf).count();
        let short = if stage > 2 { settings * 2 } else { 0 };
        let inner: usize = parts.iter().map(|part| part.effort(kerf, stage + 1)).sum();
        settings + short + slivers * 3 + inner
    }
}
