//! A case: its outer sizes and its openings as one set of equations, solved.

use crate::diagnostics::Diagnostic;
use crate::measure::{Exact, Length, Span};
use crate::vocabulary::{Entries, Entry, Nothing, RailSide, Said, Side, words};

use super::blame;
use super::blocks::Blocks;
use super::bought_legs::OnLegs;
use super::case::{Case, End, Exposure};
use super::countertop;
use super::cover::{self, Covers};
use super::cut_round;
use super::equations::{Known, Says, Sheet, Unknown};
use super::given::Given;
use super::hole::{self, Through};
use super::hung;
use super::insertion::Insertion;
use super::joinery::Board;
use super::layout::{Solution, Variable};
use super::limits::{self, MOST_OPENINGS};
use super::lower::Lower;
use super::on_posts;
use super::opening::Axis;
use super::openings::{Context, Drafts};
use super::outer_frame;
use super::place::{Place, Width};
use super::posts::{self, Posts};
use super::reach::Around;
use super::read_case::{self, Shared};
use super::root_list;
use super::seams;
use super::settle::settle;
use super::size::Size;
use super::size_names::SizeNames;
use super::solved_drafts::Placed;
use super::stacked::{self, Stacking};

/// The outer sizes of a case while they are unknown.
struct Outer {
    wide: Variable,
    high: Variable,
    base: Option<Variable>,
    /// The cover under a case that hangs.
    under: Option<Variable>,
    /// Left and right: stiles, or the ends of a frame-less case.
    sides: [Variable; 2],
    /// Bottom and top: rails, or the boards of a frame-less case.
    below: Option<Variable>,
    above: Option<Variable>,
}

/// The outer sizes of a case, as far as they are known.
struct OuterSizes {
    wide: Option<Size>,
    high: Option<Size>,
    base: Option<Size>,
    sides: [Option<Size>; 2],
    below: Option<Size>,
    above: Option<Size>,
}

impl Outer {
    fn sizes(&self, sheet: &Sheet, solution: &Solution) -> OuterSizes {
        let size = |variable| sheet.size(solution, variable);
        OuterSizes {
            wide: size(self.wide),
            high: size(self.high),
            base: self.base.and_then(size),
            sides: self.sides.map(size),
            below: self.below.and_then(size),
            above: self.above.and_then(size),
        }
    }
}

impl OuterSizes {
    /// The lower left corner of the root list of a case, so far up where it hangs.
    fn origin(&self, up: Option<&Size>) -> Option<[Size; 2]> {
        let [base, below] = [&self.base, &self.below].map(|size| size.clone().unwrap_or_default());
        let up = up.cloned().unwrap_or_default();
        Some([self.sides[0].clone()?, up + base + below])
    }

    /// What lies round the root list.
    fn around(
        &self,
        is_framed: bool,
        has_countertop: bool,
        is_hung: bool,
        (beyond, level): ([Size; 2], [bool; 2]),
    ) -> Option<Around> {
        let [left, right] = &self.sides;
        let side = |size: &Option<Size>, beyond: &Size| Some(size.as_ref()? - beyond);
        Some(Around {
            is_framed,
            has_countertop,
            is_on_floor: self.base.is_none() && !is_hung,
            level,
            sides: [side(left, &beyond[0])?, side(right, &beyond[1])?],
            above: self.above.clone().unwrap_or_default(),
            below: self.below.clone().unwrap_or_default(),
        })
    }
}

/// The boards that a frame-less case has in place of a frame, and the posts that a frame
/// has in place of its outer stiles.
struct Boards<'a> {
    ends: &'a [End; 2],
    covers: &'a Covers,
    posts: Option<&'a Posts>,
    legs: Option<&'a OnLegs>,
    /// The bottom lies level with the upper edge of the bottom rail.
    raised: bool,
    bottom: Option<&'a Board>,
    top: Option<&'a Board>,
}

pub(super) fn lower(
    entry: &Entry,
    place: Place,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Case> {
    let went_on = ctx.goes_on();
    let case = solved(entry, place, shared, ctx);
    if !went_on {
        ctx.stop_going_on();
    }
    case
}

fn solved(entry: &Entry, place: Place, shared: &Shared<'_>, ctx: &mut Lower) -> Option<Case> {
    let Place { id, path, run, exposure, level, is_covered, on, wide } = place;
    let body = entry.body()?;
    let name = entry.name()?.value;
    let blocks = Blocks::read(entry, body, shared, ctx)?;
    let deep = ctx.positive(body, words::case::DEEP, &format!("{name} deep")).known();
    let deep_span = body.get(words::case::DEEP).map_or(entry.head, |deep| deep.span_or(entry.head));

    let frame_said = body.one(words::case::FRAME)?;
    let frameless = frame_said.is(Nothing::None);
    let frame_body = frame_said.body();
    seams::look(body, frame_body.filter(|_| !frameless), ctx);
    let root = root_list::find(body, frame_body, frameless, &frame_said, ctx)?;
    let back = body.one(words::case::BACK);
    let back_at = back.is_none().then(|| Insertion::of(body, words::case::BACK));
    let back_holes = back.and_then(Said::body).map(|own| hole::read(own, Through::Back, ctx));
    let back_holes = back_holes.unwrap_or_default();
    let countertop = body.one(words::case::COUNTERTOP);
    countertop::loads_twice(body, countertop.as_ref().and_then(|own| own.body()), ctx);
    // A block at fault was reported; the openings would only repeat it.
    let countertop = countertop.map(|e| countertop::read(&e, blocks.stock, &exposure, shared, ctx));
    let countertop = Given::block(countertop).sound()?;
    let Blocks { stock, ends, covers, legs, shelves, edges, finish, nailers, .. } = blocks;
    let (fronts, drawers) = (blocks.fronts.sound()?, blocks.drawers.sound()?);
    let (partitions, back) = (blocks.partitions.sound()?, blocks.back.sound()?);
    let (bottom, top, ends) = (blocks.bottom.sound()?, blocks.top.sound()?, ends?);
    let posts = blocks.posts.sound()?;
    let on_legs = blocks.on_legs.sound()?;
    if let Some(posts) = &posts {
        match frame_body.filter(|_| !frameless) {
            Some(frame) => posts::no_stiles(frame, posts, ctx),
            None => {
                posts::no_frame(posts, &frame_said, ctx);
                return None;
            }
        }
    }

    let context = Context {
        case: &path,
        id,
        frameless,
        fronts: fronts.as_ref(),
        drawers: drawers.as_ref(),
        partitions: partitions.as_ref(),
        shelves: &shelves,
        holds_web: posts::holds_web(body),
        closed: [bottom.is_some(), top.is_some()],
        stock,
        shared,
    };
    let boards = Boards {
        ends: &ends,
        covers: &covers,
        posts: posts.as_ref(),
        legs: on_legs.as_ref(),
        raised: !frameless && bottom.as_ref().is_some_and(|bottom| bottom.flush),
        bottom: bottom.as_ref().map(|bottom| &bottom.board),
        top: top.as_ref().map(|top| &top.board),
    };
    let (drafts, outer) =
        drafted(entry, root, frame_body, &boards, (&exposure, wide), &context, ctx)?;

    let solution = drafts.sheet.system.solve();
    blame::report(&drafts, &solution, ctx);
    // What has no answer is settled for those who look at it meanwhile.
    let settled = (!solution.is_clean()).then(|| settle(&drafts.sheet, &solution));
    ctx.made_up |= !solution.questions.is_empty();
    let shown = settled.as_ref().and_then(|settled| settled.drawn.as_ref()).unwrap_or(&solution);
    let sizes = outer.sizes(&drafts.sheet, shown);
    let has_countertop = is_covered
        || countertop.is_some()
        || top.as_ref().is_some_and(|top| top.stretchers.is_some());
    let hanging = hung::read(body, (name, sizes.high.as_ref()), covers.below(), ctx);
    let up = hanging.as_ref().map(hung::Hanging::up).or(on.as_ref().map(Stacking::up));
    let beyond = cover::beyond(&exposure, &covers.ends, frameless, level);
    let around = sizes.around(!frameless, has_countertop, hanging.is_some(), beyond);
    let placed = drafts.finish(shown, sizes.origin(up), around.as_ref(), &context, ctx);
    if placed.is_none() || settled.is_some() {
        let holding = settled.as_ref().map_or(&solution, |settled| &settled.holding);
        let outside = [outer.wide, outer.high];
        ctx.half_solved.push(drafts.standing(&solution, holding, outside, (id, entry, &path)));
    }

    let posts = match posts {
        Some(posts) => Some(Box::new(Posts { high: sizes.base.clone()?, ..posts })),
        None => None,
    };
    let on_legs = match on_legs {
        Some(legs) => Some(Box::new(OnLegs { high: sizes.base.clone()?, ..legs })),
        None => None,
    };
    let stands = posts.is_some() || on_legs.is_some();
    let base = match body.one(words::case::BASE).filter(|_| !stands) {
        Some(base) => Some(read_case::base(&base, sizes.base?, stock, shared, ctx)?),
        None => None,
    };
    let frame = match frame_body.filter(|_| !frameless) {
        Some(frame) => {
            let [left, right] = sizes.sides;
            let (above, below) = (sizes.above, sizes.below);
            Some(outer_frame::read(
                &frame_said,
                frame,
                ([left?, right?], above, below),
                posts.as_deref(),
                shared,
                ctx,
            )?)
        }
        None => None,
    };
    let Placed { openings, members, loose } = placed?;
    if solution.questions.is_empty() {
        ctx.sink.extend(loose);
    }
    let high = sizes.high?;
    let (hung, on, high) = stacked::settled(hanging, on, high);
    if hung.is_some() || on.is_some() || on_legs.is_some() {
        cover::unscribed(&covers, shared, ctx);
    }
    if let (None, Some(under)) = (&hung, &covers.under) {
        let what = format!("nobody sees {name} from below");
        let found = Diagnostic::error(
            "not-supported-yet",
            what,
            under.span,
            "only a case that hangs has a cover under it",
        );
        ctx.sink.push(found.note("take the cover out"));
        return None;
    }
    let case = Case {
        id,
        name: name.to_owned(),
        path: path.clone(),
        run,
        span: entry.head,
        is_mirrored: root.0.is_mirrored(),
        x: Length::ZERO,
        beside: Size::zero(),
        wide: sizes.wide?,
        deep: deep?,
        high,
        deep_span,
        exposure,
        base,
        posts,
        on_legs,
        hung,
        on,
        ends: seams::seamed(ends, frame.as_ref()),
        covers,
        bottom,
        back,
        back_holes,
        back_at,
        nailers: nailers?,
        top,
        is_covered,
        countertop,
        partitions,
        shelves,
        legs,
        fillers: Vec::new(),
        frame,
        openings,
        members,
        edges,
        fronts,
        drawers,
        around: cut_round::read(body, shared, ctx),
        finish,
        notes: body.notes(),
    };
    match &case.posts {
        Some(posts) if !on_posts::fits(&case, body, posts, shared, ctx) => None,
        Some(_) | None => Some(case),
    }
}

/// The openings of a case and its outer sizes, with all equations that the spec
/// makes of them; `None` where there are too many (reported).
fn drafted<'a>(
    entry: &'a Entry,
    root: (&'a Entry, Axis),
    frame: Option<&Entries>,
    boards: &Boards<'_>,
    (exposure, wide): (&[Exposure; 2], Option<Width>),
    context: &Context<'a>,
    ctx: &mut Lower,
) -> Option<(Drafts<'a>, Outer)> {
    let body = entry.body()?;
    let errors = ctx.sink.errors();
    let mut sheet = Sheet::default();
    let outer = outer(&mut sheet, entry, body, frame, boards, context);
    let mut names = SizeNames::default();
    names.add(context.case, outer.wide, outer.high);
    let mut drafts = Drafts::read(root, sheet, names, context, ctx);
    if let Some(draft) = drafts.openings.get(MOST_OPENINGS) {
        let what = format!("openings in {}", context.case);
        ctx.sink.push(limits::too_many(MOST_OPENINGS, &what, draft.entry.head));
        return None;
    }
    let in_run = wide.is_some();
    fix_outer(&mut drafts, &outer, (body, wide), (frame, boards.posts), ctx);
    if let (Some(legs), Some(base)) = (boards.legs, outer.base) {
        let raised = boards.bottom.zip(outer.below).filter(|_| boards.raised);
        legs.fix(&mut drafts.sheet, base, raised, context.shared);
    }
    if context.frameless {
        fix_boards(&mut drafts, &outer, boards, context.shared);
        no_scribe(exposure, (entry.head, in_run), ctx);
    }
    leaves(&mut drafts, &outer, entry.head);
    // A size that could not be read would only be asked for again.
    if ctx.sink.errors() > errors {
        ctx.go_on();
        ctx.made_up = true;
    }
    Some((drafts, outer))
}

/// The sides of a frame-less case are as thick as its boards.
fn fix_boards(drafts: &mut Drafts<'_>, outer: &Outer, boards: &Boards<'_>, shared: &Shared<'_>) {
    let sides = [("left end", &boards.ends[0]), ("right end", &boards.ends[1])];
    let covers = &boards.covers.ends;
    for (((name, end), variable), cover) in sides.into_iter().zip(outer.sides).zip(covers) {
        let cover = cover.as_ref().map(|cover| cover.thick.clone()).unwrap_or_default();
        let wide = shared.thickness(end.stock) + cover;
        drafts.sheet.fix_to(variable, &wide, name, None, end.span);
    }
    let lying = [(outer.below, boards.bottom, "bottom"), (outer.above, boards.top, "top")];
    for (variable, board, name) in lying {
        if let (Some(variable), Some(board)) = (variable, board) {
            drafts.sheet.fix_to(variable, &shared.thickness(board.stock), name, None, board.span);
        }
    }
}

/// Reports a scribe that has no stile to be planed on.
fn no_scribe(exposure: &[Exposure; 2], (span, in_run): (Span, bool), ctx: &mut Lower) {
    if exposure.iter().any(|side| !side.scribe().length.is_zero()) {
        ctx.sink.push(
            Diagnostic::error(
                "not-supported-yet",
                "a frameless case has no stile to scribe to the wall",
                span,
                "this needs a frame",
            )
            .note(match in_run {
                true => "write a `filler` between it and the wall in the list of its run, or have the run begin or end where no wall is, or give the case a frame",
                false => "put the case into a `run` with a `filler` beside it, or give it a frame",
            }),
        );
    }
}

fn outer(
    sheet: &mut Sheet,
    entry: &Entry,
    body: &Entries,
    frame: Option<&Entries>,
    boards: &Boards<'_>,
    context: &Context<'_>,
) -> Outer {
    let open = Some(body.open);
    let name = entry.name().map_or("the case", |name| name.value);
    let mut unknown = |name: &str, axis, span: Span| {
        sheet.variable(Unknown { name: name.to_owned(), axis, span, list: None, open })
    };
    let wide = unknown(name, Axis::Across, entry.head);
    let high = unknown(name, Axis::Down, entry.head);
    let base = body.one(words::case::BASE).map(|base| unknown("base", Axis::Down, base.head));
    let under = boards.covers.under.as_ref();
    let under = under.map(|cover| (unknown("bottom cover", Axis::Down, cover.span), cover));
    let sides = ["left stile", "right stile"].map(|side| unknown(side, Axis::Across, entry.head));
    let rail =
        |side| frame.is_some_and(|frame| frame.all(words::frame::RAIL).any(|rail| rail.is(side)));
    let frameless = context.frameless;
    let below = if frameless { boards.bottom.is_some() } else { rail(RailSide::Bottom) };
    let above = if frameless { boards.top.is_some() } else { rail(RailSide::Top) };
    let below = below.then(|| unknown("bottom rail", Axis::Down, entry.head));
    let above = above.then(|| unknown("top rail", Axis::Down, entry.head));
    if let Some((variable, cover)) = under {
        sheet.fix_to(variable, &cover.thick, "bottom cover", None, cover.span);
    }
    let under = under.map(|(variable, _)| variable);
    Outer { wide, high, base, under, sides, below, above }
}

/// `wide`, `high`, the base and the outer members, where they are written.
fn fix_outer(
    drafts: &mut Drafts<'_>,
    outer: &Outer,
    (body, wide): (&Entries, Option<Width>),
    (frame, posts): (Option<&Entries>, Option<&Posts>),
    ctx: &mut Lower,
) {
    match wide {
        Some(Width { size, word, span }) => {
            let says = Says::Fixed { name: "wide".to_owned(), list: None, word };
            drafts.sheet.settle(outer.wide, &size, says, span);
        }
        None => drafts.fix(body, words::case::WIDE, outer.wide, "wide", None, ctx),
    }
    drafts.fix(body, words::case::HIGH, outer.high, "high", None, ctx);
    let base = body.one(words::case::BASE).and_then(Said::body);
    let base = base.filter(|base| base.one(words::base::LEGS).is_none());
    if let (Some(base), Some(variable)) = (base, outer.base) {
        drafts.fix(base, words::base::HIGH, variable, "base", None, ctx);
    }
    let Some(frame) = frame else { return };
    for (side, variable) in Side::BOTH.into_iter().zip(outer.sides) {
        if let Some(posts) = posts {
            let name = format!("{} post", side.word());
            drafts.sheet.fix_to(variable, &posts.wide, &name, None, posts.span);
            continue;
        }
        let stile = frame.all(words::frame::STILE).find(|stile| stile.is(side));
        match stile.and_then(Said::body) {
            Some(stile) => {
                let name = format!("{} stile", side.word());
                drafts.fix(stile, words::outer_stile::WIDE, variable, &name, None, ctx);
            }
            None => ctx.sink.push(outer_frame::no_stile(frame, side, &ctx.tape)),
        }
    }
    for (side, variable) in [(RailSide::Bottom, outer.below), (RailSide::Top, outer.above)] {
        let rail = frame.all(words::frame::RAIL).find(|rail| rail.is(side));
        if let (Some(rail), Some(variable)) = (rail.and_then(Said::body), variable) {
            let name = format!("{} rail", side.spelling());
            drafts.fix(rail, words::outer_rail::WIDE, variable, &name, None, ctx);
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
    let inner = [outer.base, outer.under, outer.below, outer.above];
    down.extend(inner.into_iter().flatten().map(|variable| (variable, one)));
    for terms in [across, down] {
        let known = Known {
            says: Says::Leaves,
            span: Some(span),
            constant: Length::ZERO,
            facts: Vec::new(),
        };
        drafts.sheet.equation(terms, Length::ZERO, known);
    }
}
