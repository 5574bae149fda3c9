//! The space that a feature takes out of its part.

use crate::measure::Length;
use crate::trade;

use super::feature::{Feature, FeatureKind};
use super::part::Part;
use super::space::{Cuboid, Direction, Face, Point};

impl Part {
    /// How far a part reaches behind a face.
    #[must_use]
    pub fn depth(&self, face: Face) -> Length {
        match face {
            Face::LengthStart | Face::LengthEnd => self.length.length,
            Face::WidthStart | Face::WidthEnd => self.width.length,
            Face::ThickStart | Face::ThickEnd => self.thickness.length,
        }
    }

    /// The boxes that a feature takes out of the part, in the whole piece: one,
    /// or one for each pocket at an end.
    #[must_use]
    pub fn hollows(&self, feature: &Feature) -> Vec<Cuboid> {
        let FeatureKind::Pockets(count, _) = feature.kind else {
            return vec![self.hollow(feature, feature.v)];
        };
        let half = trade::pocket_width().half();
        let places = feature.pocket_places(count).into_iter();
        places.map(|at| self.hollow(feature, (at - half, at + half))).collect()
    }

    /// True where one of the features takes out all that the part and a guest
    /// would share.
    pub(crate) fn makes_way<'a>(
        &'a self,
        guest: &Cuboid,
        features: impl Iterator<Item = &'a Feature>,
    ) -> bool {
        let own = self.cuboid();
        let holds = |hollow: &Cuboid| {
            Direction::ALL.into_iter().all(|axis| {
                let from = own.from.along(axis).max(guest.from.along(axis));
                let to = own.to.along(axis).min(guest.to.along(axis));
                hollow.from.along(axis) <= from && to <= hollow.to.along(axis)
            })
        };
        features.flat_map(|feature| self.hollows(feature)).any(|hollow| holds(&hollow))
    }

    /// The box that a feature takes out between two places of its `v`.
    #[must_use]
    pub fn hollow(&self, feature: &Feature, v: (Length, Length)) -> Cuboid {
        let place = &self.placement;
        let into = place.direction(feature.face);
        let along_v = match feature.face {
            Face::ThickStart | Face::ThickEnd => place.width,
            _ => place.thickness,
        };
        let range = |direction: Direction| {
            if direction == into {
                let whole = self.depth(feature.face);
                if feature.face.is_start() {
                    (Length::ZERO, feature.deep)
                } else {
                    (whole - feature.deep, whole)
                }
            } else if direction == along_v {
                v
            } else {
                feature.u
            }
        };
        let [x, y, z] = Direction::ALL.map(|direction| {
            let (from, to) = range(direction);
            let start = place.origin.along(direction);
            (start + from, start + to)
        });
        Cuboid { from: Point::new(x.0, y.0, z.0), to: Point::new(x.1, y.1, z.1) }
    }
}
