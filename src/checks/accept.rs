//! `accept`: a warning silenced at one place, with a reason.

use crate::diagnostics::{Diagnostic, Fix, Grade, Severity};
use crate::measure::nearest;
use crate::model::Accept;

use super::rule::{Base, Check, Example, Rule};

pub(super) const RULE: Rule = Rule {
    slug: "accept-unused",
    severity: Severity::Warning,
    finds: "An `accept` that silences nothing. Errors can't be accepted.",
    why: "A leftover `accept` would hide the same warning when a later revision brings it back for another reason.",
    source: "Ours.",
    formula: "",
    accept: "Never: take the leftover `accept` away.",
    example: Example {
        base: Base::First,
        sound: "site { left open; right open; fixing wall; humidity 30% to 55% }",
        wrong: "site { left open; right open; fixing wall; humidity 30% to 55% }\naccept pocket-seen on cupboard.store \"inside a cupboard\"",
    },
    check: Check::Reading,
};

/// Takes out the warnings that are accepted, and reports every `accept` that
/// silences none.
#[must_use]
pub fn accept(accepts: &[Accept], diagnostics: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let mut used = vec![false; accepts.len()];
    let mut kept: Vec<Diagnostic> = Vec::with_capacity(diagnostics.len());
    for diagnostic in diagnostics {
        let by = accepts.iter().position(|accept| silences(accept, &diagnostic));
        match by {
            Some(index) => used[index] = true,
            None => kept.push(diagnostic),
        }
    }
    let mut kept = fold(kept);
    for (accept, _) in accepts.iter().zip(used).filter(|(_, used)| !used) {
        kept.push(unused(accept, &kept));
    }
    kept
}

/// One cause, one message: what a rule says again at the same statement, of
/// other openings, is told with the first.
fn fold(diagnostics: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let mut kept: Vec<Diagnostic> = Vec::with_capacity(diagnostics.len());
    for mut diagnostic in diagnostics {
        let same = |known: &&mut Diagnostic| {
            diagnostic.severity != Severity::Error
                && known.slug == diagnostic.slug
                && known.primary.span == diagnostic.primary.span
                && known.subject != diagnostic.subject
        };
        match (kept.iter_mut().find(same), &mut diagnostic.subject) {
            (Some(first), Some(subject)) if first.also.last() != Some(subject) => {
                first.also.push(std::mem::take(subject));
            }
            (Some(_), Some(_)) => {}
            _ => kept.push(diagnostic),
        }
    }
    kept
}

fn silences(accept: &Accept, diagnostic: &Diagnostic) -> bool {
    let Some(subject) = &diagnostic.subject else { return false };
    diagnostic.severity != Severity::Error
        && diagnostic.slug == accept.slug
        && (*subject == accept.subject || subject.ends_with(&format!(".{}", accept.subject)))
}

fn unused(accept: &Accept, kept: &[Diagnostic]) -> Diagnostic {
    let title = format!("this `accept` silences nothing: no {} on {}", accept.slug, accept.subject);
    let warning = Diagnostic::warning(RULE.slug, title, accept.span, "silences nothing")
        .subject(&accept.subject);
    if super::slugs().all(|slug| slug != accept.slug) {
        return match nearest(&accept.slug, super::slugs()) {
            Some(near) => warning.fix(Fix::new(
                Grade::Sure,
                format!("write `{near}`"),
                accept.slug_span,
                near,
            )),
            None => warning.note("`casewright explain` lists the names of all findings"),
        };
    }
    if kept.iter().any(|d| d.slug == accept.slug && d.severity == Severity::Error) {
        return warning.note("an error can't be accepted, only mended");
    }
    warning.fix(Fix::new(Grade::Choice, "take it away", accept.span, ""))
}
