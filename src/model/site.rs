//! The room the piece is fitted in.

use crate::measure::{Exact, Length, Percent, Span, Temperature};
use crate::vocabulary::{Entries, Fixing, Meets, Word, words};

use super::insertion::Insertion;
use super::lower::Lower;
use super::size::Size;

/// The room.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Site {
    /// What the left side of the piece meets.
    pub left: Boundary,
    /// What its right side meets.
    pub right: Boundary,
    /// Where its sides are said, or would be; `None` where the spec has no site.
    pub sides_at: Option<[Insertion; 2]>,
    /// It is screwed to the wall behind it.
    pub fixed: bool,
    /// Where that is said; `None` where the spec has no site.
    pub fixed_at: Option<Insertion>,
    /// The driest and dampest air through the year.
    pub humidity: (Percent, Percent),
    /// The statement that gives it; `None` where it is the usual room's.
    pub humidity_span: Option<Span>,
    /// The usual temperature.
    pub temperature: Temperature,
    /// What no part may touch.
    pub keep_outs: Vec<KeepOut>,
    /// The baseboard behind the piece, where it stays.
    pub baseboard: Option<Baseboard>,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

/// What one side of the piece meets.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Boundary {
    /// The side is seen.
    Open,
    /// A wall that may not be straight.
    Wall {
        /// How far the outer stile reaches past the carcass.
        scribe: Size,
        /// Where the wall is written.
        span: Span,
        /// Where its scribe is written, or would be; `None` where it has no braces.
        scribe_at: Option<Insertion>,
    },
}

/// A box against the wall behind the piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeepOut {
    /// What it is.
    pub name: String,
    /// From the left side of the piece to its left side.
    pub from_left: Length,
    /// From the left side of the piece to its left and to its right side.
    pub sides: [Size; 2],
    /// From the floor to its underside.
    pub up: Length,
    /// Its width.
    pub wide: Length,
    /// Its height.
    pub high: Length,
    /// How far it stands out from the wall.
    pub deep: Length,
    /// It gets hot, or moves.
    pub hot: bool,
    /// Notes for the papers.
    pub notes: Vec<String>,
    /// Where it is written.
    pub span: Span,
}

/// A baseboard along the wall behind the piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Baseboard {
    /// Its height above the floor.
    pub high: Size,
    /// How far it stands out from the wall.
    pub thick: Size,
    /// How much more room the notches leave, over it and before it.
    pub play: Size,
    /// The statement.
    pub span: Span,
    /// Notes for the papers.
    pub notes: Vec<String>,
}

impl Baseboard {
    /// From the floor to the upper edge of a notch for it.
    #[must_use]
    pub fn up(&self) -> Size {
        &self.high + &self.play
    }

    /// From the wall to the front of a notch for it.
    #[must_use]
    pub fn out(&self) -> Size {
        &self.thick + &self.play
    }
}

fn baseboard(body: &Entries, ctx: &mut Lower) -> Option<Baseboard> {
    use words::baseboard::{HIGH, PLAY, THICK};

    let said = body.one(words::site::BASEBOARD)?;
    let own = said.body()?;
    Some(Baseboard {
        high: ctx.positive(own, HIGH, "baseboard").known()?,
        thick: ctx.positive(own, THICK, "thickness of the baseboard").known()?,
        play: ctx.size(own, PLAY, "play at the baseboard")?,
        span: said.head,
        notes: own.notes(),
    })
}

pub(super) fn lower(body: Option<&Entries>, ctx: &mut Lower) -> Site {
    use words::keep_out;
    use words::site::{FIXING, HUMIDITY, KEEP_OUT, LEFT, RIGHT, TEMPERATURE};

    let written = body;
    let empty = ctx.empty(&words::site::BLOCK);
    let body = body.unwrap_or(&empty);
    let keep_outs = body
        .all(KEEP_OUT)
        .filter_map(|entry| {
            let inner = entry.body()?;
            let name = entry.value()?.value;
            let left = ctx.size(inner, keep_out::FROM_LEFT, &format!("{name} from the left"))?;
            let wide = ctx.size(inner, keep_out::WIDE, &format!("{name} width"))?;
            Some(KeepOut {
                name: name.to_owned(),
                sides: [left.clone(), left + wide],
                from_left: inner.get(keep_out::FROM_LEFT)?.value,
                up: inner.get(keep_out::UP)?.value,
                wide: inner.get(keep_out::WIDE)?.value,
                high: inner.get(keep_out::HIGH)?.value,
                deep: inner.get(keep_out::DEEP)?.value,
                hot: inner.flag(keep_out::HOT).is_some(),
                notes: inner.notes(),
                span: entry.head,
            })
        })
        .collect();
    let humidity = body.get(HUMIDITY).map(|humidity| humidity.value);
    let temperature = body.get(TEMPERATURE).map(|temperature| temperature.value);
    // Both words have defaults, so there always is one.
    let humidity = humidity.unwrap_or((Percent(Exact::int(30)), Percent(Exact::int(55))));
    let temperature = temperature.unwrap_or(Temperature::fahrenheit(Exact::int(70)));
    Site {
        left: boundary(body, LEFT, ctx),
        right: boundary(body, RIGHT, ctx),
        fixed: match body.get(FIXING).map(|fixing| fixing.value) {
            Some(Fixing::Wall) => true,
            Some(Fixing::None) | None => false,
        },
        sides_at: written.map(|body| [LEFT, RIGHT].map(|side| Insertion::of(body, side))),
        fixed_at: written.map(|body| Insertion::of(body, FIXING)),
        humidity,
        humidity_span: body.one(HUMIDITY).map(|entry| entry.head),
        temperature,
        keep_outs,
        baseboard: baseboard(body, ctx),
        notes: body.notes(),
    }
}

fn boundary(body: &Entries, side: Word<Meets>, ctx: &mut Lower) -> Boundary {
    let Some(said) = body.one(side) else { return Boundary::Open };
    match said.value().map_or(Meets::Open, |meets| *meets.value) {
        Meets::Open => Boundary::Open,
        Meets::Wall => {
            let name = format!("{} scribe", side.spelling());
            let wall = said.body();
            let scribe = wall.and_then(|wall| ctx.size(wall, words::wall::SCRIBE, &name));
            let scribe_at = wall.map(|wall| Insertion::of(wall, words::wall::SCRIBE));
            Boundary::Wall { scribe: scribe.unwrap_or_default(), span: said.head, scribe_at }
        }
    }
}
