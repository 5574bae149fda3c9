//! Two niches with nothing between them.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::{Beyond, Edge, OpeningKind, Piece};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "niche-undivided",
    severity: Severity::Warning,
    finds: "Two open niches stand side by side, and nothing is written between them.",
    why: "Between a niche and a front the front's edge is the border. Between two niches there is nothing at all, and what is built is one niche.",
    source: "Plane geometry.",
    formula: "",
    accept: "Accept it if the two names only say what is kept where.",
    example: Example {
        base: Base::Alcove,
        sound: "across { open books { share 1; shelf { fixed 4 } } }",
        wrong: "across { open books { share 1 }; open papers { wide 90 } }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    for case in &piece.cases {
        // A niche with shelves is told of with them.
        let niches = case
            .openings
            .iter()
            .filter(|own| matches!(own.kind, OpeningKind::Open) && own.shelves.is_none());
        for opening in niches {
            let Beyond::Opening(next) = case.beyond(opening.id, Edge::Right) else { continue };
            let Some(next) = case.openings.get(next.at) else { continue };
            if !matches!(next.kind, OpeningKind::Open) || next.shelves.is_some() {
                continue;
            }
            let is_framed = case.frame.is_some() && case.door_before(opening).is_none();
            let word = if is_framed { "stile" } else { "divider" };
            sink.push(
                RULE.finding(
                    format!("nothing is between {} and {}", opening.path, next.path),
                    next.span,
                    "this niche and the one before it are one",
                )
                .label(opening.span, "the niche beside it")
                .note(format!("put a `{word}` between them, or write one `open`"))
                .subject(&opening.path),
            );
        }
    }
}
