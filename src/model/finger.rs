//! A cut for the fingers in the edge of a front, instead of a pull.

use crate::diagnostics::Diagnostic;
use crate::measure::Span;
use crate::vocabulary::takes::Braces;
use crate::vocabulary::{Said, words};

use super::insertion::Insertion;
use super::lower::Lower;
use super::size::Size;

/// Where the middle of a finger pull is on the latch edge of a door.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FingerAt {
    /// So far below the top of the door.
    FromTop(Size),
    /// So far above its bottom.
    FromBottom(Size),
    /// Halfway up.
    Middle,
}

/// A cut in the middle of the top edge of a drawer front, or in the latch edge of a door.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finger {
    /// How long it is along the edge.
    pub wide: Size,
    /// How far it goes in from the edge.
    pub deep: Size,
    /// Where that is said, or would be.
    pub deep_at: Insertion,
    /// Where it is on a door.
    pub at: FingerAt,
    /// The statement.
    pub span: Span,
}

impl Finger {
    /// From and to along the edge of a front that it is cut into, which is so `long`: in
    /// the middle, or where a door has it.
    #[must_use]
    pub fn along(&self, long: &Size, is_door: bool) -> (Size, Size) {
        let middle = match &self.at {
            FingerAt::FromTop(from) if is_door => long - from,
            FingerAt::FromBottom(from) if is_door => from.clone(),
            FingerAt::FromTop(_) | FingerAt::FromBottom(_) | FingerAt::Middle => long.half(),
        };
        let half = self.wide.half();
        (&middle - &half, &middle + &half)
    }
}

/// The finger pull that a statement gives.
pub(super) fn read(said: Said<'_, Braces>, ctx: &mut Lower) -> Option<Finger> {
    use words::finger::{BLOCK, DEEP, FROM_BOTTOM, FROM_TOP, WIDE};

    let empty = ctx.empty(&BLOCK);
    let body = said.body().unwrap_or(&empty);
    let top = ctx.positive(body, FROM_TOP, "finger pull from the top").known();
    let bottom = ctx.positive(body, FROM_BOTTOM, "finger pull from the bottom").known();
    if let (Some(first), Some(second)) = (body.one(FROM_TOP), body.one(FROM_BOTTOM)) {
        ctx.sink.push(
            Diagnostic::error(
                "word-twice",
                "the height of this finger pull is given twice",
                second.head,
                "the second time",
            )
            .label(first.head, "the first time")
            .note("write one of `from-top` and `from-bottom`"),
        );
    }
    let at = top.map(FingerAt::FromTop).or(bottom.map(FingerAt::FromBottom));
    Some(Finger {
        wide: ctx.positive(body, WIDE, "finger pull").known()?,
        deep: ctx.positive(body, DEEP, "depth of the finger pull").known()?,
        deep_at: Insertion::of(body, DEEP),
        at: at.unwrap_or(FingerAt::Middle),
        span: said.head,
    })
}
