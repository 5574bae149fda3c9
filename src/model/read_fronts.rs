//! Entries of a case to its fronts and drawer boxes.

use crate::diagnostics::Diagnostic;
use crate::measure::{Length, Span, Spanned};
use crate::vocabulary::{Entries, Entry, HowBuilt, HowSet, JointKind, Run, Said, words};

use super::carries;
use super::edge::{Edge, Edges};
use super::edging::{self, Edged};
use super::finger;
use super::framed;
use super::front::{Build, DrawerBoxes, Flutes, Fronts, Overlay, Set};
use super::given::Given;
use super::hinge_place;
use super::id::StockId;
use super::id::{BitId, HingeId, PullId, SlideId};
use super::insertion::Insertion;
use super::lower::Lower;
use super::pull_place;
use super::read_case::{Shared, joinery, own_finish, stock};

/// The fronts of a case, or with `parent` those of one opening.
pub(super) fn fronts(
    entry: &Entry,
    parent: Option<&Fronts>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Fronts> {
    use words::fronts::{
        BUILD, CATCH, EDGES, FINGER, FINISH, FLUTES, GAP, HINGE, HINGES, MEETING, PULL, SET, STOP,
    };

    let body = entry.body()?;
    let at = entry.head;
    let stock = stock(body, parent.map(|p| p.stock), "the front", at, shared, ctx)?;
    let gap_written = body.says(GAP) || parent.is_some_and(|parent| parent.gap_written);
    let set = match parent {
        Some(parent) if !body.says(SET) => parent.set.clone(),
        _ => set(body, gap_written, ctx)?,
    };
    let build = match parent {
        Some(parent) if !body.says(BUILD) => parent.build.clone(),
        _ => build(body, stock, shared, ctx)?,
    };
    let (gap, gap_span) = match parent {
        Some(parent) if !body.says(GAP) => (parent.gap.clone(), parent.gap_span),
        _ => (ctx.size(body, GAP, "gap")?, body.get(GAP)?.span_or(at)),
    };
    let (meeting, meeting_span) = match parent {
        Some(parent) if !body.says(MEETING) => (parent.meeting.clone(), parent.meeting_span),
        _ => (ctx.size(body, MEETING, "meeting")?, body.get(MEETING)?.span_or(at)),
    };
    // A hinge or pull that nobody knows is reported; that of the case stands in.
    let hinge =
        ctx.refer(body, HINGE, &shared.hinges).map(|hinge| (HingeId(hinge.value), hinge.span));
    let hinge_place = match body.one(HINGE).and_then(Said::body) {
        Some(place) => hinge_place::read(place, ctx),
        None => parent.map(|parent| parent.hinge_place).unwrap_or_default(),
    };
    let hinges = body.get(HINGES).map(|n| Spanned::new(n.value, n.span_or(at)));
    let said = body.one(PULL);
    let cut = body.one(FINGER);
    let no_pull = said.and_then(Said::value).is_some_and(|name| name.value == "none");
    if let (Some(pull), Some(cut), false) = (said, cut, no_pull) {
        let title = "a front has a pull or a finger pull, not both";
        let found = Diagnostic::error("word-twice", title, cut.head, "the finger pull");
        ctx.sink.push(found.label(pull.head, "the pull").note("take one of them out"));
    }
    let finger = match (cut, said) {
        (Some(cut), _) => finger::read(cut, ctx),
        (None, Some(_)) => None,
        (None, None) => parent.and_then(|parent| parent.finger.clone()),
    };
    let finger_or_none = finger.is_some() || no_pull;
    let pull = match finger_or_none {
        true => Given::Refused,
        false => ctx.refer(body, PULL, &shared.pulls).map(|pull| PullId(pull.value)),
    };
    let pull_place = match said.and_then(Said::body) {
        Some(place) => pull_place::read(place, said.map_or(at, |said| said.head), ctx),
        None => parent.map(|parent| parent.pull_place).unwrap_or_default(),
    };
    let flutes = match body.one(FLUTES) {
        Some(flutes) => self::flutes(&flutes, shared, ctx),
        None => parent.and_then(|parent| parent.flutes.clone()),
    };
    let stop = body.get(STOP).map(|stop| Spanned::new(stop.value, stop.span_or(at)));
    let catch = body.get(CATCH).map(|catch| Spanned::new(catch.value, catch.span_or(at)));
    let grain = grain(body, &build, stock, shared, ctx);
    let of_parent = parent.filter(|own| own.stock == stock).and_then(|own| own.in_sequence);
    let in_sequence = in_sequence(body, &build, stock, shared, ctx)
        .or_else(|| of_parent.filter(|_| matches!(build, Build::Slab)));
    let mut notes = parent.map(|parent| parent.notes.clone()).unwrap_or_default();
    notes.extend(body.notes());
    Some(Fronts {
        finish: match (own_finish(body, FINISH, shared, ctx), parent) {
            (None, Some(parent)) => parent.finish,
            (own, _) => own,
        },
        grain: grain.or_else(|| parent.and_then(|parent| parent.grain)),
        in_sequence,
        stock,
        set,
        build,
        gap,
        gap_written,
        gap_span,
        meeting,
        meeting_span,
        hinge: hinge.known().or_else(|| parent.and_then(|parent| parent.hinge)),
        hinge_at: parent.map_or_else(|| Insertion::of(body, HINGE), |parent| parent.hinge_at),
        hinge_place,
        hinges: hinges.or_else(|| parent.and_then(|parent| parent.hinges)),
        pull: match finger_or_none {
            true => None,
            false => pull.known().or_else(|| parent.and_then(|parent| parent.pull)),
        },
        pull_at: parent.map_or_else(|| Insertion::of(body, PULL), |parent| parent.pull_at),
        opens_without: no_pull
            || (said.is_none() && parent.is_some_and(|parent| parent.opens_without)),
        pull_place,
        finger,
        flutes,
        stop: stop.or_else(|| parent.and_then(|parent| parent.stop)),
        catch: catch.or_else(|| parent.and_then(|parent| parent.catch)),
        edges: match (edging::read(body, EDGES, shared, ctx), parent) {
            (Edged::Unsaid, Some(parent)) => parent.edges.clone(),
            (edges, _) => edges,
        },
        notes,
        span: at,
    })
}

/// The statement that asks for fronts from one sheet beside each other; reported where they
/// are not of a sheet whose grain could run on.
fn in_sequence(
    body: &Entries,
    build: &Build,
    stock: StockId,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Span> {
    let said = body.one(words::fronts::IN_SEQUENCE)?;
    let (title, note) = match (build, shared.stocks.get(stock.0)) {
        (Build::Panel(_), _) => (
            "the fronts are framed, and no grain runs on from frame to frame".to_owned(),
            "`in-sequence` is for slab fronts; take it out",
        ),
        (Build::Slab, Some(stock)) if stock.is_solid() => (
            format!("{} is lumber, and its fronts follow each other along a board", stock.name),
            "take `in-sequence` out; `lay-out looks` in the shop, which is usual, does the same for boards",
        ),
        (Build::Slab, Some(stock)) if !stock.has_grain() => (
            format!("{} has no grain", stock.name),
            "take `in-sequence` out, or name a stock of plywood",
        ),
        (Build::Slab, _) => return Some(said.head),
    };
    let found = Diagnostic::error("not-supported-yet", title, said.head, "nothing runs on");
    ctx.sink.push(found.note(note));
    None
}

/// Which way the grain is to run; reported where there is none to turn.
fn grain(
    body: &Entries,
    build: &Build,
    stock: StockId,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Spanned<Run>> {
    let said = body.one(words::fronts::GRAIN)?;
    let (title, note) = match (build, shared.stocks.get(stock.0)) {
        (Build::Panel(_), _) => (
            "the grain of a framed front follows its stiles and rails".to_owned(),
            "`grain` is for slab fronts; take it out",
        ),
        (Build::Slab, Some(stock)) if !stock.has_grain() => (
            format!("{} has no grain", stock.name),
            "take `grain` out, or name a stock of lumber or plywood",
        ),
        (Build::Slab, _) => return said.value().map(|run| Spanned::new(*run.value, said.head)),
    };
    let found = Diagnostic::error("not-supported-yet", title, said.head, "nothing to turn");
    ctx.sink.push(found.note(note));
    None
}

fn set(body: &Entries, gap_written: bool, ctx: &mut Lower) -> Option<Set> {
    use words::overlay::{BOTTOM, BY, LEFT, RIGHT, TOP};

    match body.get(words::fronts::SET)?.value {
        HowSet::Inset => Some(Set::Inset),
        HowSet::Overlay => {
            let empty = ctx.empty(&words::overlay::BLOCK);
            let sizes = body.one(words::fronts::SET).and_then(Said::body).unwrap_or(&empty);
            let by = match sizes.says(BY) || !gap_written {
                true => Some(ctx.size(sizes, BY, "overlay")?),
                false => None,
            };
            let edges = Edges::new(|edge| {
                let word = match edge {
                    Edge::Left => LEFT,
                    Edge::Right => RIGHT,
                    Edge::Top => TOP,
                    Edge::Bottom => BOTTOM,
                };
                ctx.size(sizes, word, &format!("overlay at the {}", edge.word()))
            });
            Some(Set::Overlay(Box::new(Overlay { by, edges })))
        }
    }
}

fn build(body: &Entries, stock: StockId, shared: &Shared<'_>, ctx: &mut Lower) -> Option<Build> {
    match body.get(words::fronts::BUILD)?.value {
        HowBuilt::Slab => Some(Build::Slab),
        HowBuilt::Panel => {
            let said = body.one(words::fronts::BUILD)?;
            framed::read(&said, stock, shared, ctx).map(Build::Panel)
        }
    }
}

/// The least that flutes may be apart. Anything less is a slip, and would ask
/// for flutes by the thousand.
const LEAST_PITCH: Length = Length::mm(1);

fn flutes(entry: &Entry, shared: &Shared<'_>, ctx: &mut Lower) -> Option<Flutes> {
    use words::flutes::{BIT, DEEP, LAND, PITCH, RUN, STOP};

    let body = entry.body()?;
    let pitch = ctx.positive(body, PITCH, "flute pitch").known()?.length;
    let pitch_span = body.get(PITCH)?.span_or(entry.head);
    if pitch < LEAST_PITCH {
        let title = "flutes can't be less than 1 mm apart, center to center";
        ctx.sink.push(Diagnostic::error("absurd-size", title, pitch_span, "the pitch"));
        return None;
    }
    Some(Flutes {
        run: body.get(RUN)?.value,
        bit: BitId(ctx.refer(body, BIT, &shared.bits).known()?.value),
        deep: ctx.positive(body, DEEP, "flute depth").known()?.length,
        deep_span: body.one(DEEP).map(|deep| deep.head),
        pitch,
        pitch_span,
        land: body.get(LAND)?.value,
        stop: body.get(STOP)?.value,
        span: entry.head,
    })
}

/// The drawer boxes of a case.
pub(super) fn drawers(entry: &Entry, shared: &Shared<'_>, ctx: &mut Lower) -> Option<DrawerBoxes> {
    use words::drawers::{BOTTOM_STOCK, GROOVE, JOINT, PACKER_STOCK, PACKER_WIDE, SLIDE};
    use words::groove::{DEEP, PLAY, UP};

    let body = entry.body()?;
    let stock = stock(body, None, "the drawer boxes", entry.head, shared, ctx);
    let bottom = ctx.refer(body, BOTTOM_STOCK, &shared.stock_names).known();
    let slide = ctx.refer(body, SLIDE, &shared.slides).known();
    let empty = ctx.empty(&words::groove::BLOCK);
    let groove = body.one(GROOVE);
    let sizes = groove.and_then(Said::body).unwrap_or(&empty);
    let stock = stock?;
    let packer = ctx.refer(body, PACKER_STOCK, &shared.stock_names).known();
    Some(DrawerBoxes {
        finish: own_finish(body, words::drawers::FINISH, shared, ctx),
        groove_play: ctx.size(sizes, PLAY, "play of the bottom")?,
        packer_stock: packer.map_or(stock, |packer| StockId(packer.value)),
        packer_stock_at: Insertion::of(body, PACKER_STOCK),
        packer_wide: ctx.positive(body, PACKER_WIDE, "packer width").known()?,
        stock,
        bottom_stock: StockId(bottom?.value),
        slide: SlideId(slide?.value),
        carries: carries::read(body),
        groove_up: ctx.size(sizes, UP, "groove up")?,
        groove_deep: ctx.positive(sizes, DEEP, "groove depth").known()?,
        groove_up_span: sizes.one(UP).map(|up| up.head),
        groove_span: groove.map_or(entry.head, |groove| groove.head),
        joint: {
            let asked = (JOINT, JointKind::Rabbet);
            joinery(body, asked, &shared.thickness(stock), "drawer", ctx)
        },
        notes: body.notes(),
        span: entry.head,
    })
}
