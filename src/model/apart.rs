//! Pieces of furniture in one spec: each case on posts stands by itself, wherever the room
//! wants it.

use crate::diagnostics::Diagnostic;
use crate::measure::Length;
use crate::vocabulary::words::OnFloor;
use crate::vocabulary::{Entry, Origin, Side, Sourced, words};

use super::case::{Case, Exposure};
use super::lower::Lower;
use super::piece::Piece;
use super::posts;
use super::site::Site;
use super::size::Size;
use super::stacked;

impl Piece {
    /// True where its cases are pieces of furniture that stand each by itself: nothing holds
    /// one to another, and how far apart they are drawn says nothing of where they stand.
    #[must_use]
    pub fn stands_apart(&self) -> bool {
        self.cases.iter().filter(|case| case.posts.is_some()).count() > 1
    }
}

/// How what stands in a spec stands to each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Together {
    /// Side by side, in one row.
    InRow,
    /// Each piece by itself.
    Apart,
}

impl Together {
    /// What the two sides of a statement meet that is or is not the first and the last.
    pub(super) fn exposure(self, site: &Site, [first, last]: [bool; 2]) -> [Exposure; 2] {
        [(first, &site.left), (last, &site.right)].map(|(is_end, boundary)| match self {
            _ if is_end => Exposure::of_boundary(boundary),
            Self::InRow => Exposure::Neighbour,
            Self::Apart => Exposure::Seen,
        })
    }

    /// Where the left side of a case is drawn, behind what ends at `x`: right there, or clear
    /// of it and of the tops of both.
    pub(super) fn next(self, x: Size, before: Option<&Case>, case: &Case, ctx: &mut Lower) -> Size {
        let (Self::Apart, Some(before)) = (self, before) else { return x };
        let origin =
            Origin::Default { block: words::base::BLOCK.name, word: words::base::POSTS.spelling() };
        let value = ctx.tape.unit.either(Length::inches(12, 1), Length::mm(300));
        let name = format!("space drawn between {} and {}", before.name, case.name);
        let space = ctx.facts.sourced(Sourced { value, origin }, name);
        x + over(before, Side::Right) + space + over(case, Side::Left)
    }
}

/// How far the countertop of a case reaches past its side.
fn over(case: &Case, side: Side) -> Size {
    let top = case.countertop.as_ref();
    top.map_or_else(Size::zero, |top| side.of(&top.over.sides).clone())
}

/// How the statements of a spec stand to each other; what can't stand beside a case on posts
/// is reported.
pub(super) fn together(all: &[(OnFloor, &Entry)], site: &Site, ctx: &mut Lower) -> Together {
    let on_posts = |(_, entry): &&(OnFloor, &Entry)| entry.body().and_then(posts::said).is_some();
    let (own, others): (Vec<_>, Vec<_>) = all.iter().partition(on_posts);
    let Some((_, first)) = own.first() else { return Together::InRow };
    let several = own.len() > 1;
    // What hangs over a single one is placed by it, and what stands on one is told by itself.
    let stands = |entry: &Entry| entry.body().is_some_and(|own| own.says(words::case::ON));
    let mut beside = others
        .into_iter()
        .filter(|(kind, entry)| !stacked::is_placed(*kind, entry) || several && !stands(entry));
    let name = |entry: &Entry| entry.name().map_or("", |name| name.value).to_owned();
    if let Some((_, other)) = beside.next() {
        let span = first.body().and_then(posts::said).map_or(first.head, |said| said.head);
        ctx.sink.push(
            Diagnostic::error(
                "not-supported-yet",
                format!(
                    "{} stands on posts, and so {} can't be in the same file",
                    name(first),
                    name(other)
                ),
                span,
                "a case on posts is a piece of furniture by itself",
            )
            .label(other.head, "this does not stand on posts")
            .note("several cases on posts may stand in one file, each by itself; write what is built in or hangs in a file of its own"),
        );
    } else if let Some(keep_out) = site.keep_outs.first().filter(|_| several) {
        ctx.sink.push(
            Diagnostic::error(
                "not-supported-yet",
                format!("nothing says which of the pieces stands before the {}", keep_out.name),
                keep_out.span,
                "this is measured from the left side of a piece that stands alone",
            )
            .label(first.head, "this stands by itself, and so does what is beside it")
            .note("take the keep-out out, and let the pieces stand clear of it; or write the piece that stands before it in a file of its own"),
        );
    }
    if several { Together::Apart } else { Together::InRow }
}
