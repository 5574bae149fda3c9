//! The space that a feature takes out of its part.

use crate::measure::Length;
use crate::trade;

use super::feature::{Feature, FeatureKind};
use super::id::{PartId, Role};
use super::part::{Part, Parts};
use super::space::{Cuboid, Direction, Face};

/// From and to along the length, width and thickness of a part.
type Own = [(Length, Length); 3];

/// Half the width of a pocket.
fn pocket_half() -> Length {
    trade::pocket_width().half()
}

impl Parts {
    /// The parts that lie in a channel of a board: the one that it is made for, or all
    /// those of a web frame.
    #[must_use]
    pub fn lodged(&self, host: &Part, channel: &Feature) -> Vec<PartId> {
        let made_for = channel.takes.and_then(|id| self.get(id));
        let (web, panels) = match made_for {
            Some(guest) if guest.role.is_of_web() => (guest.of, false),
            None if host.role.is_of_web() => (host.of, true),
            Some(_) | None => return channel.takes.into_iter().collect(),
        };
        let hollow = host.hollow(channel, channel.v);
        let own = self.iter_case(host.case).filter(|(_, part)| {
            part.of == web
                && part.role.is_of_web()
                && (part.role == Role::DustPanel) == panels
                && hollow.overlaps(&part.cuboid())
        });
        own.map(|(id, _)| id).collect()
    }
}

impl Feature {
    /// From and to along its `v`, with the half of a pocket on either side.
    fn reach(&self) -> (Length, Length) {
        if matches!(self.kind, FeatureKind::Pockets(..)) {
            let half = pocket_half();
            (self.v.0 - half, self.v.1 + half)
        } else {
            self.v
        }
    }

    /// The stretches of its `u` and `v` that each of its pockets takes.
    fn pocket_stretches(&self, count: u32) -> Vec<[(Length, Length); 2]> {
        let half = pocket_half();
        let places = self.pocket_places(count).into_iter();
        places.map(|at| [self.u, (at - half, at + half)]).collect()
    }

    /// The same of its dowel holes, which stand in a row along the longer of the two.
    fn dowel_stretches(&self, count: u32, diameter: Length) -> Vec<[(Length, Length); 2]> {
        let along_u = self.u.1 - self.u.0 >= self.v.1 - self.v.0;
        let (row, beside) = if along_u { (self.u, self.v) } else { (self.v, self.u) };
        let middle = (beside.0 + beside.1).half();
        let hole = |at: Length| (at - diameter.half(), at + diameter.half());
        let places = trade::pocket_places(row.1 - row.0, count).into_iter();
        places
            .map(|place| {
                let (own, beside) = (hole(row.0 + place), hole(middle));
                if along_u { [own, beside] } else { [beside, own] }
            })
            .collect()
    }
}

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

    /// The wood behind a face, over a stretch of the thickness: less where the edge
    /// across from it is mitered, the farther from the face whose corner stays.
    #[must_use]
    pub fn depth_at(&self, face: Face, (from, to): (Length, Length)) -> Length {
        let across = face.opposite();
        let is_mitered =
            self.features.iter().any(|own| own.kind == FeatureKind::Miter && own.face == across);
        let gone = match (is_mitered, self.show) {
            (false, _) => Length::ZERO,
            (true, Some(Face::ThickEnd)) => self.thickness.length - from,
            (true, _) => to,
        };
        self.depth(face) - gone
    }

    /// The boxes that a feature takes out of the part, in the whole piece: one,
    /// or one for each pocket or dowel hole at an end.
    pub fn hollows<'f>(&'f self, feature: &'f Feature) -> impl Iterator<Item = Cuboid> + use<'f> {
        self.own_hollows(feature).map(|own| self.in_piece(own))
    }

    /// The same in the part's own axes.
    fn own_hollows<'f>(&'f self, feature: &'f Feature) -> impl Iterator<Item = Own> + use<'f> {
        let (whole, places) = match feature.kind {
            FeatureKind::Pockets(count, _) => (None, feature.pocket_stretches(count)),
            FeatureKind::Dowels(count, diameter, _) => {
                (None, feature.dowel_stretches(count, diameter.unwrap_or_default()))
            }
            FeatureKind::Dado
            | FeatureKind::Groove
            | FeatureKind::Rabbet
            | FeatureKind::Glazing(_)
            | FeatureKind::Miter
            | FeatureKind::Notch
            | FeatureKind::Slot
            | FeatureKind::Bore(_)
            | FeatureKind::Flute(_)
            | FeatureKind::Tenon
            | FeatureKind::Haunch
            | FeatureKind::Mortise
            | FeatureKind::Dovetails => (Some([feature.u, feature.v]), Vec::new()),
        };
        whole.into_iter().chain(places).map(|sides| self.own_hollow(feature, sides))
    }

    /// True where a guest lies in a feature of this part: one that is made for it, or a
    /// channel for several.
    #[must_use]
    pub fn houses(&self, feature: &Feature, id: PartId, guest: &Part) -> bool {
        match feature.takes {
            Some(takes) => takes == id,
            None => {
                let hollow = || self.hollow(feature, feature.v);
                feature.is_channel() && hollow().overlaps(&guest.cuboid())
            }
        }
    }

    /// True where one of the features, which are channels and notches, takes
    /// out all that the part and a guest would share.
    pub(crate) fn makes_way<'a>(
        &'a self,
        guest: &Cuboid,
        mut features: impl Iterator<Item = &'a Feature>,
    ) -> bool {
        // A part has many channels, and all but one are elsewhere: what is
        // shared is moved into the part's own frame, once.
        let mut shared = self.in_own(guest);
        for ((from, to), size) in shared.iter_mut().zip(self.sizes()) {
            (*from, *to) = ((*from).max(Length::ZERO), (*to).min(size));
        }
        features.any(|feature| {
            let hollow = self.own_hollow(feature, [feature.u, feature.v]);
            hollow.iter().zip(&shared).all(|(own, shared)| own.0 <= shared.0 && shared.1 <= own.1)
        })
    }

    /// Where the features take something out of a room, all along an axis of the piece: from
    /// and to along that, in the piece.
    pub(crate) fn cut_along<'f>(
        &'f self,
        features: impl Iterator<Item = &'f Feature>,
        room: &Cuboid,
        along: Direction,
    ) -> Vec<(Length, Length)> {
        let place = &self.placement;
        let axes = [place.length, place.width, place.thickness];
        // As above: nearly all are elsewhere.
        let room = self.in_own(room);
        let meets = |own: &Own| {
            let mut sides = axes.iter().zip(own).zip(&room);
            sides.all(|((axis, own), room)| *axis == along || own.0.max(room.0) < own.1.min(room.1))
        };
        let origin = place.origin.along(along);
        let near = features.filter(|own| meets(&self.own_hollow(own, [own.u, own.reach()])));
        let cuts = near.flat_map(|own| self.own_hollows(own)).filter(meets);
        let cuts = cuts.filter_map(|own| axes.iter().zip(own).find(|(axis, _)| **axis == along));
        cuts.map(|(_, (from, to))| (origin + from, origin + to)).collect()
    }

    /// A box in the piece, from and to along the length, width, and thickness of the part.
    fn in_own(&self, space: &Cuboid) -> Own {
        let place = &self.placement;
        [place.length, place.width, place.thickness].map(|axis| {
            let origin = place.origin.along(axis);
            (space.from.along(axis) - origin, space.to.along(axis) - origin)
        })
    }

    /// The box that a feature takes out between two places of its `v`.
    #[must_use]
    pub fn hollow(&self, feature: &Feature, v: (Length, Length)) -> Cuboid {
        self.in_piece(self.own_hollow(feature, [feature.u, v]))
    }

    /// A box in the part's own axes, from and to along its length, width and
    /// thickness, where it stands in the whole piece.
    #[must_use]
    pub fn in_piece(&self, own: [(Length, Length); 3]) -> Cuboid {
        let place = &self.placement;
        let mut space = Cuboid { from: place.origin, to: place.origin };
        let mut stand = |axis: Direction, (start, end): (Length, Length)| {
            let origin = place.origin.along(axis);
            space.from.set(axis, origin + start);
            space.to.set(axis, origin + end);
        };
        let [long, wide, thick] = own;
        stand(place.length, long);
        stand(place.width, wide);
        stand(place.thickness, thick);
        space
    }

    fn own_hollow(&self, feature: &Feature, [u, v]: [(Length, Length); 2]) -> Own {
        let whole = self.depth(feature.face);
        let into = match feature.face.is_start() {
            true => (Length::ZERO, feature.deep),
            false => (whole - feature.deep, whole),
        };
        match feature.face {
            Face::LengthStart | Face::LengthEnd => [into, u, v],
            Face::WidthStart | Face::WidthEnd => [u, into, v],
            Face::ThickStart | Face::ThickEnd => [u, v, into],
        }
    }
}
