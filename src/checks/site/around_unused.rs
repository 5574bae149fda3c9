//! An `around` that nothing meets.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::parts::{Part, keep_out_space};
use crate::plans::{Workings, wall};

use super::keep_out_hit::touches;
use super::rounds::{Round, rounds};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "around-unused",
    severity: Severity::Warning,
    finds: "A drawer or a case says that it is cut around a keep-out, and nothing of it comes near that.",
    why: "Either the word is left over from an earlier plan, or a figure of the keep-out is wrong and the pipe stands somewhere else.",
    source: "Plane geometry.",
    formula: "",
    accept: "Accept it if the pipe may still be moved.",
    example: Example {
        base: Base::Console,
        sound: "drawer lower  { share 1 }",
        wrong: "drawer lower  { share 1; around \"heating pipe\" }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let rounds = rounds(piece);
    let is_used = |own: &Round<'_>| {
        // A part that stands in it is told of as one that is not cut.
        let space = keep_out_space(piece, own.keep_out);
        let is_met =
            |part: &Part| own.cuts(part).next().is_some() || own.has(part) && touches(part, &space);
        // The back is cut around it in any case, and `clear` says how far.
        let sets_back = || {
            let case = piece.case(own.case).filter(|_| own.opening.is_none());
            let is_behind = |case| {
                wall::behind(piece, parts, case).iter().any(|(id, _)| *id == own.round.keep_out)
            };
            own.round.clear.is_some() && case.is_some_and(is_behind)
        };
        parts.all.iter().any(is_met) || sets_back()
    };
    for own in &rounds {
        // Cases that are alike say it together.
        let mut same = rounds.iter().filter(|other| other.round.span == own.round.span);
        if same.any(is_used) {
            continue;
        }
        sink.push(
            RULE.finding(
                format!("nothing of {} meets the {}", own.of, own.keep_out.name),
                own.round.span,
                "nothing is cut here",
            )
            .label(own.keep_out.span, "the keep-out")
            .note("take it out, or look at the figures of the keep-out; a back is cut around it in any case")
            .subject(own.of),
        );
    }
}
