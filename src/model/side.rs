//! A place that is measured from the left or from the right side of something.

use crate::diagnostics::Diagnostic;
use crate::measure::Exact;
use crate::vocabulary::{Entries, Side, Word, takes};

use super::lower::Lower;
use super::size::Size;

/// How far something is in from which side.
pub(super) type FarIn = (Side, Size);

/// The side that the place of something is measured from, or would be, and the word for it
/// there: of what is written the other way round than it holds, that of the other side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct From {
    /// The side.
    pub side: Side,
    /// The word.
    pub word: &'static str,
}

impl From {
    /// Of a place that is said, or of one in a statement that says none.
    pub(super) fn of(place: Option<&FarIn>, is_mirrored: bool) -> Self {
        let side = place.map_or(Side::Left, |(side, _)| *side);
        let written = if is_mirrored { side.other() } else { side };
        Self { side, word: written.word() }
    }
}

/// How far it is, and from which side, where that is written with either of two words; where
/// both are, the first holds (reported).
pub(super) fn from(
    body: &Entries,
    (left, right): (Word<takes::Length>, Word<takes::Length>),
    name: &str,
    ctx: &mut Lower,
) -> Option<FarIn> {
    if let (Some(first), Some(second)) = (body.one(left), body.one(right)) {
        let [one, other] = [first, second].map(|said| said.span);
        let (earlier, later) = if one < other { (one, other) } else { (other, one) };
        let title = format!(
            "`{}` and `{}` both say where it is from left to right",
            body.spelled(left),
            body.spelled(right)
        );
        ctx.sink.push(
            Diagnostic::error("word-twice", title, later, "take out one of the two")
                .label(earlier, "already given here"),
        );
    }
    let from_left = ctx.size(body, left, name).map(|far| (Side::Left, far));
    from_left.or_else(|| Some((Side::Right, ctx.size(body, right, name)?)))
}

/// From the left side of what it is in to its own left side; in the middle where no side is
/// written.
pub(super) fn from_left(place: Option<&FarIn>, whole: &Size, wide: &Size) -> Size {
    match place {
        Some((Side::Left, far)) => far.clone(),
        Some((Side::Right, far)) => whole - wide - far,
        None => (whole - wide) * Exact::ratio(1, 2),
    }
}
