//! Slides, pulls and bits.

use crate::diagnostics::Diagnostic;
use crate::measure::{Exact, Length, Mass, Span};
use crate::vocabulary::takes;
use crate::vocabulary::words::bit::BitShape;
use crate::vocabulary::words::slide::{Across, Mount};
use crate::vocabulary::{Entries, Entry, Origin, PullHeight, Said, SizeExpr, Word, linear, words};

use super::lower::Lower;
use super::size::Size;
use super::sold::Sold;

/// A size of a drawer box by its opening: `factor × opening + constant`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BoxRule {
    /// How often the opening counts; mostly 1.
    pub factor: Exact,
    /// What is added; mostly below nought.
    pub constant: Size,
    /// Where it is written.
    pub span: Span,
}

impl BoxRule {
    /// The size of the box for an opening.
    #[must_use]
    pub fn size(&self, opening: &Size) -> Size {
        opening.clone() * self.factor + &self.constant
    }
}

/// Which width of the drawer box a slide's sheet gives.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BoxWidth {
    /// Between the sides.
    Inside(BoxRule),
    /// Over the sides.
    Outside(BoxRule),
}

impl BoxWidth {
    /// The rule that the sheet gives.
    #[must_use]
    pub fn rule(&self) -> &BoxRule {
        match self {
            Self::Inside(rule) | Self::Outside(rule) => rule,
        }
    }

    /// Between the sides and over them, for an opening and sides this thick.
    #[must_use]
    pub fn inside_and_outside(&self, opening: &Size, side: &Size) -> (Size, Size) {
        let own = self.rule().size(opening);
        match self {
            Self::Inside(_) => (own.clone(), own + side * 2),
            Self::Outside(_) => (&own - side * 2, own),
        }
    }
}

/// The hole for the hook of a runner, one at each side of a drawer's back.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Hook {
    /// Its diameter.
    pub bore: Length,
    /// Its depth.
    pub deep: Length,
    /// From the inside face of the drawer's side to its center.
    pub from_side: Length,
    /// From the upper edge of the notch, else the lower edge of the back, to its
    /// center.
    pub up: Length,
}

/// What a drawer runs on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Slide {
    /// Its name in the spec.
    pub name: String,
    /// A pair of slides, or the boards of the case.
    pub runs: Runs,
    /// Notes for the papers.
    pub notes: Vec<String>,
    /// Where it is written.
    pub span: Span,
}

/// Whether a drawer runs on hardware.
#[allow(clippy::large_enum_variant, reason = "a piece has few kinds of slide")]
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Runs {
    /// On a pair of slides.
    Hardware(Hardware),
    /// On the boards of the case.
    Wooden(Wooden),
}

/// A drawer on the boards of its case.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wooden {
    /// How much narrower than its opening the box is.
    pub play: Size,
}

impl Slide {
    /// The hardware, where it is some.
    #[must_use]
    pub fn hardware(&self) -> Option<&Hardware> {
        match &self.runs {
            Runs::Hardware(hardware) => Some(hardware),
            Runs::Wooden(_) => None,
        }
    }

    /// What it says of a drawer that runs on the boards of its case.
    #[must_use]
    pub fn wooden(&self) -> Option<&Wooden> {
        match &self.runs {
            Runs::Hardware(_) => None,
            Runs::Wooden(wooden) => Some(wooden),
        }
    }
}

/// A pair of drawer slides.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hardware {
    /// Under the drawer, or beside it.
    pub undermount: bool,
    /// Its nominal length, and the drawer's.
    pub length: Size,
    /// The depth it needs behind the front.
    pub room: Size,
    /// The drawer's width.
    pub box_width: BoxWidth,
    /// The drawer's greatest height.
    pub box_high: BoxRule,
    /// From the lower edge of its opening to that of the box, where the sheet says so.
    pub box_up: Option<Size>,
    /// What is cut out of the drawer's back: wide, high.
    pub notch: Option<(Length, Length)>,
    /// The hole for its hook in the drawer's back.
    pub hook: Option<Hook>,
    /// How far its front end lies behind the back of an inset front, or behind
    /// the face of the frame under an overlay front.
    pub behind_front: Option<Size>,
    /// From the lower edge of its opening to its own, where the sheet says so.
    pub up: Option<Size>,
    /// How far the drawer can be adjusted in height, to either side.
    pub adjust: Length,
    /// The most it carries.
    pub load: Option<Mass>,
    /// How it is sold.
    pub sold: Sold,
    /// The statement that gives its room.
    pub room_span: Span,
}

pub(super) fn slide(entry: &Entry, ctx: &mut Lower) -> Option<Slide> {
    let body = entry.body()?;
    let name = entry.name()?.value;
    let runs = match body.which()?.0 {
        Mount::Under => Runs::Hardware(hardware(entry, body, (name, true), ctx)?),
        Mount::Beside => Runs::Hardware(hardware(entry, body, (name, false), ctx)?),
        Mount::Wooden => Runs::Wooden(wooden(body, name, ctx)?),
    };
    Some(Slide { name: name.to_owned(), runs, notes: body.notes(), span: entry.head })
}

fn wooden(body: &Entries, name: &str, ctx: &mut Lower) -> Option<Wooden> {
    let empty = ctx.empty(&words::wooden::BLOCK);
    let own = body.one(words::slide::WOODEN).and_then(Said::body).unwrap_or(&empty);
    let play = ctx.positive(own, words::wooden::PLAY, &format!("play of {name}")).known()?;
    Some(Wooden { play })
}

fn hardware(
    entry: &Entry,
    body: &Entries,
    (name, undermount): (&str, bool),
    ctx: &mut Lower,
) -> Option<Hardware> {
    use words::slide::{
        ADJUST, BEHIND_FRONT, BOX_HIGH, BOX_UP, HOOK, LENGTH, LOAD, NOTCH, PRICE, ROOM, UP,
    };

    let (across, _) = body.which::<Across>()?;
    let rule = box_rule(body, across.handle(), name, ctx)?;
    let width = match across {
        Across::Inside => BoxWidth::Inside(rule),
        Across::Outside => BoxWidth::Outside(rule),
    };
    Some(Hardware {
        undermount,
        length: ctx.positive(body, LENGTH, &format!("length of {name}")).known()?,
        room: ctx.positive(body, ROOM, &format!("room of {name}")).known()?,
        box_width: width,
        box_high: box_rule(body, BOX_HIGH, name, ctx)?,
        box_up: ctx.size(body, BOX_UP, &format!("box height of {name}")),
        notch: body.one(NOTCH).and_then(Said::body).and_then(|notch| {
            let wide = notch.get(words::notch::WIDE)?.value;
            Some((wide, notch.get(words::notch::HIGH)?.value))
        }),
        hook: body.one(HOOK).and_then(Said::body).and_then(|hook| self::hook(hook, ctx)),
        behind_front: ctx.size(body, BEHIND_FRONT, &format!("start of {name}")),
        up: ctx.size(body, UP, &format!("height of {name}")),
        adjust: body.get(ADJUST).map(|adjust| adjust.value).unwrap_or_default(),
        load: body.get(LOAD).map(|load| load.value),
        sold: Sold::read(
            body,
            PRICE,
            words::slide::PACK,
            words::slide::ON_HAND,
            words::slide::LEAD_TIME,
        ),
        room_span: body.get(ROOM)?.span_or(entry.head),
    })
}

fn hook(body: &Entries, ctx: &mut Lower) -> Option<Hook> {
    use words::hook::{BORE, DEEP, FROM_SIDE, UP};

    Some(Hook {
        bore: ctx.positive(body, BORE, "hole for the hook").known()?.length,
        deep: ctx.positive(body, DEEP, "depth of the hole for the hook").known()?.length,
        from_side: body.get(FROM_SIDE)?.value,
        up: body.get(UP)?.value,
    })
}

fn box_rule(
    body: &Entries,
    word: Word<takes::Size>,
    slide: &str,
    ctx: &mut Lower,
) -> Option<BoxRule> {
    let size = body.size(word)?;
    let SizeExpr { expr, unit } = size.value;
    let sum = linear(expr, *unit, &mut |name| {
        if name.is(words::OWN_OPENING) {
            return Ok(());
        }
        Err(Box::new(
            Diagnostic::error(
                "name-unknown",
                format!("`{}` has no meaning in a slide", name.text()),
                name.span,
                "unknown name",
            )
            .note("the sizes of a slide may use only the name `opening`"),
        ))
    });
    match sum {
        Ok(sum) => Some(BoxRule {
            factor: sum.terms.first().map_or(Exact::ZERO, |(_, factor)| *factor),
            constant: match sum.constant.is_zero() {
                true => Size::zero(),
                false => {
                    let name = format!("{} of {slide}", word.spelling());
                    ctx.facts.add(sum.constant, name, Origin::Written(size.span))
                }
            },
            span: size.span,
        }),
        Err(fault) => {
            ctx.sink.push(*fault);
            None
        }
    }
}

/// A pull or knob.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pull {
    /// Its name in the spec.
    pub name: String,
    /// Between its two screws; `None` for a knob.
    pub centers: Option<Length>,
    /// The diameter of its screw's hole.
    pub screw: Length,
    /// Its height on a drawer front.
    pub height: PullHeight,
    /// From a door's lead edge to its screws.
    pub from_edge: Length,
    /// The statement that gives that, where one does.
    pub from_edge_span: Option<Span>,
    /// The diameter of the foot round each screw.
    pub foot: Length,
    /// How far it stands off the face of its front.
    pub stands: Length,
    /// The statement that gives that, else the pull.
    pub stands_span: Span,
    /// How it is sold.
    pub sold: Sold,
    /// Notes for the papers.
    pub notes: Vec<String>,
    /// Where it is written.
    pub span: Span,
}

pub(super) fn pull(entry: &Entry, ctx: &mut Lower) -> Option<Pull> {
    use words::pull::{CENTERS, FOOT, FROM_EDGE, PRICE, SCREW, STANDS, UP};

    let body = entry.body()?;
    let centers = ctx.positive(body, CENTERS, "pull centers").sound()?;
    let screw = ctx.positive(body, SCREW, "pull screw").known()?.length;
    let foot = ctx.positive(body, FOOT, "foot of the pull").sound()?;
    Some(Pull {
        name: entry.name()?.value.to_owned(),
        centers: centers.map(|centers| centers.length),
        screw,
        // A foot is mostly a post of twice its screw (common practice, no source).
        foot: foot.map_or(screw.twice(), |foot| foot.length),
        height: body.get(UP)?.value,
        from_edge: body.get(FROM_EDGE)?.value,
        from_edge_span: body.one(FROM_EDGE).map(|from| from.head),
        stands: body.get(STANDS)?.value,
        stands_span: body.get(STANDS)?.span_or(entry.head),
        sold: Sold::read(
            body,
            PRICE,
            words::pull::PACK,
            words::pull::ON_HAND,
            words::pull::LEAD_TIME,
        ),
        notes: body.notes(),
        span: entry.head,
    })
}

/// A router bit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bit {
    /// Its name in the spec.
    pub name: String,
    /// Its shape.
    pub shape: BitShape,
    /// Its cutting diameter.
    pub diameter: Length,
    /// The diameter of its shank.
    pub shank: Option<Length>,
    /// The statement that gives it.
    pub shank_span: Option<Span>,
    /// The speed it is run at, in turns a minute.
    pub speed: Option<u32>,
    /// The statement that gives it.
    pub speed_span: Option<Span>,
    /// Notes for the papers.
    pub notes: Vec<String>,
    /// Where it is written.
    pub span: Span,
}

pub(super) fn bit(entry: &Entry, ctx: &mut Lower) -> Option<Bit> {
    let body = entry.body()?;
    let (shape, _) = body.which::<BitShape>()?;
    let speed = body.get(words::bit::SPEED);
    let shank = body.get(words::bit::SHANK);
    Some(Bit {
        name: entry.name()?.value.to_owned(),
        shape,
        diameter: ctx.positive(body, shape.handle(), "bit diameter").known()?.length,
        shank: shank.map(|shank| shank.value),
        shank_span: shank.and_then(|shank| shank.origin.span()),
        speed: speed.map(|speed| speed.value),
        speed_span: speed.and_then(|speed| speed.origin.span()),
        notes: body.notes(),
        span: entry.head,
    })
}
