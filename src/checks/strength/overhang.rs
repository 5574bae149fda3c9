//! A countertop that reaches too far past what carries it.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink};
use crate::measure::{IF_POINT_OFF, Length, Span, Unit, is_on_rule};
use crate::model::{OnTop, Piece, Side, Size};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "overhang",
    severity: Severity::Warning,
    finds: "A countertop reaches past its case by more than a third of what it measures that way, or by more than 4 in (100 mm) past its doors and drawers, or past both of its ends.",
    why: "Whoever leans on it pries it off its screws, or tips the whole piece. Doors and drawers far under it are hard to see and to get at.",
    source: "Common practice; no published source: a third of its depth stands free, the rest asks for brackets or legs.",
    formula: "What reaches past the case, over the whole countertop in that direction.",
    accept: "Accept it where brackets, legs, or a wall that the spec does not know about carry it, or where people sit before the doors.",
    example: Example {
        base: Base::First,
        sound: "top { stretchers 2 { wide 4 }; joint pocket }",
        wrong: "top { stretchers 2 { wide 4 }; joint pocket }; countertop { stock maple; over 1 { front 12 } }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

/// A side that it reaches past: what it is called, how far, and how far it reaches past
/// the side across from it.
type Reach<'c> = (&'static str, &'c Size, &'c Size);

/// The sides of a countertop, each with the size of what it covers in that direction.
fn sides(top: &OnTop) -> [(Reach<'_>, Length); 4] {
    let over = &top.over;
    let [left, right] = Side::BOTH.map(|side| side.of(&over.sides));
    let (wide, deep) = (top.wide.length, top.deep.length);
    [
        (("front", &over.front, &over.back), deep),
        (("back", &over.back, &over.front), deep),
        (("left", left, right), wide),
        (("right", right, left), wide),
    ]
}

/// Past fronts and past both ends, this is the most that is usual (common practice, no
/// source).
fn most(unit: Unit) -> Length {
    unit.either(Length::inches(4, 1), Length::mm(100))
}

/// True where a door or a drawer opens under it.
fn has_fronts(piece: &Piece, top: &OnTop) -> bool {
    let mut cases = piece.cases.iter().filter(|case| top.row.has(case.id));
    cases.any(|case| case.openings.iter().any(|opening| opening.front.is_some()))
}

/// What it says where its point is a place off.
fn a_place_off(piece: &Piece, by: &Size, most: Length) -> Option<Fix> {
    let tape = piece.tape();
    let meant = by.length / 10;
    let is_written = tape.unit.is_metric() || is_on_rule(meant.in_unit(Unit::Inch));
    let mut facts = piece.facts.of(by);
    let (Some((fact, _)), None) = (facts.next(), facts.next()) else { return None };
    let (at, word) = (fact.origin.span()?, fact.word?);
    (is_written && meant <= most).then(|| {
        let figure = tape.source(meant);
        let title = format!("{}, {IF_POINT_OFF}", tape.figure(meant));
        Fix::new(Grade::Choice, title, at, format!("{word} {figure}"))
    })
}

/// It reaches so far past doors and drawers that they are lost under it, or past both ends
/// by one figure that was probably meant for something else. A figure that is told for more
/// than a third is not told again.
fn far(piece: &Piece, (top, path): (&OnTop, &str), told: &[Option<Span>], sink: &mut Sink) {
    let (tape, over) = (piece.tape(), &top.over);
    let most = most(tape.unit);
    let [left, right] = &over.sides;
    let is_far = |by: &Size| by.length > most;
    let (by, past, because) = if is_far(&over.front) && has_fronts(piece, top) {
        let because = "they are hard to see and to get at so far under it";
        (&over.front, "the doors and drawers under it", because)
    } else if is_far(left) && piece.facts.written(left) == piece.facts.written(right) {
        (left, "both ends of its case", "whoever leans on an end pries it up")
    } else {
        return;
    };
    let at: Option<Span> = piece.facts.written(by);
    if told.contains(&at) {
        return;
    }
    let found = RULE
        .finding(
            format!(
                "the countertop of {} reaches {} past {past}",
                piece.top_named(top),
                tape.figure(by.length)
            ),
            at.unwrap_or(top.spec.span),
            tape.figure(by.length),
        )
        .because(because)
        .note(format!("it is usually {} or less", tape.figure(most)))
        .subject(path);
    sink.push(match a_place_off(piece, by, most) {
        Some(fix) => found.fix(fix),
        None => found,
    });
}

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for top in &piece.tops {
        let Some(case) = piece.case(top.row.first) else { continue };
        let is_over = |((_, by, across), carried): &(Reach<'_>, Length)| {
            by.length * 3 > by.length + across.length + *carried
        };
        let told = sides(top).into_iter().filter(is_over);
        let told: Vec<Option<Span>> = told.map(|((_, by, _), _)| piece.facts.written(by)).collect();
        far(piece, (top, &case.path), &told, sink);
        for ((side, by, across), carried) in sides(top).into_iter().filter(is_over) {
            let whole = by.length + across.length + carried;
            let at: Option<Span> = piece.facts.written(by);
            let most = tape.down((across.length + carried).half());
            sink.push(
                RULE.finding(
                    format!(
                        "the countertop of {} reaches {} past its case at the {side}, which is more than a third of its {}",
                        piece.top_named(top),
                        tape.figure(by.length),
                        tape.figure(whole)
                    ),
                    at.unwrap_or(top.spec.span),
                    tape.figure(by.length),
                )
                .because("whoever leans on it pries it up, or tips the piece")
                .note(format!(
                    "write `{side} {}` or less, or carry it on brackets or legs",
                    tape.figure(most)
                ))
                .subject(&case.path),
            );
        }
    }
}
