//! Written sizes that may give.

use std::collections::BTreeMap;

use crate::measure::{Exact, FileId, Length, Span, Tape};
use crate::model::{Boundary, Build, Case, Fronts, MemberKind, Opening, OpeningKind, Piece, Size};
use crate::pipeline::causes::holds;

use super::change::{Along, Change, Way};

/// A written size that may give.
#[derive(Debug)]
pub(super) struct Figure {
    /// What it is of.
    pub(super) what: String,
    /// Which way it runs.
    pub(super) along: Along,
    /// The word that it stands behind.
    pub(super) word: &'static str,
    /// What it is now.
    pub(super) length: Length,
    /// The statement.
    pub(super) span: Span,
    /// It is the width or height of an opening, or of a list of them.
    pub(super) is_of_opening: bool,
}

impl Figure {
    /// What would stand there if it were so much more; less where that is below nought.
    pub(super) fn changed_by(&self, tape: &Tape, more: Length) -> Change {
        let way = match (self.along.way(more.is_positive()), self.is_of_opening) {
            (Way::Lower, true) => Way::Shorter,
            (Way::Higher, true) => Way::Taller,
            (way, _) => way,
        };
        Change {
            what: self.what.clone(),
            way,
            by: more.abs(),
            span: self.span,
            text: format!("{} {}", self.word, tape.source(self.length + more)),
        }
    }
}

/// The sizes of cases that are written and may give, and those of what nobody sees.
pub(super) fn figures(piece: &Piece) -> impl Iterator<Item = Figure> {
    let mut all: BTreeMap<Span, Figure> = BTreeMap::new();
    let walls = [&piece.site.left, &piece.site.right];
    let is_between_walls = walls.iter().all(|side| matches!(side, Boundary::Wall { .. }));
    for case in &piece.cases {
        let own = [(Along::Deep, &case.deep), (Along::High, &case.high)];
        let own = own.into_iter().filter(|(along, _)| !has_another_in_line(piece, case, *along));
        let wide = (!is_between_walls).then_some((Along::Wide, &case.wide));
        let name = |span: Span| match case.run.and_then(|run| piece.run(run)) {
            Some(run) if !holds(case.span, span) => run.name.clone(),
            Some(_) | None => case.path.clone(),
        };
        for (along, size) in own.chain(wide) {
            if let Some(figure) = figure(piece, size, along, name) {
                all.entry(figure.span).or_insert(figure);
            }
        }
        let stretchers = case.top.as_ref().and_then(|top| top.stretchers.as_ref());
        let stretchers = stretchers.map(|(_, wide)| (wide, "the stretchers"));
        let nailers = Some((&case.nailers.wide, "the nailers"));
        for (size, what) in stretchers.into_iter().chain(nailers) {
            let name = |span| format!("{what} of {}", name(span));
            if let Some(figure) = figure(piece, size, Along::Wide, name) {
                all.entry(figure.span).or_insert(figure);
            }
        }
    }
    all.into_values()
}

/// The figure of a size that is written as such, in the spec itself and not in a file that
/// others use too.
fn figure(
    piece: &Piece,
    size: &Size,
    along: Along,
    name: impl Fn(Span) -> String,
) -> Option<Figure> {
    let mut terms = piece.facts.of(size).filter(|(_, factor)| *factor == Exact::ONE);
    let (fact, None) = (terms.next()?, terms.next()) else { return None };
    let (fact, _) = fact;
    let (word, span) = (fact.word?, fact.origin.span()?);
    let is_own = span.file == FileId::default() && fact.length == size.length;
    let length = fact.length;
    let own = || Figure { what: name(span), along, word, length, span, is_of_opening: false };
    is_own.then(own)
}

/// True where another case is as deep or as high by a figure of its own: they are in line.
fn has_another_in_line(piece: &Piece, case: &Case, along: Along) -> bool {
    let size = |case: &'_ Case| match along {
        Along::Wide => case.wide.clone(),
        Along::Deep => case.deep.clone(),
        Along::High => case.high.clone(),
    };
    let own = size(case);
    piece.cases.iter().any(|other| {
        let other = size(other);
        other.length == own.length && piece.facts.written(&other) != piece.facts.written(&own)
    })
}

/// The widths of the members of frames: outer ones, those between openings, and those of
/// framed fronts.
pub(super) fn members(piece: &Piece) -> impl Iterator<Item = Figure> {
    let mut all: BTreeMap<Span, Figure> = BTreeMap::new();
    for case in &piece.cases {
        let of_frame = case.frame.iter().flat_map(|frame| {
            frame.stiles.iter().chain(&frame.top).chain(&frame.bottom).map(|own| &own.wide)
        });
        let between = case.members.iter().filter(|own| match own.kind {
            MemberKind::Stile(_) | MemberKind::Rail(_) => true,
            // As thick as its stock.
            MemberKind::Divider(_) => false,
        });
        let own = case.openings.iter().filter_map(|opening| opening.front.as_ref());
        let of_fronts = own.chain(&case.fronts).flat_map(of_front);
        for size in of_frame.chain(between.map(|own| &own.wide)).chain(of_fronts) {
            let called = piece.facts.of(size).next().map(|(fact, _)| fact.name.clone());
            let name =
                |_| format!("the {} of {}", called.as_deref().unwrap_or_default(), case.path);
            if let Some(figure) = figure(piece, size, Along::Wide, name) {
                all.entry(figure.span).or_insert(figure);
            }
        }
    }
    all.into_values()
}

/// The widths and heights of openings, and of lists of them.
pub(super) fn openings(piece: &Piece) -> impl Iterator<Item = Figure> {
    let openings = piece.cases.iter().flat_map(|case| &case.openings);
    openings.flat_map(move |opening| {
        let sizes = [(Along::Wide, &opening.wide), (Along::High, &opening.high)];
        let sizes = sizes.into_iter().zip(opening.size_spans);
        sizes.filter_map(|((along, size), written)| {
            let figure = figure(piece, size, along, |_| called(opening))?;
            // That of another opening is told of that one.
            (written == Some(figure.span)).then_some(Figure { is_of_opening: true, ..figure })
        })
    })
}

/// What an opening is called in a list of changes. A list without a name has that of what it
/// stands in.
fn called(opening: &Opening) -> String {
    let path = &opening.path;
    match (&opening.kind, opening.named) {
        (OpeningKind::List(..), true) => format!("the list {path}"),
        (OpeningKind::List(..), false) => format!("a list of {path}"),
        (
            OpeningKind::Drawer { .. }
            | OpeningKind::Door(_)
            | OpeningKind::Doors
            | OpeningKind::Open
            | OpeningKind::False,
            _,
        ) => format!("the opening {path}"),
    }
}

/// The widths of the stiles and rails of a front.
fn of_front(fronts: &Fronts) -> Vec<&Size> {
    match &fronts.build {
        Build::Slab => Vec::new(),
        Build::Panel(own) => [&own.stile, &own.rail, &own.bottom]
            .into_iter()
            .chain(own.mids.iter().map(|mid| &mid.wide))
            .collect(),
    }
}

/// How deep a joint is let in, by its statement.
pub(super) fn depth(piece: &Piece, span: Span) -> Option<Figure> {
    let mut facts = piece.facts.all().filter(|fact| fact.origin.span() == Some(span));
    let fact = facts.next()?;
    let is_own = span.file == FileId::default();
    let word = fact.word.filter(|_| is_own)?;
    let what = format!("the {}", fact.name);
    let length = fact.length;
    Some(Figure { what, along: Along::Deep, word, length, span, is_of_opening: false })
}
