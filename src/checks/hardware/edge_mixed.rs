//! An overlay front and an inset one with nothing between them.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::{Beyond, Case, Edge, Opening, Piece, Set};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "edge-mixed",
    severity: Severity::Error,
    finds: "One front closes over the edges of its opening, the front beside it closes inside its own, and no board or member is between the two openings.",
    why: "There is no edge for the one to lie on and for the other to close against.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "rail { wide 1-1/2 }\n      doors store { share 1; shelf { adjustable 1 } }",
        wrong: "drawer lower { share 1; front { set overlay { by 1/4 } } }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    for case in &piece.cases {
        for opening in &case.openings {
            for edge in [Edge::Right, Edge::Bottom] {
                let Beyond::Opening(next) = case.beyond(opening.id, edge) else { continue };
                let Some(next) = case.openings.get(next.at) else { continue };
                // What stands behind doors meets only what stands there with it.
                let before = |opening| case.door_before(opening).map(|door| door.id);
                if before(opening) == before(next) {
                    mixed(case, opening, next, edge, sink);
                }
            }
        }
    }
}

fn mixed(case: &Case, one: &Opening, other: &Opening, edge: Edge, sink: &mut Sink) {
    let (Some(own), Some(next)) = (&one.front, &other.front) else { return };
    let (over, inside) = match (&own.set, &next.set) {
        (Set::Overlay(_), Set::Inset) => (one, other),
        (Set::Inset, Set::Overlay(_)) => (other, one),
        (Set::Overlay(_), Set::Overlay(_)) | (Set::Inset, Set::Inset) => return,
    };
    let word = match (case.frame.is_some(), edge) {
        (false, _) => "divider",
        (true, Edge::Left | Edge::Right) => "stile",
        (true, Edge::Top | Edge::Bottom) => "rail",
    };
    sink.push(
        RULE.finding(
            format!(
                "{} closes over the case and {} inside it, with nothing between them",
                over.path,
                inside.name()
            ),
            over.span,
            "closes over the edges",
        )
        .label(inside.span, "closes inside")
        .note(format!("put a `{word}` between them, or let both lie the same way"))
        .subject(&over.path),
    );
}
