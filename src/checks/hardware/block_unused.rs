//! A stock, a piece of hardware, or a finish that nothing refers to.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink};
use crate::plans::Workings;
use crate::vocabulary::takes::{Finish, Thing};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "block-unused",
    severity: Severity::Note,
    finds: "A stock, hinge, slide, pull, or finish of the spec itself is named nowhere. Those in a used file don't count.",
    why: "Either the word that names it was forgotten, so that the piece goes without it and a case without `finish` gets none, or it is left over from an earlier plan.",
    source: "None is needed: no paper has it.",
    formula: "",
    accept: "Accept it if it is for a later revision.",
    example: Example {
        base: Base::First,
        sound: "    groove { up 13 mm; deep 1/4 }\n    joint rabbet\n  }\n\n  finish oil",
        wrong: "    groove { up 13 mm; deep 1/4 }\n    joint rabbet\n  }\n",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    // While something is wrong, what names it may yet come: a thicker stock for a shelf that
    // sags lies ready. What is accepted stays as it is.
    let is_accepted = |slug: &str| work.piece.accepts.iter().any(|own| own.slug == slug);
    let is_wrong = |own: &Diagnostic| own.severity != Severity::Note && !is_accepted(own.slug);
    if sink.all().iter().any(is_wrong) {
        return;
    }
    let own = work.piece.unused.iter().filter(|own| crate::checks::in_spec(own.span));
    for unused in own {
        let (what, name) = (unused.what, &unused.name);
        let mend = match what == Finish::WHAT {
            true => format!(
                "write `finish {name}` in the case, or in the frame or the fronts, that it goes on, or take it out"
            ),
            false => format!("write `{what} {name}` where it belongs, or take it out"),
        };
        sink.push(
            RULE.finding(format!("nothing uses the {what} {name}"), unused.span, "named nowhere")
                .note(mend)
                .subject(name),
        );
    }
}
