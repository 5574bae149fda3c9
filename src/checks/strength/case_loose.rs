//! A case whose ends nothing joins.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::{Axis, Case, MemberKind, Piece};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "case-loose",
    severity: Severity::Error,
    finds: "No board lies between the two ends of a case: it has no bottom, no top, and no stretchers, and neither a frame nor a shelf or a divider reaches from one to the other.",
    why: "A thin back and a nailer don't hold two ends at their distance; the case folds up when it is carried.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::Alcove,
        sound: "  bottom { joint dado { deep 6 } }\n  back { stock thin; joint rabbet { deep 9 } }\n  top { panel; joint rabbet { deep 9 } }\n  shelves { joint dado { deep 6 }; set-back 0 }\n  frame none\n  across { open books { share 1; shelf { fixed 4 } } }",
        wrong: "  back { stock thin; joint rabbet { deep 9 } }\n  shelves { joint dado { deep 6 }; set-back 0 }\n  frame none\n  across { open books { share 1; shelf { adjustable 4 } } }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    for case in piece.cases.iter().filter(|case| is_loose(case)) {
        let behind = case.back.as_ref().map(|back| piece.thickness(back.stock).length);
        let told = match behind {
            Some(thick) => format!(
                "nothing joins the two ends of {}: it has no bottom, no top, and no stretchers, and its back is {}",
                case.name,
                piece.tape().text(thick)
            ),
            None => format!(
                "nothing joins the two ends of {}: it has no bottom, no top, and no stretchers",
                case.name
            ),
        };
        sink.push(
            RULE.finding(told, case.span, "this case")
                .because("its ends stand by themselves")
                .note(
                    "give it a `bottom` or a `top`, for example `top { stretchers 2 { wide 4 } }`",
                )
                .subject(&case.path),
        );
    }
}

/// True where neither a lying board nor a frame ties the ends together.
fn is_loose(case: &Case) -> bool {
    let ties = case.members.iter().any(|member| {
        member.axis == Axis::Down
            && match &member.kind {
                MemberKind::Divider(_) | MemberKind::Rail(Some(_)) => true,
                MemberKind::Rail(None) | MemberKind::Stile(_) => false,
            }
    });
    let shelved = case.openings.iter().filter_map(|opening| opening.shelves.as_ref());
    let fixed = shelved.into_iter().any(|shelves| shelves.fixed > 0);
    case.bottom.is_none() && case.top.is_none() && case.frame.is_none() && !ties && !fixed
}
