//! The face frame of a case, once the sizes of its outer members are known.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{Span, Tape};
use crate::vocabulary::{Entries, Entry, JointKind, RailSide, Said, Seam, Side, length, words};

use super::frame::{Frame, OuterMember};
use super::lower::Lower;
use super::posts::Posts;
use super::read_case::{self, Shared};
use super::size::Size;

/// The frame of a case whose outer members have these sizes: its stiles, its top rail, and
/// its bottom rail.
pub(super) fn read(
    entry: &Entry,
    body: &Entries,
    (sides, above, below): ([Size; 2], Option<Size>, Option<Size>),
    posts: Option<&Posts>,
    shared: &Shared<'_>,
    ctx: &mut Lower,
) -> Option<Frame> {
    let stock = read_case::stock(body, None, "the frame", entry.head, shared, ctx)?;
    let into = shared.thickness(stock);
    // Rails go into posts with tenons.
    let usual = if posts.is_some() { JointKind::Tenon } else { JointKind::Pocket };
    let asked = (words::frame::JOINT, usual);
    let joint = read_case::joinery(body, asked, &into, "frame", ctx);
    let stile = |side: Side, wide: Size| {
        if let Some(posts) = posts {
            let notes = Vec::new();
            return Some(OuterMember { wide, seam: Seam::Butt, span: posts.span, notes });
        }
        let said = body.all(words::frame::STILE).find(|stile| stile.is(side))?;
        let inner = said.body()?;
        let seam = read_case::seam(inner);
        Some(OuterMember { wide, seam, span: said.head, notes: inner.notes() })
    };
    let rail = |side: RailSide, wide: Size| {
        let said = body.all(words::frame::RAIL).find(|rail| rail.is(side))?;
        let notes = said.body()?.notes();
        Some(OuterMember { wide, seam: Seam::Butt, span: said.head, notes })
    };
    let [left, right] = sides;
    Some(Frame {
        finish: read_case::own_finish(body, words::frame::FINISH, shared, ctx),
        stock,
        joint,
        stiles: [stile(Side::Left, left)?, stile(Side::Right, right)?],
        top: above.and_then(|wide| rail(RailSide::Top, wide)),
        bottom: below.and_then(|wide| rail(RailSide::Bottom, wide)),
        span: entry.head,
        notes: body.notes(),
    })
}

/// A frame without one of its outer stiles; one as wide as the other is offered.
pub(super) fn no_stile(frame: &Entries, side: Side, tape: &Tape) -> Diagnostic {
    let other = frame.all(words::frame::STILE).find(|stile| !stile.is(side));
    let at = other.map_or(frame.open, |other| other.head);
    // As it would be written here, which may be the other way round.
    let written = match other.is_some_and(|other| other.is_mirrored()) {
        true => side.other(),
        false => side,
    };
    let word = written.word();
    let found = Diagnostic::error(
        "word-missing",
        format!("the frame has no {word} stile"),
        at,
        format!("`stile {word}` is missing in this frame"),
    );
    // Names of other sizes mean nothing before the piece is solved.
    let wide = other.and_then(Said::body).and_then(|body| {
        let said = body.size(words::outer_stile::WIDE)?;
        Some((body.close, length(&said.value.expr, said.value.unit).ok()?))
    });
    match wide {
        Some((close, wide)) => {
            let at = Span { start: close.end, ..close };
            let title = format!("make it as wide as the {} stile", written.other().word());
            let text = format!("; stile {word} {{ wide {} }}", tape.source(wide));
            found.fix(Fix::new(Grade::Choice, title, at, text))
        }
        None => {
            let usual = tape.unit.either("1-3/4", "45");
            found.note(format!("for example, `stile {word} {{ wide {usual} }}`"))
        }
    }
}
