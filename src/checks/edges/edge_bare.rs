//! The plies of a board in the open part of a framed case.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, listed};
use crate::measure::Length;
use crate::model::{Case, Edged, Opening, OpeningKind, Piece, StockKind};
use crate::parts::{Direction, Of, Part, Role, is_edge_covered, said_of_edges};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "edge-bare",
    severity: Severity::Note,
    finds: "A divider or a shelf of plywood stands in an open place of a case with a face frame, and nothing covers its front edge, lip, banding, or member. Cases without a frame don't count.",
    why: "The frame covers every other edge, so the plies of this one are in sight beside it.",
    source: "None is needed: no paper has a strip for that edge.",
    formula: "",
    accept: "Write `edges none` for a board whose plies are meant to show.",
    example: Example {
        base: Base::First,
        sound: "doors store { share 1; shelf { adjustable 1 } }",
        wrong: "open store { share 1; shelf { adjustable 1 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    // While something is wrong, a front may yet come before it.
    if sink.has_errors() {
        return;
    }
    for case in work.piece.cases.iter().filter(|case| case.frame.is_some()) {
        let bare: Vec<&Part> =
            work.parts.of_case(case.id).iter().filter(|part| is_bare(work, case, part)).collect();
        let Some(first) = bare.first() else { continue };
        let marks: Vec<&str> = bare.iter().map(|part| part.path.as_str()).collect();
        let title = format!("the plies of {} are seen at the front", listed(&marks));
        sink.push(
            RULE.finding(title, first.span, "nothing covers its front edge")
                .note("cover it with `edges` of a lumber or of banding, or write `edges none` where it is meant so")
                .subject(&first.path),
        );
    }
}

/// True for a board of plies that shows its front edge in an open place, and of whose edges
/// nothing is said.
fn is_bare(work: &Workings<'_>, case: &Case, part: &Part) -> bool {
    let Workings { piece, parts, .. } = *work;
    let lies = matches!(part.role, Role::Divider | Role::FixedShelf | Role::AdjustableShelf);
    let front = part.placement.face(Direction::Z, true);
    lies && is_of_plies(piece, part)
        && part.strips.is_empty()
        && matches!(said_of_edges(piece, case, part), Some(Edged::Unsaid))
        && case.openings.iter().any(|opening| is_in_sight(case, opening, part))
        && !is_edge_covered(case, parts.of_case(case.id).iter(), part, front)
}

fn is_of_plies(piece: &Piece, part: &Part) -> bool {
    piece.stock(part.stock).is_some_and(|stock| stock.kind == StockKind::Plywood)
}

/// True for a shelf of an open place, and for a divider beside one.
fn is_in_sight(case: &Case, opening: &Opening, part: &Part) -> bool {
    let open = matches!(opening.kind, OpeningKind::Open) && case.door_before(opening).is_none();
    let touches = |direction: Direction, from: Length, long: Length| {
        let (start, end) = part.extent(direction);
        start <= from + long && from <= end
    };
    open && match part.of {
        Of::Opening(own) => own == opening.id,
        Of::Member(_) => {
            touches(Direction::X, case.x + opening.x, opening.wide.length)
                && touches(Direction::Y, opening.y, opening.high.length)
        }
        Of::Case(_) | Of::Row(_) | Of::Front(_) => false,
    }
}
