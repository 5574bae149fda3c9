//! A rabbet where a board goes on past it.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink};
use crate::measure::Length;
use crate::model::JointKind;
use crate::parts::{FeatureKind, Role};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "rabbet-inside",
    severity: Severity::Error,
    finds: "A bottom is set in rabbets, but the ends of the case run on below it.",
    why: "A rabbet is a step along the edge or end of a board. Away from its end what takes another board is a dado, with a wall on both sides.",
    source: "American Furniture Design, Rabbet & Dado Joints.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "bottom { joint dado { deep 1/4 } }",
        wrong: "bottom { joint rabbet { deep 1/4 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    for case in &piece.cases {
        let Some(bottom) = &case.bottom else { continue };
        let own = parts.of_case(case.id).iter().filter(|part| matches!(part.role, Role::End(_)));
        let inside = own.flat_map(|end| &end.features).find(|feature| {
            let takes = feature.takes.and_then(|id| parts.get(id));
            feature.kind == FeatureKind::Rabbet
                && takes.is_some_and(|part| part.role == Role::Bottom)
                && feature.u.0 > Length::ZERO
        });
        let Some(inside) = inside.filter(|_| bottom.board.joint.kind == JointKind::Rabbet) else {
            continue;
        };
        let Some(joint) = bottom.board.joint.span else { continue };
        let below = piece.tape().figure(inside.u.0);
        sink.push(
            RULE.finding(
                format!(
                    "the bottom of {} is set in rabbets, but the ends of the case run {below} past it",
                    case.path
                ),
                joint,
                "a joint away from the end of a board is a dado",
            )
            .fix(Fix::new(Grade::Choice, "let it into dadoes", joint, "joint dado"))
            .subject(&case.path),
        );
    }
}
