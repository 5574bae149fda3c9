//! A solved case: its boards, its frame and its openings.

use crate::measure::{Exact, Length, Span};
use crate::vocabulary::{Seam, Side};

use super::bought_legs::OnLegs;
use super::carries::Carries;
use super::countertop::Countertop;
use super::cover::Covers;
use super::cut_round::CutRound;
use super::edging::Edged;
use super::frame::Frame;
use super::front::{DrawerBoxes, Fronts};
use super::hole::Hole;
use super::hung::{Hung, Over};
use super::id::{CaseId, FinishId, RunId, StockId};
use super::insertion::Insertion;
use super::joinery::{Board, Joinery};
use super::nailers::Nailers;
use super::opening::{Member, Opening};
use super::posts::Posts;
use super::run::Filler;
use super::site::Boundary;
use super::size::Size;
use super::stacked::StandsOn;
use super::web::Web;

impl Side {
    /// Both, left first.
    pub const BOTH: [Self; 2] = [Self::Left, Self::Right];

    /// The word for it.
    #[must_use]
    pub fn word(self) -> &'static str {
        self.spelling()
    }

    /// The other side.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }

    /// Picks the left or right of a pair.
    #[must_use]
    pub fn of<T>(self, pair: &[T; 2]) -> &T {
        match self {
            Self::Left => &pair[0],
            Self::Right => &pair[1],
        }
    }
}

/// What one side of a case meets.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Exposure {
    /// It is seen.
    Seen,
    /// A wall, with the scribe of the outer stile.
    Wall {
        /// How far the outer stile reaches past the carcass.
        scribe: Size,
    },
    /// Another case of the same job.
    Neighbour,
}

impl Exposure {
    /// From what the room says.
    pub(super) fn of_boundary(boundary: &Boundary) -> Self {
        match boundary {
            Boundary::Open => Self::Seen,
            Boundary::Wall { scribe, .. } => Self::Wall { scribe: scribe.clone() },
        }
    }

    /// The scribe, nought where there is none.
    #[must_use]
    pub fn scribe(&self) -> Size {
        match self {
            Self::Wall { scribe } => scribe.clone(),
            _ => Size::zero(),
        }
    }
}

/// An end of the case.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct End {
    /// Its stock.
    pub stock: StockId,
    /// How it meets the frame.
    pub seam: Seam,
    /// What its front edge is covered with.
    pub edges: Edged,
    /// The holes through it.
    pub holes: Vec<Hole>,
    /// The statement that says so.
    pub span: Span,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

/// The bottom.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bottom {
    /// The board.
    pub board: Board,
    /// Its top lies level with the top of the bottom rail.
    pub flush: bool,
    /// What stands on it.
    pub carries: Carries,
    /// Where its stock is said.
    pub stock_at: Insertion,
}

/// The top.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Top {
    /// The board, or each stretcher.
    pub board: Board,
    /// `None` for a whole panel; else how many stretchers, and how wide.
    pub stretchers: Option<(u32, Size)>,
    /// What stands on a whole panel, or by way of a worktop on stretchers.
    pub carries: Option<Carries>,
    /// Where its stock is said.
    pub stock_at: Insertion,
}

/// What the case stands on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Base {
    /// From the floor to the underside of the frame.
    pub high: Size,
    /// From the foremost face back to the kick board.
    pub set_back: Size,
    /// A frame of its own instead of notched ends.
    pub separate: bool,
    /// How much is left on the kick board at the floor until it is scribed; nothing on a
    /// frame, which is shimmed.
    pub scribe: Size,
    /// How far the back of a separate base that the bottom is screwed down to stands before
    /// the back of the case, so that a driver stands upright over its screws.
    pub driver_room: Size,
    /// The stock of kick board and separate base.
    pub stock: StockId,
    /// The statement.
    pub span: Span,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

/// Where the center of an upright under the bottom stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LegPlace {
    /// In the middle of the case.
    Middle,
    /// So far from the left or the right side of the case.
    From(Side, Size),
}

/// An upright under the bottom.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Leg {
    /// Where its center stands.
    pub at: LegPlace,
    /// Front to back; `None` from the kick board to the back.
    pub wide: Option<Size>,
    /// Its stock.
    pub stock: StockId,
    /// The statement.
    pub span: Span,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

/// What all shelves of the case have in common.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shelves {
    /// Their stock; `None` where neither the shelves nor the case name one.
    pub stock: Option<StockId>,
    /// An adjustable shelf is this much shorter than its space.
    pub clearance: Size,
    /// Behind the frame or the front edge.
    pub set_back: Size,
    /// Where that is said.
    pub set_back_at: Insertion,
    /// How fixed shelves are joined.
    pub joint: Joinery,
    /// The web frames that lie behind rails in their place.
    pub web: Option<Box<Web>>,
    /// The rows of holes that adjustable ones stand on.
    pub pins: Pins,
    /// What stands on them.
    pub carries: Carries,
    /// Where their stock is said.
    pub stock_at: Insertion,
    /// What their front edges are covered with.
    pub edges: Edged,
    /// The statement, else the case.
    pub span: Span,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

/// The rows of holes for shelf pins. The usual hole of 5 mm every 32 mm, its line
/// 37 mm from the edge, is that of published pages on system holes; the depth,
/// the figures in inches and the distance from the end are common practice, no
/// source.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pins {
    /// The diameter of a hole.
    pub hole: Length,
    /// Its depth.
    pub deep: Length,
    /// From one hole to the next.
    pub pitch: Length,
    /// From the edge of the board, or the back of an inset front, to a row.
    pub from_edge: Length,
    /// From the edge of the opening to the first hole.
    pub from_end: Length,
    /// The statement, where there is one.
    pub span: Option<Span>,
    /// The statement that gives the depth, where one does.
    pub deep_at: Option<Span>,
}

/// A solved case.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Case {
    /// Which one.
    pub id: CaseId,
    /// Its name.
    pub name: String,
    /// Its whole name, which begins with that of its run: `kitchen.sink`.
    pub path: String,
    /// The run that it stands in.
    pub run: Option<RunId>,
    /// The statement.
    pub span: Span,
    /// Its openings are written the other way round than they hold here.
    pub is_mirrored: bool,
    /// From the left side of the whole piece to its left side.
    pub x: Length,
    /// The same as the sum of what stands there.
    pub beside: Size,
    /// Over all.
    pub wide: Size,
    /// Over all.
    pub deep: Size,
    /// From the floor to its top.
    pub high: Size,
    /// The statement that gives its depth.
    pub deep_span: Span,
    /// What its left and right sides meet.
    pub exposure: [Exposure; 2],
    /// What it stands on.
    pub base: Option<Base>,
    /// The posts at its corners, in place of a base.
    pub posts: Option<Box<Posts>>,
    /// The bought legs under it, in place of a base.
    pub on_legs: Option<Box<OnLegs>>,
    /// How it hangs on the wall, where it stands on nothing.
    pub hung: Option<Hung>,
    /// What other case it stands on, where it does.
    pub on: Option<StandsOn>,
    /// Left and right.
    pub ends: [End; 2],
    /// Panels over its sides.
    pub covers: Covers,
    /// The bottom.
    pub bottom: Option<Bottom>,
    /// The back.
    pub back: Option<Board>,
    /// The holes through it.
    pub back_holes: Vec<Hole>,
    /// Where a back would be said; `None` where one is, or that there is none.
    pub back_at: Option<Insertion>,
    /// What carries the wall screws.
    pub nailers: Nailers,
    /// The top.
    pub top: Option<Top>,
    /// The countertop of its run lies on it.
    pub is_covered: bool,
    /// What is laid on it alone.
    pub countertop: Option<Countertop>,
    /// The partitions, unless a stile or divider says otherwise.
    pub partitions: Option<Board>,
    /// The shelves.
    pub shelves: Shelves,
    /// Uprights under the bottom.
    pub legs: Vec<Leg>,
    /// The strips that are fastened to its ends.
    pub fillers: Vec<Filler>,
    /// The face frame; `None` for a frame-less case.
    pub frame: Option<Frame>,
    /// Every opening and group, parents before children; the first is the root.
    pub openings: Vec<Opening>,
    /// Every stile, rail and divider between openings.
    pub members: Vec<Member>,
    /// What all fronts have in common.
    pub fronts: Option<Fronts>,
    /// The drawer boxes.
    pub drawers: Option<DrawerBoxes>,
    /// What its boards and boxes are cut round.
    pub around: Vec<CutRound>,
    /// What the edges of its sheets are covered with, unless something else is said
    /// of them.
    pub edges: Edged,
    /// The finish of its seen parts.
    pub finish: Option<FinishId>,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

impl Case {
    /// The strip that is fastened to an end, where there is one.
    #[must_use]
    pub fn filler(&self, side: Side) -> Option<&Filler> {
        self.fillers.iter().find(|filler| filler.side == side)
    }

    /// From the floor to its underside: the height of its base or of its legs, how far its
    /// posts reach down, how far up it hangs, or the height of what it stands on; nought where it
    /// stands on its ends.
    #[must_use]
    pub fn base_high(&self) -> Size {
        let base = self.base.as_ref().map(|base| &base.high);
        let posts = self.posts.as_ref().map(|posts| &posts.high);
        let legs = self.on_legs.as_ref().map(|legs| &legs.high);
        base.or(posts).or(legs).or(self.off_floor()).cloned().unwrap_or_default()
    }

    /// From the floor to the underside of what is carried as the case: nought where it has
    /// its base with it, or none.
    #[must_use]
    pub fn underside(&self) -> Length {
        let base = self.base.as_ref().filter(|base| base.separate).map(|base| base.high.length);
        base.or(self.off_floor().map(|up| up.length)).unwrap_or_default()
    }

    /// How far up a case hangs, or stands on another; `None` for one on the floor.
    #[must_use]
    pub fn off_floor(&self) -> Option<&Size> {
        let hung = self.hung.as_ref().map(|hung| &hung.up);
        hung.or(self.on.as_ref().map(|on| &on.up))
    }

    /// True where the outside of an end is seen: no wall is beside it, and no panel over it.
    #[must_use]
    pub fn shows_end(&self, side: Side) -> bool {
        matches!(side.of(&self.exposure), Exposure::Seen) && side.of(&self.covers.ends).is_none()
    }

    /// True where it stands on the floor, on its ends or a base.
    #[must_use]
    pub fn is_on_floor(&self) -> bool {
        self.off_floor().is_none()
    }

    /// True where its ends reach down to the floor, or to what they are notched for there.
    #[must_use]
    pub fn ends_on_floor(&self) -> bool {
        let separate = self.base.as_ref().is_some_and(|base| base.separate);
        self.is_on_floor() && !separate && self.on_legs.is_none()
    }

    /// True where it stands or hangs beside the other cases: neither on one nor over one.
    #[must_use]
    pub fn is_in_row(&self) -> bool {
        self.on.is_none() && self.over().is_none()
    }

    /// What it hangs over; `None` where it stands, or hangs beside the others.
    #[must_use]
    pub fn over(&self) -> Option<&Over> {
        self.hung.as_ref()?.over.as_ref()
    }

    /// Its overall height: from the floor, or from the underside of a case that hangs or
    /// stands on another.
    #[must_use]
    pub fn overall_high(&self) -> &Size {
        let hung = self.hung.as_ref().map(|hung| &hung.high);
        hung.or(self.on.as_ref().map(|on| &on.high)).unwrap_or(&self.high)
    }
}

/// A third of a thickness, the usual depth of a dado or tenon.
pub(super) fn third(size: &Size) -> Size {
    size.clone() * Exact::ratio(1, 3)
}
