//! A pull whose hole lies so near to an edge that too little wood is left beside it.

use std::collections::BTreeSet;

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::measure::{Length, Tape, Unit};
use crate::model::{FrontId, PullAt};
use crate::parts::{Bore, Direction, Face, Feature, Front, Part};
use crate::plans::Workings;

use super::bores;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "pull-near-edge",
    severity: Severity::Warning,
    finds: "The hole of a pull leaves less than 1/8 in (3 mm) of wood up to an edge of its board.",
    why: "The bit breaks that edge out, or the screw splits it off when it is drawn tight, and the foot of the pull stands over the edge.",
    source: "Common practice; no published source.",
    formula: "The distance from the center of the hole to the nearest edge of its board, less half of the hole.",
    accept: "Accept it if the pull is made to sit at an edge, and you clamp scrap to that edge when you bore.",
    example: Example {
        base: Base::Pantry,
        sound: "front { pull bar { from-bottom 4 } }",
        wrong: "front { pull bar { from-bottom 2-5/8 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// The least wood beside a hole: 1/8 in, 3 mm (common practice, no source).
fn least(unit: Unit) -> Length {
    unit.either(Length::inches(1, 8), Length::mm(3))
}

/// The wood that is left beside a hole, and the edge where that is least.
struct Wall<'p> {
    part: &'p Part,
    hole: &'p Feature,
    left: Length,
    edge: Face,
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    // A hole that is not in its board is told already.
    if sink.has_errors() {
        return;
    }
    let least = least(work.piece.tape().unit);
    let mut seen: BTreeSet<FrontId> = BTreeSet::new();
    for front in work.fronts() {
        // The leaves of a pair are alike.
        let first = FrontId { leaf: front.opening.leaves()[0], ..front.id };
        if !seen.insert(first) {
            continue;
        }
        let walls = front.parts.iter().flat_map(|part| walls(part));
        let thinnest = walls.min_by_key(|wall| wall.left);
        sink.extend(
            thinnest.filter(|wall| wall.left < least).map(|wall| found(work, front, &wall)),
        );
    }
}

/// The wood beside each hole of a pull in a board, along its length and across it.
fn walls(part: &Part) -> impl Iterator<Item = Wall<'_>> {
    let holes = bores(part).filter(|(_, kind)| *kind == Bore::Pull);
    holes.flat_map(move |(hole, _)| {
        let (long, wide) = part.face_size(hole.face);
        let sides = [
            (hole.u.0, Face::LengthStart),
            (long - hole.u.1, Face::LengthEnd),
            (hole.v.0, Face::WidthStart),
            (wide - hole.v.1, Face::WidthEnd),
        ];
        sides.into_iter().map(move |(left, edge)| Wall { part, hole, left, edge })
    })
}

fn found(work: &Workings<'_>, front: &Front<'_>, wall: &Wall<'_>) -> Diagnostic {
    let tape = work.piece.tape();
    let least = least(tape.unit);
    let radius = (wall.hole.u.1 - wall.hole.u.0).half();
    let edge = wall.part.face_name(wall.edge);
    let (at, mend) = match moved(work, front, wall) {
        Ok((at, statement, title)) => (at, Ok(Fix::new(Grade::Choice, title, at, statement))),
        Err(note) => (front.fronts.pull_place.span.unwrap_or(wall.hole.span), Err(note)),
    };
    let found = RULE
        .finding(
            format!(
                "the hole of the pull of {} leaves {} of wood up to the {edge} of its board",
                front.opening.path,
                tape.figure(wall.left)
            ),
            at,
            format!("hole {} across", tape.figure(radius.twice())),
        )
        .label(front.opening.span, "the front of this opening")
        .sum(
            Sum::new("leaves", wall.left, tape)
                .plus(wall.left + radius, "from the center", tape)
                .minus(radius, "half of the hole", tape),
        )
        .because(format!("it chips or splits off; {} lasts", tape.figure(least)))
        .subject(&front.opening.path)
        .urgency((least - wall.left) / Length::mm(1));
    match mend {
        Ok(fix) => found.fix(fix),
        Err(note) => found.note(note),
    }
}

/// Where the place of the pull is written, and what would stand there; else what to do.
fn moved(
    work: &Workings<'_>,
    front: &Front<'_>,
    wall: &Wall<'_>,
) -> Result<(crate::measure::Span, String, String), String> {
    let tape = work.piece.tape();
    let (place, part) = (&front.fronts.pull_place, wall.part);
    let far = least(tape.unit) - wall.left;
    let along = part.placement.direction(wall.edge);
    let high = along == Direction::Y;
    let says = |word: &str, from: Length, edge: &str| {
        let at = tape.up(from + far);
        let title = format!("set it {} from the {edge}", tape.figure(at));
        (format!("{word} {}", tape.source(at)), title)
    };
    let is_upper = wall.edge == part.placement.face(Direction::Y, false);
    let said = match (place.at, place.at_span) {
        (Some(PullAt::FromTop(from)), Some(at)) if high && is_upper => {
            Some((at, says("from-top", from, "top")))
        }
        (Some(PullAt::FromBottom(from)), Some(at)) if high && !is_upper => {
            Some((at, says("from-bottom", from, "bottom")))
        }
        _ => None,
    };
    let beside = match (place.from_edge, place.from_edge_span) {
        (Some(from), Some(at)) if !high => Some((at, says("from-edge", from, "latch edge"))),
        _ => None,
    };
    match said.or(beside) {
        Some((at, (statement, title))) => Ok((at, statement, title)),
        None => Err(closer(front, wall, along, tape)),
    }
}

/// What to do where the board is too small for the pull.
fn closer(front: &Front<'_>, wall: &Wall<'_>, along: Direction, tape: &Tape) -> String {
    let centers = front.pull.and_then(|(pull, _)| pull.centers);
    // The screws of a pull stand one above the other on a door.
    let runs = if front.hung.is_some() { Direction::Y } else { Direction::X };
    let most = centers.map(|centers| tape.down(centers - (least(tape.unit) - wall.left).twice()));
    match most.filter(|most| along == runs && most.is_positive()) {
        Some(most) => {
            format!("use a knob, or a pull with `centers` of no more than {}", tape.figure(most))
        }
        None => "move it farther in".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::checks::rule::Base;
    use crate::model::MemoryFiles;
    use crate::pipeline;

    fn found(text: &str) -> Vec<String> {
        let files = MemoryFiles::one("a.case", text);
        let compiled = pipeline::check(&files, "a.case").expect("readable");
        let own = compiled.diagnostics.iter().filter(|found| found.slug == RULE.slug);
        own.map(|found| found.title.clone()).collect()
    }

    /// Worked by hand. The screws of the bar stand 5 apart, in holes of 3/16: with its middle
    /// 2-23/32 up the lower hole ends 2-23/32 − 2-1/2 − 3/32 = 1/8 from the end of the stile,
    /// and 1/32 lower only 3/32.
    #[test]
    fn an_eighth_is_left_beside_a_hole() {
        let at = |up: &str| found(&RULE.example.broken().replace("2-5/8", up));
        assert_eq!(at("2-23/32"), Vec::<String>::new());
        let title = "the hole of the pull of pantry.upper leaves 3/32 of wood up to the bottom end of its board";
        assert_eq!(at("2-11/16"), [title]);
    }

    /// Worked by hand. In a case 16 wide with stiles of 1-3/4 the front is 16 − 3-1/2 − 2 ×
    /// 3/32 = 12-5/16 wide. A pull of 11-15/16 leaves 3/16 from the middle of each hole to the
    /// edge, and 1/8 beside a hole of 1/8; one of 12 leaves 1/32 less.
    #[test]
    fn a_pull_as_wide_as_its_front_leaves_too_little() {
        let wide = |centers: &str| {
            let text = Base::First.text().replace("wide 36", "wide 16");
            let bar =
                format!("pull knob {{ screw 5/32 }}\npull bar {{ centers {centers}; screw 1/8 }}");
            let text = text.replace("pull knob { screw 5/32 }", &bar);
            found(&text.replace("upper { high 5 }", "upper { high 5; front { pull bar } }"))
        };
        assert_eq!(wide("11-15/16"), Vec::<String>::new());
        let title = "the hole of the pull of cupboard.upper leaves 3/32 of wood up to the left end of its board";
        assert_eq!(wide("12"), [title]);
    }
}
