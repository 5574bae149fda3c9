//! A front that ends just above the floor.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::measure::Length;
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "front-near-floor",
    severity: Severity::Warning,
    finds: "The front of a case that stands on the floor ends less than 1/4 in (6 mm) above it.",
    why: "No floor is flat. A door scrapes over its high spots, or over the edge of a rug, and water from the mop runs into its lower edge.",
    source: "Common practice; no published source.",
    formula: "",
    accept: "Accept it if the case stands on a plinth that you don't plan here.",
    example: Example {
        base: Base::Run,
        sound: "  base { toe-kick; high 100; set-back 60; separate }\n",
        wrong: "",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    let tape = piece.tape();
    let least = tape.unit.either(Length::inches(1, 4), Length::mm(6));
    for front in work.fronts() {
        let Some(case) = piece.case(front.case).filter(|case| case.is_on_floor()) else {
            continue;
        };
        let above = front.space.from.y;
        if above >= least {
            continue;
        }
        let lift = match case.base {
            Some(_) => "make its base higher",
            None if case.on_legs.is_some() => "take higher legs",
            // A case of a run does not hang.
            None if case.run.is_some() => "give the run a `base`",
            None => "give the case a `base`, or let it hang with `hung`",
        };
        sink.push(
            RULE.finding(
                format!(
                    "the {} of {} ends {} above the floor",
                    if front.hung.is_some() { "door" } else { "front" },
                    front.opening.path,
                    tape.text(above)
                ),
                case.span,
                "this case stands on the floor",
            )
            .label(front.opening.span, "this front")
            .sum(Sum::new("short by", least - above, tape))
            .because("no floor is flat, and the front scrapes over it")
            .note(lift)
            .subject(&front.opening.path)
            .urgency((least - above) / Length::mm(1)),
        );
    }
}
