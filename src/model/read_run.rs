//! A run, read: what it hands down to its cases, and how wide each of them is.

use crate::diagnostics::Diagnostic;
use crate::measure::{Exact, Length, Unit};
use crate::vocabulary::words::{self, Stands};
use crate::vocabulary::{Entries, Entry, Origin, Side};

use super::blame;
use super::case::{Case, Exposure};
use super::countertop;
use super::cover;
use super::equations::{Known, Says, Sheet, Unknown};
use super::id::{CaseId, OpeningId, RunId, StockId};
use super::insertion::Insertion;
use super::layout::{Solution, Variable};
use super::level;
use super::limits::{self, MOST_CASES};
use super::lower::Lower;
use super::opening::{Axis, Item};
use super::openings::{Draft, Drafts};
use super::place::{Place, Width};
use super::quietly;
use super::read_case::{self, Shared};
use super::run::{CaseRun, Filler, Space};
use super::settle::settle;
use super::size::Size;
use super::size_names::SizeNames;
use super::solve_case;
use super::space;

/// Words of a run that say something of the run alone.
const ITS_OWN: [&str; 5] = [
    words::run::COVER.spelling(),
    words::run::WIDE.spelling(),
    words::run::ACROSS.spelling(),
    words::run::COUNTERTOP.spelling(),
    words::run::NOTE.spelling(),
];

/// The narrowest filler that lets a door beside a wall open and its pull pass: 1-1/2 in,
/// 38 mm (common practice, no source).
#[must_use]
pub(crate) fn least_filler(unit: Unit) -> Length {
    unit.either(Length::inches(3, 2), Length::mm(38))
}

/// Where a run stands among the cases of its piece.
pub(super) struct Stand {
    pub(super) id: RunId,
    /// The first of its cases.
    pub(super) first: CaseId,
    /// From the left side of the whole piece to its left side.
    pub(super) x: Size,
    /// What its two sides meet.
    pub(super) exposure: [Exposure; 2],
}

/// Where the width of a thing can be written anew.
fn free(body: &Entries) -> Option<Insertion> {
    let shares = body.says(words::run_case::SHARE) || body.says(words::run_case::SAME);
    (!shares).then(|| Insertion::of(body, words::run_case::WIDE))
}

/// What stands in a run.
struct Thing<'a> {
    kind: Stands,
    entry: &'a Entry,
    /// The statement of a case, with what the run hands down to it.
    case: Option<Entry>,
    /// What a space takes, and what stays clear.
    takes: Option<(Option<[Size; 2]>, Size)>,
    /// How much of a filler may come off at the wall.
    scribe: Option<Size>,
}

/// Reads and solves a run with all its cases; `None` where its widths can't be found
/// (reported).
pub(super) fn lower(
    entry: &Entry,
    stand: Stand,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<(CaseRun, Vec<Case>)> {
    let (body, name) = (entry.body()?, entry.name()?.value);
    let list = body.one(words::run::ACROSS)?;
    let things = things(body, list.body()?, &stand, ctx);
    if !things.iter().any(|thing| thing.kind == Stands::Case) {
        ctx.sink.push(
            Diagnostic::error(
                "list-empty",
                format!("the run `{name}` holds no case"),
                list.head,
                "a case belongs in these braces",
            )
            .note("for example, `case sink { share 1; … }`"),
        );
        return None;
    }
    let ends = [things.first(), things.last()].map(|end| end.map(|thing| thing.kind));
    cover::look_at_run(body, ends, ctx);
    if things.len() > MOST_CASES {
        ctx.sink.push(limits::too_many(MOST_CASES, "items in a run", list.head));
        return None;
    }
    if !complete((name, entry), &things, ctx) {
        ctx.go_on();
    }
    let widths = widths((entry, &list), &things, &stand, shared, ctx)?;
    let mut run = CaseRun {
        name: name.to_owned(),
        span: entry.head,
        x: stand.x.length,
        beside: stand.x.clone(),
        wide: widths.run,
        bases: Vec::new(),
        exposure: stand.exposure.clone(),
        countertop: countertop::of_run(body, &stand.exposure, shared, ctx),
        spaces: Vec::new(),
        back_at: Insertion::of(body, words::run::BACK),
        notes: body.notes(),
    };
    // What else takes a share of the run makes up for another width.
    let shares = things.iter().filter_map(|thing| thing.entry.body());
    let yields = !body.says(words::run::WIDE)
        || shares.filter(|own| own.says(words::run_case::SHARE)).count() > 0;
    let (mut cases, mut x) = (Vec::new(), stand.x.clone());
    let mut places: Vec<Length> = Vec::new();
    for (index, thing) in things.iter().enumerate() {
        let wide = widths.items.get(index)?.clone();
        places.push(x.length);
        if let Some(case) = &thing.case {
            let place = Place {
                id: CaseId(stand.first.0 + cases.len()),
                path: format!("{name}.{}", thing.name()),
                run: Some(stand.id),
                is_covered: countertop::lies_on(body, thing.entry),
                exposure: exposure(&things, index, &stand.exposure),
                level: level::beside(index, |at| things.get(at).is_some_and(is_level)),
                on: None,
                wide: Some(width(thing, &wide, ctx)),
            };
            countertop::loads_twice_in_run(body, case, place.is_covered, ctx);
            let mut case = solve_case::lower(case, place, shared, ctx)?;
            (case.x, case.beside) = (x.length, x.clone());
            cases.push((index, case));
        }
        x = x + &wide;
    }
    for (index, thing) in things.iter().enumerate() {
        let wide = widths.items.get(index)?.clone();
        match thing.kind {
            Stands::Case => {}
            Stands::Filler => {
                fill(&mut cases, (index, thing), (wide, yields), name, shared, ctx);
            }
            Stands::Space => {
                let (takes, clear) = thing.takes.clone()?;
                let body = thing.entry.body()?;
                let beside = cases.iter().filter(|(at, _)| at.abs_diff(index) == 1);
                let highest = beside.min_by_key(|(_, case)| case.high.length);
                run.spaces.push(Space {
                    name: thing.name().to_owned(),
                    path: format!("{name}.{}", thing.name()),
                    span: thing.entry.head,
                    x: places.get(index).copied().unwrap_or_default(),
                    wide,
                    wide_at: yields.then(|| free(body)).flatten(),
                    takes,
                    clear,
                    is_open: body.one(words::space::COUNTERTOP).is_some(),
                    high: highest.map(|(_, case)| case.high.clone()).unwrap_or_default(),
                    notes: body.notes(),
                });
            }
        }
    }
    Some((run, cases.into_iter().map(|(_, case)| case).collect()))
}

impl Thing<'_> {
    fn name(&self) -> &str {
        self.entry.name().map_or("", |name| name.value)
    }
}

/// Everything that stands in a run, left to right.
fn things<'a>(run: &Entries, list: &'a Entries, stand: &Stand, ctx: &mut Lower) -> Vec<Thing<'a>> {
    let entries = || list.in_order().filter_map(|entry| Some((entry.kind::<Stands>()?, entry)));
    let last = entries().count().saturating_sub(1);
    let mut things = Vec::new();
    for (at, (kind, entry)) in entries().enumerate() {
        let mut thing = Thing { kind, entry, case: None, takes: None, scribe: None };
        match kind {
            Stands::Case => {
                let own = entry.body().map(|own| own.below(run, &words::case::BLOCK, &ITS_OWN));
                let own = own.map(|own| cover::of_run(run, own, [at == 0, at == last]));
                thing.case = own.map(|own| entry.with(own));
            }
            Stands::Space => thing.takes = space::takes(entry, ctx),
            Stands::Filler => {
                let meets = [(0, Side::Left), (last, Side::Right)];
                let mut walls = meets.into_iter().filter(|(end, _)| *end == at);
                thing.scribe = walls.find_map(|(_, side)| match side.of(&stand.exposure) {
                    Exposure::Wall { scribe } => Some(scribe.clone()),
                    Exposure::Seen | Exposure::Neighbour => None,
                });
            }
        }
        things.push(thing);
    }
    same_names(&things, ctx);
    things
}

fn same_names(things: &[Thing<'_>], ctx: &mut Lower) {
    for (at, thing) in things.iter().enumerate() {
        let Some(name) = thing.entry.name() else { continue };
        let before = things.iter().take(at).filter_map(|other| other.entry.name());
        let mut same = before.filter(|other| other.value == name.value);
        if let Some(first) = same.next() {
            let title = format!("two things in the run are called `{}`", name.value);
            let label = "the second one with this name";
            ctx.sink.push(
                Diagnostic::error("name-twice", title, name.span, label)
                    .label(first.span, "the first one"),
            );
        }
    }
}

/// False where a case lacks what neither it nor the run says (reported).
fn complete((name, run): (&str, &Entry), things: &[Thing<'_>], ctx: &mut Lower) -> bool {
    let errors = ctx.sink.errors();
    let lacking = |lacks: &dyn Fn(&Entries) -> bool| -> Vec<&Thing<'_>> {
        let body =
            |thing: &&Thing<'_>| thing.case.as_ref().and_then(Entry::body).is_some_and(lacks);
        things.iter().filter(body).collect()
    };
    let all = things.iter().filter(|thing| thing.kind == Stands::Case).count();
    let asked = [
        (lacking(&|body| !body.says(words::case::DEEP)), words::case::DEEP.row()),
        (lacking(&|body| !body.says(words::case::FRAME)), words::case::FRAME.row()),
    ];
    for (lack, row) in asked {
        let word = row.word;
        // Openings that stand in the cases themselves have no frame around them.
        let none = run.body().filter(|_| word == words::case::FRAME.spelling()).map(|body| {
            let at = Insertion::of(body, words::run::FRAME);
            at.says("frame none", "cases without face frames")
        });
        let note = format!("for example, `{}` in the run, for all its cases", row.example);
        let mut report = |who: &str, at, label: String| {
            let title = format!("{who} needs `{word}`");
            let found = Diagnostic::error("word-missing", title, at, label);
            ctx.sink.push(match none.clone() {
                Some(none) => found.fix(none),
                None => found.note(note.clone()),
            });
        };
        if lack.len() == all {
            report(name, run.head, format!("neither this run nor its cases say `{word}`"));
            continue;
        }
        for thing in lack {
            let label = format!("neither this case nor its run says `{word}`");
            report(thing.name(), thing.entry.head, label);
        }
    }
    ctx.sink.errors() == errors
}

/// What the two sides of an item of a run meet.
fn exposure(things: &[Thing<'_>], index: usize, run: &[Exposure; 2]) -> [Exposure; 2] {
    let [left, right] = run;
    let first = index == 0;
    let last = index + 1 == things.len();
    [
        if first { left.clone() } else { Exposure::Neighbour },
        if last { right.clone() } else { Exposure::Neighbour },
    ]
}

/// True for what reaches as far forward as the fronts beside it.
fn is_level(thing: &Thing<'_>) -> bool {
    thing.kind == Stands::Filler || thing.case.as_ref().is_some_and(level::is_level)
}

/// The width of a case as its own equations take it: as a figure of its own where it is
/// one, so that it can be changed there.
fn width(thing: &Thing<'_>, wide: &Size, ctx: &Lower) -> Width {
    let own = thing.entry.body().and_then(|body| body.size(words::run_case::WIDE));
    let plain = match wide.terms() {
        [(fact, factor)] if *factor == Exact::ONE => ctx.facts.get(*fact),
        _ => None,
    };
    let word = plain.and_then(|fact| fact.word).filter(|_| own.is_some());
    let span = own.map_or(thing.entry.head, |own| own.span);
    Width { size: wide.clone(), word, span }
}

/// The width of a run and of everything in it.
struct Widths {
    run: Size,
    items: Vec<Size>,
}

fn widths(
    (entry, list): (&Entry, &Entry),
    things: &[Thing<'_>],
    stand: &Stand,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Widths> {
    let (body, name) = (entry.body()?, entry.name()?.value);
    let errors = ctx.sink.errors();
    let mut sheet = Sheet::default();
    let unknown = |name: &str, entry: &Entry, list| {
        let open = entry.body().map(|body| body.open);
        Unknown { name: name.to_owned(), axis: Axis::Across, span: entry.head, list, open }
    };
    let whole = sheet.variable(unknown(name, entry, None));
    let mut names = SizeNames::of_widths();
    names.add(name, whole, whole);
    let root = draft(list, name.to_owned(), None, Some(Axis::Across), whole);
    let mut drafts =
        Drafts { openings: vec![root], members: Vec::<_>::new(), names, sheet, of_run: true };
    for (at, thing) in (1..).zip(things) {
        let path = format!("{name}.{}", thing.name());
        let wide = drafts.sheet.variable(unknown(thing.name(), thing.entry, Some(0)));
        drafts.names.add(&path, wide, wide);
        drafts.openings.push(draft(thing.entry, path, Some(0), None, wide));
        let item = Item::Opening(OpeningId { case: stand.first, at });
        drafts.openings[0].items.push(item);
    }
    fill_run(&mut drafts, whole, list);
    drafts.fix(body, words::run::WIDE, whole, "wide", None, ctx);
    for (at, thing) in (1..).zip(things) {
        let wide = drafts.openings[at].wide;
        state(&mut drafts, wide, thing, stand, shared, ctx);
    }
    drafts.shares(0, ctx);
    // A width that could not be read would only be asked for again.
    if ctx.sink.errors() > errors {
        ctx.go_on();
        ctx.made_up = true;
    }
    let solution = drafts.sheet.system.solve();
    blame::report(&drafts, &solution, ctx);
    let settled = (!solution.is_clean()).then(|| settle(&drafts.sheet, &solution));
    if settled.is_some() {
        ctx.go_on();
        ctx.made_up = true;
    }
    let shown: &Solution = settled.as_ref().and_then(|own| own.drawn.as_ref()).unwrap_or(&solution);
    let size = |variable| drafts.sheet.size(shown, variable);
    let items: Option<Vec<Size>> =
        drafts.openings.iter().skip(1).map(|draft| size(draft.wide)).collect();
    Some(Widths { run: size(whole)?, items: items? })
}

fn draft<'a>(
    entry: &'a Entry,
    path: String,
    parent: Option<usize>,
    list: Option<Axis>,
    wide: Variable,
) -> Draft<'a> {
    Draft {
        entry,
        path,
        parent,
        list,
        leaf: None,
        items: Vec::new(),
        on_wood: false,
        behind: None,
        fills: list.is_some(),
        wide,
        high: wide,
    }
}

/// What stands in a run fills it.
fn fill_run(drafts: &mut Drafts<'_>, whole: Variable, list: &Entry) {
    let items = drafts.openings.iter().skip(1).map(|draft| (draft.wide, Exact::ONE));
    let terms = std::iter::once((whole, -Exact::ONE)).chain(items).collect();
    let says = Says::Fills(0);
    let known = Known { says, span: Some(list.head), constant: Length::ZERO, facts: Vec::new() };
    drafts.sheet.equation(terms, Length::ZERO, known);
}

/// What a thing in a run says of its width, or what follows where it says nothing.
fn state<'a>(
    drafts: &mut Drafts<'a>,
    wide: Variable,
    thing: &Thing<'a>,
    stand: &Stand,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) {
    use words::run_case::{SAME, SHARE, WIDE};

    let name = thing.name();
    let empty = ctx.empty(&words::filler::BLOCK);
    let body = thing.entry.body().unwrap_or(&empty);
    drafts.fix(body, WIDE, wide, name, Some(0), ctx);
    if body.says(WIDE) || body.says(SHARE) || body.says(SAME) {
        return;
    }
    let follows = match thing.kind {
        Stands::Case => own_width(thing, stand, shared, ctx),
        Stands::Filler => {
            let least = least_filler(ctx.tape.unit);
            let usual = Origin::Default { block: words::filler::BLOCK.name, word: WIDE.spelling() };
            let least = ctx.facts.add(least, "least width of a filler", usual);
            Some(least + thing.scribe.clone().unwrap_or_default())
        }
        Stands::Space => thing
            .takes
            .as_ref()
            .and_then(|(takes, clear)| takes.as_ref().map(|[wide, _]| wide + clear + clear)),
    };
    if let Some(size) = follows {
        let says = Says::Fixed { name: name.to_owned(), list: Some(0), word: None };
        drafts.sheet.settle(wide, &size, says, thing.entry.head);
    }
}

/// The width of a case that follows from its own openings; nothing is reported, since
/// the case is solved once more where it stands.
fn own_width(
    thing: &Thing<'_>,
    stand: &Stand,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Size> {
    let place = Place {
        id: stand.first,
        path: thing.name().to_owned(),
        run: Some(stand.id),
        is_covered: false,
        exposure: [Exposure::Neighbour, Exposure::Neighbour],
        level: [false; 2],
        on: None,
        wide: None,
    };
    quietly::quietly(thing.case.as_ref()?, place, shared, ctx).map(|case| case.wide)
}

/// Gives a filler to the case whose end it is fastened to.
fn fill(
    cases: &mut [(usize, Case)],
    (index, thing): (usize, &Thing<'_>),
    (wide, yields): (Size, bool),
    run: &str,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) {
    let at = |place: Option<usize>| cases.iter().position(|(at, _)| Some(*at) == place);
    let (before, behind) = (at(index.checked_sub(1)), at(index.checked_add(1)));
    let held = before.map(|at| (at, Side::Right)).or(behind.map(|at| (at, Side::Left)));
    let name = thing.name();
    let Some((at, side)) = held else {
        ctx.sink.push(
            Diagnostic::error(
                "filler-unheld",
                format!("nothing holds the filler {name}, because no case is beside it"),
                thing.entry.head,
                "no case at its left or its right",
            )
            .subject(format!("{run}.{name}"))
            .note("put it beside a case, or leave it out"),
        );
        return;
    };
    let Some((_, case)) = cases.get_mut(at) else { return };
    let fronts = case.fronts.as_ref().map(|fronts| fronts.stock);
    let fallback: Option<StockId> = fronts.or(Some(case.ends[0].stock));
    let empty = ctx.empty(&words::filler::BLOCK);
    let body = thing.entry.body().unwrap_or(&empty);
    let what = format!("the filler {name}");
    let Some(stock) = read_case::stock(body, fallback, &what, thing.entry.head, shared, ctx) else {
        return;
    };
    case.fillers.push(Filler {
        side,
        name: name.to_owned(),
        run: run.to_owned(),
        span: thing.entry.head,
        wide,
        wide_at: yields.then(|| free(body)).flatten(),
        scribe: thing.scribe.clone(),
        stock,
        batten: ctx.size_or_zero(body, words::filler::BATTEN, "batten of a filler"),
        notes: body.notes(),
    });
}
