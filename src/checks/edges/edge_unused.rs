//! `edges` that no edge gets.

use std::collections::BTreeSet;

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink};
use crate::measure::Span;
use crate::model::{Case, Edged, Edging, Piece, Stock};
use crate::parts::{Part, asked_edging};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "edge-unused",
    severity: Severity::Error,
    finds: "`edges` stands where no edge takes a strip: the boards are of solid wood, their front edges lie behind the face frame, or they have no edge that is seen.",
    why: "The word would change nothing, and whoever wrote it waits for a lip that never comes. A strip glued across the ends of solid wood comes off, or splits it, because wood moves across its grain and the strip does not move along its own.",
    source: "Movement of wood: the Wood Handbook, ch. 13. The rest is plane geometry.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "ends { stock ply }",
        wrong: "ends { stock ply; edges maple }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let strips = work.parts.all.iter().flat_map(|part| &part.strips);
    let strips: BTreeSet<Span> = strips.map(|strip| strip.span).collect();
    for case in &work.piece.cases {
        let parts = work.parts.of_case(case.id);
        let used = |edging: &Edging| strips.contains(&edging.span);
        let top = work.piece.top_over(case.id);
        let of_run = top.filter(|top| top.run.is_some() && top.row.first == case.id);
        let of_run = of_run.and_then(|top| match &top.spec.edges {
            Edged::With(edging) => Some(edging),
            Edged::Bare | Edged::Unsaid => None,
        });
        for edging in case.edgings().into_iter().chain(of_run) {
            if !used(edging) {
                sink.push(finding(work.piece, case, parts, edging));
            }
        }
    }
}

fn finding(piece: &Piece, case: &Case, parts: &[Part], edging: &Edging) -> Diagnostic {
    let asked =
        |part: &&Part| asked_edging(piece, case, part).is_some_and(|own| own.span == edging.span);
    let solid = |part: &&Part| piece.stock(part.stock).is_some_and(Stock::is_solid);
    let own: Vec<&Part> = parts.iter().filter(asked).collect();
    let behind = own.iter().copied().find(|part| !solid(part));
    let (title, label) = match (behind, own.first()) {
        (Some(part), _) => (
            format!(
                "nothing goes on the front edge of {}, because it lies behind the face frame",
                part.path
            ),
            "the frame covers that edge",
        ),
        (None, Some(part)) => (
            format!("nothing goes on the edges of {}, because it is solid wood", part.path),
            "solid wood shows no plies",
        ),
        (None, None) => {
            ("there is no edge of a sheet that this could go on".to_owned(), "no board takes this")
        }
    };
    let subject = own.first().map_or(case.name.as_str(), |part| part.path.as_str());
    let found = RULE.finding(title, edging.span, label).subject(subject);
    match edging.plain {
        true => found.fix(Fix::new(Grade::Choice, "take it out", edging.span, "")),
        false => found.note("take it out with its braces"),
    }
}
