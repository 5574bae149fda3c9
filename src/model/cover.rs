//! Finished panels over the sides of cases that are seen.

use crate::diagnostics::Diagnostic;
use crate::measure::{Length, Span};
use crate::vocabulary::words::Stands;
use crate::vocabulary::{Covered, Entries, Said, Seam, Side, words};

use super::case::{Case, End, Exposure};
use super::edging::{self, Edged};
use super::id::{CaseId, FinishId, StockId};
use super::lower::Lower;
use super::piece::Piece;
use super::read_case::{self, Shared};
use super::seams;
use super::size::Size;

/// A panel over a side of a case.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cover {
    /// Its finish, where it names one; else that of the case.
    pub finish: Option<FinishId>,
    /// Its stock.
    pub stock: StockId,
    /// How thick it is: so far the case lies in behind it.
    pub thick: Size,
    /// What its front edge is covered with.
    pub edges: Edged,
    /// How far it is left longer at the floor, and wider at the wall, than it is drawn.
    pub scribe: Size,
    /// The statement that says so.
    pub scribe_at: Option<Span>,
    /// The statement.
    pub span: Span,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

/// The panels over the sides of a case.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Covers {
    /// Over its ends, left and right.
    pub ends: [Option<Cover>; 2],
    /// Over its back.
    pub back: Option<Cover>,
    /// Under it.
    pub under: Option<Cover>,
}

impl Covers {
    /// Each with its side.
    pub fn all(&self) -> impl Iterator<Item = (Covered, &Cover)> {
        let [left, right] = &self.ends;
        let all = [
            (Covered::Back, &self.back),
            (Covered::Left, left),
            (Covered::Right, right),
            (Covered::Under, &self.under),
        ];
        all.into_iter().filter_map(|(side, cover)| Some((side, cover.as_ref()?)))
    }

    /// How thick the one over the back is; nought without.
    #[must_use]
    pub fn behind(&self) -> Size {
        self.back.as_ref().map(|cover| cover.thick.clone()).unwrap_or_default()
    }

    /// How thick the one under the case is; nought without.
    #[must_use]
    pub fn below(&self) -> Size {
        self.under.as_ref().map(|cover| cover.thick.clone()).unwrap_or_default()
    }
}

/// What a cover is called: `left cover`.
#[must_use]
pub fn cover_told(side: Covered) -> &'static str {
    match side {
        Covered::Left => "left cover",
        Covered::Right => "right cover",
        Covered::Back => "back cover",
        Covered::Under => "bottom cover",
    }
}

/// The covers of a case.
pub(super) fn read(
    case: &Entries,
    fallback: Option<StockId>,
    ends: Option<&[End; 2]>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Covers {
    seams::twice(words::case::COVER, case, ctx);
    let mut one = |side| cover(side, (case, fallback, ends), shared, ctx);
    Covers {
        ends: [one(Covered::Left), one(Covered::Right)],
        back: one(Covered::Back),
        under: one(Covered::Under),
    }
}

/// Hands the covers of a run down to one of its cases: that over its back, and over an end
/// where the case stands there. What the case says itself holds.
pub(super) fn of_run(run: &Entries, mut case: Entries, is_at: [bool; 2]) -> Entries {
    let ends = [Covered::Left, Covered::Right].into_iter().zip(is_at);
    let ends = ends.filter(|(_, is_there)| *is_there).map(|(side, _)| side);
    for side in ends.chain([Covered::Back]) {
        let says = case.all(words::case::COVER).any(|own| own.is(side));
        let written = run.all(words::run::COVER).find(|own| own.is(side));
        if let Some(written) = written.filter(|_| !says) {
            case.add(written.entry.clone());
        }
    }
    case
}

/// Reports covers of a run that are written twice, or that go over nothing.
pub(super) fn look_at_run(run: &Entries, ends: [Option<Stands>; 2], ctx: &mut Lower) {
    seams::twice(words::run::COVER, run, ctx);
    let [left, right] = ends.map(|end| end == Some(Stands::Case));
    for (side, is_there, why) in [
        (Covered::Left, left, "no case stands at this end of the run"),
        (Covered::Right, right, "no case stands at this end of the run"),
        (Covered::Under, false, "the cases of a run don't hang"),
    ] {
        let written = run.all(words::run::COVER).find(|own| own.is(side));
        let Some(said) = written.filter(|_| !is_there) else { continue };
        let title = format!("the {} of the run has nothing to lie on", cover_told(side));
        let found = Diagnostic::error("not-supported-yet", title, said.head, why);
        ctx.sink.push(found.note("take the cover out"));
    }
}

fn cover(
    side: Covered,
    (case, fallback, ends): (&Entries, Option<StockId>, Option<&[End; 2]>),
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Cover> {
    let said = case.all(words::case::COVER).find(|cover| cover.is(side))?;
    let body = Said::body(said)?;
    let what = format!("the {}", cover_told(side));
    let stock = read_case::stock(body, fallback, &what, said.head, shared, ctx)?;
    let end = match side {
        Covered::Left => ends.map(|[left, _]| left),
        Covered::Right => ends.map(|[_, right]| right),
        Covered::Back | Covered::Under => None,
    };
    let refused = match shared.stocks.get(stock.0).is_some_and(super::Stock::is_solid) {
        true => Some(("solid wood moves across a board that does not", "make it of sheet goods")),
        false => end
            .filter(|end| end.seam == Seam::Miter)
            .map(|_| ("the end is mitered to its stile", "take out the miter, or the cover")),
    };
    if let Some((why, mend)) = refused {
        let on = match side {
            Covered::Left | Covered::Right => "its end",
            Covered::Back => "the back",
            Covered::Under => "the bottom",
        };
        let title = format!("{what} can't go on {on}");
        let found = Diagnostic::error("not-supported-yet", title, said.head, why);
        ctx.sink.push(found.note(mend));
        return None;
    }
    Some(Cover {
        finish: read_case::own_finish(body, words::cover::FINISH, shared, ctx),
        stock,
        thick: shared.thickness(stock),
        edges: edging::read(body, words::cover::EDGES, shared, ctx),
        scribe: ctx.size(body, words::cover::SCRIBE, &format!("{what} scribe"))?,
        scribe_at: body.one(words::cover::SCRIBE).map(|said| said.head),
        span: said.head,
        notes: body.notes(),
    })
}

/// Reports a scribe of covers that don't reach the floor, where no wall is behind them.
pub(super) fn unscribed(covers: &Covers, shared: &Shared<'_>, ctx: &mut Lower) {
    let written = covers.all().filter_map(|(_, cover)| cover.scribe_at);
    for at in written.filter(|_| !shared.fixed) {
        ctx.sink.push(
            Diagnostic::error(
                "not-supported-yet",
                "nothing is scribed of this cover",
                at,
                "it meets neither the floor nor a wall",
            )
            .note("take `scribe` out"),
        );
    }
}

/// How much of each side of a case lies beyond what its fronts may cover: what may come off
/// its stile at a wall, or the cover of a frameless case; and at which side its fronts keep
/// their gap to something level with them.
pub(super) fn beyond(
    exposure: &[Exposure; 2],
    covers: &[Option<Cover>; 2],
    frameless: bool,
    level: [bool; 2],
) -> ([Size; 2], [bool; 2]) {
    let own = |side: Side| side.of(covers).as_ref().filter(|_| frameless);
    let size = |side: Side| {
        let cover = own(side).map(|cover| cover.thick.clone());
        side.of(exposure).scribe() + cover.unwrap_or_default()
    };
    let beside = |side: Side| *side.of(&level) || own(side).is_some();
    (Side::BOTH.map(size), Side::BOTH.map(beside))
}

impl Case {
    /// How far an end of the carcass lies inside the side of the case: by what is scribed
    /// off its stile, or by the cover over it.
    #[must_use]
    pub fn set_in(&self, side: Side) -> Size {
        let cover = side.of(&self.covers.ends).as_ref().map(|cover| &cover.thick);
        side.of(&self.exposure).scribe() + cover.cloned().unwrap_or_default()
    }
}

impl Piece {
    /// The cases that each panel over backs lies on, from the left: those of a run share
    /// one where they are as high and a sheet is large enough, and it is parted at a joint
    /// between two of them.
    #[must_use]
    pub fn back_covers(&self) -> Vec<Vec<CaseId>> {
        let mut rows: Vec<Vec<&Case>> = Vec::new();
        for case in self.cases.iter().filter(|case| case.covers.back.is_some()) {
            match rows.last_mut().filter(|row| self.share_back(row, case)) {
                Some(row) => row.push(case),
                None => rows.push(vec![case]),
            }
        }
        rows.into_iter().map(|row| row.into_iter().map(|case| case.id).collect()).collect()
    }

    /// The cases that share the panel over the back of one, that among them; none without.
    #[must_use]
    pub fn back_cover_of(&self, case: CaseId) -> Vec<CaseId> {
        let mut rows = self.back_covers().into_iter();
        rows.find(|row| row.contains(&case)).unwrap_or_default()
    }

    /// True where the panel over the backs of a row goes on over the next case.
    fn share_back(&self, row: &[&Case], next: &Case) -> bool {
        let Some(first) = row.first() else { return false };
        let (Some(own), Some(cover)) = (&first.covers.back, &next.covers.back) else {
            return false;
        };
        let alike = own.span == cover.span
            && first.run.is_some()
            && first.run == next.run
            && first.high.length == next.high.length
            && first.base_high().length == next.base_high().length;
        let wide = next.x + next.wide.length - first.x;
        alike && self.fits_on_sheet(cover, wide, next.high.length)
    }

    fn fits_on_sheet(&self, cover: &Cover, wide: Length, high: Length) -> bool {
        let high = high + cover.scribe.length;
        let size = [wide.max(high), wide.min(high)];
        self.stock(cover.stock).is_none_or(|stock| stock.holds(self.shop.edge_trim, size))
    }
}
