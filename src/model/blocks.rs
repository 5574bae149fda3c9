//! The blocks of a case, read one by one.

use crate::diagnostics::Diagnostic;
use crate::vocabulary::{Entries, Entry, JointKind, Nothing, words};

use super::bought_legs::{self, OnLegs};
use super::case::{Bottom, End, Leg, Shelves, Top};
use super::cover::{self, Covers};
use super::edging::{self, Edged};
use super::front::{DrawerBoxes, Fronts};
use super::given::Given;
use super::id::FinishId;
use super::id::StockId;
use super::joinery::Board;
use super::lower::Lower;
use super::nailers::{self, Nailers};
use super::posts::{self, Posts};
use super::read_case::{self, Shared};
use super::read_fronts;

/// What a case says of its boards, fronts and boxes, as far as it is sound.
pub(super) struct Blocks {
    /// What a board is of that does not say it.
    pub(super) stock: Option<StockId>,
    pub(super) ends: Option<[End; 2]>,
    pub(super) posts: Given<Posts>,
    pub(super) on_legs: Given<OnLegs>,
    pub(super) covers: Covers,
    pub(super) fronts: Given<Fronts>,
    pub(super) drawers: Given<DrawerBoxes>,
    pub(super) partitions: Given<Board>,
    pub(super) bottom: Given<Bottom>,
    pub(super) back: Given<Board>,
    pub(super) nailers: Option<Nailers>,
    pub(super) top: Given<Top>,
    pub(super) legs: Vec<Leg>,
    pub(super) shelves: Shelves,
    pub(super) edges: Edged,
    pub(super) finish: Option<FinishId>,
}

impl Blocks {
    /// `None` where nothing is known of any board.
    pub(super) fn read(
        entry: &Entry,
        body: &Entries,
        shared: &Shared<'_>,
        ctx: &mut Lower,
    ) -> Option<Self> {
        use words::case::{BACK, BOTTOM, DRAWERS, EDGES, FINISH, FRONTS, PARTITIONS, TOP};

        let own = match read_case::named(body, shared, ctx) {
            // Every board would lack what was just found missing.
            Given::Refused => return None,
            Given::Absent => None,
            Given::Is(stock) => Some(stock),
        };
        let ends = read_case::ends(body, entry.head, own, shared, ctx);
        if own.is_none() && ends.is_none() {
            return None;
        }
        let into = ends.as_ref().map(|ends| shared.thickness(ends[0].stock)).unwrap_or_default();
        let usual = posts::usual_joint(body);
        let posts = posts::read(body, ends.as_ref(), shared, ctx);
        // What a board does not say, the case says; else it is as the ends are.
        let stock = own.or_else(|| ends.as_ref().map(|ends| ends[1].stock));
        let fronts = body.one(FRONTS).map(|e| read_fronts::fronts(&e, None, shared, ctx));
        let drawers = body.one(DRAWERS).map(|e| read_fronts::drawers(&e, shared, ctx));
        let partitions = body.one(PARTITIONS).map(|e| {
            let joint = (words::panels::JOINT, JointKind::Dado);
            read_case::board(&e, joint, &into, stock, "partitions", shared, ctx)
        });
        let bottom =
            body.one(BOTTOM).map(|e| read_case::bottom(&e, usual, &into, stock, shared, ctx));
        let said_of_back = body.one(BACK).filter(|said| !said.is(Nothing::None));
        let back = said_of_back.map(|e| {
            if e.body().is_none() {
                ctx.sink.push(
                    Diagnostic::error(
                        "block-missing",
                        "`back` needs braces after it, or `none`",
                        e.head,
                        "`{ … }` with its stock is missing after this",
                    )
                    .note(format!("for example, `{}`", BACK.row().example)),
                );
            }
            let joint = (words::back::JOINT, JointKind::Rabbet);
            read_case::board(&e, joint, &into, stock, "back", shared, ctx)
        });
        let top = body.one(TOP).map(|e| read_case::top(&e, usual, &into, stock, shared, ctx));
        Some(Self {
            legs: read_case::legs(body, stock, shared, ctx),
            shelves: read_case::shelves(body, entry.head, &into, stock, shared, ctx),
            edges: edging::read(body, EDGES, shared, ctx),
            finish: read_case::own_finish(body, FINISH, shared, ctx),
            nailers: nailers::read(body, entry.head, stock, shared, ctx),
            covers: cover::read(body, stock, ends.as_ref(), shared, ctx),
            on_legs: bought_legs::read(body, shared, ctx),
            stock,
            ends,
            posts,
            fronts: Given::block(fronts),
            drawers: Given::block(drawers),
            partitions: Given::block(partitions),
            bottom: Given::block(bottom),
            back: Given::block(back),
            top: Given::block(top),
        })
    }
}
