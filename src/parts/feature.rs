//! What is cut into a part.

use crate::measure::{Length, Span};
use crate::model::BitId;
use crate::trade;

use super::id::PartId;
use super::space::Face;

/// What a bore is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Bore {
    /// The cup of a concealed hinge.
    Cup,
    /// The screw of a pull.
    Pull,
    /// A screw of the plate of a concealed hinge.
    Plate,
    /// The rest of one that goes on through a thin block into the board behind it.
    PlateBehind,
    /// A hole that the maker asks for: for cords, a faucet, a grommet.
    Round,
    /// What holds a bought leg: a screw of its plate, its bolt, or its dowel.
    Leg,
}

impl Bore {
    /// How it is called on the papers.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Cup => "hinge cup",
            Self::Pull => "pull hole",
            Self::Plate | Self::PlateBehind => "plate hole",
            Self::Round => "round hole",
            Self::Leg => "leg hole",
        }
    }
}

/// The kinds of feature.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FeatureKind {
    /// A square channel across the grain.
    Dado,
    /// A square channel along the grain or an edge.
    Groove,
    /// A step along an edge or end.
    Rabbet,
    /// What lies behind a groove, cut off when its frame is glued up, so that glass goes in
    /// from behind; so much of it was wood.
    Glazing(Length),
    /// An edge planed to 45 degrees.
    Miter,
    /// A corner or opening cut right through.
    Notch,
    /// A long hole right through, for a screw that moves along it.
    Slot,
    /// Pocket holes at an end: how many, and the length of their screws.
    Pockets(u32, Option<Length>),
    /// A round hole.
    Bore(Bore),
    /// A round-bottomed channel cut with this bit.
    Flute(BitId),
    /// A tenon or stub tenon at an end; its length is part of the part's.
    Tenon,
    /// The corner that is cut off a tenon beside its haunch: what stays of it there
    /// fills a groove that runs out at the end of the stile.
    Haunch,
    /// The mortise for a tenon.
    Mortise,
    /// Dovetails across an end.
    Dovetails,
    /// Dowel holes at an end, or in the face that it meets: how many, their
    /// diameter, and how long the dowels are.
    Dowels(u32, Option<Length>, Length),
}

impl FeatureKind {
    /// How it is called on the papers and in messages.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Dado => "dado",
            Self::Groove => "groove",
            Self::Rabbet => "rabbet",
            Self::Glazing(_) => "rabbet for glass",
            Self::Miter => "miter",
            Self::Notch => "notch",
            Self::Slot => "slot",
            Self::Pockets(..) => "pocket holes",
            Self::Bore(bore) => bore.word(),
            Self::Flute(_) => "flutes",
            Self::Tenon => "tenon",
            Self::Haunch => "haunch",
            Self::Mortise => "mortise",
            Self::Dovetails => "dovetails",
            Self::Dowels(..) => "dowel holes",
        }
    }

    /// The same where the cut lies along an edge or end: what is let in there lies in a
    /// rabbet, since a dado or a groove has a wall on either side.
    #[must_use]
    pub fn word_along(self, is_along: bool) -> &'static str {
        match self {
            Self::Dado | Self::Groove if is_along => Self::Rabbet.word(),
            own => own.word(),
        }
    }
}

/// A feature in its part's own frame. On a broad face `u` runs along the
/// length and `v` along the width; on an edge `u` runs along the length and
/// `v` along the thickness; on an end `u` runs along the width and `v` along
/// the thickness. Both count from where the part's own axes begin.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Feature {
    /// What it is.
    pub kind: FeatureKind,
    /// The face it is cut into.
    pub face: Face,
    /// From and to.
    pub u: (Length, Length),
    /// From and to.
    pub v: (Length, Length),
    /// How deep.
    pub deep: Length,
    /// The statement that says how deep, where one does.
    pub deep_at: Option<Span>,
    /// The part that it takes.
    pub takes: Option<PartId>,
    /// The statement it comes from.
    pub span: Span,
}

impl Feature {
    /// Its center on its face.
    #[must_use]
    pub fn center(&self) -> (Length, Length) {
        ((self.u.0 + self.u.1).half(), (self.v.0 + self.v.1).half())
    }

    /// The centers of `count` pocket holes, from where the width begins.
    #[must_use]
    pub fn pocket_places(&self, count: u32) -> Vec<Length> {
        let places = trade::pocket_places(self.v.1 - self.v.0, count).into_iter();
        places.map(|place| self.v.0 + place).collect()
    }

    /// True for what leaves a hollow that a bore may not break into. The groove of a panel
    /// along an edge is asked of every cup with the door's edge, wherever the cup stands.
    #[must_use]
    pub fn is_in_way_of(&self, bore: Bore) -> bool {
        let edge = matches!(self.face, Face::WidthStart | Face::WidthEnd);
        if bore == Bore::Cup && self.kind == FeatureKind::Groove && edge {
            return false;
        }
        self.is_channel()
            || matches!(
                self.kind,
                FeatureKind::Mortise
                    | FeatureKind::Glazing(_)
                    | FeatureKind::Notch
                    | FeatureKind::Slot
                    | FeatureKind::Pockets(..)
            )
    }

    /// True for a channel or step that a saw or router cuts to a fence.
    #[must_use]
    pub fn is_channel(&self) -> bool {
        matches!(self.kind, FeatureKind::Dado | FeatureKind::Groove | FeatureKind::Rabbet)
    }
}
