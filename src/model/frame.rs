//! The face frame's outer members.

use crate::measure::Span;
use crate::vocabulary::Seam;

use super::id::{FinishId, StockId};
use super::joinery::Joinery;
use super::size::Size;

/// An outer stile or rail.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OuterMember {
    /// Its width.
    pub wide: Size,
    /// How an outer stile meets the end; rails always butt.
    pub seam: Seam,
    /// The statement.
    pub span: Span,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

/// The face frame.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Frame {
    /// Its finish, where it names one; else that of the case.
    pub finish: Option<FinishId>,
    /// Its stock.
    pub stock: StockId,
    /// How its members are joined.
    pub joint: Joinery,
    /// Left and right.
    pub stiles: [OuterMember; 2],
    /// The top rail.
    pub top: Option<OuterMember>,
    /// The bottom rail.
    pub bottom: Option<OuterMember>,
    /// The statement.
    pub span: Span,
    /// Notes for the papers.
    pub notes: Vec<String>,
}
