//! Furniture on posts: a post at each corner, and paneled ends between them.

use crate::diagnostics::{Diagnostic, Sum};
use crate::measure::{Span, Unit};
use crate::trade;
use crate::vocabulary::{Entries, Entry, HowBuilt, JointKind, Said, Side, words};

use super::case::{Case, End, Exposure};
use super::framed::{self, PanelBuild};
use super::given::Given;
use super::id::{SlideId, StockId};
use super::joinery::Joinery;
use super::lower::Lower;
use super::opening::{Member, MemberKind, OpeningKind};
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
    /// From the floor to the underside of the frame and of the lower rails of the ends.
    pub high: Size,
    /// How the ends are built; the posts are their stiles.
    pub ends: PanelBuild,
    /// The statement.
    pub span: Span,
    /// Notes for the papers.
    pub notes: Vec<String>,
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
                "the ends between posts are frame and panel, and nothing is said of their frames",
                posts.head,
                "these posts are the stiles of the ends",
            );
            ctx.sink.push(found.note(
                "write it in the case, for example `ends { build panel { rail 2-1/2; panel-stock thin-ply } }`",
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
            "both ends between posts are alike",
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

/// Reports what stands in a solved case on posts that does not go with them yet; true
/// where all of it does.
pub(super) fn fits(case: &Case, posts: &Posts, shared: &Shared<'_>, ctx: &mut Lower) -> bool {
    let before = ctx.sink.errors();
    const ALONE: (&str, &str) = (
        "a case on posts stands by itself",
        "write it as a piece of its own, in a file of its own",
    );
    let alone = case.run.is_none();
    if !alone {
        unsupported(ALONE.0, posts.span, ALONE.1, ctx);
    }
    for (side, exposure) in Side::BOTH.into_iter().zip(&case.exposure).filter(|_| alone) {
        let (what, note) = match exposure {
            Exposure::Seen => continue,
            Exposure::Wall { scribe } if scribe.length.is_zero() => continue,
            Exposure::Wall { .. } => (
                format!("the {} posts are not scribed to the wall beside them", side.word()),
                "write `scribe 0` for that wall in `site`, and let the piece stand clear of it",
            ),
            Exposure::Neighbour => (ALONE.0.to_owned(), ALONE.1),
        };
        unsupported(&what, posts.span, note, ctx);
    }
    joints(case, posts, ctx);
    for opening in &case.openings {
        let (what, note) = match &opening.kind {
            OpeningKind::List(..) => continue,
            OpeningKind::Open if opening.shelves.is_none() => continue,
            OpeningKind::Open => {
                ("nothing carries a shelf between paneled ends yet", "take the shelves out")
            }
            OpeningKind::Door(_) | OpeningKind::Doors => {
                ("doors don't hang on posts yet", "write `open` in its place")
            }
            OpeningKind::Drawer { slide: Some(slide), .. } if is_wooden(*slide, shared) => {
                match guided(case, posts, shared, ctx.tape.unit) {
                    true => continue,
                    false => (
                        "a drawer between posts runs between guides, and there is no room for them",
                        "write `set-back` in `build panel` of the ends, so that the posts stand proud of the rails inside by 1/2 in (12 mm) or more",
                    ),
                }
            }
            OpeningKind::Drawer { slide: Some(_), .. } => (
                "no slide is fixed between posts yet",
                "give it a `wooden` slide: then it runs on the board under it",
            ),
            OpeningKind::Drawer { slide: None, .. } => continue,
            OpeningKind::False => {
                ("a false front is not held between posts yet", "write `open` in its place")
            }
        };
        unsupported(what, opening.span, note, ctx);
    }
    for member in &case.members {
        let (what, note) = match &member.kind {
            MemberKind::Rail(None) | MemberKind::Stile(_) => continue,
            MemberKind::Rail(Some(shelf)) => {
                match (&shelf.board.web, ends_at_posts(case, member)) {
                    (Some(_), true) => continue,
                    (Some(_), false) => (
                        "a web frame in a case on posts goes from end to end",
                        "let the rail before it run from post to post",
                    ),
                    (None, _) => (
                        "nothing carries a shelf between paneled ends yet",
                        "write `build web` in `shelves` for drawers that run on it, or `shelf none` in this rail",
                    ),
                }
            }
            MemberKind::Divider(_) => (
                "no divider lies or stands between posts yet",
                "write a `rail` or a `stile` in its place",
            ),
        };
        unsupported(what, member.span, note, ctx);
    }
    ctx.sink.errors() == before
}

/// True for a slide of wood.
fn is_wooden(slide: SlideId, shared: &Shared<'_>) -> bool {
    shared.made_slides.get(slide.0).is_some_and(|slide| slide.wooden().is_some())
}

/// True where the posts stand so far proud of the rails of the ends, inside, that a guide
/// fits between the front and the back post.
fn guided(case: &Case, posts: &Posts, shared: &Shared<'_>, unit: Unit) -> bool {
    let Some(back) = &posts.set_back else { return false };
    let rails = case.ends.iter().map(|end| shared.thickness(end.stock).length).max();
    posts.wide.length - back.length - rails.unwrap_or_default() >= trade::thinnest_guide(unit)
}

/// True for a member that goes from the left front post to the right one.
fn ends_at_posts(case: &Case, member: &Member) -> bool {
    case.openings
        .first()
        .is_some_and(|root| (member.x, member.long.length) == (root.x, root.wide.length))
}

/// Reports what stands on a case on posts, whose top does not bear another case yet.
pub(super) fn nothing_on(cases: &[Case], ctx: &mut Lower) {
    for case in cases {
        let Some(on) = &case.on else { continue };
        let below = cases.iter().find(|below| below.id == on.below);
        if let Some(posts) = below.and_then(|below| below.posts.as_ref()) {
            let found = Diagnostic::error(
                "not-supported-yet",
                format!("{} can't stand on {}, which stands on posts", case.name, on.name),
                on.span,
                "not on a case on posts",
            );
            ctx.sink.push(
                found
                    .label(posts.span, "the posts")
                    .note("write it as a piece of its own, in a file of its own"),
            );
        }
    }
}

/// Reports boards that are not joined as paneled ends can hold them.
fn joints(case: &Case, posts: &Posts, ctx: &mut Lower) {
    let mut pocket = |what: &str, joint: &Joinery, span: Span| {
        if joint.kind == JointKind::Pocket {
            return;
        }
        unsupported(
            &format!("the {what} between paneled ends is held by pocket screws"),
            joint.span.unwrap_or(span),
            "write `joint pocket`: a dado would cut into the tenons of the ends",
            ctx,
        );
    };
    if let Some(bottom) = &case.bottom {
        pocket("bottom", &bottom.board.joint, bottom.board.span);
    }
    if let Some(top) = &case.top {
        pocket("top", &top.board.joint, top.board.span);
    }
    if let Some(back) = case.back.as_ref().filter(|back| back.joint.kind != JointKind::Rabbet) {
        unsupported(
            "the back between posts lies in rabbets of the back posts",
            back.joint.span.unwrap_or(back.span),
            "write `joint rabbet`",
            ctx,
        );
    }
    if let Some(frame) = case.frame.as_ref().filter(|own| own.joint.kind != JointKind::Tenon) {
        unsupported(
            "the rails of a frame between posts have tenons",
            frame.joint.span.unwrap_or(frame.span),
            "write `joint tenon`",
            ctx,
        );
    }
    let rail = case.frame.as_ref().and_then(|frame| frame.bottom.as_ref());
    let flush = case.bottom.as_ref().filter(|bottom| bottom.flush);
    if let (Some(bottom), Some(rail)) = (flush, rail)
        && rail.wide.length > posts.ends.bottom.length
    {
        let tape = ctx.tape;
        let found = Diagnostic::error(
            "part-impossible",
            "the bottom lies beside the panels of the ends, and only their rails can hold it",
            bottom.board.span,
            format!(
                "its top is {} up, at the top of the bottom rail",
                tape.figure(rail.wide.length)
            ),
        );
        let wide = tape.figure(posts.ends.bottom.length);
        ctx.sink.push(found.label(posts.ends.span, format!("the lower rails of the ends reach {wide} up")).note(
            "make the bottom rail of the ends at least as wide as that of the frame, or take `flush` out",
        ));
    }
}
