//! What is told of screws that no driver gets at.

use crate::diagnostics::{Diagnostic, Fix, Grade, listed};
use crate::model::JointKind;
use crate::parts::{Joint, JointSort, Of, Part, PartId, Role};
use crate::plans::Workings;

/// The finding of a joint that a board keeps drivers off, and of all that its part is screwed
/// to there.
pub(super) fn told(
    work: &Workings<'_>,
    joint: &Joint,
    (stands, into): (&Part, &[&str]),
    step: usize,
) -> Diagnostic {
    let Workings { piece, parts, .. } = *work;
    let path = |id: PartId| parts.get(id).map_or("", |part| part.path.as_str());
    let (part, into, other) = (path(joint.part), listed(into), &stands.path);
    let mut found = super::RULE.finding(
        format!("no driver gets at the screws of {part} in {into}"),
        joint.span,
        "these screws",
    );
    if stands.span != joint.span {
        found = found.label(stands.span, "this board is in the way");
    }
    let role = parts.get(joint.part).map(|part| part.role);
    let alone = parts.get(joint.into).is_some_and(|into| matches!(into.of, Of::Case(_)));
    let mend = match (joint.sort, role) {
        (JointSort::Wood(JointKind::Pocket), _) => {
            "make the opening larger, join the board another way".to_owned()
        }
        // Where several cases stand on one base nobody comes to it from below.
        (JointSort::Planted, Some(Role::Bottom)) if alone => {
            format!(
                "screw blocks 1 in (25 mm) square into the corner of {part} and {into} from below"
            )
        }
        (JointSort::Planted, Some(Role::Kick)) => {
            format!(
                "screw a block 1-1/2 in (38 mm) square to {into} behind {part}, and screw {part} to the middle of that"
            )
        }
        (_, Some(Role::Countertop)) => "leave more room under it".to_owned(),
        _ => "move one of the boards, join it another way".to_owned(),
    };
    let short = match role {
        Some(Role::Countertop) => "or use a screwdriver that is shorter than 3-1/2 in (90 mm)",
        _ => "or use a driver that is shorter than 5-1/2 in (140 mm)",
    };
    let case = parts.get(joint.part).and_then(|part| piece.case(part.case));
    // Dowels would cut across the tenons of a web frame, and between posts they don't hold.
    let both = [joint.part, joint.into].into_iter().filter_map(|id| parts.get(id));
    let dowels = !both.clone().any(|own| own.role.is_of_web() || matches!(own.role, Role::Post(_)));
    if let Some(at) = case
        .filter(|_| dowels)
        .and_then(|case| crate::checks::joinery::screwed_by(case, joint.span))
    {
        let fix = Fix::new(
            Grade::Choice,
            "join it with dowels, which ask for no driver",
            at,
            "joint dowel",
        );
        found = found.fix(fix);
    }
    found
        .because(format!("in step {step} of the assembly order {other} is in the way"))
        .note(format!(
            "drive them before {other} goes in, where the order allows it; else {mend}, {short}"
        ))
        .subject(part)
}
