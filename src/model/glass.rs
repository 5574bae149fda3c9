//! Glass: what is said of it, and what can't be said of it.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::Span;
use crate::trade;
use crate::vocabulary::words::stock::{
    BOARDS, MIRROR, ON_HAND, SAWN, SHEET, SPECIES, StockKind, TEMPERED,
};
use crate::vocabulary::{Entries, Entry, Kinds, Origin, words};

use super::framed::Glazed;
use super::given::Given;
use super::id::StockId;
use super::insertion::Insertion;
use super::lower::Lower;
use super::read_case::Shared;
use super::size::Size;

/// What is said of glass.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Pane {
    /// One of its faces is silvered, and where that is said.
    pub mirror: Option<Span>,
    /// It is safety glass, and where that is said.
    pub tempered: Option<Span>,
}

/// What a stock of glass says of it; reported of all else, and so is in a stock of glass what
/// is for sheets and boards.
pub(super) fn pane(body: &Entries, kind: StockKind, ctx: &mut Lower) -> Pane {
    if kind != StockKind::Glass {
        for said in [MIRROR, TEMPERED].into_iter().filter_map(|word| body.one(word)) {
            ctx.sink.push(misplaced(said.entry, kind, "this is for glass", "take it out"));
        }
        return Pane::default();
    }
    let of_wood = [
        body.one(SHEET).map(|said| said.entry),
        body.one(ON_HAND).map(|said| said.entry),
        body.one(BOARDS).map(|said| said.entry),
        body.one(SPECIES).map(|said| said.entry),
        body.one(SAWN).map(|said| said.entry),
    ];
    for said in of_wood.into_iter().flatten() {
        let note = "take it out: a glazier cuts each pane to its size, so no sheet or board of it is bought or sawn";
        ctx.sink.push(misplaced(said, kind, "this is for wood", note));
    }
    Pane { mirror: body.flag(MIRROR), tempered: body.flag(TEMPERED) }
}

/// How the glass of a framed front is held, whose stiles and panels are of these stocks; nothing
/// where its panels are of wood, and `None` where something is reported.
pub(super) fn glazed(
    sizes: &Entries,
    [stile, panel]: [StockId; 2],
    (groove, reach): (&Size, &Size),
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Held> {
    use words::panel::{BEADS, GROOVE_WIDE, ROOM};

    let of = |id: StockId| shared.stocks.get(id.0);
    if !of(panel)?.is_glass() {
        let said = [
            sizes.one(GROOVE_WIDE).map(|said| said.entry),
            sizes.one(BEADS).map(|said| said.entry),
        ];
        for said in said.into_iter().flatten() {
            let word = said.word.word;
            let title = format!("`{word}` is for glass, and the panels are of {}", of(panel)?.name);
            let found = Diagnostic::error("not-supported-yet", title, said.head, "no glass here");
            ctx.sink.push(found.note(
                "take it out: a groove is as wide as its panel is thick, and the panel needs no beads",
            ));
        }
        return Some(Held::InGrooves);
    }
    let (beads, at) = match ctx.refer(sizes, BEADS, &shared.stock_names) {
        Given::Is(named) => (StockId(named.value), sizes.one(BEADS).map(|said| said.head)),
        Given::Absent => (stile, None),
        Given::Refused => return None,
    };
    if !of(beads)?.is_solid() {
        let name = &of(beads)?.name;
        let title = format!("the beads can't be of {name}, which is no lumber");
        let at = at.or_else(|| sizes.one(words::panel::PANEL_STOCK).map(|said| said.head))?;
        let found =
            Diagnostic::error("not-supported-yet", title, at, "beads are ripped from boards");
        ctx.sink.push(found.note("name a stock of `lumber` with `beads`"));
        return None;
    }
    let origin = Origin::Default { block: words::panel::BLOCK.name, word: BEADS.spelling() };
    let shy = ctx.facts.add(trade::bead_shy(ctx.tape.unit), "beads below the back", origin);
    Some(Held::ByBeads(Box::new(Glazed {
        groove_wide: ctx.positive(sizes, GROOVE_WIDE, "width of the grooves").known()?,
        groove_wide_at: Insertion::of(sizes, GROOVE_WIDE),
        beads,
        clear: groove - reach,
        clear_at: Insertion::of(sizes, ROOM),
        shy,
    })))
}

/// How the panels of a framed front are held.
pub(super) enum Held {
    /// In grooves all round.
    InGrooves,
    /// In a rabbet, by beads.
    ByBeads(Box<Glazed>),
}

impl Held {
    pub(super) fn glazed(self) -> Option<Glazed> {
        match self {
            Self::InGrooves => None,
            Self::ByBeads(glazed) => Some(*glazed),
        }
    }
}

fn misplaced(said: &Entry, kind: StockKind, what: &str, note: &str) -> Diagnostic {
    let word = said.word.word;
    let title = format!("`{word}` can't stand in a stock of {}", kind.spelling());
    let found = Diagnostic::error("not-supported-yet", title, said.head, what).note(note);
    // The span of a statement with braces is its head alone.
    match said.body() {
        Some(_) => found,
        None => found.fix(Fix::new(Grade::Choice, format!("take `{word}` out"), said.span, "")),
    }
}
