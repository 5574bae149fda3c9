//! How two parts are joined.

use crate::measure::Span;
use crate::model::JointKind;

use super::id::PartId;

/// What kind of work a joint is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum JointSort {
    /// Wood to wood, as the spec asks.
    Wood(JointKind),
    /// Two mitered edges that wrap a corner.
    Miter,
    /// A panel loose in its grooves.
    Floating,
    /// A pane in the rabbet of a frame.
    Glazed,
    /// A bead that holds a pane, pinned into the wall of its rabbet.
    Pinned,
    /// A board planted on and fixed with screws or pins.
    Planted,
    /// A part hung on hinges.
    Hung,
    /// A drawer on its slides.
    Slid,
    /// A shelf that lies on pins.
    Laid,
    /// A drawer front screwed to its box, or a false front to the case.
    FrontFixed,
}

/// A joint.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Joint {
    /// The kind of work.
    pub sort: JointSort,
    /// The part that is let in, hung or planted on.
    pub part: PartId,
    /// The part that holds it.
    pub into: PartId,
    /// It is glued.
    pub glued: bool,
    /// The statement it comes from.
    pub span: Span,
}
