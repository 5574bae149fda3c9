//! A board of no size, or one that stands outside its case.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::checks::{hardware, in_spec, material, site};
use crate::diagnostics::{Diagnostic, Severity, Sink};
use crate::measure::{Length, Span};
use crate::model::{Case, Piece};
use crate::parts::{Assembly, Direction, Face, FeatureKind, Of, Part, Role, Which};
use crate::plans::Workings;

use super::rails_meet;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "part-impossible",
    severity: Severity::Error,
    finds: "A board can't be made or doesn't fit its case. It has no size at all, is smaller than half a mark of the tape, has nothing between its tenons, or extends past the front, back, sides, top, or floor of its case.",
    why: "The board can't be cut, or the case won't go up against its wall.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::Press,
        sound: "clearance 3; set-back 10",
        wrong: "clearance 3; set-back 600",
    },
    check: Check::Parts(check),
    sometimes: None,
};

pub(in crate::checks) fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    let wall = piece.wall();
    let is_caused = is_caused(sink);
    // The boards of a box that does not go into its opening only say so again, and so
    // does the panel of a front without room for one.
    let boxes = hardware::box_too_big::RULE.told(sink);
    let fronts = rails_meet::RULE.told(sink);
    let path = |opening| piece.opening(opening).map_or("", |opening| opening.path.as_str());
    let is_told = |part: &Part| match part.assembly {
        Assembly::DrawerBox(opening) => boxes.contains(path(opening)),
        Assembly::Front(front) => {
            part.role == Role::FrontPanel && fronts.contains(path(front.opening))
        }
        Assembly::Base(_)
        | Assembly::Carcass(_)
        | Assembly::Frame(_)
        | Assembly::Countertop(_)
        | Assembly::Filler(..)
        | Assembly::Loose(_) => false,
    };
    let mut all: Vec<Told> = Vec::new();
    for part in parts.all.iter().filter(|part| !is_told(part)) {
        let sizes = [
            (part.length.length, "long"),
            (part.width.length, "wide"),
            (part.thickness.length, "thick"),
        ];
        let nothing = sizes.into_iter().find(|(size, _)| !size.is_positive());
        // What the tape shows as nothing can't be cut either.
        let thread = sizes.into_iter().take(2).find(|(size, _)| tape.print(*size).shown.is_zero());
        let tenons = || {
            let between = |tenons: &Length| tape.print(part.length.length - *tenons).shown;
            tenons(part).filter(|tenons| !between(tenons).is_positive())
        };
        let outside = || {
            let case = piece.case(part.case).filter(|_| !is_caused)?;
            outside(piece, part, case, wall)
        };
        let (title, label) = match (nothing, thread) {
            (Some((size, word)), _) => {
                let size = tape.text(size);
                (format!("{} comes out {size} {word}", part.path), format!("{size} {word}"))
            }
            (None, Some((size, word))) => {
                let (size, mark) = (tape.decimal_source(size), tape.exact(tape.mark));
                (
                    format!("{} comes out only {size} {word}", part.path),
                    format!("{size} {word}, and the finest mark of the tape is {mark}"),
                )
            }
            (None, None) => match (tenons(), outside()) {
                (Some(tenons), _) => {
                    let (long, tenons) = (tape.text(part.length.length), tape.text(tenons));
                    (
                        format!(
                            "{} has nothing between its tenons; it comes out {long} long, and the tenons take {tenons}",
                            part.path
                        ),
                        format!("{long} long with its tenons"),
                    )
                }
                (None, Some((by, side))) => {
                    let by = tape.text(by);
                    (
                        format!("{} extends {by} past the {side} of its case", part.path),
                        format!("{by} past the {side}"),
                    )
                }
                (None, None) => continue,
            },
        };
        let mut told = Told {
            size: label.clone(),
            facts: Vec::new(),
            most: None,
            found: RULE.finding(title, part.span, label).subject(&part.path),
        };
        // The statements that its own figures come from, where they leave nothing.
        let nothing = nothing.or(thread);
        if nothing.is_some() || tenons().is_some() {
            let own = [&part.length, &part.width, &part.thickness];
            let size =
                own.into_iter().find(|size| nothing.is_some_and(|(of, _)| of == size.length));
            let facts = piece.facts.of(size.unwrap_or(&part.length));
            let written = facts.filter_map(|(fact, factor)| {
                let at = fact.origin.span().filter(|at| *at != part.span)?;
                Some((at, fact, factor))
            });
            for (at, fact, factor) in written.take(4) {
                let shown = !tape.print(fact.length).shown.is_zero();
                let figure =
                    if shown { tape.figure(fact.length) } else { tape.decimal_source(fact.length) };
                let takes = -(fact.length * factor);
                let is_most = told.most.is_none_or(|(most, _)| most < takes);
                if takes.is_positive() && is_most && in_spec(at) {
                    told.most = Some((takes, at));
                }
                told.facts.push(at);
                told.found = told.found.label(at, figure);
            }
        }
        match all.iter_mut().find(|known| known.is_alike(&told)) {
            Some(known) => known.add(told.found),
            None => all.push(told),
        }
    }
    for told in all {
        sink.push(told.found);
    }
}

/// A board that can't be, and what is said of it.
struct Told {
    /// What is the matter with it.
    size: String,
    /// The statements that its figure comes from, besides its own.
    facts: Vec<Span>,
    /// How much the one takes off that takes most, of those in the spec itself.
    most: Option<(Length, Span)>,
    found: Diagnostic,
}

impl Told {
    /// True where the same figures leave as much of another board.
    fn is_alike(&self, other: &Self) -> bool {
        !self.facts.is_empty() && self.size == other.size && self.facts == other.facts
    }

    /// Tells of another board with this one: at the figure that takes most of both.
    fn add(&mut self, other: Diagnostic) {
        let is_elsewhere = self.found.primary.span != other.primary.span;
        if let Some((_, at)) = self.most.filter(|_| is_elsewhere)
            && let Some(label) = self.found.labels.iter_mut().find(|label| label.span == at)
        {
            std::mem::swap(label, &mut self.found.primary);
        }
        self.found.also.extend(other.subject);
    }
}

/// True where a rule that looked before has told why a board may stand outside its case.
fn is_caused(sink: &Sink) -> bool {
    let causes = || super::FIRST.iter().chain(material::FIRST).chain(site::CAUSES);
    sink.all().iter().any(|found| {
        found.severity == Severity::Error && causes().any(|rule| rule.slug == found.slug)
    })
}

/// True where a board that can't be has been told of, by this rule or by its cause.
pub(in crate::checks) fn is_told(work: &Workings<'_>, sink: &Sink) -> bool {
    let Workings { piece, parts, .. } = *work;
    let wall = piece.wall();
    let stands_out =
        |part: &Part| piece.case(part.case).and_then(|case| outside(piece, part, case, wall));
    sink.all().iter().any(|found| found.slug == RULE.slug)
        || is_caused(sink) && parts.all.iter().any(|part| stands_out(part).is_some())
}

/// What the tenons at both ends of a board take of its length; nothing for one
/// without any.
fn tenons(part: &Part) -> Option<Length> {
    let at_end = |face| matches!(face, Face::LengthStart | Face::LengthEnd);
    let tenons = part.features.iter().filter(|f| f.kind == FeatureKind::Tenon && at_end(f.face));
    tenons.map(|tenon| tenon.deep).reduce(|sum, deep| sum + deep)
}

/// How far a board stands past its case, and past which side of it. Fronts may
/// lie before the case, and what hangs in them has rules of its own, as a countertop
/// has, which is made to stand past it.
fn outside(
    piece: &Piece,
    part: &Part,
    case: &Case,
    wall: Length,
) -> Option<(Length, &'static str)> {
    match part.assembly {
        Assembly::Front(_)
        | Assembly::DrawerBox(_)
        | Assembly::Countertop(_)
        | Assembly::Filler(..) => return None,
        Assembly::Base(_) | Assembly::Carcass(_) | Assembly::Frame(_) | Assembly::Loose(_) => {}
    }
    let (x, y, z) =
        (part.extent(Direction::X), part.extent(Direction::Y), part.extent(Direction::Z));
    // What several cases share ends with the last of them.
    let shared = matches!(part.of, Of::Row(_)).then(|| piece.base_row(case.id)).flatten();
    let over = (part.role == Role::Cover && part.which == Which::Back)
        .then(|| piece.back_cover_of(case.id).last().copied())
        .flatten();
    let last = shared.map(|row| row.last).or(over);
    let last = last.and_then(|last| piece.case(last)).unwrap_or(case);
    let past = [
        (case.x - x.0, "left side"),
        (x.1 - last.x - last.wide.length, "right side"),
        (-y.0, "floor"),
        (y.1 - case.high.length, "top"),
        (case.ahead(wall) - z.0, "front"),
        // A packer is as long as the slide on it, which has a rule of its own.
        (if part.role == Role::Packer { Length::ZERO } else { z.1 - wall }, "back"),
    ];
    past.into_iter().filter(|(by, _)| by.is_positive()).max_by_key(|(by, _)| *by)
}
