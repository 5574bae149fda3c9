//! What is said of shelves in a case whose lying boards are all dividers.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::measure::Span;
use crate::model::{Case, Edged};
use crate::parts::{Direction, Part, Role};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "shelves-unused",
    severity: Severity::Note,
    finds: "A case has a `shelves` block and horizontal dividers, but no shelf.",
    why: "A horizontal divider between two openings looks like a shelf, and is joined as `partitions` says. The joints, pins, and loads in `shelves` then apply to no part.",
    source: "None is needed: no paper has it.",
    formula: "",
    accept: "Accept it if shelves come with a later revision.",
    example: Example {
        base: Base::First,
        sound: "doors store { share 1; shelf { adjustable 1 } }\n    }\n  }\n",
        wrong: "doors store { share 1; down { open high { share 1 }; divider; open low { share 1 } } }\n    }\n  }\n  shelves { joint dado { deep 1/4 } }\n",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let has_shelf = |part: &Part| {
        matches!(part.role, Role::FixedShelf | Role::AdjustableShelf) || part.role.is_of_web()
    };
    // The cases of a run may have one block together.
    let mut told: Vec<Span> = Vec::new();
    let cases = &work.piece.cases;
    // Their edges are covered as those of shelves are.
    let is_said = |case: &&Case| {
        case.shelves.span != case.span && matches!(case.shelves.edges, Edged::Unsaid)
    };
    for case in cases.iter().filter(is_said) {
        let span = case.shelves.span;
        let lies =
            |part: &&Part| part.role == Role::Divider && part.placement.thickness == Direction::Y;
        let divider = work.parts.of_case(case.id).iter().find(lies);
        let mut own = cases.iter().filter(|other| other.shelves.span == span);
        let is_used = own.any(|other| work.parts.of_case(other.id).iter().any(has_shelf));
        let Some(divider) = divider.filter(|_| !is_used && !told.contains(&span)) else { continue };
        told.push(span);
        sink.push(
            RULE.finding(
                format!("{} has no shelf for this to apply to", case.name),
                span,
                "this makes nothing",
            )
            .label(divider.span, "this is a divider")
            .note("what holds a divider is said in `partitions { … }`; for a shelf write `shelf { fixed 1 }` in an opening")
            .subject(&case.path),
        );
    }
}
