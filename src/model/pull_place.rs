//! Where a pull sits on a front.

use crate::diagnostics::Diagnostic;
use crate::measure::{Length, Span};
use crate::vocabulary::{Entries, words};

use super::lower::Lower;

/// How high the middle of a pull sits on its front.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PullAt {
    /// This far below its upper edge.
    FromTop(Length),
    /// This far above its lower edge.
    FromBottom(Length),
    /// Halfway.
    Middle,
}

/// Where the pulls of a front sit, as far as the front says so; else the pull does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PullPlace {
    /// How high.
    pub at: Option<PullAt>,
    /// The statement that gives that height.
    pub at_span: Option<Span>,
    /// From the latch edge of a door to the screws.
    pub from_edge: Option<Length>,
    /// The statement that gives that distance.
    pub from_edge_span: Option<Span>,
    /// How many a front has that is not hung.
    pub count: u32,
    /// The statement.
    pub span: Option<Span>,
}

impl Default for PullPlace {
    fn default() -> Self {
        Self {
            at: None,
            at_span: None,
            from_edge: None,
            from_edge_span: None,
            count: 1,
            span: None,
        }
    }
}

/// Reads the braces behind a pull.
pub(super) fn read(body: &Entries, at: Span, ctx: &mut Lower) -> PullPlace {
    use words::pull_place::{FROM_BOTTOM, FROM_EDGE, FROM_TOP, MIDDLE, PULLS};

    let length = |size: super::size::Size| size.length;
    let top = ctx.positive(body, FROM_TOP, "pull from the top").known().map(length);
    let bottom = ctx.positive(body, FROM_BOTTOM, "pull from the bottom").known().map(length);
    let spans = [
        body.one(FROM_TOP).map(|said| said.head),
        body.one(FROM_BOTTOM).map(|said| said.head),
        body.one(MIDDLE).map(|said| said.head),
    ];
    let mut written = spans.into_iter().flatten();
    if let (Some(first), Some(second)) = (written.next(), written.next()) {
        ctx.sink.push(
            Diagnostic::error(
                "word-twice",
                "the height of this pull is given twice",
                second,
                "the second time",
            )
            .label(first, "the first time")
            .note("write one of `from-top`, `from-bottom`, and `middle`"),
        );
    }
    let at_span = spans.into_iter().flatten().next();
    let middle = body.flag(MIDDLE).map(|_| PullAt::Middle);
    PullPlace {
        at: top.map(PullAt::FromTop).or(bottom.map(PullAt::FromBottom)).or(middle),
        at_span,
        from_edge: ctx.positive(body, FROM_EDGE, "pull from the edge").known().map(length),
        from_edge_span: body.one(FROM_EDGE).map(|said| said.head),
        count: body.get(PULLS).map_or(1, |count| count.value).max(1),
        span: Some(at),
    }
}
