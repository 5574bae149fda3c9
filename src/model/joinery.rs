//! How boards are joined.

use crate::measure::{Length, Span};
use crate::trade;
use crate::vocabulary::JointKind;

use super::carries::Carries;
use super::edging::Edged;
use super::id::StockId;
use super::insertion::Insertion;
use super::size::Size;
use super::web::Web;

/// How a board is joined.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Joinery {
    /// The kind of joint.
    pub kind: JointKind,
    /// Depth of a dado or rabbet; `None` where the kind has none.
    pub deep: Option<Size>,
    /// Length of a tenon.
    pub long: Option<Size>,
    /// Thickness of a tenon.
    pub thick: Option<Size>,
    /// How far a tenon is set in from the end of the stile that takes it, where
    /// written; else it follows from the width of the rail.
    pub set_in: Option<Size>,
    /// Where that is said, or would be; `None` where the joint has no braces.
    pub set_in_at: Option<Insertion>,
    /// Diameter of a dowel.
    pub diameter: Option<Length>,
    /// The statement that gives it.
    pub diameter_span: Option<Span>,
    /// How much deeper a mortise or dowel hole is than what goes into it.
    pub room: Length,
    /// Length of a screw, where written.
    pub screw: Option<Length>,
    /// The statement that gives that length.
    pub screw_span: Option<Span>,
    /// The statement, where there is one.
    pub span: Option<Span>,
}

impl Joinery {
    /// A joint of this kind with nothing written about it.
    #[must_use]
    pub fn plain(kind: JointKind) -> Self {
        Self {
            kind,
            deep: None,
            long: None,
            thick: None,
            set_in: None,
            set_in_at: None,
            diameter: None,
            diameter_span: None,
            room: Length::ZERO,
            screw: None,
            screw_span: None,
            span: None,
        }
    }

    /// How far the tenon of a rail `wide` is set in from the end of a stile, on a tape
    /// with this mark; all of the rail at most.
    #[must_use]
    pub fn set_in(&self, wide: Length, mark: Length) -> Length {
        let usual = || trade::set_in(wide, mark);
        self.set_in.as_ref().map_or_else(usual, |own| own.length.min(wide))
    }
}

impl JointKind {
    /// How it is called on the papers.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Dado => "dado",
            Self::Rabbet => "rabbet",
            Self::Pocket => "pocket screws",
            Self::Screw => "screws",
            Self::Tenon => "tenon",
            Self::Dowel => "dowels",
            Self::Dovetail => "dovetails",
            Self::Butt => "butt joint",
        }
    }

    /// True where the end of one part goes into the other.
    #[must_use]
    pub fn is_let_in(self) -> bool {
        match self {
            Self::Dado | Self::Rabbet | Self::Tenon => true,
            Self::Pocket | Self::Screw | Self::Dowel | Self::Dovetail | Self::Butt => false,
        }
    }

    /// True where one part is shaped to go into the other.
    #[must_use]
    pub fn is_shaped(self) -> bool {
        match self {
            Self::Tenon | Self::Dovetail => true,
            Self::Dado | Self::Rabbet | Self::Pocket | Self::Screw | Self::Dowel | Self::Butt => {
                false
            }
        }
    }

    /// True where it is glued as well.
    #[must_use]
    pub fn is_glued(self) -> bool {
        match self {
            Self::Screw => false,
            Self::Dado
            | Self::Rabbet
            | Self::Pocket
            | Self::Tenon
            | Self::Dowel
            | Self::Dovetail
            | Self::Butt => true,
        }
    }

    /// True where the glue needs no clamp: screws draw it together.
    #[must_use]
    pub fn draws_together(self) -> bool {
        match self {
            Self::Pocket | Self::Screw => true,
            Self::Dado | Self::Rabbet | Self::Tenon | Self::Dowel | Self::Dovetail | Self::Butt => {
                false
            }
        }
    }
}

/// A board of the case.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Board {
    /// Its stock.
    pub stock: StockId,
    /// How it is joined to the ends.
    pub joint: Joinery,
    /// What its front edge is covered with.
    pub edges: Edged,
    /// The web frame that lies in its place.
    pub web: Option<Box<Web>>,
    /// What stands on it, where it says so itself.
    pub carries: Option<Carries>,
    /// The statement that says so.
    pub span: Span,
    /// Notes for the papers.
    pub notes: Vec<String>,
}
