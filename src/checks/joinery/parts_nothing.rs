//! A stile, rail, or divider with no opening at one of its sides.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink};
use crate::measure::Length;
use crate::model::{Axis, Case, Item, Member, OpeningKind, Piece};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "parts-nothing",
    severity: Severity::Warning,
    finds: "A stile, rail, or divider has no opening at one of its sides: two of them stand next to each other, or one stands at either end of its list.",
    why: "It parts nothing, and takes its room from the openings. A front beside a divider covers half of its edge, so beside a rail it leaves a gap that nobody drew.",
    source: "Follows from the elevation: what stands in a list parts the openings on either side of it.",
    formula: "",
    accept: "Accept it if it is there only to make its neighbor wider.",
    example: Example {
        base: Base::First,
        sound: "drawer upper { high 5 }\n      rail { wide 1-1/2 }\n      doors store { share 1; shelf { adjustable 1 } }",
        wrong: "drawer upper { high 5 }\n      rail { wide 1-1/2 }\n      rail { wide 1-1/2 }\n      doors store { share 1; shelf { adjustable 1 } }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    for case in &piece.cases {
        for list in &case.openings {
            let OpeningKind::List(_, items) = &list.kind else { continue };
            let members: Vec<Option<&Member>> = items
                .iter()
                .map(|item| match item {
                    Item::Opening(_) => None,
                    Item::Member(id) => case.members.get(id.at),
                })
                .collect();
            for (at, own) in members.iter().enumerate() {
                let Some(member) = own else { continue };
                let next = members.get(at + 1).copied().flatten();
                let before = at.checked_sub(1).and_then(|at| members.get(at).copied().flatten());
                if let Some(before) = before {
                    sink.push(beside(before, member));
                } else if next.is_none() && !parts(case, member) {
                    sink.push(at_the_edge(member));
                }
            }
        }
    }
}

/// True where an opening stands at both sides of a member.
fn parts(case: &Case, member: &Member) -> bool {
    let (wide, long) = (member.wide.length, member.long.length);
    let meets = |from: Length, to: Length, start: Length, end: Length| start < to && from < end;
    let openings = || case.openings.iter().filter(|own| !matches!(own.kind, OpeningKind::List(..)));
    let at = |place: Length, is_end: bool| {
        openings().any(|own| {
            let (from, size, across, over, start) = match member.axis {
                Axis::Across => (own.x, own.wide.length, own.y, own.high.length, member.y),
                Axis::Down => (own.y, own.high.length, own.x, own.wide.length, member.x),
            };
            let touches = if is_end { from + size == place } else { from == place };
            touches && meets(across, across + over, start, start + long)
        })
    };
    let start = match member.axis {
        Axis::Across => member.x,
        Axis::Down => member.y,
    };
    at(start, true) && at(start + wide, false)
}

/// Two that follow each other.
fn beside(before: &Member, member: &Member) -> Diagnostic {
    let [one, other] = [before, member].map(Member::noun);
    RULE.finding(
        format!("a {one} and a {other} stand against each other and part nothing"),
        member.span,
        "nothing is between this one",
    )
    .label(before.span, "and this one")
    .because("each takes its room from the openings beside them")
    .note("take one of the two out, or write the opening that belongs between them")
    .subject(&member.path)
}

/// One at the end of its list.
fn at_the_edge(member: &Member) -> Diagnostic {
    let noun = member.noun();
    RULE.finding(
        format!("a {noun} at the edge of its list parts nothing"),
        member.span,
        "an opening is only at one side of it",
    )
    .because("it takes its room from the openings, and the edge of the list is closed without it")
    .note("take it out, or write the opening that belongs at its other side")
    .subject(&member.path)
}
