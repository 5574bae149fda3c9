//! A case that takes the place of another, or stands in a wall of the room.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink, Sum};
use crate::measure::{Length, Span};
use crate::model::{Case, HungOver, Piece, Side};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "cases-overlap",
    severity: Severity::Error,
    finds: "Two cases take the same place: one hangs or stands where another does. Or a case that hangs over another, or stands on it, reaches into the wall at the side of the room.",
    why: "Two boxes can't stand in each other, and a box can't stand in a wall. The papers would place both.",
    source: "Plane geometry.",
    formula: "The places of the two cases on the elevation. All of them stand against the wall behind.",
    accept: "",
    example: Example {
        base: Base::Hutch,
        sound: "case hutch {\n  on sideboard",
        wrong: "case rack {\n  hung { up 60; over sideboard }\n  wide 34; deep 8; high 14; stock ply\n  bottom { joint dado { deep 1/4 } }\n  back { stock thin; joint rabbet { deep 3/8 } }\n  top { panel; joint dado { deep 1/4 } }\n  frame none\n  across { open hats { share 1 } }\n  finish oil\n}\n\ncase hutch {\n  on sideboard",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    for (at, case) in piece.cases.iter().enumerate() {
        if case.is_in_row() {
            continue;
        }
        let others = piece.cases.iter().enumerate();
        // Of two that are placed, the later one is told.
        let others = others.filter(|(other, own)| *other < at || *other > at && own.is_in_row());
        sink.extend(others.filter_map(|(_, other)| overlapping(piece, case, other)).next());
        sink.extend(Side::BOTH.into_iter().find_map(|side| in_wall(piece, case, side)));
    }
}

/// From where to where a case reaches across and up, with the cover under it.
fn place(case: &Case) -> [(Length, Length); 2] {
    let up = match (&case.hung, &case.on) {
        (Some(hung), _) => hung.up.length - case.covers.below().length,
        (None, Some(on)) => on.up.length,
        (None, None) => Length::ZERO,
    };
    [(case.x, case.x + case.wide.length), (up, case.high.length)]
}

/// What places a case, with what its statement says.
fn placed_by(case: &Case) -> Option<(Span, String)> {
    let over = case.over().map(|over| (over.span, format!("{} hangs here", case.name)));
    over.or(case.on.as_ref().map(|on| (on.span, format!("{} stands here", case.name))))
}

fn overlapping(piece: &Piece, case: &Case, other: &Case) -> Option<Diagnostic> {
    let tape = piece.tape();
    let [across, up] = place(case);
    let [other_across, other_up] = place(other);
    let common = |one: (Length, Length), two: (Length, Length)| one.1.min(two.1) - one.0.max(two.0);
    let wide = common(across, other_across);
    let high = common(up, other_up);
    // What hangs lower than the case under it is told with that.
    let hangs_low = other.is_in_row() && piece.is_above(case, other);
    if !wide.is_positive() || !high.is_positive() || hangs_low {
        return None;
    }
    let (span, label) = placed_by(case)?;
    let title = format!(
        "{} and {} take the same place, {} wide and {} high",
        case.name,
        other.name,
        tape.figure(wide),
        tape.figure(high)
    );
    let by = match across.0 < other_across.0 {
        true => other_across.0 - across.1,
        false => other_across.1 - across.0,
    };
    let beside = case.over().and_then(|over| set_beside(piece, case, over, by));
    let beside = match beside {
        Some(said) => format!("`{said}` sets {} right beside {}", case.name, other.name),
        None => "move one of the two, or make it lower or narrower".to_owned(),
    };
    let mut found = RULE.finding(title, span, label);
    if let Some((span, label)) = placed_by(other) {
        found = found.label(span, label);
    }
    Some(found.note(beside).subject(&case.path))
}

/// What is written at the place of a case that hangs, or of its run, to move it so far to the
/// right; `None` where it would reach past what it hangs over.
fn set_beside(piece: &Piece, case: &Case, over: &HungOver, by: Length) -> Option<String> {
    let run = case.run.and_then(|run| piece.run(run));
    let (x, wide) = run.map_or((case.x, &case.wide), |run| (run.x, &run.wide));
    let below = piece.case(over.below)?;
    let below_run = below.run.and_then(|run| piece.run(run)).filter(|run| run.name == over.name);
    let (first, below_wide) = below_run.map_or((below.x, &below.wide), |run| (run.x, &run.wide));
    let left = x + by - first;
    let far = match over.from.side {
        Side::Left => left,
        Side::Right => below_wide.length - left - wide.length,
    };
    (!far.is_negative()).then(|| format!("{} {}", over.from.word, piece.tape().source(far)))
}

fn in_wall(piece: &Piece, case: &Case, side: Side) -> Option<Diagnostic> {
    let tape = piece.tape();
    piece.wall_at(side)?;
    let row = || piece.cases.iter().filter(|case| case.is_in_row());
    let filler = |case: &Case| case.filler(side).map_or(Length::ZERO, |own| own.wide.length);
    let (from, to) = (case.x, case.x + case.wide.length);
    let (wall, word, sum) = match side {
        Side::Left => {
            let wall = row().map(|case| case.x - filler(case)).min()?;
            let sum = Sum::new("into the wall", wall - from, tape);
            (wall - from, "left", sum.plus(wall, "the wall", tape).minus(from, &case.name, tape))
        }
        Side::Right => {
            let wall = row().map(|case| case.x + case.wide.length + filler(case)).max()?;
            let sum = Sum::new("into the wall", to - wall, tape)
                .plus(from, "its left side", tape)
                .plus(case.wide.length, &case.name, tape);
            (to - wall, "right", sum.minus(wall, "to the wall", tape))
        }
    };
    if !wall.is_positive() {
        return None;
    }
    let (span, label) = placed_by(case)?;
    let title = format!("{} reaches {} into the {word} wall", case.name, tape.figure(wall));
    let found = RULE
        .finding(title, span, label)
        .sum(sum)
        .note("the wall stands at the side of what is on the floor, where `site` says `wall`")
        .subject(&case.path);
    Some(found)
}
