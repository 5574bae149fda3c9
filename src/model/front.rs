//! Fronts and drawer boxes.

use crate::measure::{Length, Span, Spanned};
use crate::vocabulary::{CatchWord, Run, StopKind};

use super::carries::Carries;
use super::edge::Edges;
use super::edging::Edged;
use super::finger::Finger;
use super::framed::PanelBuild;
use super::hinge_place::HingePlace;
use super::id::StockId;
use super::id::{BitId, FinishId, HingeId, PullId, SlideId};
use super::insertion::Insertion;
use super::joinery::Joinery;
use super::pull_place::PullPlace;
use super::size::Size;

/// How a front lies.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Set {
    /// In its opening, flush with the frame.
    Inset,
    /// Over the edges of its opening.
    Overlay(Box<Overlay>),
}

/// How far a front reaches over the edges of its opening.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Overlay {
    /// On every side; `None` where it follows from the gap between the fronts.
    pub by: Option<Size>,
    /// At an edge that differs.
    pub edges: Edges<Option<Size>>,
}

/// How a front is built.
#[allow(clippy::large_enum_variant, reason = "there is one for each opening at most")]
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Build {
    /// One board, or several glued edge to edge.
    Slab,
    /// Frame and panel.
    Panel(PanelBuild),
}

/// Flutes on a front.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Flutes {
    /// Which way they run.
    pub run: Run,
    /// The bit.
    pub bit: BitId,
    /// How deep.
    pub deep: Length,
    /// The statement that says so.
    pub deep_span: Option<Span>,
    /// From center to center.
    pub pitch: Length,
    /// The statement that gives it.
    pub pitch_span: Span,
    /// The least flat between flutes and at the edges.
    pub land: Length,
    /// How far they stop short of both ends.
    pub stop: Length,
    /// The statement.
    pub span: Span,
}

impl Flutes {
    /// True where their stops leave them shorter than they are wide, on a front
    /// `long` along them whose flutes are `wide`: a row of dimples.
    #[must_use]
    pub fn are_too_short(&self, long: Length, wide: Length) -> bool {
        !self.stop.is_zero() && long - self.stop.twice() <= wide
    }
}

/// How fronts are made and hung: those of a case, or of one opening.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fronts {
    /// Their finish, where they name one; else that of the case.
    pub finish: Option<FinishId>,
    /// Their stock.
    pub stock: StockId,
    /// How they lie.
    pub set: Set,
    /// How they are built.
    pub build: Build,
    /// The space round a front: to the frame, or to the next front.
    pub gap: Size,
    /// It is written, and does not stand by default.
    pub gap_written: bool,
    /// The statement that gives it, else the block.
    pub gap_span: Span,
    /// Between the two leaves of a pair.
    pub meeting: Size,
    /// The statement that gives it, else the block.
    pub meeting_span: Span,
    /// The doors' hinge, and its statement.
    pub hinge: Option<(HingeId, Span)>,
    /// Where the hinge of all doors stands, or would.
    pub hinge_at: Insertion,
    /// Where the outer ones sit.
    pub hinge_place: HingePlace,
    /// How many hinges on each door, where written, and the statement.
    pub hinges: Option<Spanned<u32>>,
    /// The pull.
    pub pull: Option<PullId>,
    /// Where that of all fronts stands, or would.
    pub pull_at: Insertion,
    /// The maker says that there is none: a latch that is pushed opens it, or the like.
    pub opens_without: bool,
    /// Where the pull sits.
    pub pull_place: PullPlace,
    /// A cut in its edge, instead of a pull.
    pub finger: Option<Finger>,
    /// Flutes on the front face.
    pub flutes: Option<Flutes>,
    /// What its doors close against, where that is written.
    pub stop: Option<Spanned<StopKind>>,
    /// What holds its doors shut, where that is written.
    pub catch: Option<Spanned<CatchWord>>,
    /// The statement that asks for those of a bank, a row, or a pair to come from one sheet
    /// beside each other, as they stand.
    pub in_sequence: Option<Span>,
    /// What the edges of slabs are covered with.
    pub edges: Edged,
    /// Which way the grain of slabs runs, where that is written.
    pub grain: Option<Spanned<Run>>,
    /// Notes for the papers.
    pub notes: Vec<String>,
    /// The statement.
    pub span: Span,
}

/// The drawer boxes of a case.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DrawerBoxes {
    /// Their finish, where they name one; else that of the case.
    pub finish: Option<FinishId>,
    /// The stock of fronts, sides and backs.
    pub stock: StockId,
    /// The stock of bottoms.
    pub bottom_stock: StockId,
    /// The slide.
    pub slide: SlideId,
    /// What they hold.
    pub carries: Carries,
    /// From the lower edge to the groove for the bottom.
    pub groove_up: Size,
    /// How deep that groove is.
    pub groove_deep: Size,
    /// The bottom is this much smaller than its grooves would hold.
    pub groove_play: Size,
    /// The stock of the packers that bring a slide flush with its opening.
    pub packer_stock: StockId,
    /// Where that stock is written, or would be.
    pub packer_stock_at: Insertion,
    /// The height of a packer.
    pub packer_wide: Size,
    /// The statement that gives the groove's height, where one does.
    pub groove_up_span: Option<Span>,
    /// The statement that gives the groove, else the block.
    pub groove_span: Span,
    /// How the corners are joined.
    pub joint: Joinery,
    /// Notes for the papers.
    pub notes: Vec<String>,
    /// The statement.
    pub span: Span,
}
