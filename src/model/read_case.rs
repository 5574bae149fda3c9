//! Entries of a case to its boards, frame and fronts, before anything is solved.

use crate::diagnostics::Diagnostic;
use crate::measure::{Length, Span};
use crate::vocabulary::takes::{
    Bit, Finish, Hinge, KeepOut, Leg as BoughtLeg, Pull, Refer, Slide, Stock,
};
use crate::vocabulary::words::base::{BaseBuild, BaseKind};
use crate::vocabulary::words::{self, top::TopKind};
use crate::vocabulary::{
    Entries, Entry, JointKind, Nothing, Origin, Said, Seam, Side, Takes, Word,
};

use super::bought_legs;
use super::carries;
use super::case::{Base, Bottom, End, Leg, LegPlace, Pins, Shelves, Top, third};
use super::edging;
use super::given::Given;
use super::hardware;
use super::hole::{self, Through};
use super::id::{FinishId, StockId};
use super::insertion::Insertion;
use super::joinery::{Board, Joinery};
use super::lower::{Lower, Names};
use super::posts;
use super::side;
use super::size::Size;
use super::stock;
use super::web;

/// What a case may refer to.
#[derive(Debug)]
pub(super) struct Shared<'a> {
    pub(super) stocks: &'a [stock::Stock],
    pub(super) stock_names: Names<'a, Stock>,
    pub(super) hinges: Names<'a, Hinge>,
    pub(super) slides: Names<'a, Slide>,
    pub(super) pulls: Names<'a, Pull>,
    pub(super) legs: Names<'a, BoughtLeg>,
    pub(super) bits: Names<'a, Bit>,
    pub(super) finishes: Names<'a, Finish>,
    pub(super) keep_outs: Names<'a, KeepOut>,
    pub(super) made_slides: &'a [hardware::Slide],
    pub(super) made_legs: &'a [bought_legs::BoughtLeg],
    /// The piece is screwed to the wall behind it.
    pub(super) fixed: bool,
}

impl Shared<'_> {
    pub(super) fn thickness(&self, stock: StockId) -> Size {
        self.stocks.get(stock.0).map(|stock| stock.thickness.clone()).unwrap_or_default()
    }
}

/// The stock that a block names, where it names one.
pub(super) fn named(body: &Entries, shared: &Shared<'_>, ctx: &mut Lower) -> Given<StockId> {
    ctx.refer(body, words::case::STOCK, &shared.stock_names).map(|index| StockId(index.value))
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
    match named(body, shared, ctx) {
        Given::Is(stock) => return Some(stock),
        Given::Refused => return None,
        Given::Absent => {}
    }
    if fallback.is_none() {
        ctx.sink.push(
            Diagnostic::error(
                "word-missing",
                format!("no stock is given for {what}"),
                at,
                "`stock` is missing",
            )
            .note("write `stock` here, or once in the case for all its boards"),
        );
    }
    fallback
}

/// The finish that a block names for its own parts.
pub(super) fn own_finish(
    body: &Entries,
    word: Word<Refer<Finish>>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<FinishId> {
    ctx.refer(body, word, &shared.finishes).known().map(|named| FinishId(named.value))
}

/// How much deeper a mortise or dowel hole is than what goes into it.
fn room(sizes: &Entries) -> Length {
    sizes.get(words::joint::ROOM).map_or(Length::ZERO, |room| room.value)
}

/// The joint that a block asks for by a word, or the usual one where it asks
/// for none.
pub(super) fn joinery(
    body: &Entries,
    (word, usual): (Word<impl Takes<Is = JointKind>>, JointKind),
    into: &Size,
    what: &str,
    ctx: &mut Lower,
) -> Joinery {
    let said = body.one(word);
    let kind = said.and_then(Said::value).map_or(usual, |asked| *asked.value);
    let empty = ctx.empty(&words::joint::BLOCK);
    let sizes = said.and_then(Said::body).unwrap_or(&empty);
    let mut joint = Joinery { span: said.map(|said| said.head), ..Joinery::plain(kind) };
    match kind {
        JointKind::Dado | JointKind::Rabbet => {
            let name = format!("{what} {}", kind.word());
            let depth = if kind == JointKind::Rabbet { into.half() } else { third(into) };
            joint.deep =
                Some(ctx.positive(sizes, words::joint::DEEP, &name).known().unwrap_or(depth));
        }
        JointKind::Tenon => {
            joint.long = ctx.positive(sizes, words::joint::LONG, &format!("{what} tenon")).known();
            let name = format!("{what} tenon thickness");
            let thick = ctx.positive(sizes, words::joint::THICK, &name).known();
            joint.thick = Some(thick.unwrap_or_else(|| third(into)));
            let name = format!("{what} tenon's set-in");
            joint.set_in = ctx.size(sizes, words::joint::SET_IN, &name);
            let written = said.and_then(Said::body);
            joint.set_in_at = written.map(|body| Insertion::of(body, words::joint::SET_IN));
            joint.room = room(sizes);
        }
        JointKind::Dowel => {
            joint.diameter = sizes.get(words::joint::DIAMETER).map(|d| d.value);
            joint.diameter_span = sizes.one(words::joint::DIAMETER).map(|said| said.head);
            joint.room = room(sizes);
        }
        JointKind::Pocket | JointKind::Screw => {
            let screw = sizes.get(words::joint::SCREW);
            joint.screw = screw.map(|screw| screw.value);
            joint.screw_span = screw.and_then(|screw| screw.origin.span());
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
    match body.which() {
        Some((BaseKind::ToeKick | BaseKind::Posts | BaseKind::Legs, _)) | None => {}
    }
    let separate = match body.which() {
        Some((BaseBuild::Separate, _)) => true,
        Some((BaseBuild::CutInto | BaseBuild::Posts | BaseBuild::Legs, _)) | None => false,
    };
    // 1 in, 25 mm: common practice, no source.
    let room = ctx.tape.unit.either(Length::inches(1, 1), Length::mm(25));
    let usual = Origin::Default { block: words::base::BLOCK.name, word: "separate" };
    Some(Base {
        high,
        driver_room: ctx.facts.add(room, "room for a driver over the base", usual),
        set_back: ctx.size(body, words::base::SET_BACK, "toe-kick set-back")?,
        separate,
        scribe: match separate {
            true => Size::zero(),
            false => ctx.size(body, words::base::SCRIBE, "toe-kick scribe")?,
        },
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
    let both = case.one(words::case::ENDS);
    let both_body = both.and_then(Said::body);
    let common = match both_body.map_or(Given::Absent, |body| named(body, shared, ctx)) {
        Given::Is(stock) => Some(stock),
        Given::Refused => return None,
        Given::Absent => fallback,
    };
    let notes = both_body.map(Entries::notes).unwrap_or_default();
    let edges = both_body.map(|body| edging::read(body, words::panels::EDGES, shared, ctx));
    let edges = edges.unwrap_or_default();
    // Without a frame there is no seam, and one that is written is refused.
    let is_framed = !case.one(words::case::FRAME).is_some_and(|frame| frame.is(Nothing::None));
    let mut one = |side: Side| {
        let own = case.all(words::case::END).find(|end| end.is(side));
        let body = own.and_then(Said::body);
        let head = own.map(|end| end.head).or(both.map(|ends| ends.head));
        let span = head.unwrap_or(at);
        let what = format!("the {} end", side.word());
        let empty = ctx.empty(&words::end::BLOCK);
        let body = body.unwrap_or(&empty);
        let mut notes = notes.clone();
        notes.extend(body.notes());
        Some(End {
            stock: stock(body, common, &what, span, shared, ctx)?,
            seam: if is_framed { seam(body) } else { Seam::Butt },
            edges: edging::read(body, words::end::EDGES, shared, ctx).or(&edges).clone(),
            holes: hole::read(body, Through::End, ctx),
            span,
            notes,
        })
    };
    // Where nothing says what the left one is of, the right one lacks the same.
    Some([one(Side::Left)?, one(Side::Right)?])
}

/// How a stile or end meets its neighbour.
pub(super) fn seam(body: &Entries) -> Seam {
    body.get(words::end::SEAM).map_or(Seam::Butt, |seam| seam.value)
}

/// A board: its stock and joint.
pub(super) fn board(
    entry: &Entry,
    joint: (Word<impl Takes<Is = JointKind>>, JointKind),
    into: &Size,
    fallback: Option<StockId>,
    what: &str,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Board> {
    let body = entry.body()?;
    Some(Board {
        stock: stock(body, fallback, &format!("the {what}"), entry.head, shared, ctx)?,
        joint: joinery(body, joint, into, what, ctx),
        edges: edging::of_board(body, shared, ctx),
        web: None,
        carries: None,
        span: entry.head,
        notes: body.notes(),
    })
}

pub(super) fn bottom(
    entry: &Entry,
    usual: JointKind,
    into: &Size,
    fallback: Option<StockId>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Bottom> {
    let joint = (words::bottom::JOINT, usual);
    let board = board(entry, joint, into, fallback, "bottom", shared, ctx)?;
    let body = entry.body()?;
    Some(Bottom {
        board,
        flush: body.flag(words::bottom::FLUSH).is_some(),
        carries: carries::read(body),
        stock_at: Insertion::of(body, words::case::STOCK),
    })
}

pub(super) fn top(
    entry: &Entry,
    usual: JointKind,
    into: &Size,
    fallback: Option<StockId>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Top> {
    let body = entry.body()?;
    let stretchers = match body.which() {
        Some((TopKind::Stretchers, _)) => {
            let stretchers = body.one(words::top::STRETCHERS)?;
            let empty = ctx.empty(&words::stretchers::BLOCK);
            let sizes = stretchers.body().unwrap_or(&empty);
            let count = stretchers.value()?;
            if *count.value == 0 {
                ctx.sink.push(Diagnostic::error(
                    "absurd-size",
                    "a top needs at least one stretcher",
                    count.span,
                    "write 1 or more",
                ));
                return None;
            }
            let wide = ctx.positive(sizes, words::stretchers::WIDE, "stretcher width").known()?;
            Some((*count.value, wide))
        }
        Some((TopKind::Panel, _)) | None => None,
    };
    let kind = if stretchers.is_some() { JointKind::Pocket } else { usual };
    Some(Top {
        board: board(entry, (words::top::JOINT, kind), into, fallback, "top", shared, ctx)?,
        // Stretchers carry what is said, a worktop, and nothing by themselves.
        carries: match stretchers {
            None => Some(carries::read(body)),
            Some(_) => carries::own(body).filter(|carries| carries.written.is_some()),
        },
        stretchers,
        stock_at: Insertion::of(body, words::case::STOCK),
    })
}

pub(super) fn legs(
    case: &Entries,
    fallback: Option<StockId>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Vec<Leg> {
    case.all(words::case::LEG)
        .filter_map(|entry| {
            let body = entry.body()?;
            let sides = (words::leg::AT, words::leg::FROM_RIGHT);
            let at = side::from(body, sides, "leg at", ctx);
            Some(Leg {
                at: at.map_or(LegPlace::Middle, |(side, at)| LegPlace::From(side, at)),
                wide: ctx.size(body, words::leg::WIDE, "leg width"),
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
    let empty = ctx.empty(&words::shelves::BLOCK);
    let entry = case.one(words::case::SHELVES);
    let body = entry.and_then(Said::body).unwrap_or(&empty);
    let stock = named(body, shared, ctx).known().or(fallback);
    let joint =
        joinery(body, (words::shelves::JOINT, posts::usual_joint(case)), into, "shelf", ctx);
    let built = stock.and_then(|stock| web::read(body, words::shelves::BUILD, stock, shared, ctx));
    Shelves {
        stock,
        web: web::held(built.flatten(), &joint, posts::holds_web(case), ctx),
        clearance: ctx.size_or_zero(body, words::shelves::CLEARANCE, "shelf clearance"),
        set_back: ctx.size_or_zero(body, words::shelves::SET_BACK, "shelf set-back"),
        joint,
        pins: pins(body, ctx),
        carries: carries::read(body),
        set_back_at: match entry {
            Some(_) => Insertion::of(body, words::shelves::SET_BACK),
            None => Insertion::within(case, words::case::SHELVES),
        },
        stock_at: match entry {
            Some(_) => Insertion::of(body, words::shelves::STOCK),
            None => Insertion::within(case, words::case::SHELVES),
        },
        edges: edging::read(body, words::shelves::EDGES, shared, ctx),
        span: entry.map_or(at, |entry| entry.head),
        notes: body.notes(),
    }
}

/// The rows of shelf pins. What can't be right is reported and counts as the
/// default would, so that the rest goes on.
fn pins(shelves: &Entries, ctx: &mut Lower) -> Pins {
    use words::pins::{BLOCK, DEEP, FROM_EDGE, FROM_END, HOLE, PITCH};

    let empty = ctx.empty(&BLOCK);
    let entry = shelves.one(words::shelves::PINS);
    let body = entry.and_then(Said::body).unwrap_or(&empty);
    let mut size = |word, name| match ctx.positive(body, word, name).known() {
        Some(size) => size.length,
        None => ctx.size_or_zero(&empty, word, name).length,
    };
    Pins {
        hole: size(HOLE, "hole of a shelf pin"),
        deep: size(DEEP, "depth of a shelf pin's hole"),
        pitch: size(PITCH, "pitch of the shelf pins"),
        from_edge: size(FROM_EDGE, "shelf pins from the edge"),
        from_end: size(FROM_END, "shelf pins from the end"),
        span: entry.map(|entry| entry.head),
        deep_at: body.one(DEEP).map(|deep| deep.head),
    }
}
