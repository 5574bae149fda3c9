//! A case that reaches past what it stands on, or that nothing holds there.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink, listed};
use crate::measure::Length;
use crate::model::{Case, Piece, StandsOn};
use crate::parts::{Cuboid, Direction, Part, Parts, Role, footprint, stack_carriers};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "stack-unheld",
    severity: Severity::Error,
    finds: "A case reaches past the case that it stands on, or nothing lies under one of its ends, or it is not fixed to a wall and its bottom does not lie down on what is below.",
    why: "What has nothing under it sags, and tips when someone leans on it. A case that is only set on another, with no screw in it and no wall behind it, comes down when it is pulled.",
    source: "Plane geometry; that a case is screwed down through its bottom is common practice.",
    formula: "The place that its lower edges take, against the boards at the top of the cases below it.",
    accept: "",
    example: Example { base: Base::Hutch, sound: "wide 36; deep 11", wrong: "wide 36; deep 20" },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    for (case, on) in piece.stacked().filter(|(case, _)| case.hung.is_none()) {
        let Some(own) = footprint(parts, case) else { continue };
        match past(piece, parts, case, &own) {
            Some((by, side)) => sink.push(reaches(piece, case, on, by, side)),
            None => sink.extend(floating(piece, parts, case, on)),
        }
        if !piece.site.fixed && !piece.is_screwed_down(case) {
            sink.push(loose(case, on));
        }
    }
}

/// Everything at the top of the cases below: what carries, and the ends of those.
fn below<'p>(piece: &'p Piece, parts: &'p Parts, case: &'p Case) -> Vec<&'p Part> {
    let carriers = stack_carriers(piece, parts, case).into_iter().map(|(_, part)| part);
    let of_cases = piece.cases_below(case).flat_map(|below| parts.of_case(below.id));
    let up = case.on.as_ref().map(|on| on.up.length);
    let ends = of_cases
        .filter(|part| matches!(part.role, Role::End(_) | Role::Stile | Role::Rail))
        .filter(|part| Some(part.extent(Direction::Y).1) == up);
    carriers.chain(ends).collect()
}

/// How far a case reaches past what is below it, and at which side; that where it reaches
/// farthest.
fn past(piece: &Piece, parts: &Parts, case: &Case, own: &Cuboid) -> Option<(Length, &'static str)> {
    let all = below(piece, parts, case).into_iter().map(Part::cuboid);
    let Some(all) = all.reduce(|all, space| all.union(&space)) else {
        return Some((own.size(Direction::X), "left side"));
    };
    let past = [
        (all.from.x - own.from.x, "left side"),
        (own.to.x - all.to.x, "right side"),
        (all.from.z - own.from.z, "front"),
    ];
    past.into_iter().filter(|(by, _)| by.is_positive()).max_by_key(|(by, _)| *by)
}

fn reaches(
    piece: &Piece,
    case: &Case,
    on: &StandsOn,
    by: Length,
    side: &'static str,
) -> Diagnostic {
    let (tape, below) = (piece.tape(), named(piece, case, on));
    let found = RULE.finding(
        format!("{} reaches {} past the {side} of {below}", case.name, tape.figure(by)),
        on.span,
        format!("it stands on {}", on.name),
    );
    let found = match side {
        "front" => found.label(case.deep_span, format!("{} deep", tape.figure(case.deep.length))),
        _ => found,
    };
    let note = match side {
        "front" => "make it less deep, or what is below deeper".to_owned(),
        _ => format!("give it another place with `{}`, or make it narrower", on.from.word),
    };
    found.because("nothing is under that part of it").note(note).subject(&case.path)
}

fn named(piece: &Piece, case: &Case, on: &StandsOn) -> String {
    let names: Vec<&str> = piece.cases_below(case).map(|below| below.name.as_str()).collect();
    if names.is_empty() { on.name.clone() } else { listed(&names) }
}

/// An end that stands over a place where nothing is.
fn floating(piece: &Piece, parts: &Parts, case: &Case, on: &StandsOn) -> Option<Diagnostic> {
    let carried = below(piece, parts, case);
    let is_carried = |end: &Part| {
        let own = end.cuboid();
        carried.iter().any(|part| {
            let other = part.cuboid();
            [Direction::X, Direction::Z]
                .into_iter()
                .all(|side| own.overlap_along(&other, side).is_positive())
        })
    };
    let ends = parts.of_case(case.id).iter().filter(|part| matches!(part.role, Role::End(_)));
    let end = ends.into_iter().find(|end| !is_carried(end))?;
    Some(
        RULE.finding(
            format!("nothing is under {}, where {} stands on {}", end.path, case.name, on.name),
            on.span,
            format!("it stands on {}", on.name),
        )
        .because("that end hangs in the air")
        .note(format!(
            "give it another place with `{}`, or lay a countertop over what it stands on",
            on.from.word
        ))
        .subject(&case.path),
    )
}

fn loose(case: &Case, on: &StandsOn) -> Diagnostic {
    let found = RULE.finding(
        format!("nothing holds {} on {}, and it is not fixed to a wall", case.name, on.name),
        on.span,
        format!("it only stands on {}", on.name),
    );
    let (found, note) = match &case.bottom {
        Some(bottom) => (
            found.label(bottom.board.span, "this lies higher than its lower edges"),
            "take `flush` out of its bottom, or make its bottom rail as wide as the bottom is thick: then screws go down through it",
        ),
        None => (found, "give it a `bottom`: then screws go down through it"),
    };
    found.note(note).subject(&case.path)
}
