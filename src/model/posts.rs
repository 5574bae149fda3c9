//! Furniture on posts: a post at each corner, and paneled ends between them.

use crate::diagnostics::{Diagnostic, Sum};
use crate::measure::Span;
use crate::vocabulary::{Entries, Entry, HowBuilt, JointKind, Said, words};

use super::case::End;
use super::framed::{self, PanelBuild};
use super::given::Given;
use super::id::StockId;
use super::insertion::Insertion;
use super::lower::Lower;
use super::read_case::Shared;
use super::size::Size;
use super::web::HoldsWeb;

/// The posts at the corners of a case, and the paneled ends between them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Posts {
    /// Their stock.
    pub stock: StockId,
    /// Left to right.
    pub wide: Size,
    /// Front to back: as thick as their stock.
    pub deep: Size,
    /// From the outside faces of the posts to the rails of the ends; `None` where those are
    /// flush with the inside faces.
    pub set_back: Option<Size>,
    /// Where that is said, or would be.
    pub(super) set_back_at: Insertion,
    /// From the floor to the underside of the frame and of the lower rails of the ends.
    pub high: Size,
    /// How the ends are built; the posts are their stiles.
    pub ends: PanelBuild,
    /// The statement.
    pub span: Span,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

impl Posts {
    /// How far rails so thick stand back from the inside faces of the posts.
    #[must_use]
    pub fn recess(&self, rails: &Size) -> Size {
        match &self.set_back {
            Some(back) => &self.wide - back - rails,
            None => Size::zero(),
        }
    }
}

/// The statement that gives a case its posts.
pub(super) fn said(case: &Entries) -> Option<Said<'_, crate::vocabulary::takes::Braces>> {
    let base = case.one(words::case::BASE).and_then(Said::body)?;
    base.one(words::base::POSTS)
}

/// The joint of a board that goes from end to end, where nothing is written of it: dadoes
/// in ends of one board, pocket screws in the rails of paneled ones.
pub(super) fn usual_joint(case: &Entries) -> JointKind {
    match said(case) {
        Some(_) => JointKind::Pocket,
        None => JointKind::Dado,
    }
}

/// What holds the web frames of a case.
pub(super) fn holds_web(case: &Entries) -> HoldsWeb {
    match said(case) {
        Some(_) => HoldsWeb::Posts,
        None => HoldsWeb::Boards,
    }
}

/// The posts of a case; how high they stand off the floor is not known yet.
pub(super) fn read(
    case: &Entries,
    ends: Option<&[End; 2]>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Given<Posts> {
    let both = case.one(words::case::ENDS);
    let build = both.and_then(Said::body).and_then(|both| both.one(words::ends::BUILD));
    let build = build.filter(|build| build.is(HowBuilt::Panel));
    let (posts, build) = match (said(case), build) {
        (None, None) => return Given::Absent,
        (Some(posts), Some(build)) => (posts, build),
        (Some(posts), None) => {
            let found = Diagnostic::error(
                "word-missing",
                "the ends between posts are frame and panel, but their sizes are missing",
                both.map_or(posts.head, |both| both.head),
                "how are these ends built?",
            )
            .label(posts.head, "these posts are the stiles of the ends");
            ctx.sink.push(found.note(
                "write it in the case, for example `ends { build panel { rail …; panel-stock … } }`",
            ));
            return Given::Refused;
        }
        (None, Some(build)) => {
            let found = Diagnostic::error(
                "word-missing",
                "a paneled end has a post at its front and one at its back, and this case has none",
                build.head,
                "these ends need posts",
            );
            ctx.sink.push(found.note(
                "write it in the base, for example `base { posts { stock post }; high 5 }`, or take `build` out for ends of one board",
            ));
            return Given::Refused;
        }
    };
    refused(case, ctx);
    match one(posts, build, ends, shared, ctx) {
        Some(posts) => Given::Is(posts),
        None => Given::Refused,
    }
}

fn one(
    posts: Said<'_, crate::vocabulary::takes::Braces>,
    build: Said<'_, HowBuilt>,
    ends: Option<&[End; 2]>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Posts> {
    let body = posts.body()?;
    let stock = ctx.refer(body, words::posts::STOCK, &shared.stock_names).known();
    let stock = StockId(stock?.value);
    let deep = shared.thickness(stock);
    let wide = match ctx.positive(body, words::posts::WIDE, "post width") {
        Given::Is(wide) => wide,
        Given::Absent => deep.clone(),
        Given::Refused => return None,
    };
    let ends_panel = framed::of_end(build, &wide, &shared.stock_names, ctx)?;
    let rails = ends.map(|ends| shared.thickness(ends[0].stock)).unwrap_or_default();
    let set_back = build
        .body()
        .and_then(|sizes| ctx.size(sizes, words::end_panel::SET_BACK, "set-back of the ends"));
    let set_back_at = Insertion::of(build.body()?, words::end_panel::SET_BACK);
    let back = set_back.clone().unwrap_or_default();
    let left = wide.length - rails.length - back.length;
    if left.is_negative() {
        let tape = &ctx.tape;
        let mut sum = Sum::new("room for them", left, tape).plus(wide.length, "post", tape);
        if set_back.is_some() {
            sum = sum.minus(back.length, "set back", tape);
        }
        let found = Diagnostic::error(
            "absurd-size",
            "the rails of the ends reach past the inside faces of the posts",
            posts.head,
            format!("these posts are {} wide", tape.figure(wide.length)),
        );
        ctx.sink.push(
            found
                .label(build.head, format!("the rails are {} thick", tape.figure(rails.length)))
                .sum(sum.minus(rails.length, "rail", tape))
                .note("use wider posts, thinner rails, or less `set-back`"),
        );
        return None;
    }
    Some(Posts {
        stock,
        wide,
        deep,
        set_back,
        set_back_at,
        high: Size::zero(),
        ends: ends_panel,
        span: posts.head,
        notes: body.notes(),
    })
}

fn unsupported(title: &str, at: Span, note: &str, ctx: &mut Lower) {
    let found = Diagnostic::error("not-supported-yet", title, at, "not in a case on posts");
    ctx.sink.push(found.note(note.to_owned()));
}

/// Reports what a case says that does not go with posts yet.
fn refused(case: &Entries, ctx: &mut Lower) {
    for end in case.all(words::case::END) {
        end.mark_all();
        unsupported(
            "both ends between posts must be alike",
            end.head,
            "say all of them in `ends`",
            ctx,
        );
    }
    for cover in case.all(words::case::COVER) {
        cover.mark_all();
        unsupported("a paneled end between posts takes no cover", cover.head, "take it out", ctx);
    }
    for leg in case.all(words::case::LEG) {
        leg.mark_all();
        unsupported("a case on posts has no legs under its bottom", leg.head, "take it out", ctx);
    }
}

/// Reports outer stiles of a frame whose stiles are the posts.
pub(super) fn no_stiles(frame: &Entries, posts: &Posts, ctx: &mut Lower) {
    for stile in frame.all(words::frame::STILE) {
        stile.mark_all();
        let side = stile.value().map_or("outer", |side| side.value.word());
        let found = Diagnostic::error(
            "word-twice",
            format!("the {side} stile of this frame is the front {side} post"),
            stile.head,
            "it is given again here",
        );
        ctx.sink.push(found.label(posts.span, "the posts").note(format!(
            "take `stile {side}` out: the rails go into the posts, and `wide` in `posts` says how wide those are"
        )));
    }
}

/// Reports a case on posts that has no frame.
pub(super) fn no_frame(posts: &Posts, frame: &Entry, ctx: &mut Lower) {
    let found = Diagnostic::error(
        "not-supported-yet",
        "nothing but a face frame holds the front posts together yet",
        frame.head,
        "this case needs a frame",
    );
    ctx.sink.push(
        found.label(posts.span, "the posts").note(
            "write `frame { … }` with a top and a bottom rail; its outer stiles are the posts",
        ),
    );
}
