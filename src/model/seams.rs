//! The two sides of a case, where an end and its stile say what they are.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::vocabulary::{Entries, Said, Seam, Side, Takes, Word, words};

use super::case::End;
use super::frame::{Frame, OuterMember};
use super::lower::Lower;

/// Reports what is said twice of one side, and seams of which two things are
/// said.
pub(super) fn look(case: &Entries, frame: Option<&Entries>, ctx: &mut Lower) {
    twice(words::case::END, case, ctx);
    if let Some(frame) = frame {
        twice(words::frame::STILE, frame, ctx);
        twice(words::frame::RAIL, frame, ctx);
        contradicted(case, frame, ctx);
    }
}

/// Reports what is said twice of one side: only the first of the two counts.
pub(super) fn twice<T: Takes<Is: Copy + PartialEq>>(
    word: Word<T>,
    body: &Entries,
    ctx: &mut Lower,
) {
    let mut known: Vec<Said<'_, T>> = Vec::new();
    for said in body.all(word) {
        let Some(side) = said.value() else { continue };
        let Some(first) = known.iter().find(|first| first.is(*side.value)) else {
            known.push(said);
            continue;
        };
        said.mark_all();
        ctx.sink.push(
            Diagnostic::error(
                "word-twice",
                format!("this `{}` is written twice", word.spelling()),
                said.head,
                "written again here",
            )
            .label(first.head, "written here first"),
        );
    }
}

/// Reports the seams of which the end says one thing and its stile another.
fn contradicted(case: &Entries, frame: &Entries, ctx: &mut Lower) {
    for side in [Side::Left, Side::Right] {
        let end = case.all(words::case::END).find(|end| end.is(side)).and_then(Said::body);
        let stile = frame.all(words::frame::STILE).find(|stile| stile.is(side));
        let end = end.and_then(|end| end.one(words::end::SEAM));
        let stile = stile.and_then(Said::body);
        let stile = stile.and_then(|stile| stile.one(words::outer_stile::SEAM));
        let (Some(end), Some(stile)) = (end, stile) else { continue };
        let (Some(at_end), Some(at_stile)) = (end.value(), stile.value()) else { continue };
        let (of_end, of_stile) = (at_end.value.spelling(), at_stile.value.spelling());
        if of_end == of_stile {
            continue;
        }
        let side = side.word();
        let write = |span, seam: &str, title: &str| {
            Fix::new(Grade::Choice, title, span, format!("seam {seam}"))
        };
        ctx.sink.push(
            Diagnostic::error(
                "seams-differ",
                format!("the {side} end and its stile are joined in one seam, and they say different things of it"),
                stile.head,
                format!("the stile says `{of_stile}`"),
            )
            .label(end.head, format!("the end says `{of_end}`"))
            .fix(write(stile.head, of_end, "the end is right"))
            .fix(write(end.head, of_stile, "the stile is right")),
        );
    }
}

/// A mitered seam is said once: at the end or at the stile. What one of them
/// says holds for both.
pub(super) fn seamed(ends: [End; 2], frame: Option<&Frame>) -> [End; 2] {
    let [left, right] = ends;
    let with = |end: End, stile: Option<&OuterMember>| match stile.map(|stile| stile.seam) {
        Some(Seam::Miter) => End { seam: Seam::Miter, ..end },
        Some(Seam::Butt) | None => end,
    };
    [
        with(left, frame.map(|frame| &frame.stiles[0])),
        with(right, frame.map(|frame| &frame.stiles[1])),
    ]
}
