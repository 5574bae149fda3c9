//! Boxes of wood in the axes of one part: length, width, thickness.

use crate::measure::Length;
use crate::parts::{Face, Feature, Part};

/// From and to along one axis.
pub type Range = (Length, Length);

/// A box of wood, from where the length, the width and the thickness begin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Space(pub [Range; 3]);

impl Space {
    /// The whole of a board of these sizes.
    #[must_use]
    pub fn whole(sizes: [Length; 3]) -> Self {
        Self(sizes.map(|size| (Length::ZERO, size)))
    }

    /// The box that a feature lies in.
    #[must_use]
    pub fn of(part: &Part, feature: &Feature) -> Self {
        let axis = axis(feature.face);
        let whole = part.sizes()[axis];
        let depth = match feature.face.is_start() {
            true => (Length::ZERO, feature.deep),
            false => (whole - feature.deep, whole),
        };
        let (u, v) = (feature.u, feature.v);
        Self(match axis {
            0 => [depth, u, v],
            1 => [u, depth, v],
            _ => [u, v, depth],
        })
    }

    /// The middle along one axis.
    #[must_use]
    pub fn middle(&self, axis: usize) -> Length {
        (self.0[axis].0 + self.0[axis].1).half()
    }

    /// How far it reaches along one axis.
    #[must_use]
    pub fn extent(&self, axis: usize) -> Length {
        self.0[axis].1 - self.0[axis].0
    }

    pub(super) fn moved(&self, [along, across]: [Length; 2]) -> Self {
        let [u, v, w] = self.0;
        Self([(u.0 + along, u.1 + along), (v.0 + across, v.1 + across), w])
    }

    /// As far larger on every side; smaller where negative.
    pub(super) fn grown(&self, by: Length) -> Self {
        Self(self.0.map(|(from, to)| (from - by, to + by)))
    }

    /// What it has in common with another; nothing where they only touch.
    pub(in crate::plans) fn common(&self, other: &Self) -> Option<Self> {
        let mut both = self.0.iter().zip(&other.0);
        let meets = both.all(|(own, other)| {
            own.0 < other.1 && other.0 < own.1 && own.0 < own.1 && other.0 < other.1
        });
        let common = |axis: usize| {
            let (own, other) = (&self.0[axis], &other.0[axis]);
            (own.0.max(other.0), own.1.min(other.1))
        };
        meets.then(|| Self([0, 1, 2].map(common)))
    }

    /// What is left of it without another.
    pub(in crate::plans) fn without(&self, other: &Self) -> Vec<Self> {
        let Some(common) = self.common(other) else { return vec![*self] };
        let (mut rest, mut left) = (Vec::new(), *self);
        for axis in 0..3 {
            let ((from, to), (start, end)) = (left.0[axis], common.0[axis]);
            for (low, high) in [(from, start), (end, to)] {
                if low < high {
                    let mut piece = left;
                    piece.0[axis] = (low, high);
                    rest.push(piece);
                }
            }
            left.0[axis] = (start, end);
        }
        rest
    }

    /// True where others hold all of it.
    pub(super) fn is_within<'a>(&self, others: impl Iterator<Item = &'a Self>) -> bool {
        let mut left = vec![*self];
        for other in others.filter(|other| other.common(self).is_some()) {
            left = left.iter().flat_map(|piece| piece.without(other)).collect();
            if left.is_empty() {
                return true;
            }
        }
        false
    }

    /// True where no side of it lies further than this from that of another.
    pub(super) fn is_near(&self, other: &Self, by: Length) -> bool {
        self.0
            .iter()
            .zip(&other.0)
            .all(|(own, other)| (own.0 - other.0).abs() <= by && (own.1 - other.1).abs() <= by)
    }
}

/// The axis that a face looks along.
#[must_use]
pub fn axis(face: Face) -> usize {
    match face {
        Face::LengthStart | Face::LengthEnd => 0,
        Face::WidthStart | Face::WidthEnd => 1,
        Face::ThickStart | Face::ThickEnd => 2,
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn space() -> impl Strategy<Value = Space> {
        prop::array::uniform3((0i64..6, 1i64..6)).prop_map(|sides| {
            Space(sides.map(|(from, long)| (Length::mm(from), Length::mm(from + long))))
        })
    }

    /// True for a point with these halves of millimetres.
    fn holds(space: &Space, point: [i64; 3]) -> bool {
        space.0.iter().zip(point).all(|((from, to), at)| {
            let at = Length::mm(at) + Length::mm(1).half();
            *from < at && at < *to
        })
    }

    proptest! {
        /// Point by point: what is left lies in the one and not in the other.
        #[test]
        fn taking_away_leaves_just_the_rest(one in space(), other in space()) {
            let rest = one.without(&other);
            for x in 0..11 {
                for y in 0..11 {
                    for z in 0..11 {
                        let point = [x, y, z];
                        let pieces = rest.iter().filter(|piece| holds(piece, point)).count();
                        let wanted = holds(&one, point) && !holds(&other, point);
                        prop_assert_eq!(pieces, usize::from(wanted));
                    }
                }
            }
            prop_assert_eq!(rest.is_empty(), one.is_within([&other].into_iter()));
        }
    }
}
