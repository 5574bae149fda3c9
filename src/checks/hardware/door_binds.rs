//! An inset door whose leaf strikes beside it as it swings.

use super::swings;
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::measure::{Angle, Exact, Length, Span, Tape};
use crate::model::{Fronts, Hinge, HingeKind, Opening, Piece, Set, Size};
use crate::trade::{self, Edge, Leaf};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "door-binds",
    severity: Severity::Error,
    finds: "An inset door strikes the stile or the other leaf as it swings, because its gap is too small. This holds for butt hinges, and for cup hinges that give their poses.",
    why: "The door's inner corner lies farther from the pin than its outer edge does, so it swings out through the gap as the door opens. A concealed hinge also shifts the whole leaf, and its hinge edge can rub the stile.",
    source: "Plane geometry. On a pin, the corner lies √(W² + t² + 2pt) from the pin, and the door's width W is taken off. On a cup hinge, the leaf is carried along its poses.",
    formula: "On a pin set p ahead of the frame, a door W wide and t thick needs a gap of √(W² + t² + 2pt) − W at its latch edge. On poses, the gap must be as large as the farthest reach of any point of the leaf behind the plane of the front, past where the edge sits when the door is closed.",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "  cup 35 mm; bore 12.5 mm; from-edge 4 mm; swing 105 deg\n  gap 1.5 mm; door-thickness 16 mm to 26 mm\n}",
        wrong: "  butt; pin-ahead 4; gap 1.5 mm\n}",
    },
    check: Check::Piece(check),
    sometimes: None,
};

/// A gap, what it is called, and where it is written.
struct Gap<'a> {
    size: &'a Size,
    length: Length,
    word: &'static str,
    span: Span,
    /// How much narrower the leaf becomes for each part that the gap grows.
    narrows: Exact,
}

/// An inset door with its hinge.
struct Door<'a> {
    opening: &'a Opening,
    fronts: &'a Fronts,
    hinge: &'a Hinge,
    wide: Length,
    thick: Length,
}

fn check(piece: &Piece, sink: &mut Sink) {
    for (_, opening, fronts) in super::doors(piece) {
        let Some((hinge, _)) = fronts.hinge else { continue };
        let Some(hinge) = piece.hinge(hinge) else { continue };
        if fronts.set != Set::Inset || !gives_path(hinge) {
            continue;
        }
        let wide = opening.leaf(fronts).0.length;
        let thick = piece.thickness(fronts.stock).length;
        let door = Door { opening, fronts, hinge, wide, thick };
        let found = [Edge::Lead, Edge::Hinge].map(|edge| door.binds(edge));
        // Both edges of a single door look at one gap: the greater need says all.
        let (lead, hinge) = match found {
            [Some(lead), Some(hinge)] if lead.1.span == hinge.1.span => {
                if lead.0 < hinge.0 {
                    (None, Some(hinge))
                } else {
                    (Some(lead), None)
                }
            }
            [lead, hinge] => (lead, hinge),
        };
        for (edge, found) in [(Edge::Lead, lead), (Edge::Hinge, hinge)] {
            if let Some((needs, gap)) = found {
                sink.push(door.report(piece, edge, needs, &gap));
            }
        }
    }
}

/// True where it is known how the leaf moves.
fn gives_path(hinge: &Hinge) -> bool {
    match &hinge.kind {
        HingeKind::Cup { poses, .. } => !poses.is_empty(),
        HingeKind::Butt { .. } => true,
    }
}

impl Door<'_> {
    /// As far as the hinge opens and its poses go.
    fn up_to(&self) -> Angle {
        let open = self.hinge.swing.min(Angle(Exact::int(180)));
        match &self.hinge.kind {
            HingeKind::Cup { poses, .. } => poses.last().map_or(open, |last| open.min(last.at)),
            HingeKind::Butt { .. } => open.min(Angle::SQUARE),
        }
    }

    /// What the gap beside an edge must be for a leaf so wide.
    fn needs(&self, edge: Edge, wide: Length) -> Length {
        match (&self.hinge.kind, edge) {
            (HingeKind::Butt { pin_ahead }, Edge::Lead) => {
                trade::butt_gap(wide, self.thick, *pin_ahead)
            }
            _ => self.leaf(wide).gap_needed(edge, self.up_to()),
        }
    }

    fn leaf(&self, wide: Length) -> Leaf {
        Leaf::new(wide, self.thick, &self.hinge.pivot(&self.fronts.set, self.thick))
    }

    fn gap(&self, edge: Edge) -> Gap<'_> {
        match (edge, self.opening.leaf_count()) {
            (Edge::Lead, 2) => Gap {
                size: &self.fronts.meeting,
                length: self.fronts.meeting.length,
                word: "meeting",
                span: self.fronts.meeting_span,
                narrows: Exact::ratio(1, 2),
            },
            (_, leaves) => Gap {
                size: &self.fronts.gap,
                length: self.fronts.gap.length,
                word: "gap",
                span: self.fronts.gap_span,
                narrows: if leaves == 2 { Exact::ONE } else { Exact::int(2) },
            },
        }
    }

    /// What an edge needs, where its gap leaves less.
    fn binds(&self, edge: Edge) -> Option<(Length, Gap<'_>)> {
        let gap = self.gap(edge);
        // A gap below the hinge's own least figure is another rule's.
        if edge == Edge::Hinge && gap.length < self.hinge.gap.length {
            return None;
        }
        let needs = self.needs(edge, self.wide);
        (gap.length < needs).then_some((needs, gap))
    }

    fn report(&self, piece: &Piece, edge: Edge, needs: Length, gap: &Gap<'_>) -> Diagnostic {
        let tape = piece.tape();
        let (up, enough) = self.widened(edge, needs, gap, tape);
        let (corner, because) = match edge {
            Edge::Lead => (
                "inner corner",
                "the corner lies farther from the pin than the face of the door is wide",
            ),
            Edge::Hinge => (
                "hinge edge",
                "the hinge carries the door's edge into its stile before it comes out",
            ),
        };
        let (figure, leaves) = (tape.figure(up), tape.figure(gap.length));
        let kind = match self.hinge.kind {
            HingeKind::Butt { .. } => "on a butt hinge",
            HingeKind::Cup { .. } => "hung on this hinge",
        };
        let hung = self.fronts.hinge.map_or(self.fronts.span, |(_, span)| span);
        let mut diagnostic = RULE.finding(
            format!(
                "the {corner} of {} strikes as it swings; it needs {figure}, and the gap is {leaves}",
                self.opening.path
            ),
            gap.span,
            leaves,
        )
        .label(hung, kind)
        .label(self.opening.span, format!("leaf {} wide", tape.text(self.wide)))
        .sum(
            Sum::new("short by", up - gap.length, tape)
                .plus(up, "needed", tape)
                .minus(gap.length, gap.word, tape),
        )
        .because(because)
        .subject(&self.opening.path);
        if matches!(self.hinge.kind, HingeKind::Cup { .. }) {
            diagnostic = diagnostic.label(self.hinge.span, "it moves by its poses");
        }
        if let Some(bevel) = self.leaf(self.wide).back_bevel(edge, gap.length, self.up_to()) {
            let edge = if edge == Edge::Lead { "latch" } else { "hinge" };
            diagnostic = diagnostic.note(format!(
                "you can also plane the {edge} edge {} degrees off square, so that its back clears",
                bevel.0.ceil().max(2)
            ));
        }
        let edit = format!("{} {}", gap.word, tape.source(up));
        match swings::written(piece, gap.size).filter(|_| enough) {
            Some(span) => diagnostic.fix(Fix::new(
                Grade::Choice,
                format!("make the gap {figure}"),
                span,
                edit,
            )),
            None if enough => diagnostic.note(format!("you can also write `{edit}` here")),
            None => {
                diagnostic.note("no gap is large enough; the leaf needs another hinge or a bevel")
            }
        }
    }

    /// The gap, in marks of the tape, that is enough for the leaf it leaves:
    /// a wider gap makes a narrower leaf, which may need a wider one still.
    /// With it, whether it is.
    fn widened(&self, edge: Edge, needs: Length, gap: &Gap<'_>, tape: &Tape) -> (Length, bool) {
        let mut up = tape.up(needs);
        for _ in 0..MOST_WIDENINGS {
            let wide = self.wide - (up - gap.length) * gap.narrows;
            if !wide.is_positive() {
                break;
            }
            let needs = self.needs(edge, wide);
            if needs <= up {
                return (up, true);
            }
            up = tape.up(needs);
        }
        (up, false)
    }
}

/// How often a gap is widened for the leaf that the last widening left.
const MOST_WIDENINGS: usize = 16;
