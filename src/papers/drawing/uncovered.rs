//! What is seen of an area when others lie over it.

use super::labels::{Area, meets};

/// How many pieces are looked at: a mark finds its place on the first few.
const MOST: usize = 24;

/// The largest areas within one that nothing covers, the largest first.
pub(super) fn uncovered(own: Area, covers: impl Iterator<Item = Area>) -> Vec<Area> {
    let mut left = vec![own];
    for cover in covers.filter(|cover| meets(cover, &own)) {
        left = left.iter().flat_map(|area| without(area, &cover)).collect();
        left.sort_by(|a, b| size(b).total_cmp(&size(a)));
        left.truncate(MOST);
    }
    left
}

fn size(area: &Area) -> f64 {
    (area.1.0 - area.0.0) * (area.1.1 - area.0.1)
}

/// An area beside, above, and below what covers it.
fn without(area: &Area, cover: &Area) -> Vec<Area> {
    if !meets(area, cover) {
        return vec![*area];
    }
    let ((x0, y0), (x1, y1)) = *area;
    let beside = [
        ((x0, y0), (x1, cover.0.1)),
        ((x0, cover.1.1), (x1, y1)),
        ((x0, y0), (cover.0.0, y1)),
        ((cover.1.0, y0), (x1, y1)),
    ];
    beside.into_iter().filter(|own| own.0.0 < own.1.0 && own.0.1 < own.1.1).collect()
}

#[cfg(test)]
mod tests {
    use super::uncovered;

    /// A board 10 by 2 under a front that covers it from 4 on, 1.5 high: on its left 4
    /// by 2 are seen, above the front 10 by 0.5.
    #[test]
    fn what_is_covered_is_left_out() {
        let seen = uncovered(((0.0, 0.0), (10.0, 2.0)), [((4.0, 0.5), (20.0, 9.0))].into_iter());
        assert_eq!(seen, [((0.0, 0.0), (4.0, 2.0)), ((0.0, 0.0), (10.0, 0.5))]);
    }
}
