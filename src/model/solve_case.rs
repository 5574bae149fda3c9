//! A case: its outer sizes and its openings as one set of equations, solved.

use crate::diagnostics::Diagnostic;
use crate::measure::{Exact, Length, Span};
use crate::vocabulary::{Entries, Entry};

use super::case::{Case, End, Exposure, JointKind, Side};
use super::equations::{Known, Says, Sheet, Unknown};
use super::frame::{Frame, OuterMember};
use super::layout::Variable;
use super::limits::{self, MOST_OPENINGS};
use super::lower::Lower;
use super::opening::Axis;
use super::openings::{Context, Drafts};
use super::read_case::{self, Shared};
use super::size::Size;
use super::size_names::SizeNames;
use super::stock::StockId;

/// The outer sizes of a case while they are unknown.
struct Outer {
    wide: Variable,
    high: Variable,
    base: Option<Variable>,
    /// Left and right: stiles, or the ends of a frame-less case.
    sides: [Variable; 2],
    /// Bottom and top: rails, or the boards of a frame-less case.
    below: Option<Variable>,
    above: Option<Variable>,
}

pub(super) fn lower(
    entry: &Entry,
    exposure: [Exposure; 2],
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Case> {
    let body = entry.body()?;
    let name = entry.text(0)?.value;
    let fallback = ctx.refer(body, "stock", &shared.stock_names).map(|index| StockId(index.value));
    if fallback.is_none() && body.one("stock").is_some() {
        // Every board would lack what was just found missing.
        return None;
    }
    let ends = read_case::ends(body, entry.head, fallback, shared, ctx);
    if fallback.is_none() && ends.is_none() {
        return None;
    }
    let into = ends.as_ref().map(|ends| shared.thickness(ends[0].stock)).unwrap_or_default();
    // What a board does not say, the case says; else it is as the ends are.
    let fallback = fallback.or_else(|| ends.as_ref().map(|ends| ends[1].stock));
    let fronts = body.one("fronts").map(|fronts| read_case::fronts(fronts, None, shared, ctx));
    let drawers = body.one("drawers").map(|drawers| read_case::drawers(drawers, shared, ctx));
    let partitions = body.one("partitions").map(|partitions| {
        read_case::board(partitions, JointKind::Dado, &into, fallback, "partitions", shared, ctx)
    });
    let bottom = body.one("bottom").map(|b| read_case::bottom(b, &into, fallback, shared, ctx));
    let back = body.one("back").map(|back| {
        read_case::board(back, JointKind::Rabbet, &into, fallback, "back", shared, ctx)
    });
    let top = body.one("top").map(|top| read_case::top(top, &into, fallback, shared, ctx));
    let legs = read_case::legs(body, fallback, shared, ctx);
    let shelves = read_case::shelves(body, entry.head, &into, fallback, shared, ctx);
    let finish = ctx.refer(body, "finish", &shared.finishes).map(|finish| finish.value);
    let deep = ctx.positive(body, "deep", &format!("{name} deep"));
    let deep_span = body.length("deep").map_or(entry.head, |deep| deep.span_or(entry.head));

    let frame_entry = body.one("frame")?;
    let frameless = frame_entry.text(0).is_some_and(|word| word.value == "none");
    let frame_body = frame_entry.body();
    let list = list(body, frame_body, frameless, frame_entry, ctx)?;
    // A block at fault was reported; the openings would only repeat it.
    let (fronts, drawers, partitions) = (flat(fronts)?, flat(drawers)?, flat(partitions)?);
    let (bottom, back, top, ends) = (flat(bottom)?, flat(back)?, flat(top)?, ends?);

    let context = Context {
        case: name,
        frameless,
        fronts: fronts.as_ref(),
        drawers: drawers.as_ref(),
        partitions: partitions.as_ref(),
        stock: fallback,
        shared,
    };
    let errors = ctx.sink.errors();
    let mut sheet = Sheet::default();
    let outer =
        outer(&mut sheet, entry, body, frame_body, frameless, top.is_some(), bottom.is_some());
    let mut names = SizeNames::default();
    names.add(name, outer.wide, outer.high);
    let mut drafts = Drafts::read(list, sheet, names, &context, ctx);
    if let Some(draft) = drafts.openings.get(MOST_OPENINGS) {
        let what = format!("openings in {name}");
        ctx.sink.push(limits::too_many(MOST_OPENINGS, &what, draft.entry.head));
        return None;
    }
    fix_outer(&mut drafts, &outer, entry, body, frame_body, ctx);
    if frameless {
        let span = entry.head;
        let sides = [("left end", &ends[0]), ("right end", &ends[1])];
        for ((name, end), variable) in sides.into_iter().zip(outer.sides) {
            drafts.sheet.fix_to(variable, &shared.thickness(end.stock), name, None, end.span);
        }
        if let (Some(variable), Some(bottom)) = (outer.below, &bottom) {
            drafts.sheet.fix_to(
                variable,
                &shared.thickness(bottom.board.stock),
                "bottom",
                None,
                bottom.board.span,
            );
        }
        if let (Some(variable), Some(top)) = (outer.above, &top) {
            drafts.sheet.fix_to(
                variable,
                &shared.thickness(top.board.stock),
                "top",
                None,
                top.board.span,
            );
        }
        if exposure.iter().any(|side| !side.scribe().length.is_zero()) {
            ctx.sink.push(
                Diagnostic::error(
                    "not-supported-yet",
                    "a frame-less case has no stile to scribe to the wall",
                    span,
                    "no scribe without a frame",
                )
                .note("write `wall { scribe 0 }` and close the gap with a filler of your own, or give the case a frame"),
            );
        }
    }
    leaves(&mut drafts, &outer, entry.head);

    // A size that could not be read would only be asked for again.
    if ctx.sink.errors() > errors {
        return None;
    }

    let solution = drafts.sheet.system.solve();
    let size = |variable| drafts.sheet.size(&solution, variable);
    let wide = size(outer.wide);
    let high = size(outer.high);
    let base_high = outer.base.and_then(&size);
    let sides = outer.sides.map(&size);
    let below = outer.below.and_then(&size);
    let above = outer.above.and_then(&size);
    let at_left = sides[0].clone().map(|side| side.length);
    let at_below =
        base_high.clone().unwrap_or_default().length + below.clone().unwrap_or_default().length;
    let origin = at_left.map(|at_left| (at_left, at_below));
    let placed = drafts.finish(&solution, origin, &context, ctx);

    let base = match body.one("base") {
        Some(base) => Some(read_case::base(base, base_high?, fallback, shared, ctx)?),
        None => None,
    };
    let frame = match frame_body.filter(|_| !frameless) {
        Some(frame) => {
            let [left, right] = sides;
            Some(self::frame(frame_entry, frame, [left?, right?], above, below, shared, ctx)?)
        }
        None => None,
    };
    let (openings, members) = placed?;
    Some(Case {
        name: name.to_owned(),
        span: entry.head,
        x: Length::ZERO,
        wide: wide?,
        deep: deep?,
        high: high?,
        deep_span,
        exposure,
        base,
        ends: seamed(ends, frame.as_ref()),
        bottom,
        back,
        top,
        partitions,
        shelves,
        legs,
        frame,
        openings,
        members,
        fronts,
        drawers,
        finish,
        notes: body.notes(),
    })
}

/// A block that stands must be sound; one that does not stand is no fault.
fn flat<T>(read: Option<Option<T>>) -> Option<Option<T>> {
    match read {
        None => Some(None),
        Some(Some(sound)) => Some(Some(sound)),
        Some(None) => None,
    }
}

/// The root list: in the frame, or in a frame-less case itself.
fn list<'a>(
    case: &'a Entries,
    frame: Option<&'a Entries>,
    frameless: bool,
    frame_entry: &Entry,
    ctx: &mut Lower,
) -> Option<&'a Entry> {
    let (holder, what) = match (frameless, frame) {
        (true, _) => (case, "the frame-less case"),
        (false, Some(frame)) => (frame, "the frame"),
        (false, None) => {
            ctx.sink.push(
                Diagnostic::error(
                    "block-missing",
                    "the frame says nothing of its members",
                    frame_entry.head,
                    "`{ … }` belongs behind this",
                )
                .note("write `frame none` for a frame-less case"),
            );
            return None;
        }
    };
    match (holder.one("across"), holder.one("down")) {
        (Some(list), None) | (None, Some(list)) => Some(list),
        (Some(first), Some(second)) => {
            ctx.sink.push(
                Diagnostic::error(
                    "word-twice",
                    format!("{what} has two lists of openings"),
                    second.head,
                    "a second list",
                )
                .label(first.head, "the first")
                .note("put one of them into the other"),
            );
            None
        }
        (None, None) => {
            if frameless {
                ctx.sink.push(Diagnostic::error(
                    "word-missing",
                    "the frame-less case has no openings",
                    frame_entry.head,
                    "`across { … }` is missing in the case",
                ));
            }
            None
        }
    }
}

fn outer(
    sheet: &mut Sheet,
    entry: &Entry,
    body: &Entries,
    frame: Option<&Entries>,
    frameless: bool,
    has_top: bool,
    has_bottom: bool,
) -> Outer {
    let open = Some(body.open);
    let name = entry.text(0).map_or("the case", |name| name.value);
    let mut unknown = |name: &str, axis, span: Span| {
        sheet.variable(Unknown { name: name.to_owned(), axis, span, list: None, open })
    };
    let wide = unknown(name, Axis::Across, entry.head);
    let high = unknown(name, Axis::Down, entry.head);
    let base = body.one("base").map(|base| unknown("base", Axis::Down, base.head));
    let sides = ["left stile", "right stile"].map(|side| unknown(side, Axis::Across, entry.head));
    let rail = |side: &str| {
        frame.is_some_and(|frame| {
            frame.all("rail").any(|rail| rail.text(0).is_some_and(|word| word.value == side))
        })
    };
    let below = if frameless { has_bottom } else { rail("bottom") };
    let above = if frameless { has_top } else { rail("top") };
    let below = below.then(|| unknown("bottom rail", Axis::Down, entry.head));
    let above = above.then(|| unknown("top rail", Axis::Down, entry.head));
    Outer { wide, high, base, sides, below, above }
}

/// `wide`, `high`, the base and the outer members, where they are written.
fn fix_outer(
    drafts: &mut Drafts<'_>,
    outer: &Outer,
    entry: &Entry,
    body: &Entries,
    frame: Option<&Entries>,
    ctx: &mut Lower,
) {
    drafts.fix(body, "wide", outer.wide, "wide", None, ctx);
    drafts.fix(body, "high", outer.high, "high", None, ctx);
    if let (Some(base), Some(variable)) = (body.one("base").and_then(Entry::body), outer.base) {
        drafts.fix(base, "high", variable, "base", None, ctx);
    }
    let Some(frame) = frame else { return };
    for (side, variable) in Side::BOTH.into_iter().zip(outer.sides) {
        let stile =
            frame.all("stile").find(|s| s.text(0).is_some_and(|word| word.value == side.word()));
        match stile.and_then(Entry::body) {
            Some(stile) => {
                drafts.fix(stile, "wide", variable, &format!("{} stile", side.word()), None, ctx);
            }
            None => ctx.sink.push(
                Diagnostic::error(
                    "word-missing",
                    format!("the frame has no {} stile", side.word()),
                    entry.head,
                    format!("`stile {}` is missing", side.word()),
                )
                .note(format!("for example `stile {} {{ wide 1-3/4 }}`", side.word())),
            ),
        }
    }
    for (side, variable) in [("bottom", outer.below), ("top", outer.above)] {
        let rail = frame.all("rail").find(|r| r.text(0).is_some_and(|word| word.value == side));
        if let (Some(rail), Some(variable)) = (rail.and_then(Entry::body), variable) {
            drafts.fix(rail, "wide", variable, &format!("{side} rail"), None, ctx);
        }
    }
}

/// What the outer sizes leave for the root list.
fn leaves(drafts: &mut Drafts<'_>, outer: &Outer, span: Span) {
    let Some(root) = drafts.openings.first() else { return };
    let (wide, high) = (root.wide, root.high);
    let one = Exact::ONE;
    let mut across = vec![(outer.wide, -one), (wide, one)];
    across.extend(outer.sides.map(|side| (side, one)));
    let mut down = vec![(outer.high, -one), (high, one)];
    let inner = [outer.base, outer.below, outer.above];
    down.extend(inner.into_iter().flatten().map(|variable| (variable, one)));
    for terms in [across, down] {
        let known =
            Known { says: Says::Leaves, span: Some(span), constant: Length::ZERO, fact: None };
        drafts.sheet.equation(terms, Length::ZERO, known);
    }
}

fn frame(
    entry: &Entry,
    body: &Entries,
    sides: [Size; 2],
    above: Option<Size>,
    below: Option<Size>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Frame> {
    let stock = read_case::stock(body, None, "the frame", entry.head, shared, ctx)?;
    let into = shared.thickness(stock);
    let joint = read_case::joinery(body, JointKind::Pocket, &into, "frame", ctx);
    let member = |word: &str, side: &str, wide: Size| {
        let entry = body.all(word).find(|m| m.text(0).is_some_and(|name| name.value == side))?;
        let inner = entry.body()?;
        let seam = if word == "stile" { read_case::seam(inner) } else { super::case::Seam::Butt };
        Some(OuterMember { wide, seam, span: entry.head, notes: inner.notes() })
    };
    let [left, right] = sides;
    Some(Frame {
        stock,
        joint,
        stiles: [member("stile", "left", left)?, member("stile", "right", right)?],
        top: above.and_then(|wide| member("rail", "top", wide)),
        bottom: below.and_then(|wide| member("rail", "bottom", wide)),
        span: entry.head,
        notes: body.notes(),
    })
}

/// A mitred seam is said once: at the end or at the stile. What one of them
/// says holds for both.
fn seamed(ends: [End; 2], frame: Option<&Frame>) -> [End; 2] {
    let [left, right] = ends;
    let with = |end: End, stile: Option<&OuterMember>| match stile {
        Some(stile) if stile.seam == super::case::Seam::Mitre => End { seam: stile.seam, ..end },
        _ => end,
    };
    [
        with(left, frame.map(|frame| &frame.stiles[0])),
        with(right, frame.map(|frame| &frame.stiles[1])),
    ]
}
