//! Bodies with flat faces that bulge nowhere: boxes, and what is left of one
//! that a miter was cut across. Whether two of them hit, at rest and on the way.

use super::wood::{NOTHING, Space};

type Point = [f64; 3];

/// One such body in the axes of the piece.
#[derive(Clone, Debug)]
pub(super) struct Body {
    points: Vec<Point>,
    /// From and to along the axes of the piece.
    bounds: Space,
    /// The ways its edges run.
    edges: Vec<Point>,
}

const SQUARE: [Point; 3] = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];

impl Body {
    pub(super) fn new(space: &Space) -> Self {
        let corner = |number: usize| [0, 1, 2].map(|axis| space[axis][(number >> axis) & 1]);
        Self::of((0..8).map(corner).collect(), SQUARE.to_vec())
    }

    fn of(points: Vec<Point>, edges: Vec<Point>) -> Self {
        let bounds = [0, 1, 2].map(|axis| {
            let places = points.iter().map(|point| point[axis]);
            places.fold([f64::MAX, f64::MIN], |[from, to], at| [from.min(at), to.max(at)])
        });
        Self { points, bounds, edges }
    }

    /// A flat outline in two axes, as far as it runs along the third. `slopes`
    /// are the ways of its edges that are not square.
    pub(super) fn prism(
        outline: &[[f64; 2]],
        axes: [usize; 2],
        run: [f64; 2],
        slopes: &[[f64; 2]],
    ) -> Self {
        let along = 3 - axes[0] - axes[1];
        let point = |flat: &[f64; 2], at: f64| {
            let mut point = [0.0; 3];
            (point[axes[0]], point[axes[1]], point[along]) = (flat[0], flat[1], at);
            point
        };
        let points = run.iter().flat_map(|at| outline.iter().map(move |flat| point(flat, *at)));
        let mut edges = SQUARE.to_vec();
        edges.extend(slopes.iter().map(|slope| point(slope, 0.0)));
        Self::of(points.collect(), edges)
    }

    /// A square bar that runs from a place along a way, so far from its middle to
    /// each of its sides; `across` is square to the way.
    pub(super) fn bar(
        from: Point,
        way: Point,
        [near, far]: [f64; 2],
        across: Point,
        half: f64,
    ) -> Self {
        let other = cross(way, across);
        let point = |along: f64, one: f64, two: f64| {
            [0, 1, 2]
                .map(|axis| from[axis] + way[axis] * along + across[axis] * one + other[axis] * two)
        };
        let ends = [near, far].into_iter();
        let corners = [(half, half), (half, -half), (-half, half), (-half, -half)];
        let points =
            ends.flat_map(|along| corners.map(|(one, two)| point(along, one, two))).collect();
        Self::of(points, vec![way, across, other])
    }

    /// The same body elsewhere.
    pub(super) fn moved(&self, by: Point) -> Self {
        let points = self.points.iter().map(|point| [0, 1, 2].map(|axis| point[axis] + by[axis]));
        Self::of(points.collect(), self.edges.clone())
    }

    /// All the space it passes through as it comes straight in from so far off
    /// along one axis.
    pub(super) fn swept(&self, from: Point) -> Self {
        let mut points = self.moved(from).points;
        points.extend(&self.points);
        Self::of(points, self.edges.clone())
    }

    /// How far it reaches along an axis of the piece.
    pub(super) fn extent(&self, axis: usize) -> [f64; 2] {
        self.bounds[axis]
    }

    fn is_square(&self) -> bool {
        self.edges == SQUARE
    }

    fn shadow(&self, way: Point) -> [f64; 2] {
        let places = self.points.iter().map(|point| dot(*point, way));
        places.fold([f64::MAX, f64::MIN], |[from, to], at| [from.min(at), to.max(at)])
    }

    /// True where the two share space deeper than the tolerance: along no way
    /// do their shadows part. (Separating axes: for such bodies only the ways
    /// square to two edges need to be tried.)
    pub(super) fn hits(&self, other: &Self, tolerance: f64) -> bool {
        let part = |own: [f64; 2], other: [f64; 2]| {
            own[1].min(other[1]) - own[0].max(other[0]) <= tolerance
        };
        if (0..3).any(|axis| part(self.bounds[axis], other.bounds[axis])) {
            return false;
        }
        if self.is_square() && other.is_square() {
            return true;
        }
        let parts = |way: Point| part(self.shadow(way), other.shadow(way));
        let edges: Vec<Point> = self.edges.iter().chain(&other.edges).copied().collect();
        !edges.iter().enumerate().any(|(index, one)| {
            edges[index + 1..].iter().any(|other| unit(cross(*one, *other)).is_some_and(parts))
        })
    }
}

pub(super) fn dot(one: Point, other: Point) -> f64 {
    one.iter().zip(other).map(|(a, b)| a * b).sum()
}

pub(super) fn cross(a: Point, b: Point) -> Point {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

fn unit(way: Point) -> Option<Point> {
    let long = dot(way, way).sqrt();
    (long > NOTHING).then(|| way.map(|part| part / long))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The corner of two mitered boards, each 20 thick, seen from above.
    fn corner() -> [Body; 2] {
        let slope = [1.0, 1.0];
        let across = [[0.0, 0.0], [20.0, 0.0], [20.0, 20.0]];
        let along = [[0.0, 0.0], [20.0, 20.0], [0.0, 20.0]];
        [&across, &along].map(|outline| Body::prism(outline, [0, 2], [0.0, 500.0], &[slope]))
    }

    #[test]
    fn two_halves_of_a_miter_touch_and_do_not_hit() {
        let [one, other] = corner();
        assert!(!one.hits(&other, 0.01));
        assert!(one.hits(&Body::new(&[[0.0, 20.0], [0.0, 500.0], [0.0, 20.0]]), 0.01));
    }

    /// The board along z comes in from the left or from behind; from the front
    /// or the right it would have to pass through the other.
    #[test]
    fn a_miter_closes_from_its_own_sides_only() {
        let [one, other] = corner();
        for (axis, far, hits) in
            [(0, -1e3, false), (2, 1e3, false), (0, 1e3, true), (2, -1e3, true)]
        {
            let mut from = [0.0; 3];
            from[axis] = far;
            assert_eq!(other.swept(from).hits(&one, 0.01), hits, "{axis} {far}");
        }
    }

    #[test]
    fn a_board_comes_into_a_dado_from_its_open_side() {
        let upper = Body::new(&[[0.0, 18.0], [30.0, 600.0], [0.0, 300.0]]);
        let shelf = Body::new(&[[12.0, 400.0], [12.0, 30.0], [0.0, 300.0]]);
        assert!(!shelf.swept([1e3, 0.0, 0.0]).hits(&upper, 0.01));
        assert!(shelf.swept([0.0, 1e3, 0.0]).hits(&upper, 0.01));
    }
}
