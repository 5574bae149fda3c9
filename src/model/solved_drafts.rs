//! Drafts of openings and members, once their sizes are known: what each is,
//! and where it lies.

use crate::diagnostics::Diagnostic;
use crate::measure::{Length, Span};
use crate::vocabulary::takes::Braces;
use crate::vocabulary::words::{self, Between, OpeningWord};
use crate::vocabulary::{Entries, Entry, JointKind, Nothing, Said, Word};

use super::boards_behind;
use super::came_out::CameOut;
use super::carries;
use super::cut_round;
use super::edge::Edges;
use super::framed;
use super::front::{Fronts, Set};
use super::hole::{self, Through};
use super::id::{CaseId, MemberId, OpeningId, SlideId, StockId};
use super::insertion::Insertion;
use super::joinery::Board;
use super::layout::{Solution, Variable};
use super::lower::Lower;
use super::opening::{
    Axis, Item, Member, MemberKind, Opening, OpeningKind, Partition, RailShelf, ShelfSet,
};
use super::openings::{self, Context, Draft, Drafts, MemberDraft};
use super::reach::{self, Around};
use super::read_case;
use super::read_fronts;
use super::rod;
use super::size::Size;
use super::standing_sizes::{CaseSizes, StandingSize, StandingSizes};
use super::titles;
use super::web;

/// The openings and members of a case, in their places.
#[derive(Debug)]
pub(super) struct Placed {
    pub(super) openings: Vec<Opening>,
    pub(super) members: Vec<Member>,
    /// Boards that were asked for where nothing holds them.
    pub(super) loose: Vec<Diagnostic>,
}

impl<'a> Drafts<'a> {
    /// The solved openings and members, placed from `(x, y)` of the root's
    /// lower left corner; `None` where the solver found no answer.
    pub(super) fn finish(
        &self,
        solution: &Solution,
        origin: Option<[Size; 2]>,
        around: Option<&Around>,
        context: &Context<'a>,
        ctx: &mut Lower,
    ) -> Option<Placed> {
        let size = |variable: Variable| self.sheet.size(solution, variable);
        let mut openings = Vec::with_capacity(self.openings.len());
        for (at, draft) in self.openings.iter().enumerate() {
            let id = OpeningId { case: context.id, at };
            let sizes = [size(draft.wide), size(draft.high)];
            openings.push(opening(draft, id, sizes, self.is_behind_doors(at), context, ctx));
        }
        let mut members = Vec::with_capacity(self.members.len());
        for (at, draft) in self.members.iter().enumerate() {
            let id = MemberId { case: context.id, at };
            let needed = match draft.between {
                Between::Stile => self.needs_partition(at),
                Between::Rail => self.needs_shelf(at),
                Between::Divider => false,
            };
            members.push(member(draft, id, size(draft.wide), needed, context, ctx));
        }
        let mut openings: Vec<Opening> = openings.into_iter().collect::<Option<_>>()?;
        let mut members: Vec<Member> = members.into_iter().collect::<Option<_>>()?;
        let [x, y] = origin?;
        place(&mut openings, &mut members, x, y);
        titles::within(&mut openings, context.case);
        let entries: Vec<&Entry> = self.members.iter().map(|draft| draft.entry).collect();
        let loose = boards_behind::settle(
            &openings,
            &mut members,
            &entries,
            context.closed,
            !context.frameless,
        );
        if let Some(around) = around {
            reach::give(&mut openings, &members, context.closed, around);
        }
        Some(Placed { openings, members, loose })
    }

    /// The sizes of the case and its openings, as far as they are known: those
    /// that hold, else those that their own statements give.
    pub(super) fn standing(
        &self,
        solution: &Solution,
        holding: &Solution,
        [wide, high]: [Variable; 2],
        (id, case, path): (CaseId, &Entry, &str),
    ) -> CaseSizes {
        let sizes = |variables: [Variable; 2]| {
            variables.map(|variable| {
                let sized = |solution, holds| {
                    let size = self.sheet.size(solution, variable)?;
                    Some(StandingSize { size, holds })
                };
                sized(holding, true).or_else(|| sized(solution, false))
            })
        };
        let own = StandingSizes {
            path: path.to_owned(),
            span: case.head,
            opening: None,
            sizes: sizes([wide, high]),
        };
        let openings = self.openings.iter().enumerate();
        let openings = openings.filter(|(_, draft)| !draft.fills);
        let openings = openings.map(|(at, draft)| StandingSizes {
            path: draft.path.clone(),
            span: draft.entry.head,
            opening: Some(OpeningId { case: id, at }),
            sizes: sizes([draft.wide, draft.high]),
        });
        CaseSizes { span: case.head, all: std::iter::once(own).chain(openings).collect() }
    }
}

fn opening(
    draft: &Draft<'_>,
    id: OpeningId,
    [wide, high]: [Option<Size>; 2],
    behind_doors: bool,
    context: &Context<'_>,
    ctx: &mut Lower,
) -> Option<Opening> {
    let entry = draft.entry;
    let empty = ctx.empty(entry.word.body.block()?);
    let body = entry.body().unwrap_or(&empty);
    let kind = match draft.leaf {
        None => draft.list.map(|axis| OpeningKind::List(axis, draft.items.clone())),
        Some(OpeningWord::Drawer | OpeningWord::Tray) => Some(drawer(entry, body, context, ctx)),
        // A door that does not say its side has been reported.
        Some(OpeningWord::Door) => {
            body.get(words::door::HUNG).map(|hung| OpeningKind::Door(hung.value))
        }
        Some(OpeningWord::Doors) => Some(OpeningKind::Doors),
        Some(OpeningWord::Open) => Some(OpeningKind::Open),
        Some(OpeningWord::False) => Some(OpeningKind::False),
    };
    let front = match draft.leaf {
        Some(OpeningWord::Drawer | OpeningWord::Door | OpeningWord::Doors | OpeningWord::False) => {
            let mut fronts = front(entry, body, context, ctx)?;
            if matches!(draft.leaf, Some(OpeningWord::Drawer | OpeningWord::False)) {
                only_of_doors(body, ctx);
                framed::without_mid_rails(&mut fronts, body);
            }
            Some(if behind_doors { laid_inside(fronts, body, ctx) } else { fronts })
        }
        Some(OpeningWord::Open | OpeningWord::Tray) | None => None,
    };
    let shelves = match draft.leaf {
        Some(OpeningWord::Door | OpeningWord::Doors | OpeningWord::Open) => {
            body.one(words::door::SHELF)
        }
        Some(OpeningWord::Drawer | OpeningWord::Tray | OpeningWord::False) | None => None,
    };
    let span_of = |axis: Axis| {
        let size = (!draft.fills).then(|| body.size(axis.size()))?;
        size.map(|size| size.span)
    };
    Some(Opening {
        id,
        path: draft.path.clone(),
        named: !draft.fills && entry.name().is_some(),
        title: String::new(),
        title_in_case: None,
        kind: kind?,
        parent: draft.parent.map(|at| OpeningId { at, ..id }),
        behind: draft.behind.map(|at| OpeningId { at, ..id }),
        wide: wide?,
        high: high?,
        x: Length::ZERO,
        stands: Default::default(),
        y: Length::ZERO,
        front,
        reach: Edges::default(),
        clear: Default::default(),
        leaf_opens: None,
        on_wood: None,
        set_back: match draft.leaf {
            Some(OpeningWord::Tray) => ctx.size(body, words::tray::SET_BACK, "tray set-back")?,
            // What is not written follows from the pull, once that is known.
            Some(OpeningWord::Drawer) if behind_doors => {
                ctx.size_or_zero(body, words::drawer_behind::SET_BACK, "set-back of the front")
            }
            Some(
                OpeningWord::Drawer
                | OpeningWord::Door
                | OpeningWord::Doors
                | OpeningWord::Open
                | OpeningWord::False,
            )
            | None => Size::zero(),
        },
        set_back_span: (draft.leaf == Some(OpeningWord::Drawer) && behind_doors)
            .then(|| body.one(words::drawer_behind::SET_BACK))
            .flatten()
            .map(|said| said.head),
        shelves: shelves.and_then(|shelves| shelf_set(&shelves, context, ctx)),
        rod: (draft.leaf == Some(OpeningWord::Open))
            .then(|| body.one(words::open::ROD))
            .flatten()
            .and_then(|said| rod::read(&said, context.shared, ctx))
            .map(Box::new),
        notes: if draft.fills { Vec::new() } else { body.notes() },
        span: entry.head,
        size_spans: Axis::BOTH.map(span_of),
        came_out: CameOut::default(),
    })
}

fn drawer(entry: &Entry, body: &Entries, context: &Context<'_>, ctx: &mut Lower) -> OpeningKind {
    use words::box_size::HIGH;

    let slide = ctx.refer(body, words::drawer::SLIDE, &context.shared.slides).known();
    let around = cut_round::read(body, context.shared, ctx);
    if context.drawers.is_none() {
        ctx.sink.push(missing(words::case::DRAWERS, "drawer boxes", entry));
    }
    let own = body.one(words::drawer::BOX).and_then(Said::body);
    OpeningKind::Drawer {
        slide: slide
            .map(|slide| SlideId(slide.value))
            .or(context.drawers.map(|drawers| drawers.slide)),
        around,
        carries: carries::own(body),
        box_high: own.and_then(|own| ctx.positive(own, HIGH, "box height").known()).map(Box::new),
        box_high_at: match own {
            Some(own) => Insertion::of(own, HIGH),
            None => Insertion::within(body, words::drawer::BOX),
        },
    }
}

/// The front of an opening: as it says itself, else as those of the case are.
fn front(entry: &Entry, body: &Entries, context: &Context<'_>, ctx: &mut Lower) -> Option<Fronts> {
    match (body.one(words::door::FRONT), context.fronts) {
        (Some(own), parent) => read_fronts::fronts(&own, parent, context.shared, ctx),
        (None, Some(parent)) => Some(parent.clone()),
        (None, None) => {
            ctx.sink.push(missing(words::case::FRONTS, "fronts", entry));
            None
        }
    }
}

/// Stops and catches belong to doors.
fn only_of_doors(body: &Entries, ctx: &mut Lower) {
    let Some(own) = body.one(words::door::FRONT).and_then(Said::body) else { return };
    let stop = own.one(words::fronts::STOP).map(|said| ("stop", said.head));
    let catch = own.one(words::fronts::CATCH).map(|said| ("catch", said.head));
    for (word, at) in [stop, catch].into_iter().flatten() {
        ctx.sink.push(
            Diagnostic::error(
                "word-unknown",
                format!("`{word}` can't stand in the front of a drawer or a false front"),
                at,
                "no door hangs here",
            )
            .note("only doors have stops and catches"),
        );
    }
}

/// The front of a drawer behind doors, which can only lie inside its opening.
fn laid_inside(fronts: Fronts, body: &Entries, ctx: &mut Lower) -> Fronts {
    let own = body.one(words::door::FRONT).and_then(Said::body);
    let written = own.and_then(|own| own.one(words::fronts::SET));
    if let (Some(set), Set::Overlay(_)) = (written, &fronts.set) {
        ctx.sink.push(
            Diagnostic::error(
                "front-behind-door",
                "a front behind doors would lie over the edges of its opening, where the doors close",
                set.head,
                "over the edges",
            )
            .because("the closed doors lie on those edges")
            .note("leave this out: behind doors a front lies inside its opening"),
        );
    }
    Fronts { set: Set::Inset, ..fronts }
}

fn missing(block: Word<Braces>, what: &str, entry: &Entry) -> Diagnostic {
    Diagnostic::error(
        "word-missing",
        format!("the case needs its {what}"),
        entry.head,
        format!("`{} {{ … }}` is missing in the case", block.spelling()),
    )
}

fn shelf_set(entry: &Entry, context: &Context<'_>, ctx: &mut Lower) -> Option<ShelfSet> {
    use words::shelf::{ADJUSTABLE, FIXED, STOCK};
    let body = entry.body()?;
    if body.one(FIXED).is_none() && body.one(ADJUSTABLE).is_none() {
        ctx.sink.push(
            Diagnostic::error(
                "word-missing",
                "the shelves of an opening need `fixed` or `adjustable`: how many there are",
                entry.head,
                "neither stands here",
            )
            .note("for example, `shelf { fixed 1 }` or `shelf { adjustable 2 }`"),
        );
        return None;
    }
    let count = |word| body.get(word).map_or(0, |count| count.value);
    let named = ctx.refer(body, STOCK, &context.shared.stock_names).known();
    let said = body.one(STOCK).filter(|_| count(ADJUSTABLE) == 0);
    if let Some(said) = said {
        let title = "`stock` is for shelves on pins, and there are none here";
        let found =
            Diagnostic::error("not-supported-yet", title, said.head, "nothing is made of it");
        ctx.sink.push(
            found.note("take it out: fixed shelves are made of what `shelves` of the case names"),
        );
    }
    Some(ShelfSet {
        fixed: count(FIXED),
        loose: count(ADJUSTABLE),
        loose_stock: named.map(|named| (StockId(named.value), Insertion::of(body, STOCK))),
        holes: hole::read(body, Through::Lying, ctx),
        carries: carries::own(body),
        span: entry.head,
        notes: body.notes(),
    })
}

fn member(
    draft: &MemberDraft<'_>,
    id: MemberId,
    wide: Option<Size>,
    needed: bool,
    context: &Context<'_>,
    ctx: &mut Lower,
) -> Option<Member> {
    let entry = draft.entry;
    let kind = match draft.between {
        Between::Stile => {
            let own = entry.body().and_then(|body| body.one(words::stile::PARTITION));
            let none = own.is_some_and(|own| own.is(Nothing::None));
            // Needed, it is made of what the case is made of.
            let needed = needed && context.stock.is_some();
            let empty = ctx.empty(&words::panels::BLOCK);
            let body = own.and_then(Said::body);
            let board = match body.or((own.is_some() || needed).then_some(&empty)) {
                _ if none => None,
                None => context.partitions.cloned(),
                Some(body) => {
                    let what = ("partition", entry.head);
                    Some(openings::board(body, words::panels::JOINT, what, context, ctx)?)
                }
            };
            MemberKind::Stile(
                board.map_or(Partition::None, |board| Partition::Board(Box::new(board))),
            )
        }
        Between::Rail => MemberKind::Rail(rail_shelf(entry, needed, context, ctx)?),
        Between::Divider => MemberKind::Divider(Box::new(draft.board.clone()?)),
    };
    Some(Member {
        id,
        path: draft.path.clone(),
        called: draft.called.clone(),
        kind,
        axis: draft.axis,
        list: OpeningId { case: id.case, at: draft.list },
        wide: wide?,
        long: Size::zero(),
        x: Length::ZERO,
        stands: Default::default(),
        y: Length::ZERO,
        full: false,
        left_out: left_out(entry, draft.between),
        span: entry.head,
        notes: entry.body().map(Entries::notes).unwrap_or_default(),
    })
}

/// The statement that leaves out the board behind a member.
fn left_out(entry: &Entry, between: Between) -> Option<Span> {
    let body = entry.body()?;
    let said = match between {
        Between::Stile => body.one(words::stile::PARTITION),
        Between::Rail => body.one(words::rail::SHELF),
        Between::Divider => None,
    };
    said.filter(|said| said.is(Nothing::None)).map(|said| said.head)
}

/// The shelf behind a rail: the one that is asked for, or the one that what stands
/// above needs for a floor. `None` where it can't be read.
fn rail_shelf(
    entry: &Entry,
    needed: bool,
    context: &Context<'_>,
    ctx: &mut Lower,
) -> Option<Option<Box<RailShelf>>> {
    let own = entry.body().and_then(|body| body.one(words::rail::SHELF));
    if own.is_none_or(|own| own.is(Nothing::None)) && (own.is_some() || !needed) {
        return Some(None);
    }
    let empty = ctx.empty(&words::rail_shelf::BLOCK);
    let body = own.and_then(Said::body).unwrap_or(&empty);
    let at = own.map_or(entry.head, |own| own.head);
    let Context { shelves, shared, .. } = *context;
    let fallback = shelves.stock.or(context.stock);
    let stock = read_case::stock(body, fallback, "the shelf behind the rail", at, shared, ctx)?;
    let asked = (words::rail_shelf::JOINT, JointKind::Dado);
    let mut joint = read_case::joinery(body, asked, &shared.thickness(stock), "shelf", ctx);
    if joint.span.is_none() {
        joint = shelves.joint.clone();
    }
    let built = web::read(body, words::rail_shelf::BUILD, stock, shared, ctx);
    let built = built.unwrap_or_else(|| shelves.web.clone());
    let web = web::held(web::without_load(built, body, ctx), &joint, context.holds_web, ctx);
    let edges = shelves.edges.clone();
    Some(Some(Box::new(RailShelf {
        board: Board { stock, joint, edges, web, carries: None, span: at, notes: body.notes() },
        lip: ctx.size_or_zero(body, words::rail_shelf::LIP, "lip"),
        carries: carries::own(body),
    })))
}

/// Places every opening and member, parents before children.
fn place(openings: &mut [Opening], members: &mut [Member], x: Size, y: Size) {
    let Some(root) = openings.first_mut() else { return };
    (root.x, root.y) = (x.length, y.length);
    root.stands = [x, y];
    let root_high = root.high.length;
    for index in 0..openings.len() {
        if let Some(behind) = openings[index].behind {
            let door = openings[index].clone();
            let list = &mut openings[behind.at];
            (list.x, list.y, list.stands) = (door.x, door.y, door.stands);
        }
        let OpeningKind::List(axis, items) = openings[index].kind.clone() else { continue };
        let list = openings[index].clone();
        let [left, low] = &list.stands;
        let top = low + &list.high;
        let mut at = Size::zero();
        for item in items {
            match item {
                Item::Opening(child) => {
                    let child = &mut openings[child.at];
                    let along = child.along(axis).clone();
                    child.stands = match axis {
                        Axis::Across => [left + &at, low.clone()],
                        Axis::Down => [left.clone(), &top - &at - &along],
                    };
                    (child.x, child.y) = (child.stands[0].length, child.stands[1].length);
                    at = at + along;
                }
                Item::Member(member) => {
                    let member = &mut members[member.at];
                    member.stands = match axis {
                        Axis::Across => [left + &at, low.clone()],
                        Axis::Down => [left.clone(), &top - &at - &member.wide],
                    };
                    (member.x, member.y) = (member.stands[0].length, member.stands[1].length);
                    member.long = list.along(axis.crosswise()).clone();
                    member.full = axis == Axis::Across && list.high.length == root_high;
                    at = at + &member.wide;
                }
            }
        }
    }
}
