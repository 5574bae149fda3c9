//! Shelves in an opening that has no board beside it.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::{Beyond, Edge, Piece};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "shelf-unheld",
    severity: Severity::Error,
    finds: "An opening has shelves, and nothing is between it and the opening at its left or right.",
    why: "A shelf lies on pins in the boards at both its ends, or is joined to them. Here one of its ends would reach into the opening beside it.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::Alcove,
        sound: "across { open books { share 1; shelf { fixed 4 } } }",
        wrong: "across { open books { share 1; shelf { fixed 4 } }; open papers { wide 90 } }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    for case in &piece.cases {
        for opening in &case.openings {
            let Some(shelves) = &opening.shelves else { continue };
            for edge in [Edge::Left, Edge::Right] {
                let Beyond::Opening(next) = case.beyond(opening.id, edge) else { continue };
                let Some(next) = case.openings.get(next.at) else { continue };
                let word = if case.frame.is_some() { "stile" } else { "divider" };
                sink.push(
                    RULE.finding(
                        format!(
                            "the shelves of {} have no board at their {}",
                            opening.path,
                            edge.word()
                        ),
                        shelves.span,
                        "these need a board at both ends",
                    )
                    .label(next.span, "nothing is between this and the shelves")
                    .note(format!("put a `{word}` between {} and {}", opening.name(), next.name()))
                    .subject(&opening.path),
                );
            }
        }
    }
}
