//! A partition that is let into a web frame.

use crate::checks::once::Once;
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::JointKind;
use crate::parts::{JointSort, Of};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "web-let-into",
    severity: Severity::Error,
    finds: "A partition stands on a web frame, or reaches up to one, and its joint is cut into the frame.",
    why: "The cut goes across the rails of the frame, where the tenons of the runners lie in the middle of their thickness: what is left of tenon and rail breaks.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::Chest,
        sound: "shelves  { joint dado { deep 1/4 } }",
        wrong: "shelves  { stock maple; joint dado { deep 1/4 }; build web }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let mut once = Once::default();
    for joint in &parts.joints {
        let JointSort::Wood(kind) = joint.sort else { continue };
        let cut = match kind {
            JointKind::Dado
            | JointKind::Rabbet
            | JointKind::Tenon
            | JointKind::Dowel
            | JointKind::Dovetail => true,
            JointKind::Pocket | JointKind::Screw | JointKind::Butt => false,
        };
        let (Some(part), Some(into)) = (parts.get(joint.part), parts.get(joint.into)) else {
            continue;
        };
        let Of::Member(member) = into.of else { continue };
        let web = piece.case(into.case).and_then(|case| case.web_of(member.at));
        let Some(web) = web.filter(|_| cut && into.role.is_of_web() && !part.role.is_of_web())
        else {
            continue;
        };
        if !once.is_first((&part.path, &web.span)) {
            continue;
        }
        let found = RULE
            .finding(
                format!(
                    "{} is let into a web frame, and its {} cuts across the tenons of the frame",
                    part.path,
                    kind.word()
                ),
                joint.span,
                "this partition",
            )
            .label(web.span, "this frame")
            .note("write `joint screw` or `joint pocket` for the partition, or `build slab` for what it stands on")
            .subject(&part.path);
        sink.push(found);
    }
}
