//! Entries of a case to its boards, frame and fronts, before anything is solved.

use crate::diagnostics::Diagnostic;
use crate::measure::{Length, Span, Spanned};
use crate::vocabulary::{Entries, Entry};

use super::carries;
use super::case::{
    Base, Board, Bottom, End, Joinery, JointKind, Leg, Seam, Shelves, Side, Top, third,
};
use super::front::{Build, DrawerBoxes, Flutes, Fronts, PanelBuild, Run, Set};
use super::lower::{Lower, Names};
use super::place::Place;
use super::size::Size;
use super::stock::{Stock, StockId};

/// What a case may refer to.
#[derive(Debug)]
pub(super) struct Shared<'a> {
    pub(super) stocks: &'a [Stock],
    pub(super) stock_names: Names<'a>,
    pub(super) hinges: Names<'a>,
    pub(super) slides: Names<'a>,
    pub(super) pulls: Names<'a>,
    pub(super) bits: Names<'a>,
    pub(super) finishes: Names<'a>,
    pub(super) keep_outs: Names<'a>,
}

impl Shared<'_> {
    pub(super) fn thickness(&self, stock: StockId) -> Size {
        self.stocks.get(stock.0).map(|stock| stock.thickness.clone()).unwrap_or_default()
    }
}

/// The stock that `body` names, else the fallback; reports where neither does.
pub(super) fn stock(
    body: &Entries,
    fallback: Option<StockId>,
    what: &str,
    at: Span,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<StockId> {
    if body.one("stock").is_some() {
        return ctx.refer(body, "stock", &shared.stock_names).map(|index| StockId(index.value));
    }
    if fallback.is_none() {
        ctx.sink.push(
            Diagnostic::error(
                "word-missing",
                format!("no stock is named for {what}"),
                at,
                "`stock` is missing",
            )
            .note("write `stock` here, or once in the case for all its boards"),
        );
    }
    fallback
}

/// The joint that a block asks for, or `kind` where it asks for none.
pub(super) fn joinery(
    body: &Entries,
    kind: JointKind,
    into: &Size,
    what: &str,
    ctx: &mut Lower,
) -> Joinery {
    let entry = body.one("joint");
    let kind = match entry.and_then(|entry| entry.text(0)).map(|word| word.value) {
        Some("dado") => JointKind::Dado,
        Some("rabbet") => JointKind::Rabbet,
        Some("pocket") => JointKind::Pocket,
        Some("screw") => JointKind::Screw,
        Some("tenon") => JointKind::Tenon,
        Some("dowel") => JointKind::Dowel,
        Some("dovetail") => JointKind::Dovetail,
        Some("butt") => JointKind::Butt,
        _ => kind,
    };
    let empty = ctx.empty("joint");
    let sizes = entry.and_then(|entry| entry.body()).unwrap_or(&empty);
    let mut joint = Joinery {
        kind,
        deep: None,
        long: None,
        thick: None,
        diameter: None,
        screw: None,
        screw_span: None,
        span: entry.map(|entry| entry.head),
    };
    match kind {
        JointKind::Dado | JointKind::Rabbet => {
            let name = format!("{what} {}", kind.word());
            let usual = if kind == JointKind::Rabbet { into.half() } else { third(into) };
            joint.deep = Some(ctx.positive(sizes, "deep", &name).unwrap_or(usual));
        }
        JointKind::Tenon => {
            joint.long = ctx.positive(sizes, "long", &format!("{what} tenon"));
            let thick = ctx.positive(sizes, "thick", &format!("{what} tenon thickness"));
            joint.thick = Some(thick.unwrap_or_else(|| third(into)));
        }
        JointKind::Dowel => joint.diameter = sizes.length("diameter").map(|d| d.value),
        JointKind::Pocket | JointKind::Screw => {
            joint.screw = sizes.length("screw").map(|screw| screw.value);
            joint.screw_span = sizes.one("screw").map(|screw| screw.head);
        }
        JointKind::Dovetail | JointKind::Butt => {}
    }
    joint
}

pub(super) fn base(
    entry: &Entry,
    high: Size,
    fallback: Option<StockId>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Base> {
    let body = entry.body()?;
    body.noted("toe-kick");
    let separate = body.flag("separate").is_some();
    body.noted("cut-into");
    Some(Base {
        high,
        set_back: ctx.size(body, "set-back", "toe-kick set-back")?,
        separate,
        stock: stock(body, fallback, "the base", entry.head, shared, ctx)?,
        span: entry.head,
        notes: body.notes(),
    })
}

/// Left and right end. `end left` overrides `ends`.
pub(super) fn ends(
    case: &Entries,
    at: Span,
    fallback: Option<StockId>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<[End; 2]> {
    let both = case.one("ends");
    let both_body = both.and_then(Entry::body);
    let both_names_stock = both_body.is_some_and(|body| body.one("stock").is_some());
    let common = match both_body {
        Some(body) if both_names_stock => Some(stock(body, None, "the ends", at, shared, ctx)?),
        _ => fallback,
    };
    let notes = both_body.map(Entries::notes).unwrap_or_default();
    let mut one = |side: Side| {
        let own = case.all("end").find(|e| e.text(0).is_some_and(|w| w.value == side.word()));
        let body = own.and_then(Entry::body);
        let span = own.or(both).map_or(at, |entry| entry.head);
        let what = format!("the {} end", side.word());
        let empty = ctx.empty("end");
        let body = body.unwrap_or(&empty);
        let mut notes = notes.clone();
        notes.extend(body.notes());
        Some(End {
            stock: stock(body, common, &what, span, shared, ctx)?,
            seam: seam(body),
            span,
            notes,
        })
    };
    // Where nothing says what the left one is of, the right one lacks the same.
    Some([one(Side::Left)?, one(Side::Right)?])
}

/// How a stile or end meets its neighbour.
pub(super) fn seam(body: &Entries) -> Seam {
    match body.word("seam").map(|seam| seam.value).as_deref() {
        Some("mitre") => Seam::Mitre,
        _ => Seam::Butt,
    }
}

/// A board: its stock and joint.
pub(super) fn board(
    entry: &Entry,
    kind: JointKind,
    into: &Size,
    fallback: Option<StockId>,
    what: &str,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Board> {
    let body = entry.body()?;
    Some(Board {
        stock: stock(body, fallback, &format!("the {what}"), entry.head, shared, ctx)?,
        joint: joinery(body, kind, into, what, ctx),
        span: entry.head,
        notes: body.notes(),
    })
}

/// A board of its own that is as `parent` in what it does not say.
pub(super) fn board_like(
    body: &Entries,
    parent: Option<&Board>,
    stock_of_case: Option<StockId>,
    what: &str,
    at: Span,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Board> {
    let fallback = parent.map(|board| board.stock).or(stock_of_case);
    let stock = stock(body, fallback, &format!("the {what}"), at, shared, ctx)?;
    let mut joint = joinery(body, JointKind::Dado, &shared.thickness(stock), what, ctx);
    if let Some(parent) = parent.filter(|_| joint.span.is_none()) {
        joint = parent.joint.clone();
    }
    Some(Board { stock, joint, span: at, notes: body.notes() })
}

pub(super) fn bottom(
    entry: &Entry,
    into: &Size,
    fallback: Option<StockId>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Bottom> {
    let board = board(entry, JointKind::Dado, into, fallback, "bottom", shared, ctx)?;
    let body = entry.body()?;
    Some(Bottom {
        board,
        flush: body.flag("flush").is_some(),
        carries: carries::read(body),
        stock_at: Place::of(body, "stock"),
    })
}

pub(super) fn top(
    entry: &Entry,
    into: &Size,
    fallback: Option<StockId>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Top> {
    let body = entry.body()?;
    let stretchers = match body.one("stretchers") {
        Some(stretchers) => {
            let empty = ctx.empty("stretchers");
            let sizes = stretchers.body().unwrap_or(&empty);
            let count = stretchers.count(0)?;
            if count.value == 0 {
                ctx.sink.push(Diagnostic::error(
                    "absurd-size",
                    "a top of no stretchers can't be built",
                    count.span,
                    "1 at least belongs here",
                ));
                return None;
            }
            Some((count.value, ctx.positive(sizes, "wide", "stretcher width")?))
        }
        None => {
            body.noted("panel");
            None
        }
    };
    let kind = if stretchers.is_some() { JointKind::Pocket } else { JointKind::Dado };
    Some(Top {
        board: board(entry, kind, into, fallback, "top", shared, ctx)?,
        // Stretchers carry what is said, a worktop, and nothing by themselves.
        carries: match stretchers {
            None => Some(carries::read(body)),
            Some(_) => carries::own(body).filter(|carries| carries.written.is_some()),
        },
        stretchers,
        stock_at: Place::of(body, "stock"),
    })
}

pub(super) fn legs(
    case: &Entries,
    fallback: Option<StockId>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Vec<Leg> {
    case.all("leg")
        .filter_map(|entry| {
            let body = entry.body()?;
            Some(Leg {
                at: ctx.size(body, "at", "leg at"),
                wide: ctx.size(body, "wide", "leg width"),
                stock: stock(body, fallback, "the leg", entry.head, shared, ctx)?,
                span: entry.head,
                notes: body.notes(),
            })
        })
        .collect()
}

pub(super) fn shelves(
    case: &Entries,
    at: Span,
    into: &Size,
    fallback: Option<StockId>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Shelves {
    let empty = ctx.empty("shelves");
    let entry = case.one("shelves");
    let body = entry.and_then(Entry::body).unwrap_or(&empty);
    let named = ctx.refer(body, "stock", &shared.stock_names).map(|index| StockId(index.value));
    Shelves {
        stock: named.or(fallback),
        clearance: ctx.size_or_zero(body, "clearance", "shelf clearance"),
        set_back: ctx.size_or_zero(body, "set-back", "shelf set-back"),
        joint: joinery(body, JointKind::Dado, into, "shelf", ctx),
        carries: carries::read(body),
        stock_at: match entry {
            Some(_) => Place::of(body, "stock"),
            None => Place::within(case, "shelves"),
        },
        span: entry.map_or(at, |entry| entry.head),
        notes: body.notes(),
    }
}

/// The fronts of a case, or with `parent` those of one opening.
pub(super) fn fronts(
    entry: &Entry,
    parent: Option<&Fronts>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Fronts> {
    let body = entry.body()?;
    let at = entry.head;
    let written = |word: &str| body.one(word).is_some();
    let stock = stock(body, parent.map(|p| p.stock), "the front", at, shared, ctx)?;
    let set = match parent {
        Some(parent) if !written("set") => parent.set.clone(),
        _ => set(body, ctx)?,
    };
    let build = match parent {
        Some(parent) if !written("build") => parent.build.clone(),
        _ => build(body, shared, ctx)?,
    };
    let (gap, gap_span) = match parent {
        Some(parent) if !written("gap") => (parent.gap.clone(), parent.gap_span),
        _ => (ctx.size(body, "gap", "gap")?, body.length("gap")?.span_or(at)),
    };
    let (meeting, meeting_span) = match parent {
        Some(parent) if !written("meeting") => (parent.meeting.clone(), parent.meeting_span),
        _ => (ctx.size(body, "meeting", "meeting")?, body.length("meeting")?.span_or(at)),
    };
    let hinge = ctx.refer(body, "hinge", &shared.hinges).map(|hinge| (hinge.value, hinge.span));
    let hinges = body.count("hinges").map(|n| Spanned::new(n.value, n.span_or(at)));
    let pull = ctx.refer(body, "pull", &shared.pulls).map(|pull| pull.value);
    let flutes = match body.one("flutes") {
        Some(flutes) => self::flutes(flutes, shared, ctx),
        None => parent.and_then(|parent| parent.flutes.clone()),
    };
    let mut notes = parent.map(|parent| parent.notes.clone()).unwrap_or_default();
    notes.extend(body.notes());
    Some(Fronts {
        stock,
        set,
        build,
        gap,
        gap_span,
        meeting,
        meeting_span,
        hinge: hinge.or_else(|| parent.and_then(|parent| parent.hinge)),
        hinges: hinges.or_else(|| parent.and_then(|parent| parent.hinges)),
        pull: pull.or_else(|| parent.and_then(|parent| parent.pull)),
        flutes,
        notes,
        span: at,
    })
}

fn set(body: &Entries, ctx: &mut Lower) -> Option<Set> {
    if body.word("set")?.value != "overlay" {
        return Some(Set::Inset);
    }
    let empty = ctx.empty("overlay");
    let sizes = body.one("set").and_then(Entry::body).unwrap_or(&empty);
    Some(Set::Overlay(ctx.size(sizes, "by", "overlay")?))
}

fn build(body: &Entries, shared: &Shared<'_>, ctx: &mut Lower) -> Option<Build> {
    if body.word("build")?.value != "panel" {
        return Some(Build::Slab);
    }
    let entry = body.one("build")?;
    let Some(sizes) = entry.body() else {
        ctx.sink.push(
            Diagnostic::error(
                "block-missing",
                "a frame-and-panel front must say its sizes",
                entry.head,
                "`{ stile …; rail …; panel-stock … }` belongs behind this",
            )
            .note("for example `build panel { stile 2-1/4; rail 2-1/4; panel-stock thin-ply; groove 3/8 }`"),
        );
        return None;
    };
    Some(Build::Panel(PanelBuild {
        stile: ctx.positive(sizes, "stile", "front stile")?,
        rail: ctx.positive(sizes, "rail", "front rail")?,
        panel_stock: StockId(ctx.refer(sizes, "panel-stock", &shared.stock_names)?.value),
        groove: ctx.positive(sizes, "groove", "panel groove")?,
        float: ctx.size(sizes, "float", "panel float")?,
        span: entry.head,
    }))
}

/// The least that flutes may be apart. Anything less is a slip, and would ask
/// for flutes by the thousand.
const LEAST_PITCH: Length = Length::mm(1);

fn flutes(entry: &Entry, shared: &Shared<'_>, ctx: &mut Lower) -> Option<Flutes> {
    let body = entry.body()?;
    let pitch = ctx.positive(body, "pitch", "flute pitch")?.length;
    let pitch_span = body.length("pitch")?.span_or(entry.head);
    if pitch < LEAST_PITCH {
        let title = "no flutes are cut less than 1 mm from centre to centre";
        ctx.sink.push(Diagnostic::error("absurd-size", title, pitch_span, "the pitch"));
        return None;
    }
    Some(Flutes {
        run: match body.word("run")?.value.as_str() {
            "horizontal" => Run::Horizontal,
            _ => Run::Vertical,
        },
        bit: ctx.refer(body, "bit", &shared.bits)?.value,
        deep: ctx.positive(body, "deep", "flute depth")?.length,
        deep_span: body.one("deep").map(|deep| deep.head),
        pitch,
        pitch_span,
        land: body.length("land")?.value,
        stop: body.length("stop")?.value,
        span: entry.head,
    })
}

pub(super) fn drawers(entry: &Entry, shared: &Shared<'_>, ctx: &mut Lower) -> Option<DrawerBoxes> {
    let body = entry.body()?;
    let stock = stock(body, None, "the drawer boxes", entry.head, shared, ctx);
    let bottom = ctx.refer(body, "bottom-stock", &shared.stock_names);
    let slide = ctx.refer(body, "slide", &shared.slides);
    let empty = ctx.empty("groove");
    let groove = body.one("groove");
    let sizes = groove.and_then(Entry::body).unwrap_or(&empty);
    let stock = stock?;
    let packer = ctx.refer(body, "packer-stock", &shared.stock_names).map(|p| StockId(p.value));
    Some(DrawerBoxes {
        groove_play: ctx.size(sizes, "play", "play of the bottom")?,
        packer_stock: packer.unwrap_or(stock),
        packer_wide: ctx.positive(body, "packer-wide", "packer width")?,
        stock,
        bottom_stock: StockId(bottom?.value),
        slide: slide?.value,
        carries: carries::read(body),
        groove_up: ctx.size(sizes, "up", "groove up")?,
        groove_deep: ctx.positive(sizes, "deep", "groove depth")?,
        groove_up_span: sizes.one("up").map(|up| up.head),
        groove_span: groove.map_or(entry.head, |groove| groove.head),
        joint: joinery(body, JointKind::Rabbet, &shared.thickness(stock), "drawer", ctx),
        notes: body.notes(),
        span: entry.head,
    })
}
