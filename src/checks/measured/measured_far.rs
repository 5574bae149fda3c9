//! A measured opening that the drawing no longer fits.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink};
use crate::measure::{Length, Span};
use crate::model::{Axis, Opening, Piece, Set};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "measured-far",
    severity: Severity::Error,
    finds: "A measured opening that differs from the drawn one by more than its two reveals; where it has an overlay front by more than 1/8 in (3 mm), where it has none by more than 1/4 in (6 mm).",
    why: "No front with its reveals in range can make up for that. The frame that stands there is another than the one that is drawn, and every board behind it is placed by the drawing.",
    source: "Reveals: plane geometry. The other two figures: ours.",
    formula: "measured − drawn, against twice the reveal.",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "finish oil { hardwax-oil; coats 2; cure 24 h }",
        wrong: "finish oil { hardwax-oil; coats 2; cure 24 h }\nmeasured { opening store { high 20-3/4 } }",
    },
    check: Check::Piece(check),
};

fn check(piece: &Piece, sink: &mut Sink) {
    for opening in piece.cases.iter().flat_map(|case| &case.openings) {
        for axis in [Axis::Across, Axis::Down] {
            let off = opening.grown_by(axis);
            let (most, what) = most(opening);
            if off.abs() > most {
                sink.push(report(piece, opening, axis, (most, what)));
            }
        }
    }
}

/// The most that can be made up for, and by what.
fn most(opening: &Opening) -> (Length, &'static str) {
    match &opening.front {
        Some(fronts) if fronts.set == Set::Inset => (fronts.gap.length.twice(), "its two reveals"),
        Some(_) => (Length::inches(1, 8), "an overlay front"),
        None => (Length::inches(1, 4), "shelves and fittings"),
    }
}

fn report(
    piece: &Piece,
    opening: &Opening,
    axis: Axis,
    (most, what): (Length, &str),
) -> Diagnostic {
    let tape = piece.tape();
    let (drawn, measured) = (opening.along(axis).length, opening.as_built(axis).length);
    let off = measured - drawn;
    let (more, word) = match (off.is_positive(), axis) {
        (true, Axis::Across) => ("wider", "wide"),
        (false, Axis::Across) => ("narrower", "wide"),
        (true, Axis::Down) => ("taller", "high"),
        (false, Axis::Down) => ("lower", "high"),
    };
    let at = |axis: Axis| piece.facts.written(opening.as_built(axis)).unwrap_or(opening.span);
    let by = tape.figure(off.abs());
    let written: Option<Span> = opening.size_spans[usize::from(axis == Axis::Down)];
    let mut diagnostic = Diagnostic::error(
        RULE.slug,
        format!(
            "{} came out {by} {more} than drawn: {what} can make up for {}",
            opening.path,
            tape.figure(most)
        ),
        at(axis),
        format!("measured {}", tape.figure(measured)),
    )
    .label(written.unwrap_or(opening.span), format!("drawn {} {word}", tape.figure(drawn)))
    .sum(super::off_by(tape, measured, drawn, "drawn"))
    .because("what stands behind the frame is placed by a drawing that no longer holds")
    .note("measure again; if the reading is right, draw what was built: the opening, or the members beside it")
    .subject(&opening.path);
    if let Some(fronts) = opening.front.as_ref().filter(|fronts| fronts.set == Set::Inset) {
        let gap = tape.figure(fronts.gap.length);
        diagnostic = diagnostic.label(fronts.gap_span, format!("reveal {gap}, twice"));
    }
    if let Some(span) = written {
        let edit = format!("{word} {}", tape.source(measured));
        diagnostic = diagnostic.fix(Fix::new(Grade::Choice, "draw what was built", span, edit));
    }
    diagnostic
}
