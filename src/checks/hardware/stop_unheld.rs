//! A stop with nothing to carry it, or where something else stands.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::Set;
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "stop-unheld",
    severity: Severity::Error,
    finds: "An inset door on hinges that don't pull it shut needs a stop, and at its latch edge or over it nothing lies near enough to carry a strip, or something else stands in its place.",
    why: "Without a stop the door swings into the case, strains its hinges, and never closes flush.",
    source: "Common practice; no published source.",
    formula: "The strip stands 3/8 in (10 mm) into the opening right behind the closed door. It lies flat on the back of a frame as thick as the door, or on a board no more than 1-1/2 in (38 mm) beyond the edge.",
    accept: "",
    example: Example {
        base: Base::Wardrobe,
        sound: "gap     2.5 mm",
        wrong: "gap     2.5 mm; stop strip",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    for stop in &work.fitting().stops {
        let fronts = stop.opening.front.as_ref();
        if let Some(written) = fronts.filter(|own| own.set != Set::Inset).and_then(|own| own.stop) {
            let title =
                format!("{} lies over its opening, and nothing stops it there", stop.opening.path);
            sink.push(
                RULE.finding(title, written.span, "a strip for an overlay door")
                    .because("an overlay door closes against the case itself")
                    .note("take `stop strip` out")
                    .subject(&stop.opening.path),
            );
            continue;
        }
        let at = fronts.and_then(|fronts| fronts.stop).map_or(stop.opening.span, |stop| stop.span);
        let (title, label) = match (stop.struck, stop.on) {
            (Some(other), _) => (
                format!("the stop of {} would stand where {} is", stop.opening.path, other.path),
                Some((other.span, "stands there")),
            ),
            (None, None) => (
                format!(
                    "nothing behind the {} edge of {} carries its stop",
                    stop.edge.word(),
                    stop.opening.path
                ),
                None,
            ),
            (None, Some(_)) => continue,
        };
        let found = RULE
            .finding(title, at, "closes against nothing")
            .because("an inset door on these hinges closes against nothing but its stop")
            .note("let a shelf or the `lip` of a rail stop the door and write `stop none`, or take hinges that pull the door shut")
            .subject(&stop.opening.path);
        sink.push(match label {
            Some((span, text)) => found.label(span, text),
            None => found,
        });
    }
}
