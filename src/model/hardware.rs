//! Hardware, bits and finishes.

use crate::diagnostics::Diagnostic;
use crate::measure::{Angle, Duration, Exact, Length, Mass, Rate, Span};
use crate::trade::Pose;
use crate::vocabulary::{Entries, Entry, SizeExpr, Value, linear};

use super::lower::Lower;
use super::size::Size;
use super::stock::{range, rate};

/// How a hinge works.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum HingeKind {
    /// Concealed, in a bored cup.
    Cup {
        /// The cup's diameter.
        diameter: Length,
        /// Its depth.
        bore: Length,
        /// From the door's edge to the edge of the cup.
        from_edge: Length,
        /// What its arm is screwed to, where the spec says it.
        plate: Option<Plate>,
        /// Where it carries the door's front corner, from nought upward; none
        /// where its sheet does not say.
        poses: Vec<Pose>,
    },
    /// A butt hinge on a pin.
    Butt {
        /// From the face of the frame forward to the pin's centre.
        pin_ahead: Length,
    },
}

/// The plate of a cup hinge: two screws above each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Plate {
    /// From the front edge of what it is screwed to, or from the back of an
    /// inset door, to the line of its screws.
    pub back: Length,
    /// Between its two screws.
    pub apart: Length,
    /// The diameter of their holes.
    pub screw: Length,
    /// The depth of their holes.
    pub deep: Length,
    /// The statement that gives that depth, where one does.
    pub deep_span: Option<Span>,
    /// The statement.
    pub span: Span,
}

fn plate(entry: &Entry, ctx: &mut Lower) -> Option<Plate> {
    let body = entry.body()?;
    Some(Plate {
        back: ctx.positive(body, "back", "plate line")?.length,
        apart: ctx.positive(body, "apart", "plate screws")?.length,
        screw: ctx.positive(body, "screw", "plate screw")?.length,
        deep: ctx.positive(body, "deep", "plate screw depth")?.length,
        deep_span: body.one("deep").map(|deep| deep.head),
        span: entry.head,
    })
}

/// A hinge.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hinge {
    /// Its name in the spec.
    pub name: String,
    /// How it works.
    pub kind: HingeKind,
    /// How far it opens.
    pub swing: Angle,
    /// The least gap at the hinge side.
    pub gap: Size,
    /// The statement that gives that gap, else the hinge.
    pub gap_span: Span,
    /// How far it can be adjusted sideways, to either side.
    pub adjust: Length,
    /// The doors it fits: thinnest and thickest.
    pub door_thickness: Option<(Length, Length)>,
    /// From the door's end to the centre of its first hinge.
    pub from_end: Length,
    /// What it costs.
    pub price: Option<Rate>,
    /// Notes for the papers.
    pub notes: Vec<String>,
    /// Where it is written.
    pub span: Span,
}

pub(super) fn hinge(entry: &Entry, ctx: &mut Lower) -> Option<Hinge> {
    let body = entry.body()?;
    let name = entry.text(0)?.value.to_owned();
    let kind = if body.flag("butt").is_some() {
        HingeKind::Butt { pin_ahead: body.length("pin-ahead")?.value }
    } else {
        let diameter = ctx.positive(body, "cup", "cup")?.length;
        let mut needed = |word: &str| {
            let value = body.length(word).map(|value| value.value);
            if value.is_none() {
                ctx.sink.push(Diagnostic::error(
                    "word-missing",
                    format!("the cup hinge `{name}` must give `{word}`"),
                    entry.head,
                    format!("`{word}` is missing"),
                ));
            }
            value
        };
        let (bore, from_edge) = (needed("bore")?, needed("from-edge")?);
        let plate = body.one("plate").and_then(|entry| plate(entry, ctx));
        HingeKind::Cup { diameter, bore, from_edge, plate, poses: poses(body, &name, ctx)? }
    };
    Some(Hinge {
        kind,
        swing: body.angle("swing")?.value,
        gap: ctx.size(body, "gap", &format!("least gap of {name}"))?,
        gap_span: body.length("gap")?.span_or(entry.head),
        adjust: body.length("adjust").map(|adjust| adjust.value).unwrap_or_default(),
        door_thickness: range(body, "door-thickness"),
        from_end: body.length("from-end")?.value,
        price: rate(body),
        notes: body.notes(),
        span: entry.head,
        name,
    })
}

/// The poses of a concealed hinge; `None` where they give no path (reported).
fn poses(body: &Entries, name: &str, ctx: &mut Lower) -> Option<Vec<Pose>> {
    let mut poses: Vec<(Pose, Span)> = Vec::new();
    let mut refuse = |title: String, span, label: &str| {
        ctx.sink.push(Diagnostic::error("hinge-poses", title, span, label).note(
            "poses begin with `pose { at 0 deg }`, the door closed, and go on to wider angles",
        ));
        None
    };
    for entry in body.all("pose") {
        let inner = entry.body()?;
        let pose = Pose {
            at: inner.angle("at")?.value,
            out: inner.length("out")?.value,
            aside: inner.length("aside")?.value,
        };
        let degrees = pose.at.0;
        if let Some((last, _)) = poses.last().filter(|(last, _)| last.at >= pose.at) {
            let title =
                format!("a pose of {name} at {degrees} deg stands behind one at {} deg", last.at.0);
            return refuse(title, entry.head, "not wider than the one before it");
        }
        if poses.is_empty() && !degrees.is_zero() {
            let title = format!("the first pose of {name} is at {degrees} deg");
            return refuse(title, entry.head, "the closed door is missing before this");
        }
        if degrees.is_zero() && !(pose.out.is_zero() && pose.aside.is_zero()) {
            let title = format!("the closed door of {name} is away from its own place");
            return refuse(title, entry.head, "`out` and `aside` count from here");
        }
        poses.push((pose, entry.head));
    }
    if let [(_, span)] = poses.as_slice() {
        return refuse(format!("{name} has one pose only"), *span, "a path needs a second one");
    }
    Some(poses.into_iter().map(|(pose, _)| pose).collect())
}

/// A size of a drawer box by its opening: `factor × opening + constant`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BoxRule {
    /// How often the opening counts; mostly 1.
    pub factor: Exact,
    /// What is added; mostly below nought.
    pub constant: Length,
    /// Where it is written.
    pub span: Span,
}

impl BoxRule {
    /// The size of the box for an opening. The rule's own figure is no fact of
    /// the spec; the opening's facts explain the rest.
    #[must_use]
    pub fn size(&self, opening: &Size) -> Size {
        let scaled = opening.clone() * self.factor;
        Size::from_terms(scaled.length + self.constant, scaled.terms().to_vec())
    }
}

/// Which width of the drawer box a slide's sheet gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
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

/// A pair of drawer slides.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Slide {
    /// Its name in the spec.
    pub name: String,
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
    /// What is cut out of the drawer's back: wide, high.
    pub notch: Option<(Length, Length)>,
    /// How far the drawer can be adjusted in height, to either side.
    pub adjust: Length,
    /// The most it carries.
    pub load: Option<Mass>,
    /// What it costs.
    pub price: Option<Rate>,
    /// Notes for the papers.
    pub notes: Vec<String>,
    /// Where it is written.
    pub span: Span,
    /// The statement that gives its room.
    pub room_span: Span,
}

pub(super) fn slide(entry: &Entry, ctx: &mut Lower) -> Option<Slide> {
    let body = entry.body()?;
    let name = entry.text(0)?.value.to_owned();
    let undermount = body.flag("undermount").is_some();
    if !undermount {
        body.flag("side-mount")?;
    }
    let width = if body.one("box-inside").is_some() {
        BoxWidth::Inside(box_rule(body, "box-inside", ctx)?)
    } else {
        BoxWidth::Outside(box_rule(body, "box-outside", ctx)?)
    };
    Some(Slide {
        undermount,
        length: ctx.positive(body, "length", &format!("length of {name}"))?,
        room: ctx.positive(body, "room", &format!("room of {name}"))?,
        box_width: width,
        box_high: box_rule(body, "box-high", ctx)?,
        notch: body
            .one("notch")
            .and_then(|notch| notch.body())
            .and_then(|notch| Some((notch.length("wide")?.value, notch.length("high")?.value))),
        adjust: body.length("adjust").map(|adjust| adjust.value).unwrap_or_default(),
        load: body.any("load").and_then(|value| match value.value {
            Value::Mass(mass) => Some(mass),
            _ => None,
        }),
        price: rate(body),
        notes: body.notes(),
        span: entry.head,
        room_span: body.length("room")?.span_or(entry.head),
        name,
    })
}

fn box_rule(body: &Entries, word: &str, ctx: &mut Lower) -> Option<BoxRule> {
    let size = body.size(word)?;
    let SizeExpr { expr, unit } = size.value;
    let sum = linear(expr, *unit, &mut |name| {
        if name.text() == "opening" {
            return Ok(());
        }
        Err(Box::new(
            Diagnostic::error(
                "name-unknown",
                format!("`{}` means nothing in a slide", name.text()),
                name.span,
                "unknown name",
            )
            .note("the one name that a slide's sizes may use is `opening`"),
        ))
    });
    match sum {
        Ok(sum) => Some(BoxRule {
            factor: sum.terms.first().map_or(Exact::ZERO, |(_, factor)| *factor),
            constant: sum.constant,
            span: size.span,
        }),
        Err(fault) => {
            ctx.sink.push(*fault);
            None
        }
    }
}

/// Where a pull sits on a drawer front.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PullHeight {
    /// Half way up.
    Middle,
    /// A third from the top.
    UpperThird,
}

/// A pull or knob.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pull {
    /// Its name in the spec.
    pub name: String,
    /// Between its two screws; `None` for a knob.
    pub centres: Option<Length>,
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
    /// What it costs.
    pub price: Option<Rate>,
    /// Notes for the papers.
    pub notes: Vec<String>,
    /// Where it is written.
    pub span: Span,
}

pub(super) fn pull(entry: &Entry, ctx: &mut Lower) -> Option<Pull> {
    let body = entry.body()?;
    let centres = match body.one("centres") {
        Some(_) => Some(ctx.positive(body, "centres", "pull centres")?.length),
        None => None,
    };
    let screw = ctx.positive(body, "screw", "pull screw")?.length;
    let foot = match body.one("foot") {
        Some(_) => ctx.positive(body, "foot", "foot of the pull")?.length,
        // A foot is mostly a post of twice its screw (common practice, no source).
        None => screw.twice(),
    };
    Some(Pull {
        name: entry.text(0)?.value.to_owned(),
        centres,
        screw,
        foot,
        height: match body.word("up").map(|up| up.value).as_deref() {
            Some("upper-third") => PullHeight::UpperThird,
            _ => PullHeight::Middle,
        },
        from_edge: body.length("from-edge")?.value,
        from_edge_span: body.one("from-edge").map(|from| from.head),
        stands: body.length("stands")?.value,
        stands_span: body.length("stands")?.span_or(entry.head),
        price: rate(body),
        notes: body.notes(),
        span: entry.head,
    })
}

/// The shape of a router bit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BitShape {
    /// Cuts a round-bottomed groove.
    RoundNose,
    /// Cuts a square one.
    Straight,
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
    let (word, _) = body.first_of(&["round-nose", "straight"])?;
    let speed = body.count("speed");
    Some(Bit {
        name: entry.text(0)?.value.to_owned(),
        shape: if word == "straight" { BitShape::Straight } else { BitShape::RoundNose },
        diameter: ctx.positive(body, word, "bit diameter")?.length,
        shank: body.length("shank").map(|shank| shank.value),
        speed: speed.map(|speed| speed.value),
        speed_span: speed.and_then(|speed| speed.origin.span()),
        notes: body.notes(),
        span: entry.head,
    })
}

/// What a finish is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FinishKind {
    /// Hardens by oxidation; its rags can catch fire of themselves.
    HardwaxOil,
    /// Likewise.
    Oil,
    /// A varnish.
    Varnish,
    /// A lacquer.
    Lacquer,
    /// A wax.
    Wax,
    /// A paint.
    Paint,
}

impl FinishKind {
    /// Its word in a spec.
    #[must_use]
    pub fn slug(self) -> &'static str {
        match self {
            Self::HardwaxOil => "hardwax-oil",
            _ => self.word(),
        }
    }

    /// How it is called on the papers.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::HardwaxOil => "hardwax oil",
            Self::Oil => "oil",
            Self::Varnish => "varnish",
            Self::Lacquer => "lacquer",
            Self::Wax => "wax",
            Self::Paint => "paint",
        }
    }
}

/// A finish.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finish {
    /// Its name in the spec.
    pub name: String,
    /// What it is.
    pub kind: FinishKind,
    /// How many coats.
    pub coats: u32,
    /// Square metres that a litre covers in one coat.
    pub covers: Option<Exact>,
    /// How it is mixed with its second part.
    pub mix: Option<(Exact, Exact)>,
    /// How long it may be used once mixed.
    pub pot_life: Option<Duration>,
    /// How long a coat dries before the next work.
    pub cure: Duration,
    /// Notes for the papers.
    pub notes: Vec<String>,
    /// Where it is written.
    pub span: Span,
}

pub(super) fn finish(entry: &Entry, _ctx: &mut Lower) -> Option<Finish> {
    let body = entry.body()?;
    let kinds = ["hardwax-oil", "oil", "varnish", "lacquer", "wax", "paint"];
    let kind = match body.first_of(&kinds)?.0 {
        "hardwax-oil" => FinishKind::HardwaxOil,
        "oil" => FinishKind::Oil,
        "varnish" => FinishKind::Varnish,
        "lacquer" => FinishKind::Lacquer,
        "wax" => FinishKind::Wax,
        _ => FinishKind::Paint,
    };
    Some(Finish {
        name: entry.text(0)?.value.to_owned(),
        kind,
        coats: body.count("coats")?.value.max(1),
        covers: body.any("covers").and_then(|value| match value.value {
            Value::Coverage(coverage) => Some(coverage),
            _ => None,
        }),
        mix: body.any("mix").and_then(|value| match value.value {
            Value::Ratio(a, b) => Some((a, b)),
            _ => None,
        }),
        pot_life: body.duration("pot-life").map(|life| life.value),
        cure: body.duration("cure")?.value,
        notes: body.notes(),
        span: entry.head,
    })
}
