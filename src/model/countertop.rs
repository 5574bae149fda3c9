//! What is laid on top of a case.

use crate::diagnostics::Diagnostic;
use crate::measure::Span;
use crate::vocabulary::{Entries, Entry, HowHeld, Said, Side, Word, takes, words};

use super::carries::{self, Carries};
use super::case::Exposure;
use super::edging::{self, Edged};
use super::given::Given;
use super::hole::{self, Hole, Through};
use super::id::{FinishId, StockId};
use super::insertion::Insertion;
use super::lower::Lower;
use super::read_case::{self, Shared};
use super::size::Size;

/// How far a countertop reaches past its case.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Over {
    /// Before the foremost face.
    pub front: Size,
    /// Behind the back.
    pub back: Size,
    /// Past the left and the right side.
    pub sides: [Size; 2],
}

/// A countertop.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Countertop {
    /// Its finish, where it names one; else that of the case.
    pub finish: Option<FinishId>,
    /// Its stock.
    pub stock: StockId,
    /// How far it reaches past the case.
    pub over: Over,
    /// How it is held.
    pub held: HowHeld,
    /// Where that is said, or would be.
    pub held_at: Insertion,
    /// What its free edges are covered with.
    pub edges: Edged,
    /// The holes through it.
    pub holes: Vec<Hole>,
    /// What stands on it, where it says so.
    pub carries: Option<Carries>,
    /// The statement.
    pub span: Span,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

/// What is laid on the cases of a run, which meets this at its sides.
pub(super) fn of_run(
    run: &Entries,
    exposure: &[Exposure; 2],
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Countertop> {
    let entry = run.one(words::run::COUNTERTOP)?;
    let own = match read_case::named(run, shared, ctx) {
        Given::Is(stock) => Some(stock),
        Given::Absent => None,
        Given::Refused => return None,
    };
    read(&entry, own, exposure, shared, ctx)
}

/// True where the countertop of a run lies on a case of it: one with a height of its own
/// parts it.
pub(super) fn lies_on(run: &Entries, case: &Entry) -> bool {
    let own = case.body().is_some_and(|own| own.says(words::run_case::HIGH));
    run.says(words::run::COUNTERTOP) && !own
}

/// Reports what stands on a countertop where the top under it says it, too.
pub(super) fn loads_twice(case: &Entries, countertop: Option<&Entries>, ctx: &mut Lower) {
    let own = countertop.and_then(|own| own.one(words::countertop::LOAD));
    let under = case.one(words::case::TOP).and_then(|top| top.body()?.one(words::top::LOAD));
    if let Some((own, under)) = own.zip(under) {
        let title = "the load on the countertop is written for it and again for the top under it";
        let found = Diagnostic::error("word-twice", title, under.head, "take out one of the two");
        ctx.sink.push(found.label(own.head, "written for the countertop here"));
    }
}

/// The same of a case under the countertop of its run.
pub(super) fn loads_twice_in_run(run: &Entries, case: &Entry, covered: bool, ctx: &mut Lower) {
    let over = run.one(words::run::COUNTERTOP).filter(|_| covered);
    if let (Some(over), Some(case)) = (over, case.body()) {
        loads_twice(case, over.body(), ctx);
    }
}

/// Reads the countertop of a case that meets this at its sides, with what its stock is
/// unless it says so.
pub(super) fn read(
    entry: &Entry,
    fallback: Option<StockId>,
    exposure: &[Exposure; 2],
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Countertop> {
    use words::countertop::{EDGES, HELD, LOAD, OVER};
    use words::over::{BACK, FRONT, LEFT, RIGHT};

    let body = entry.body()?;
    let stock = read_case::stock(body, fallback, "the countertop", entry.head, shared, ctx)?;
    let solid = shared.stocks.get(stock.0).is_some_and(super::Stock::is_solid);
    let said = body.get(HELD);
    let held = said.as_ref().map(|held| held.value);
    if held == Some(HowHeld::Slots) && !solid {
        ctx.sink.push(
            Diagnostic::error(
                "not-supported-yet",
                "a countertop of sheet goods needs no slots",
                said.map_or(entry.head, |held| held.span_or(entry.head)),
                "a sheet does not move across its grain",
            )
            .note("write `held screw`, or leave `held` out"),
        );
        return None;
    }
    let empty = ctx.empty(&words::over::BLOCK);
    let by = body.one(OVER);
    let edges = by.and_then(Said::body).unwrap_or(&empty);
    let mut reach = |word: Word<takes::Length>, name: &str, free: bool| match (
        edges.says(word),
        free,
        body.says(OVER),
    ) {
        (true, ..) | (false, true, false) => ctx.size_or_zero(edges, word, name),
        (false, true, true) => ctx.size_or_zero(body, OVER, name),
        (false, false, _) => Size::zero(),
    };
    let seen = |side: Side| matches!(side.of(exposure), Exposure::Seen);
    let over = Over {
        front: reach(FRONT, "countertop over the front", true),
        back: reach(BACK, "countertop over the back", !shared.fixed),
        sides: [
            reach(LEFT, "countertop over the left side", seen(Side::Left)),
            reach(RIGHT, "countertop over the right side", seen(Side::Right)),
        ],
    };
    Some(Countertop {
        finish: read_case::own_finish(body, words::countertop::FINISH, shared, ctx),
        stock,
        over,
        held: held.unwrap_or(if solid { HowHeld::Slots } else { HowHeld::Screw }),
        held_at: Insertion::of(body, HELD),
        edges: edging::read(body, EDGES, shared, ctx),
        holes: hole::read(body, Through::Lying, ctx),
        carries: carries::of(body, LOAD).filter(|own| own.written.is_some()),
        span: entry.head,
        notes: body.notes(),
    })
}
