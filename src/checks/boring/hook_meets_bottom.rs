//! The hole for the hook of a runner, where the bottom of the box lies.

use crate::checks::hardware;
use crate::checks::once::Once;
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::parts::{Assembly, Role};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "hook-meets-bottom",
    severity: Severity::Warning,
    finds: "The hole for the hook of an undermount slide, in the back of a drawer box, runs into the bottom in its groove.",
    why: "The hole is bored before the box is glued up. Then the bottom closes part of it: the hook stops short, and the drawer doesn't come down onto its slides.",
    source: "Plane geometry, with the figures that the spec gives for the slide.",
    formula: "The hole lies over the top face of the bottom, less a quarter of its width, or ends before the edge of the bottom in its groove.",
    accept: "Accept it if you bore the holes when the box is glued up, into the bottom too.",
    example: Example {
        base: Base::First,
        sound: "notch { wide 35 mm; high 13 mm }",
        wrong: "notch { wide 35 mm; high 13 mm }\n  hook { bore 6 mm; deep 12 mm; from-side 7 mm; up 6 mm }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    let told = hardware::box_too_big::RULE.told(sink);
    let mut once = Once::default();
    for drawer in &work.fitting().drawers {
        let (Some(hooks), Some(hook)) = (drawer.hooks, drawer.hardware.hook) else { continue };
        let opening = drawer.opening;
        let of_box = Assembly::DrawerBox(opening.id);
        let mut own = parts.of_case(opening.id.case).iter();
        let bottom = own.find(|part| part.role == Role::DrawerBottom && part.assembly == of_box);
        let boxes = piece.case(opening.id.case).and_then(|case| case.drawers.as_ref());
        let (Some(bottom), Some(boxes)) = (bottom, boxes) else { continue };
        let (back, lies) = (hooks.back.cuboid(), bottom.cuboid());
        let (low, high) = (hooks.up - hook.bore.half(), hooks.up + hook.bore.half());
        let (under, top) = (lies.from.y - back.from.y, lies.to.y - back.from.y);
        // What the hole leaves of the back, and where the bottom ends in it.
        let (left, ends) = (back.to.z - hook.deep, lies.to.z);
        // A hook leaves so much of its hole free: a quarter of it (common practice, no source).
        let bears = hook.bore / 4;
        let blocked = top - low > bears && high - under > bears && ends > left;
        if !blocked || told.contains(&opening.path) {
            continue;
        }
        if !once.is_first((boxes.span, hooks.up, top)) {
            continue;
        }
        let mut found = RULE
            .finding(
                format!(
                    "the hook holes of {} run {} into its bottom",
                    opening.path,
                    tape.text(ends - left)
                ),
                boxes.span,
                "these boxes",
            )
            .working(
                "hole",
                format!(
                    "{} to {} above the lower edge of the back, {} deep from the outside",
                    tape.text(low),
                    tape.text(high),
                    tape.text(hook.deep)
                ),
            )
            .working(
                "bottom",
                format!(
                    "{} to {}, and it ends {} from the outside",
                    tape.text(under),
                    tape.text(top),
                    tape.text(back.to.z - ends)
                ),
            )
            .label(
                boxes.groove_span,
                format!("the groove is {} up", tape.figure(boxes.groove_up.length)),
            )
            .because("it closes part of the hole, and the hook stops short")
            .subject(&opening.path);
        let thick = tape.down(low - under);
        if thick.is_positive() {
            found = found.note(format!(
                "a bottom up to {} thick lies clear of the holes",
                tape.figure(thick)
            ));
        }
        sink.push(found);
    }
}
