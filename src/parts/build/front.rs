//! One front: its place in the plane of the front and how it hangs.

use crate::measure::Length;
use crate::model::{FrontId, Fronts, Opening, Side, Size};

/// One front: its place in the plane of the front and how it hangs.
pub(super) struct Front<'a> {
    pub(super) id: FrontId,
    pub(super) opening: &'a Opening,
    pub(super) fronts: &'a Fronts,
    pub(super) x: Length,
    pub(super) y: Length,
    /// Both with the statements they come from.
    pub(super) stands: [Size; 2],
    pub(super) wide: Size,
    pub(super) high: Size,
    pub(super) hung: Option<Side>,
}

/// The front of an opening, or the two leaves of a pair.
pub(super) fn leaves<'a>(opening: &'a Opening, fronts: &'a Fronts) -> Vec<Front<'a>> {
    let (wide, high) = opening.leaf(fronts);
    let [x, y] = opening.front_stands();
    let front = |leaf, x: Size| Front {
        id: FrontId { opening: opening.id, leaf },
        opening,
        fronts,
        x: x.length,
        y: y.length,
        stands: [x, y.clone()],
        wide: wide.clone(),
        high: high.clone(),
        hung: opening.hung(leaf),
    };
    let step = &wide + &fronts.meeting;
    let leaves = (0..).zip(opening.leaves());
    leaves.map(|(index, leaf)| front(*leaf, &x + &step * index)).collect()
}
