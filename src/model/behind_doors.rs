//! The list behind a door, read where its door is read.

use crate::diagnostics::Diagnostic;
use crate::vocabulary::Entry;
use crate::vocabulary::words::{self, Nested, OpeningWord};

use super::lower::Lower;
use super::opening::Axis;
use super::openings::{Context, Drafts};
use super::size_names::last;

impl<'a> Drafts<'a> {
    /// True for what stands in the list behind a door.
    pub(super) fn is_behind_doors(&self, at: usize) -> bool {
        let mut parent = self.openings[at].parent;
        while let Some(list) = parent {
            if self.openings[list].leaf.is_some() {
                return true;
            }
            parent = self.openings[list].parent;
        }
        false
    }

    /// The list behind a door.
    pub(super) fn behind(
        &mut self,
        door: usize,
        entry: &'a Entry,
        path: String,
        context: &Context<'a>,
        ctx: &mut Lower,
    ) {
        let (Some(OpeningWord::Door | OpeningWord::Doors), Some(body)) =
            (self.openings[door].leaf, entry.body())
        else {
            return;
        };
        let lists = body.in_order().filter_map(|child| Some((child.kind()?, child)));
        let mut lists = lists.map(|(nested, child): (Nested, _)| (Axis::of(nested), child));
        let Some((axis, list)) = lists.next() else { return };
        let doubled = lists.next().map(|(_, second)| ("two lists", second.head));
        let shelves =
            body.one(words::door::SHELF).map(|shelves| ("shelves and a list", shelves.head));
        if let Some((what, second)) = doubled.or(shelves) {
            ctx.sink.push(
                Diagnostic::error(
                    "word-twice",
                    format!("{what} stand behind {}", last(&path)),
                    second,
                    "this is one too many",
                )
                .label(list.head, "the list")
                .note(
                    "put what is behind the doors into one list; shelves belong to an `open` in it",
                ),
            );
        }
        let at = self.list(list, axis, Some(door), path, context, ctx);
        self.openings[door].behind = Some(at);
    }
}
