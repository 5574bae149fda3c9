//! A pull that is screwed to the thin panel of a front.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::measure::Length;
use crate::model::Build;
use crate::parts::{Assembly, Bore, Role};
use crate::plans::Workings;

use super::bores;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "pull-in-panel",
    severity: Severity::Warning,
    finds: "The pull of a drawer or false front is screwed through the panel of a framed front, and the panel is thinner than 1/2 in (12 mm).",
    why: "A thin panel flexes at each pull, and it is free in its grooves: it rattles, splits at the holes, or comes out of its frame.",
    source: "Common practice; no published source.",
    formula: "",
    accept: "Accept it if the panel is glued in and backed where the pull sits.",
    example: Example {
        base: Base::Pantry,
        sound: "doors upper { share 1; shelf { adjustable 3 }; front { pull bar { from-bottom 4 } } }\n      rail        { wide 1-1/2 }",
        wrong: "doors upper { share 1; shelf { adjustable 3 }; front { pull bar { from-bottom 4 } } }\n      rail        { wide 1-1/2 }\n      false apron { high 8; front { pull bar { middle } } }\n      rail        { wide 1-1/2 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    // A hole that meets a joint is told already, and so is a frame without room for a panel.
    if sink.has_errors() {
        return;
    }
    let tape = piece.tape();
    let least = tape.unit.either(Length::inches(1, 2), Length::mm(12));
    for panel in parts.all.iter().filter(|part| part.role == Role::FrontPanel) {
        let Some((hole, _)) = bores(panel).find(|(_, bore)| *bore == Bore::Pull) else { continue };
        let Assembly::Front(front) = panel.assembly else { continue };
        let thick = panel.thickness.length;
        let opening = piece.opening(front.opening);
        let Some((opening, fronts)) = opening.and_then(|it| Some((it, it.front.as_ref()?))) else {
            continue;
        };
        if thick >= least {
            continue;
        }
        let Build::Panel(build) = &fronts.build else { continue };
        let middle = tape.down((build.rail.length - build.groove.length).half());
        sink.push(
            RULE.finding(
                format!(
                    "the pull of {} is screwed to a panel {} thick",
                    opening.path,
                    tape.text(thick)
                ),
                hole.span,
                "this pull",
            )
            .label(build.span, format!("a panel {} thick", tape.text(thick)))
            .because("the panel flexes at each pull and splits at its holes")
            .note(format!(
                "write `from-top {}` in the braces of its `pull`, which is the middle of the wood of the top rail, or use a thicker panel",
                tape.source(middle)
            ))
            .subject(&opening.path),
        );
    }
}
