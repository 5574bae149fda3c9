//! Where a dado, groove, rabbet or flute lies: what a fence is set to.

use crate::measure::Length;

use super::feature::{Feature, FeatureKind};
use super::part::Part;
use super::space::Face;

/// A channel on a face of its part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Channel {
    /// It runs along the part's length; else across it.
    pub along: bool,
    /// The end, edge or face that its distance counts from: the one that carries
    /// the mark; of a step on an edge or end, that edge or end.
    pub datum: Face,
    /// From the datum to its near side.
    pub from: Length,
    /// Across.
    pub wide: Length,
    /// How far it stops short of each end of its run.
    pub stops: (Length, Length),
}

impl Part {
    /// The channel that a feature of this part is.
    #[must_use]
    pub fn channel(&self, feature: &Feature) -> Channel {
        let (long, wide) = self.face_size(feature.face);
        let along = feature.runs_along();
        let (across, run) = (feature.across(along), feature.run(along));
        let (whole_across, whole_run) = if along { (wide, long) } else { (long, wide) };
        // The sides of its run are where a run across it would begin and end.
        let (start, end) = feature.face.ends_of_run(!along);
        let (near, far) = (across.0, whole_across - across.1);
        let on_side = feature.is_channel() && (near.is_zero() || far.is_zero());
        let nearer = if far < near { end } else { start };
        let marked = self.marks().among([start, end]).filter(|_| !on_side);
        let datum = marked.unwrap_or(nearer);
        let from = if datum == start { near } else { far };
        let stops = (run.0, whole_run - run.1);
        Channel { along, datum, from, wide: across.1 - across.0, stops }
    }
}

impl Feature {
    /// True where it runs along its part's length; a square one does too. A dado in an edge of
    /// its part, which posts alone have, runs across it, however short it is: it takes the corner of a
    /// lying board.
    #[must_use]
    pub fn runs_along(&self) -> bool {
        let across = self.kind == FeatureKind::Dado
            && matches!(self.face, Face::WidthStart | Face::WidthEnd);
        !across && self.u.1 - self.u.0 >= self.v.1 - self.v.0
    }

    /// Its extent across its run.
    #[must_use]
    pub fn across(&self, along: bool) -> (Length, Length) {
        if along { self.v } else { self.u }
    }

    /// Its extent along its run.
    #[must_use]
    pub fn run(&self, along: bool) -> (Length, Length) {
        if along { self.u } else { self.v }
    }
}

impl Face {
    /// Where a channel's run on this face begins and ends.
    #[must_use]
    pub fn ends_of_run(self, along: bool) -> (Self, Self) {
        match (self, along) {
            (Self::ThickStart | Self::ThickEnd | Self::WidthStart | Self::WidthEnd, true) => {
                (Self::LengthStart, Self::LengthEnd)
            }
            (Self::ThickStart | Self::ThickEnd, false)
            | (Self::LengthStart | Self::LengthEnd, true) => (Self::WidthStart, Self::WidthEnd),
            (Self::WidthStart | Self::WidthEnd | Self::LengthStart | Self::LengthEnd, false) => {
                (Self::ThickStart, Self::ThickEnd)
            }
        }
    }
}
