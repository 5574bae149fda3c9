//! Finished panels over the outer faces of ends.

use crate::diagnostics::Diagnostic;
use crate::measure::Span;
use crate::vocabulary::{Entries, Said, Seam, Side, words};

use super::case::{Case, End, Exposure};
use super::edging::{self, Edged};
use super::id::StockId;
use super::lower::Lower;
use super::read_case::{self, Shared};
use super::seams;
use super::size::Size;

/// A panel over the outside of an end.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cover {
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

/// The covers of a case, left and right.
pub(super) fn read(
    case: &Entries,
    fallback: Option<StockId>,
    ends: Option<&[End; 2]>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> [Option<Cover>; 2] {
    seams::twice(words::case::COVER, case, ctx);
    Side::BOTH.map(|side| {
        let said = case.all(words::case::COVER).find(|cover| cover.is(side))?;
        let body = Said::body(said)?;
        let what = format!("the {} cover", side.word());
        let stock = read_case::stock(body, fallback, &what, said.head, shared, ctx)?;
        let refused = match shared.stocks.get(stock.0).is_some_and(super::Stock::is_solid) {
            true => {
                Some(("solid wood moves across an end that does not", "make it of sheet goods"))
            }
            false => ends
                .filter(|ends| side.of(ends).seam == Seam::Miter)
                .map(|_| ("the end is mitered to its stile", "take out the miter, or the cover")),
        };
        if let Some((why, mend)) = refused {
            let title = format!("{what} can't go on its end");
            let found = Diagnostic::error("not-supported-yet", title, said.head, why);
            ctx.sink.push(found.note(mend));
            return None;
        }
        Some(Cover {
            stock,
            thick: shared.thickness(stock),
            edges: edging::read(body, words::cover::EDGES, shared, ctx),
            scribe: ctx.size(body, words::cover::SCRIBE, &format!("{what} scribe"))?,
            scribe_at: body.one(words::cover::SCRIBE).map(|said| said.head),
            span: said.head,
            notes: body.notes(),
        })
    })
}

/// Reports a scribe of covers that don't reach the floor, where no wall is behind them.
pub(super) fn unscribed(covers: &[Option<Cover>; 2], shared: &Shared<'_>, ctx: &mut Lower) {
    let written = covers.iter().flatten().filter_map(|cover| cover.scribe_at);
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
    fillers: [bool; 2],
) -> ([Size; 2], [bool; 2]) {
    let own = |side: Side| side.of(covers).as_ref().filter(|_| frameless);
    let size = |side: Side| {
        let cover = own(side).map(|cover| cover.thick.clone());
        side.of(exposure).scribe() + cover.unwrap_or_default()
    };
    let beside = |side: Side| *side.of(&fillers) || own(side).is_some();
    (Side::BOTH.map(size), Side::BOTH.map(beside))
}

impl Case {
    /// How far an end of the carcass lies inside the side of the case: by what is scribed
    /// off its stile, or by the cover over it.
    #[must_use]
    pub fn set_in(&self, side: Side) -> Size {
        let cover = side.of(&self.covers).as_ref().map(|cover| &cover.thick);
        side.of(&self.exposure).scribe() + cover.cloned().unwrap_or_default()
    }
}
