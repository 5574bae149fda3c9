//! Boxes of wood, along the length, width, and thickness of a part.

/// From and to along three axes.
pub(super) type Space = [[f64; 2]; 3];

/// Less than any tool or eye can tell.
pub(super) const NOTHING: f64 = 1e-6;

/// What two boxes have in common.
pub(super) fn common(one: &Space, other: &Space) -> Option<Space> {
    let mut both = *one;
    for (own, other) in both.iter_mut().zip(other) {
        *own = [own[0].max(other[0]), own[1].min(other[1])];
        if own[1] - own[0] <= NOTHING {
            return None;
        }
    }
    Some(both)
}

/// What is left of a box without others, box by box.
pub(super) fn without(whole: &Space, gone: &[Space]) -> Vec<Space> {
    let mut left = vec![*whole];
    for space in gone {
        left = left.iter().flat_map(|piece| without_one(piece, space)).collect();
    }
    left
}

fn without_one(whole: &Space, gone: &Space) -> Vec<Space> {
    let Some(both) = common(whole, gone) else { return vec![*whole] };
    let (mut rest, mut left) = (Vec::new(), *whole);
    for axis in 0..3 {
        for range in [[left[axis][0], both[axis][0]], [both[axis][1], left[axis][1]]] {
            if range[1] - range[0] > NOTHING {
                let mut piece = left;
                piece[axis] = range;
                rest.push(piece);
            }
        }
        left[axis] = both[axis];
    }
    rest
}

/// A part cut up along every side of the boxes in it.
pub(super) struct Grid {
    sides: [Vec<f64>; 3],
}

impl Grid {
    pub(super) fn new<'a>(whole: &Space, spaces: impl Iterator<Item = &'a Space> + Clone) -> Self {
        let sides = [0, 1, 2].map(|axis| {
            let own = spaces.clone().flat_map(|space| space[axis]);
            let inside = own.filter(|at| whole[axis][0] < *at && *at < whole[axis][1]);
            let mut all: Vec<f64> = inside.chain(whole[axis]).collect();
            all.sort_by(f64::total_cmp);
            all.dedup_by(|a, b| *a - *b <= NOTHING);
            all
        });
        Self { sides }
    }

    fn count(&self, axis: usize) -> usize {
        self.sides[axis].len() - 1
    }

    fn index(&self, cell: [usize; 3]) -> usize {
        (cell[0] * self.count(1) + cell[1]) * self.count(2) + cell[2]
    }

    /// Every cell, with the corner where it begins.
    fn cells(&self) -> impl Iterator<Item = [usize; 3]> + '_ {
        (0..self.count(0)).flat_map(move |x| {
            (0..self.count(1)).flat_map(move |y| (0..self.count(2)).map(move |z| [x, y, z]))
        })
    }

    /// Which cells lie in one of the boxes.
    pub(super) fn filled(&self, spaces: &[Space]) -> Vec<bool> {
        let mut cells = vec![false; self.count(0) * self.count(1) * self.count(2)];
        for space in spaces {
            let range = [0, 1, 2].map(|axis| self.covered(axis, space[axis]));
            for x in range[0].clone() {
                for y in range[1].clone() {
                    for z in range[2].clone() {
                        cells[self.index([x, y, z])] = true;
                    }
                }
            }
        }
        cells
    }

    /// The cells that a range covers wholly.
    fn covered(&self, axis: usize, [from, to]: [f64; 2]) -> std::ops::Range<usize> {
        let sides = &self.sides[axis];
        let first = sides.partition_point(|at| *at < from - NOTHING);
        let last = sides.partition_point(|at| *at <= to + NOTHING).saturating_sub(1);
        first..last.max(first).min(self.count(axis))
    }

    /// A cube of more than this size that fits into the cells: where one fits,
    /// one fits whose corner is a corner of the grid.
    pub(super) fn thicker_than(&self, cells: &[bool], size: f64) -> Option<Space> {
        self.cells().filter(|cell| cells[self.index(*cell)]).find_map(|cell| {
            let from = [0, 1, 2].map(|axis| self.sides[axis][cell[axis]]);
            let mut upto = cell;
            for axis in 0..3 {
                let end = from[axis] + size + NOTHING;
                if self.sides[axis].last().is_none_or(|last| *last < end) {
                    return None;
                }
                upto[axis] = self.sides[axis].partition_point(|at| *at < end);
            }
            let full = (cell[0]..upto[0]).all(|x| {
                (cell[1]..upto[1]).all(|y| (cell[2]..upto[2]).all(|z| cells[self.index([x, y, z])]))
            });
            full.then(|| [0, 1, 2].map(|axis| [from[axis], self.sides[axis][upto[axis]]]))
        })
    }

    /// How thick the wood is behind one side of a box, where it is thinnest;
    /// `None` where there is no wood.
    pub(super) fn wall(
        &self,
        gone: &[bool],
        space: &Space,
        axis: usize,
        is_end: bool,
    ) -> Option<f64> {
        let at = space[axis][usize::from(is_end)];
        let mut range = [0, 1, 2].map(|other| self.covered(other, space[other]));
        let side = self.sides[axis].iter().position(|side| (side - at).abs() <= NOTHING)?;
        range[axis] = side..side + 1;
        let mut thinnest: Option<f64> = None;
        for x in range[0].clone() {
            for y in range[1].clone() {
                for z in range[2].clone() {
                    let mut cell = [x, y, z];
                    let mut through = side;
                    let last = if is_end { self.count(axis) } else { 0 };
                    while through != last {
                        cell[axis] = if is_end { through } else { through - 1 };
                        if gone[self.index(cell)] {
                            break;
                        }
                        through = if is_end { through + 1 } else { through - 1 };
                    }
                    let wall = (self.sides[axis][through] - self.sides[axis][side]).abs();
                    if wall > NOTHING {
                        thinnest = Some(thinnest.map_or(wall, |known| known.min(wall)));
                    }
                }
            }
        }
        thinnest
    }
}

/// Where what was removed and what was to be removed differ by more than a
/// sliver: a box in one of them and not in the other, thicker than the
/// tolerance in its thinnest direction. `true` where there is too much wood.
pub(super) fn difference(
    whole: &Space,
    removed: &[Space],
    wanted: &[Space],
    tolerance: f64,
) -> Option<(Space, bool)> {
    let grid = Grid::new(whole, removed.iter().chain(wanted));
    let (removed, wanted) = (grid.filled(removed), grid.filled(wanted));
    let differ = |left: bool| -> Vec<bool> {
        removed.iter().zip(&wanted).map(|(is, should)| is != should && *should == left).collect()
    };
    let find = |left| Some((grid.thicker_than(&differ(left), tolerance)?, left));
    find(true).or_else(|| find(false))
}

#[cfg(test)]
mod tests {
    use super::*;

    const BOARD: Space = [[0.0, 100.0], [0.0, 50.0], [0.0, 18.0]];

    #[test]
    fn a_sliver_is_no_difference_and_a_step_is_one() {
        let groove = |from: f64, deep: f64| [[0.0, 100.0], [from, from + 6.0], [0.0, deep]];
        assert_eq!(difference(&BOARD, &[groove(10.0, 8.0)], &[groove(10.2, 8.0)], 0.25), None);
        let (_, left) =
            difference(&BOARD, &[groove(10.0, 8.0)], &[groove(10.3, 8.0)], 0.25).unwrap();
        assert!(left);
        let (_, left) =
            difference(&BOARD, &[groove(10.0, 9.0)], &[groove(10.0, 8.0)], 0.25).unwrap();
        assert!(!left);
    }

    /// Two strokes remove what one wide channel is drawn as; two slivers side
    /// by side are as thick as both.
    #[test]
    fn it_is_the_union_that_counts() {
        let range = |from: f64, to: f64| [[0.0, 100.0], [from, to], [0.0, 6.0]];
        let strokes = [range(10.0, 22.0), range(16.0, 28.0)];
        assert_eq!(difference(&BOARD, &strokes, &[range(10.0, 28.0)], 0.1), None);
        let strokes = [range(10.0, 18.8), range(19.2, 28.0)];
        let wanted = [range(10.0, 19.0), range(19.0, 28.0)];
        assert!(difference(&BOARD, &strokes, &wanted, 0.3).is_some());
    }

    #[test]
    fn a_wall_is_measured_where_it_is_thinnest() {
        let groove = [[0.0, 100.0], [3.5, 15.5], [0.0, 10.0]];
        let rabbet = [[0.0, 20.0], [0.0, 1.5], [0.0, 4.0]];
        let gone = [groove, rabbet];
        let grid = Grid::new(&BOARD, gone.iter());
        let filled = grid.filled(&gone);
        assert_eq!(grid.wall(&filled, &groove, 1, false), Some(2.0));
        assert_eq!(grid.wall(&filled, &groove, 1, true), Some(34.5));
        assert_eq!(grid.wall(&filled, &groove, 2, true), Some(8.0));
        assert_eq!(grid.wall(&filled, &groove, 2, false), None);
    }
}
