//! Web frames: what lies between drawers in place of a board.

use crate::diagnostics::Diagnostic;
use crate::measure::{Length, Percent, Span};
use crate::trade;
use crate::vocabulary::{BoardBuild, Entries, JointKind, Origin, Word, words};

use super::case::{Case, third};
use super::given::Given;
use super::id::StockId;
use super::insertion::Insertion;
use super::joinery::{Board, Joinery};
use super::lower::Lower;
use super::opening::{Axis, Member, MemberKind};
use super::read_case::Shared;
use super::site::Site;
use super::size::Size;
use super::stock::Stock;

/// The sizes of a web frame.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Web {
    /// The width of its rails, and the least width of its runners.
    pub wide: Size,
    /// How long the stub tenons of its runners are.
    pub tenon: Size,
    /// How much deeper the grooves are than what goes into them.
    pub room: Size,
    /// How wide the grooves are, and how thick the tenons.
    pub thick: Size,
    /// What its dust panels are made of, where it has some.
    pub panel: Option<StockId>,
    /// What it leaves for the year where boards beside it move along its runners.
    pub free: Option<Free>,
    /// Where the stock of the frame is said, or would be.
    pub stock_at: Insertion,
    /// The statement.
    pub span: Span,
}

/// What holds a web frame at its ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum HoldsWeb {
    /// Ends and partitions.
    Boards,
    /// The posts of the case.
    Posts,
}

/// What a web frame leaves at its back rail for the year.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Free {
    /// By how much its runners stand off the rail at their shoulders.
    pub gap: Size,
    /// How much farther their tenons go into it, so that they stay in it on the dampest
    /// day.
    pub reach: Size,
}

impl Web {
    /// The length of the tenons at the front, or at the back.
    #[must_use]
    pub fn tenon(&self, back: bool) -> Size {
        match self.free.as_ref().filter(|_| back) {
            Some(free) => &self.tenon + &free.reach + &free.gap,
            None => self.tenon.clone(),
        }
    }

    /// The depth of the groove that takes them.
    #[must_use]
    pub fn groove(&self, back: bool) -> Size {
        self.tenon(back) + &self.room
    }

    /// How far they go into it.
    #[must_use]
    pub fn reach(&self, back: bool) -> Size {
        match self.free.as_ref().filter(|_| back) {
            Some(free) => &self.tenon + &free.reach,
            None => self.tenon.clone(),
        }
    }
}

/// Gives every web frame what it leaves for the year where an end or a partition of its
/// case is of solid wood: that is as deep as the frame, and moves along its runners.
pub(super) fn give(
    cases: &mut [Case],
    stocks: &[Stock],
    (site, shop): (&Site, Percent),
    ctx: &mut Lower,
) {
    let moisture = |humidity| trade::equilibrium(site.temperature, humidity);
    let [milled, driest, dampest] = [shop, site.humidity.0, site.humidity.1].map(moisture);
    for case in cases {
        // Posts are narrow, and the panels between them move by themselves.
        let ends = case.ends.iter().filter(|_| case.posts.is_none()).map(|end| end.stock);
        let uprights = ends.chain(case.partitions.iter().map(|board| board.stock));
        let woods: Vec<u32> = uprights
            .filter_map(|id| stocks.get(id.0))
            .filter_map(|stock| Some(stock.sawn.coefficient(&stock.wood?)))
            .collect();
        let Some(most) = woods.into_iter().max() else { continue };
        let deep = case.deep.length;
        let moves = |to| trade::movement(deep, most, milled, to);
        let shrinks = (-moves(driest)).max(Length::ZERO);
        let swells = moves(dampest).max(Length::ZERO);
        let unit = ctx.tape.unit;
        let sizes = [ctx.tape.up(shrinks + trade::web_gap_spare(unit)), ctx.tape.up(swells)];
        for member in &mut case.members {
            let Some(web) = member.web_mut() else { continue };
            let at = Origin::Written(web.span);
            let [gap, reach] = sizes;
            web.free = Some(Free {
                gap: ctx.facts.add(gap, "gap at the back shoulders", at),
                reach: ctx.facts.add(reach, "what the ends swell", at),
            });
        }
    }
}

impl Member {
    /// The board that lies behind it, or that it is.
    #[must_use]
    pub fn lying_board(&self) -> Option<&Board> {
        match &self.kind {
            MemberKind::Rail(Some(shelf)) => Some(&shelf.board),
            MemberKind::Divider(board) => Some(board),
            MemberKind::Rail(None) | MemberKind::Stile(_) => None,
        }
    }

    fn web_mut(&mut self) -> Option<&mut Web> {
        match &mut self.kind {
            MemberKind::Rail(Some(shelf)) => shelf.board.web.as_deref_mut(),
            MemberKind::Divider(board) => board.web.as_deref_mut(),
            MemberKind::Rail(None) | MemberKind::Stile(_) => None,
        }
    }
}

impl Case {
    /// The web frame that lies in place of a member's board.
    #[must_use]
    pub fn web_of(&self, member: usize) -> Option<&Web> {
        self.members.get(member)?.lying_board()?.web.as_deref()
    }
}

/// What a block says of how its board is built; nothing where it says nothing.
pub(super) fn read(
    body: &Entries,
    word: Word<BoardBuild>,
    stock: StockId,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Option<Box<Web>>> {
    use words::web::{BLOCK, PANEL_STOCK, ROOM, TENON, WIDE};

    let said = body.one(word)?;
    match said.value()?.value {
        BoardBuild::Slab => return Some(None),
        BoardBuild::Web => {}
    }
    let empty = ctx.empty(&BLOCK);
    let sizes = said.body().unwrap_or(&empty);
    let mut size = |word, name| match ctx.positive(sizes, word, name).known() {
        Some(size) => size,
        None => ctx.size_or_zero(&empty, word, name),
    };
    let wide = size(WIDE, "width of the web frame");
    let tenon = size(TENON, "stub tenon of the web frame");
    let room = ctx.size_or_zero(sizes, ROOM, "room in the grooves of the web frame");
    let panel = match ctx.refer(sizes, PANEL_STOCK, &shared.stock_names) {
        Given::Is(name) => Some(StockId(name.value)),
        Given::Absent | Given::Refused => None,
    };
    let solid = panel.and_then(|id| shared.stocks.get(id.0)).filter(|own| own.is_solid());
    if let Some(solid) = solid {
        let at = sizes.one(PANEL_STOCK).map_or(said.head, |said| said.head);
        let title = format!("{} is solid wood, and dust panels are cut from a sheet", solid.name);
        let found = Diagnostic::error("not-supported-yet", title, at, "this is lumber");
        ctx.sink.push(found.note("name a stock of plywood or hardboard, or leave the panels out"));
    }
    let thick = match panel {
        Some(panel) => shared.thickness(panel),
        None => third(&shared.thickness(stock)),
    };
    let free = None;
    let stock_at = Insertion::of(body, words::case::STOCK);
    let web = Web { wide, tenon, room, thick, panel, free, stock_at, span: said.head };
    Some(Some(Box::new(web)))
}

/// The web frame that a divider is; nothing of a board that can't be one.
pub(super) fn of_board(
    body: &Entries,
    stock: StockId,
    joint: &Joinery,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Box<Web>> {
    let may = body.may_hold(words::divider::BUILD);
    let read = may.then(|| read(body, words::divider::BUILD, stock, shared, ctx));
    held(read.flatten().flatten(), joint, HoldsWeb::Boards, ctx)
}

/// Reports an upright divider that is to be a web frame; it then counts as one board.
pub(super) fn only_lying(board: &mut Board, axis: Axis, ctx: &mut Lower) {
    if axis == Axis::Down {
        return;
    }
    let Some(web) = board.web.take() else { return };
    let found = Diagnostic::error(
        "not-supported-yet",
        "an upright divider can't be a web frame",
        web.span,
        "nothing runs on this",
    );
    ctx.sink
        .push(found.note("take `build web` out; it is for what lies between drawers in `down`"));
}

/// Reports what is to stand on a web frame: only drawers run on one, and its runners and
/// rails are not reckoned as a shelf is.
pub(super) fn without_load(
    web: Option<Box<Web>>,
    body: &Entries,
    ctx: &mut Lower,
) -> Option<Box<Web>> {
    if let (Some(web), Some(load)) = (&web, body.one(words::rail_shelf::LOAD)) {
        let found = Diagnostic::error(
            "not-supported-yet",
            "the sag of a web frame is not worked out, so its load changes nothing",
            load.head,
            "this load",
        );
        ctx.sink.push(
            found.label(web.span, "this frame").note("take `load` out, or write `build slab`"),
        );
    }
    web
}

/// Reports a web frame that its boards can't hold as is said, which then counts as one
/// board. Boards take it in dadoes; posts hold its rails by pocket screws, for a dado would
/// cut through the wood between their mortises and grooves.
pub(super) fn held(
    web: Option<Box<Web>>,
    joint: &Joinery,
    by: HoldsWeb,
    ctx: &mut Lower,
) -> Option<Box<Web>> {
    let web = web?;
    let (kind, title, note) = match by {
        HoldsWeb::Boards => {
            (JointKind::Dado, "a web frame goes into dadoes", "write `joint dado`, or `build slab`")
        }
        HoldsWeb::Posts => (
            JointKind::Pocket,
            "a web frame between posts must be held by pocket screws",
            "write `joint pocket`",
        ),
    };
    if joint.kind == kind {
        return Some(web);
    }
    let found = Diagnostic::error(
        "not-supported-yet",
        format!("{title}, and its joint here is {}", joint.kind.word()),
        joint.span.unwrap_or(web.span),
        "this joint",
    );
    ctx.sink.push(found.label(web.span, "this frame").note(note));
    None
}
