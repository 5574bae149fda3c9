//! What goes with posts, and what does not yet.

use crate::diagnostics::{Diagnostic, Sum};
use crate::measure::{Length, Span, Unit};
use crate::trade;
use crate::vocabulary::{BoardBuild, Entries, JointKind, Said, Side, words};

use super::case::{Case, Exposure};
use super::id::SlideId;
use super::joinery::Joinery;
use super::lower::Lower;
use super::opening::{Axis, Member, MemberKind, Opening, OpeningKind};
use super::posts::Posts;
use super::read_case::Shared;

/// What does not go with posts yet, each once with all the statements that ask for it.
#[derive(Default)]
struct Refused {
    found: Vec<(String, &'static str, Vec<Span>)>,
}

impl Refused {
    fn add(&mut self, title: impl Into<String>, note: &'static str, at: Span) {
        let title = title.into();
        match self.found.iter_mut().find(|(known, ..)| *known == title) {
            Some((.., spans)) if !spans.contains(&at) => spans.push(at),
            Some(_) => {}
            None => self.found.push((title, note, vec![at])),
        }
    }

    fn report(self, ctx: &mut Lower) {
        for (title, note, spans) in self.found {
            let Some((first, others)) = spans.split_first() else { continue };
            let found =
                Diagnostic::error("not-supported-yet", title, *first, "not in a case on posts");
            let all = others.iter().fold(found, |found, span| found.label(*span, "nor here"));
            ctx.sink.push(all.note(note));
        }
    }
}

/// Reports what stands in a solved case on posts that does not go with them yet; true
/// where all of it does.
pub(super) fn fits(
    case: &Case,
    body: &Entries,
    posts: &Posts,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> bool {
    let before = ctx.sink.errors();
    let mut refused = Refused::default();
    beside(case, posts, &mut refused, ctx);
    joints(case, posts, &mut refused, ctx);
    lying(case, &mut refused);
    let runs = openings(case, shared, &mut refused);
    // A web frame that can't be held as is said is told already.
    let shelves = body.one(words::case::SHELVES).and_then(Said::body);
    let build = shelves.and_then(|shelves| shelves.one(words::shelves::BUILD));
    if case.shelves.web.is_some() || !build.is_some_and(|build| build.is(BoardBuild::Web)) {
        members(case, &mut refused);
    }
    refused.report(ctx);
    for strip in [runs.guides.then_some(Strip::Guide), runs.packers.then_some(Strip::Packer)] {
        let Some(strip) = strip else { continue };
        if !strips(case, posts, strip, shared, ctx) {
            break;
        }
    }
    if runs.guides {
        behind_stiles(case, ctx);
    }
    ctx.sink.errors() == before
}

/// What stands beside the case; what else stands in its file is told with all of that.
fn beside(case: &Case, posts: &Posts, refused: &mut Refused, ctx: &mut Lower) {
    if case.run.is_some() {
        let title = "a case on posts can't stand in a run";
        let found = Diagnostic::error("not-supported-yet", title, posts.span, "not in a run");
        ctx.sink.push(found.note("what stands on posts is a piece of furniture by itself: write it as a `case` in a file of its own, where several of them may stand, each by itself"));
        return;
    }
    for (side, exposure) in Side::BOTH.into_iter().zip(&case.exposure) {
        match exposure {
            Exposure::Seen | Exposure::Neighbour => {}
            Exposure::Wall { scribe } if scribe.length.is_zero() => {}
            Exposure::Wall { .. } => refused.add(
                format!("the {} posts are not scribed to the wall beside them", side.word()),
                "write `scribe 0` for that wall in `site`, and let the piece stand clear of it",
                posts.span,
            ),
        }
    }
}

/// What drawers of a case run between.
#[derive(Default)]
struct Runs {
    /// Guides, on wood.
    guides: bool,
    /// Packers that bought slides are screwed to.
    packers: bool,
}

/// What stands in the openings, and what their drawers run between.
fn openings(case: &Case, shared: &Shared<'_>, refused: &mut Refused) -> Runs {
    let mut runs = Runs::default();
    for opening in &case.openings {
        let (what, note) = match &opening.kind {
            OpeningKind::List(..) => continue,
            OpeningKind::Open | OpeningKind::Door(_) | OpeningKind::Doors => continue,
            OpeningKind::Drawer { slide: Some(slide), .. } if is_wooden(*slide, shared) => {
                runs.guides = true;
                continue;
            }
            OpeningKind::Drawer { slide: Some(_), .. } if case.door_before(opening).is_some() => (
                "slides of a drawer behind doors can't be fixed between posts yet",
                "put a shelf in its place, or take the doors away",
            ),
            OpeningKind::Drawer { slide: Some(_), .. } if is_beside_bare(case, opening) => (
                "a slide is screwed to a board, and no board stands behind the stile beside it",
                "write `partition` in the braces of that stile, or give the drawer a `wooden` slide",
            ),
            OpeningKind::Drawer { slide: Some(_), .. } => {
                runs.packers = true;
                continue;
            }
            OpeningKind::Drawer { slide: None, .. } => continue,
            OpeningKind::False => {
                ("a false front can't be fixed between posts yet", "write `open` in its place")
            }
        };
        refused.add(what, note, opening.span);
    }
    runs
}

/// True for a drawer beside a stile that no board stands behind.
fn is_beside_bare(case: &Case, opening: &Opening) -> bool {
    Side::BOTH.into_iter().any(|side| case.bare_stile(opening, side).is_some())
}

/// The boards behind the members of the frame.
fn members(case: &Case, refused: &mut Refused) {
    for member in &case.members {
        let (what, note) = match &member.kind {
            MemberKind::Rail(None) | MemberKind::Stile(_) | MemberKind::Divider(_) => continue,
            MemberKind::Rail(Some(shelf)) => {
                match (&shelf.board.web, ends_at_posts(case, member)) {
                    (Some(_), true) => continue,
                    (Some(_), false) => (
                        "a web frame in a case on posts goes from end to end",
                        "let the rail before it run from post to post",
                    ),
                    (None, _) => continue,
                }
            }
        };
        refused.add(what, note, member.span);
    }
}

/// Reports stiles without a board behind them that leave the guides of the drawers beside
/// them too little wood.
fn behind_stiles(case: &Case, ctx: &mut Lower) {
    let tape = &ctx.tape;
    let least = trade::thinnest_guide(tape.unit);
    let mut found: Vec<Diagnostic> = Vec::new();
    for opening in case.openings.iter().filter(|own| matches!(own.kind, OpeningKind::Drawer { .. }))
    {
        for side in Side::BOTH {
            let Some((member, share)) = case.bare_stile_beside(opening, side) else { continue };
            if share.length >= least || found.iter().any(|own| own.primary.span == member.span) {
                continue;
            }
            let guides = if share.length == member.wide.length { 1 } else { 2 };
            let needs = least * guides;
            let told = if guides == 1 { "a guide" } else { "two guides" };
            found.push(
                Diagnostic::error(
                    "not-supported-yet",
                    format!(
                        "{} is {} wide, but it must be at least {} wide for {told} behind it",
                        member.path,
                        tape.figure(member.wide.length),
                        tape.figure(needs)
                    ),
                    member.span,
                    "no board stands behind it",
                )
                .sum(
                    Sum::new("too narrow by", needs - member.wide.length, tape)
                        .plus(needs, "for guides", tape)
                        .minus(member.wide.length, "stile", tape),
                )
                .note(format!(
                    "write `wide {}` for this stile, or take out its `partition none`",
                    tape.source(needs)
                )),
            );
        }
    }
    ctx.sink.extend(found);
}

/// True for a slide of wood.
fn is_wooden(slide: SlideId, shared: &Shared<'_>) -> bool {
    shared.made_slides.get(slide.0).is_some_and(|slide| slide.wooden().is_some())
}

/// A strip from the front post to the back one, flush with both on the inside.
#[derive(Clone, Copy)]
enum Strip {
    /// Beside a drawer on wood.
    Guide,
    /// A bought slide is screwed to it.
    Packer,
}

impl Strip {
    /// The thinnest that holds: a packer has pocket screws at its ends, which ask for 1/2 in
    /// (13 mm; common practice, no source).
    fn least(self, unit: Unit) -> Length {
        match self {
            Self::Guide => trade::thinnest_guide(unit),
            Self::Packer => unit.either(Length::inches(1, 2), Length::mm(13)),
        }
    }

    fn word(self) -> &'static str {
        match self {
            Self::Guide => "guide",
            Self::Packer => "packer",
        }
    }
}

/// Reports posts that don't stand so far proud of the rails of the ends, inside, that a
/// strip fits between the front and the back post; true where it does.
fn strips(case: &Case, posts: &Posts, strip: Strip, shared: &Shared<'_>, ctx: &mut Lower) -> bool {
    let tape = &ctx.tape;
    let rails = case.ends.iter().map(|end| shared.thickness(end.stock));
    let thick = rails.max_by_key(|rails| rails.length).unwrap_or_default();
    let (rails, wide) = (thick.length, posts.wide.length);
    let (least, what) = (strip.least(tape.unit), strip.word());
    let proud = posts.recess(&thick).length;
    let back = wide - proud - rails;
    if proud >= least {
        return true;
    }
    let needs = tape.figure_with_unit(least);
    let title = match strip {
        Strip::Guide => format!(
            "the drawers of {} run between guides behind the front posts, and a guide is {needs} thick at least",
            case.name
        ),
        Strip::Packer => format!(
            "the slides of {} are screwed to packers between the posts, and a packer is {needs} thick at least",
            case.name
        ),
    };
    let mut found = Diagnostic::error(
        "not-supported-yet",
        title,
        posts.ends.span,
        match posts.set_back {
            Some(_) => format!("its rails leave no room for a {what}"),
            None => "its rails are flush with the posts, inside".to_owned(),
        },
    )
    .label(posts.span, format!("posts {} wide", tape.figure(wide)))
    .sum(
        Sum::new(format!("room for a {what}"), proud, tape)
            .plus(wide, "post", tape)
            .minus(back, "set back", tape)
            .minus(rails, "rail", tape),
    );
    let most = tape.down(wide - rails - least);
    if !most.is_negative() {
        let title = format!("set the rails of the ends back {}", tape.figure(most));
        let fix = posts.set_back_at.says(&format!("set-back {}", tape.source(most)), title);
        found = found.fix(fix);
    } else {
        found = found.note("use wider posts, or thinner stock for the ends");
    }
    ctx.sink.push(found);
    false
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

/// Reports shelves and lying dividers that are not joined as posts can hold them.
fn lying(case: &Case, refused: &mut Refused) {
    let Some(root) = case.openings.first() else { return };
    let at_post = |x: Length, wide: Length| x == root.x || x + wide == root.x + root.wide.length;
    let mut held = |joint: &Joinery, span: Span| {
        let is_held = match joint.kind {
            JointKind::Pocket | JointKind::Dado => true,
            JointKind::Rabbet
            | JointKind::Screw
            | JointKind::Tenon
            | JointKind::Dowel
            | JointKind::Dovetail
            | JointKind::Butt => false,
        };
        if !is_held {
            refused.add(
                "a shelf between posts is held by pocket screws, or in dadoes",
                "write `joint pocket`, or `joint dado` where the ends are set back",
                joint.span.unwrap_or(span),
            );
        }
    };
    for member in case.members.iter().filter(|own| at_post(own.x, own.long.length)) {
        match &member.kind {
            MemberKind::Rail(Some(shelf)) if shelf.board.web.is_none() => {
                held(&shelf.board.joint, member.span);
            }
            MemberKind::Divider(board) if member.axis == Axis::Down => {
                held(&board.joint, member.span);
            }
            MemberKind::Rail(_) | MemberKind::Stile(_) | MemberKind::Divider(_) => {}
        }
    }
    for opening in case.openings.iter().filter(|own| at_post(own.x, own.wide.length)) {
        if opening.shelves.as_ref().is_some_and(|set| set.fixed > 0) {
            held(&case.shelves.joint, opening.span);
        }
    }
}

/// Reports boards that are not joined as paneled ends can hold them.
fn joints(case: &Case, posts: &Posts, refused: &mut Refused, ctx: &mut Lower) {
    let mut pocket = |what: &str, joint: &Joinery, span: Span| {
        if joint.kind == JointKind::Pocket {
            return;
        }
        refused.add(
            format!("the {what} between paneled ends must be held by pocket screws"),
            "write `joint pocket`: a dado would cut into the tenons of the ends",
            joint.span.unwrap_or(span),
        );
    };
    if let Some(bottom) = &case.bottom {
        pocket("bottom", &bottom.board.joint, bottom.board.span);
    }
    if let Some(top) = &case.top {
        pocket("top", &top.board.joint, top.board.span);
    }
    if let Some(back) = case.back.as_ref().filter(|back| back.joint.kind != JointKind::Rabbet) {
        refused.add(
            "the back between posts must lie in rabbets in the back posts",
            "write `joint rabbet`",
            back.joint.span.unwrap_or(back.span),
        );
    }
    if let Some(frame) = case.frame.as_ref().filter(|own| own.joint.kind != JointKind::Tenon) {
        refused.add(
            "the rails of a frame between posts need tenons",
            "write `joint tenon`",
            frame.joint.span.unwrap_or(frame.span),
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
