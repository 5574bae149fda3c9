//! A framed front so low that its rails lie in each other.

use std::collections::BTreeSet;

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::model::Build;
use crate::parts::{Assembly, Role, Which};
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "rails-meet",
    severity: Severity::Error,
    finds: "A frame-and-panel front is no higher than its top rail and its bottom rail together, or its two stiles leave less than 1/4 in (6 mm) of a panel to be seen.",
    why: "The two rails would lie in each other, and there is no room for a panel between them. It is usually one low drawer among doors that are built the same way.",
    source: "Plane geometry. The 1/4 in is common practice; no published source.",
    formula: "The height of the front less its two rails, and its width less its two stiles.",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "set inset; build slab",
        wrong: "set inset; build panel { stile 2-1/4; rail 2-1/2; panel-stock thin; groove 3/8 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// The openings whose fronts have been reported: what else is wrong with their
/// panels follows from that.
pub(in crate::checks) fn told(sink: &Sink) -> BTreeSet<String> {
    let fronts = sink.all().iter().filter(|found| found.slug == RULE.slug);
    fronts.filter_map(|found| found.subject.clone()).collect()
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    let (mut seen, mut narrow) = (BTreeSet::new(), BTreeSet::new());
    for rail in parts.all.iter() {
        let Assembly::Front(front) = rail.assembly else { continue };
        if (rail.role, rail.which) != (Role::FrontRail, Which::Top) {
            continue;
        }
        let Some(opening) = piece.opening(front.opening) else { continue };
        let Some(fronts) = &opening.front else { continue };
        let Build::Panel(build) = &fronts.build else { continue };
        let wide = rail.length.length - build.tenon.length.twice();
        // One that is all tenon is another rule's.
        let shown = wide.is_positive() && wide < trade::least_panel(tape.unit);
        if shown && narrow.insert(front.opening) {
            sink.push(
                RULE.finding(
                    format!(
                        "the two stiles of the front of {} leave {} for a panel",
                        opening.path,
                        tape.text(wide)
                    ),
                    build.span,
                    format!("stiles {} wide", tape.figure(build.stile.length)),
                )
                .label(opening.span, "too narrow for them")
                .because("what is left is no panel that can be made or held")
                .note("give this opening a front of one board with `front { build slab }`, make it wider, or use narrower stiles")
                .subject(&opening.path),
            );
        }
        let stile = parts
            .of_case(rail.case)
            .iter()
            .find(|part| part.assembly == rail.assembly && part.role == Role::FrontStile);
        let Some(high) = stile.map(|stile| stile.length.length) else { continue };
        let rails = build.rail.length.twice();
        let left = high - rails;
        // What the tape shows as nothing is no panel either. Two leaves are one
        // finding.
        if tape.print(left).shown.is_positive() || !seen.insert(front.opening) {
            continue;
        }
        sink.push(
            RULE.finding(
                format!("the two rails of the front of {} leave no room for a panel", opening.path),
                build.span,
                format!("rails {} wide", tape.figure(build.rail.length)),
            )
            .label(opening.span, format!("its front is {} high", tape.text(high)))
            .sum(
                Sum::new("between the rails", tape.print(high).shown - tape.print(rails).shown, tape)
                    .plus(tape.print(high).shown, "front", tape)
                    .minus(tape.print(rails).shown, "two rails", tape),
            )
            .because("one rail would lie in the place of the other")
            .note(format!(
                "give this opening a front of one board with `front {{ build slab }}`, make it higher, or use rails narrower than {}",
                tape.figure(high.half())
            ))
            .subject(&opening.path)
            .urgency(-left / crate::measure::Length::mm(1)),
        );
    }
}
