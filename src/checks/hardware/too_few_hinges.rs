//! A door on fewer hinges than its height or weight asks for.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum, counted};
use crate::measure::{Exact, Scale, Span};
use crate::model::{Fronts, HingeKind, Opening, Piece};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "too-few-hinges",
    severity: Severity::Warning,
    finds: "The spec gives a door fewer hinges than its height or its weight needs. Where the spec gives no number, the larger of the two counts is used.",
    why: "The door drops at its latch edge within a year, or it pulls its top hinge out.",
    source: "Common practice; several hinge makers' catalogs agree.",
    formula: "Concealed hinges: 2 up to 40 in high, 3 up to 60, 4 up to 80, then 5; and 2 under 15 lb, with one more for every 15 lb. Butt hinges: one for each 30 in of height or part of it, and at least 2.",
    accept: "Accept it if your hinge's maker allows more on each hinge.",
    example: Example {
        base: Base::Press,
        sound: "hinge inset-cup; pull",
        wrong: "hinge inset-cup; hinges 2; pull",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    for (_, opening, fronts) in super::doors(piece) {
        let (Some(written), Some(_)) = (fronts.hinges, fronts.hinge) else { continue };
        let needs = piece.hinges_needed(opening, fronts).most();
        if written.value >= needs {
            continue;
        }
        // One statement may hold for many doors: the neediest goes first.
        let short = i64::from(needs.saturating_sub(written.value));
        let found = finding(piece, written.span, needs, opening, fronts);
        sink.push(found.urgency(Exact::int(short)));
    }
}

fn finding(
    piece: &Piece,
    span: Span,
    needs: u32,
    opening: &Opening,
    fronts: &Fronts,
) -> Diagnostic {
    let tape = piece.tape();
    let need = piece.hinges_needed(opening, fronts);
    let has = piece.hinges_on(opening, fronts);
    let high = opening.leaf(fronts).1.length;
    let mass = Scale::of(tape).text(piece.leaf_mass(opening, fronts));
    let what = if opening.is_pair() { "each leaf of" } else { "the door of" };
    let mut diagnostic = RULE
        .finding(
            format!("{what} {} hangs on {} and needs {needs}", opening.path, counted(has, "hinge")),
            span,
            has.to_string(),
        )
        .label(opening.span, format!("{} high, {mass}", tape.text(high)))
        .because("the door drops at its latch edge, or it pulls its top hinge out");
    if let Some((hinge, at)) = fronts.hinge {
        let hinge = piece.hinge(hinge);
        let butt = hinge.is_some_and(|hinge| matches!(hinge.kind, HingeKind::Butt { .. }));
        let figure = |count: u32| count.to_string();
        diagnostic = diagnostic.sum(Sum::told("by height", figure(need.by_height)));
        if butt {
            diagnostic = diagnostic.label(at, "a butt hinge");
        } else {
            diagnostic = diagnostic.sum(Sum::told("by weight", figure(need.by_weight)));
        }
    }
    diagnostic
        .sum(Sum::told("short by", needs.saturating_sub(has).to_string()))
        .note("without `hinges`, the larger of the two counts is used")
        .subject(&opening.path)
        .fix(Fix::new(
            Grade::Choice,
            format!("put {needs} hinges on each"),
            span,
            format!("hinges {needs}"),
        ))
}
