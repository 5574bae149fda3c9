//! Hinges.

use crate::diagnostics::Diagnostic;
use crate::measure::{Angle, Length, Span};
use crate::trade::{Pivot, Pose};
use crate::vocabulary::words::hinge::Hanging;
use crate::vocabulary::{Closing, Entries, Entry, Word, takes, words};

use super::front::Set;
use super::lower::Lower;
use super::size::Size;
use super::sold::Sold;

/// How a hinge works.
#[allow(clippy::large_enum_variant, reason = "a piece has few kinds of hinge")]
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
        /// From the face of the frame forward to the pin's center.
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
    use words::plate::{APART, BACK, DEEP, SCREW};

    let body = entry.body()?;
    Some(Plate {
        back: ctx.positive(body, BACK, "plate line").known()?.length,
        apart: ctx.positive(body, APART, "plate screws").known()?.length,
        screw: ctx.positive(body, SCREW, "plate screw").known()?.length,
        deep: ctx.positive(body, DEEP, "plate screw depth").known()?.length,
        deep_span: body.one(DEEP).map(|deep| deep.head),
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
    /// The spec says so; else it is taken to open flat back.
    pub swing_written: bool,
    /// The least gap at the hinge side.
    pub gap: Size,
    /// The statement that gives that gap, else the hinge.
    pub gap_span: Span,
    /// How far it can be adjusted sideways, to either side.
    pub adjust: Length,
    /// The doors it fits: thinnest and thickest.
    pub door_thickness: Option<(Length, Length)>,
    /// From the door's end to the center of its first hinge.
    pub from_end: Length,
    /// The statement that says so, where one does.
    pub from_end_span: Option<Span>,
    /// It pulls its door shut and holds it.
    pub closes: bool,
    /// How it is sold.
    pub sold: Sold,
    /// Notes for the papers.
    pub notes: Vec<String>,
    /// Where it is written.
    pub span: Span,
}

impl Hinge {
    /// What its arm is screwed to, where the spec says it; none of a butt hinge.
    #[must_use]
    pub fn plate(&self) -> Option<Plate> {
        match &self.kind {
            HingeKind::Cup { plate, .. } => *plate,
            HingeKind::Butt { .. } => None,
        }
    }

    /// How far its door is sure to open: as far as its sheet says, and square where
    /// the spec gives no angle.
    #[must_use]
    pub fn opens(&self) -> Angle {
        if self.swing_written { self.swing } else { self.swing.min(Angle::SQUARE) }
    }

    /// How far its door may come into another thing before that counts: 1/16 in on a cup hinge
    /// whose path nobody has given, which is taken at its word only so far (common practice,
    /// no source); else a hair, so that what touches goes free.
    #[must_use]
    pub fn mercy(&self) -> Length {
        match &self.kind {
            HingeKind::Cup { poses, .. } if poses.is_empty() => Length::inches(1, 16),
            HingeKind::Cup { .. } | HingeKind::Butt { .. } => Length::mm(1) / 100,
        }
    }

    /// What a door `thick` thick, set so, turns about on this hinge.
    #[must_use]
    pub fn pivot(&self, set: &Set, thick: Length) -> Pivot {
        match &self.kind {
            HingeKind::Cup { poses, .. } if poses.is_empty() => Pivot::Pin { ahead: Length::ZERO },
            HingeKind::Cup { poses, .. } => Pivot::Poses(poses.clone()),
            HingeKind::Butt { pin_ahead } => Pivot::Pin {
                // The pin is measured from the frame, which an overlay front covers.
                ahead: match set {
                    Set::Inset => *pin_ahead,
                    Set::Overlay(_) => *pin_ahead - thick,
                },
            },
        }
    }
}

pub(super) fn hinge(entry: &Entry, ctx: &mut Lower) -> Option<Hinge> {
    use words::hinge::{ADJUST, CLOSING, DOOR_THICKNESS, FROM_END, GAP, PIN_AHEAD, PRICE, SWING};

    let body = entry.body()?;
    let name = entry.name()?.value.to_owned();
    let kind = match body.which()?.0 {
        Hanging::Butt => HingeKind::Butt { pin_ahead: body.get(PIN_AHEAD)?.value },
        Hanging::Cup => cup(entry, body, &name, ctx)?,
    };
    Some(Hinge {
        swing: body.get(SWING)?.value,
        swing_written: body.get(SWING)?.origin.span().is_some(),
        gap: ctx.size(body, GAP, &format!("least gap of {name}"))?,
        gap_span: body.get(GAP)?.span_or(entry.head),
        adjust: body.get(ADJUST).map(|adjust| adjust.value).unwrap_or_default(),
        door_thickness: body.get(DOOR_THICKNESS).map(|range| range.value),
        from_end: body.get(FROM_END)?.value,
        from_end_span: body.one(FROM_END).map(|from| from.head),
        closes: match body.get(CLOSING).map(|closing| closing.value) {
            Some(closing) => closing == Closing::Itself,
            // A cup hinge has a spring (common practice, no source).
            None => matches!(kind, HingeKind::Cup { .. }),
        },
        sold: Sold::read(
            body,
            PRICE,
            words::hinge::PACK,
            words::hinge::ON_HAND,
            words::hinge::LEAD_TIME,
        ),
        notes: body.notes(),
        span: entry.head,
        kind,
        name,
    })
}

fn cup(entry: &Entry, body: &Entries, name: &str, ctx: &mut Lower) -> Option<HingeKind> {
    use words::hinge::{BORE, CUP, FROM_EDGE, PLATE};

    let diameter = ctx.positive(body, CUP, "cup").known()?.length;
    let mut needed = |word: Word<takes::Length>| {
        let value = body.get(word).map(|value| value.value);
        if value.is_none() {
            let word = word.spelling();
            ctx.sink.push(Diagnostic::error(
                "word-missing",
                format!("the cup hinge `{name}` must give `{word}`"),
                entry.head,
                format!("`{word}` is missing"),
            ));
        }
        value
    };
    let (bore, from_edge) = (needed(BORE)?, needed(FROM_EDGE)?);
    let plate = body.one(PLATE).and_then(|entry| plate(&entry, ctx));
    Some(HingeKind::Cup { diameter, bore, from_edge, plate, poses: poses(body, name, ctx)? })
}

/// The poses of a concealed hinge; `None` where they give no path (reported).
fn poses(body: &Entries, name: &str, ctx: &mut Lower) -> Option<Vec<Pose>> {
    let mut poses: Vec<(Pose, Span)> = Vec::new();
    let mut refuse = |title: String, span, label: &str| {
        ctx.sink
            .push(Diagnostic::error("hinge-poses", title, span, label).note(
                "start with the closed door, `pose { at 0 deg }`, and go on to wider angles",
            ));
        None
    };
    for entry in body.all(words::hinge::POSE) {
        let inner = entry.body()?;
        let pose = Pose {
            at: inner.get(words::pose::AT)?.value,
            out: inner.get(words::pose::OUT)?.value,
            aside: inner.get(words::pose::ASIDE)?.value,
        };
        let degrees = pose.at.0;
        if let Some((last, _)) = poses.last().filter(|(last, _)| last.at >= pose.at) {
            let title =
                format!("a pose of {name} at {degrees} deg comes after one at {} deg", last.at.0);
            return refuse(title, entry.head, "this is no wider than the one before it");
        }
        if poses.is_empty() && !degrees.is_zero() {
            let title = format!("the first pose of {name} is at {degrees} deg, not at 0 deg");
            return refuse(title, entry.head, "the closed door is missing before this");
        }
        if degrees.is_zero() && !(pose.out.is_zero() && pose.aside.is_zero()) {
            let title = format!("the closed door of {name} is not in its own place");
            return refuse(title, entry.head, "`out` and `aside` count from here");
        }
        poses.push((pose, entry.head));
    }
    if let [(_, span)] = poses.as_slice() {
        return refuse(format!("{name} has only one pose"), *span, "a path needs a second pose");
    }
    Some(poses.into_iter().map(|(pose, _)| pose).collect())
}
