//! What stands where on a drawing, so that what lies near an area is found without
//! looking at all of it.

use std::ops::Range;

use super::labels::Area;

/// Into how many cells the room about a drawing is parted along each axis: a letter of
/// a whole drawing is about a sixtieth of it.
const CELLS: usize = 32;

/// Things by the cells that their areas reach into.
#[derive(Debug)]
pub(super) struct Cells<T> {
    from: (f64, f64),
    cell: f64,
    /// For each cell, row by row, what was put there last, once there is something. What
    /// lies beyond their room is kept in the cells at its edge.
    last: Vec<Option<usize>>,
    /// All things, each with what was put into its cell before it.
    all: Vec<(T, Option<usize>)>,
}

impl<T: Copy> Cells<T> {
    /// Nothing stands on a drawing of this area yet.
    pub(super) fn over(drawing: &Area) -> Self {
        // A square room, since texts stand beside a drawing as much as on it.
        let ((left, top), (right, bottom)) = *drawing;
        let side = (right - left).max(bottom - top) * 1.25;
        let from = ((left + right - side) / 2.0, (top + bottom - side) / 2.0);
        Self { from, cell: side / CELLS as f64, last: Vec::new(), all: Vec::new() }
    }

    /// The cells that an area reaches into, row by row. The place of a cell never falls
    /// where a coordinate rises, so that areas that meet have a cell in common.
    fn reached(&self, area: &Area) -> impl Iterator<Item = Range<usize>> + use<T> {
        // A cast keeps what is below nought at nought.
        let place = |at: f64, from: f64| (((at - from) / self.cell) as usize).min(CELLS - 1);
        let across = |x: f64| place(x, self.from.0);
        let down = |y: f64| place(y, self.from.1);
        let (left, right) = (across(area.0.0), across(area.1.0));
        let rows = down(area.0.1)..down(area.1.1) + 1;
        rows.map(move |row| (row * CELLS + left)..(row * CELLS + right + 1))
    }

    /// Puts a thing where its area is.
    pub(super) fn put(&mut self, area: &Area, thing: T) {
        self.last.resize(CELLS * CELLS, None);
        for row in self.reached(area) {
            for last in self.last.get_mut(row).unwrap_or_default() {
                let before = last.replace(self.all.len());
                self.all.push((thing, before));
            }
        }
    }

    /// All that may reach into an area, what was put last first in each cell. A
    /// thing is named once for each cell that it shares with the area: of a point,
    /// that is one.
    pub(super) fn near(&self, area: &Area) -> impl Iterator<Item = T> {
        let rows = self.reached(area).map(|row| self.last.get(row).unwrap_or_default());
        rows.flatten().flat_map(move |last| {
            let mut next = *last;
            std::iter::from_fn(move || {
                let (thing, before) = self.all.get(next?)?;
                next = *before;
                Some(*thing)
            })
        })
    }
}

#[cfg(test)]
mod tests {
    use super::Cells;

    /// On a drawing of 256 by 32: 256 times 1.25 is 320, so the cells are 10 by 10 and
    /// begin at -32 and at -144. What has an area is near in every cell of it, beyond
    /// them too, and the last stands first.
    #[test]
    fn things_are_near_in_the_cells_that_they_reach_into() {
        let mut cells = Cells::over(&((0.0, 0.0), (256.0, 32.0)));
        cells.put(&((5.0, 7.0), (55.0, 15.0)), 'a');
        cells.put(&((30.0, 8.0), (31.0, 9.0)), 'b');
        cells.put(&((-80.0, 240.0), (-60.0, 250.0)), 'c');
        let near = |from, to| cells.near(&(from, to)).collect::<String>();
        assert_eq!(near((37.0, 7.0), (37.0, 7.0)), "ba");
        assert_eq!(near((57.5, 7.0), (65.0, 8.0)), "a");
        assert_eq!(near((58.5, 7.0), (65.0, 8.0)), "");
        assert_eq!(near((0.0, 16.5), (300.0, 30.0)), "");
        assert_eq!(near((-70.0, 245.0), (400.0, 290.0)), "c");
    }
}
