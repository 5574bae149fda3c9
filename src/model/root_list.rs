//! The list of openings that is the elevation of a case.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::vocabulary::words::frame::Root;
use crate::vocabulary::{Entries, Entry};

use super::lower::Lower;
use super::opening::Axis;

/// The root list: in the frame, or in a frame-less case itself.
pub(super) fn find<'a>(
    case: &'a Entries,
    frame: Option<&'a Entries>,
    frameless: bool,
    frame_entry: &Entry,
    ctx: &mut Lower,
) -> Option<(&'a Entry, Axis)> {
    let (holder, what) = match (frameless, frame) {
        (true, _) => (case, "the frameless case"),
        (false, Some(frame)) => (frame, "the frame"),
        (false, None) => {
            let found = Diagnostic::error(
                "block-missing",
                "the frame needs its members",
                frame_entry.head,
                "`{ … }` is missing after this",
            );
            // Openings that stand in the case itself have no frame around them.
            let is_frameless = case.in_order().any(|entry| entry.kind::<Root>().is_some());
            ctx.sink.push(match is_frameless {
                true => found.fix(Fix::new(
                    Grade::Choice,
                    "the case has no face frame",
                    frame_entry.head,
                    "frame none",
                )),
                false => found.note("write `frame none` for a frameless case"),
            });
            return None;
        }
    };
    let mut lists = holder.in_order().filter_map(|entry| Some((entry.kind()?, entry)));
    match (lists.next(), lists.next()) {
        (Some((Root::Across, list)), None) => Some((list, Axis::Across)),
        (Some((Root::Down, list)), None) => Some((list, Axis::Down)),
        (Some((_, first)), Some((_, second))) => {
            ctx.sink.push(
                Diagnostic::error(
                    "word-twice",
                    format!("{what} has two lists of openings"),
                    second.head,
                    "the second list",
                )
                .label(first.head, "the first one")
                .note("put one list into the other"),
            );
            None
        }
        (None, _) => {
            if frameless {
                ctx.sink.push(Diagnostic::error(
                    "word-missing",
                    "the frameless case has no openings",
                    frame_entry.head,
                    "`across { … }` is missing in the case",
                ));
            }
            None
        }
    }
}
