//! How a case hangs on the wall.

use crate::diagnostics::{Diagnostic, Sum};
use crate::measure::{Length, Span};
use crate::trade;
use crate::vocabulary::{Entries, Said, words};

use super::case::Case;
use super::id::CaseId;
use super::insertion::Insertion;
use super::lower::Lower;
use super::piece::Piece;
use super::side::From;
use super::size::Size;

/// A case that hangs on the wall.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hung {
    /// From the floor to its underside, above the cover there.
    pub up: Size,
    /// Its own height, with the cover.
    pub high: Size,
    /// How many studs are behind it, where that is written.
    pub studs: Option<u32>,
    /// How many screws go through each nailer into each stud.
    pub screws: u32,
    /// What it hangs over; none beside the other cases.
    pub over: Option<Over>,
    /// The statement.
    pub span: Span,
    /// Where the studs are said, and the screws.
    pub said_at: [Insertion; 2],
}

/// What a case hangs over.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Over {
    /// The case, or the first one of the run.
    pub below: CaseId,
    /// What that is called: the case, or the run.
    pub name: String,
    /// From the left side of it to the left side of what hangs.
    pub left: Size,
    /// From which side that is said.
    pub from: From,
    /// The statement.
    pub span: Span,
}

/// What a case says of how it hangs, so far as it is known before its own height.
pub(super) struct Hanging {
    up: Size,
    /// How thick the cover under it is.
    under: Size,
    studs: Option<u32>,
    screws: u32,
    span: Span,
    said_at: [Insertion; 2],
}

impl Hanging {
    /// From the floor to its underside.
    pub(super) fn up(&self) -> &Size {
        &self.up
    }

    /// With the height of the case itself, and the height from the floor to its top.
    pub(super) fn with(self, high: Size) -> (Hung, Size) {
        let Self { up, under, studs, screws, span, said_at } = self;
        let top = &high + &up - under;
        (Hung { up, high, studs, screws, over: None, span, said_at }, top)
    }
}

/// Reads it for a case so high; `None` where nothing is written or its height is not known
/// (reported).
pub(super) fn read(
    case: &Entries,
    (name, high): (&str, Option<&Size>),
    under: Size,
    ctx: &mut Lower,
) -> Option<Hanging> {
    use words::hung::{LEFT, OVER, RIGHT, SCREWS, STUDS};

    let said = case.one(words::case::HUNG)?;
    let body = said.body()?;
    for side in [LEFT, RIGHT] {
        let Some(far) = body.one(side).filter(|_| !body.says(OVER)) else { continue };
        let word = body.spelled(side);
        let title = format!("`{word}` needs `over`, which says what it hangs over");
        let asks = format!("in from the {word} of what?");
        let found = Diagnostic::error("word-missing", title, far.head, asks);
        ctx.sink
            .push(found.note("write `over` and the name of the case or run that stands below it"));
    }
    let up = underside(body, (name, high), ctx)?;
    let studs = body.one(STUDS).and_then(Said::value).map(|count| *count.value);
    Some(Hanging {
        up: up + &under,
        under,
        studs,
        screws: body.get(SCREWS).map_or(trade::SCREWS_AT_STUD, |count| count.value),
        span: said.head,
        said_at: [Insertion::of(body, STUDS), Insertion::of(body, SCREWS)],
    })
}

/// From the floor to the underside of a case so high, with what covers that.
fn underside(body: &Entries, (name, high): (&str, Option<&Size>), ctx: &mut Lower) -> Option<Size> {
    use words::hung::{HangsAt, TOP, UP};

    let (at, said) = body.which::<HangsAt>()?;
    match at {
        HangsAt::Up => return ctx.positive(body, UP, "height that it hangs at").known(),
        HangsAt::Top => {}
    }
    let top = ctx.positive(body, TOP, "height that its top hangs at").known()?;
    let high = high?;
    let up = &top - high;
    if up.length.is_positive() {
        return Some(up);
    }
    let tape = ctx.tape;
    let [own, whole] = [top.length, high.length].map(|length| tape.figure(length));
    ctx.sink.push(
        Diagnostic::error(
            "figure-impossible",
            format!("the top of {name} can't hang {own} above the floor, for it is {whole} high"),
            said.head,
            "its underside would not be clear of the floor",
        )
        .sum(Sum::new("hangs at", up.length, &tape).plus(top.length, "top", &tape).minus(
            high.length,
            format!("{name} high"),
            &tape,
        ))
        .note("hang it higher, or make it lower"),
    );
    None
}

impl Piece {
    /// The cases that have their place from others, on them or over them, from the left.
    pub fn placed(&self) -> impl Iterator<Item = &Case> {
        self.cases.iter().filter(|case| !case.is_in_row())
    }

    /// True for a case that stands on another or hangs over it.
    #[must_use]
    pub fn is_above(&self, upper: &Case, below: &Case) -> bool {
        let [from, to] = [upper.x, upper.x + upper.wide.length];
        self.stands_on(upper, below.id)
            || upper.over().is_some()
                && below.is_in_row()
                && below.x < to
                && from < below.x + below.wide.length
    }

    /// From the center of one stud of a house to that of the next: 16 in, 400 mm (the
    /// commonest of the published 16 and 24 in; 400 and 600 mm).
    #[must_use]
    pub fn stud_spacing(&self) -> Length {
        self.tape().unit.either(Length::inches(16, 1), Length::mm(400))
    }

    /// True for a case that hangs beside another one that does, and is screwed to it.
    #[must_use]
    pub fn hangs_beside(&self, case: &Case) -> bool {
        let [left, right] = [case.x, case.x + case.wide.length];
        case.hung.is_some()
            && self.cases.iter().filter(|other| other.hung.is_some()).any(|other| {
                let touches = other.x == right || other.x + other.wide.length == left;
                touches
                    && other.base_high().length < case.high.length
                    && case.base_high().length < other.high.length
            })
    }

    /// The studs behind a case: as many as are written, else as many as it meets
    /// wherever they stand.
    #[must_use]
    pub fn studs_behind(&self, case: &Case) -> u32 {
        let written = case.hung.as_ref().and_then(|hung| hung.studs);
        let surely = (case.wide.length / self.stud_spacing()).floor();
        written.unwrap_or_else(|| u32::try_from(surely).unwrap_or_default())
    }
}
