//! `accept`: a warning silenced at one place, with a reason.

use std::collections::BTreeSet;

use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sources};
use crate::measure::{Span, nearest};
use crate::model::Accept;
use crate::parts;

use super::rule::{Base, Check, Example, Rule};

pub(super) const RULE: Rule = Rule {
    slug: "accept-unused",
    severity: Severity::Warning,
    finds: "An `accept` silences nothing, or its short name fits several places that have the same finding. Errors can't be accepted.",
    why: "A leftover `accept` would hide the same warning when a later revision brings it back for another reason.",
    source: "Our own rule.",
    formula: "",
    accept: "Never. Take the leftover `accept` out.",
    example: Example {
        base: Base::First,
        sound: "site { left open; right open; fixing wall; humidity 30% to 55% }",
        wrong: "site { left open; right open; fixing wall; humidity 30% to 55% }\naccept pocket-seen on cupboard.store \"inside a cupboard\"",
    },
    check: Check::Reading,
    sometimes: None,
};

/// What stands for the reason until the maker has written one.
const BLANK: &str = "your reason";

/// True where a reason is written. Without one nothing is silenced.
fn has_reason(accept: &Accept) -> bool {
    let reason = accept.reason.trim();
    !reason.is_empty() && reason != BLANK
}

/// Takes out the warnings that are accepted, and reports every `accept` that
/// silences none: what stands, and what is accepted with the place of its `accept`.
#[must_use]
pub fn accept(
    accepts: &[Accept],
    diagnostics: Vec<Diagnostic>,
) -> (Vec<Diagnostic>, Vec<(Diagnostic, usize)>) {
    let (standing, accepted, places) = taken(accepts, diagnostics);
    let mut kept = fold(standing);
    // Beside an error some rules stay silent, so nobody knows what they would find.
    let judged = kept.iter().all(|found| found.severity != Severity::Error);
    for (accept, places) in accepts.iter().zip(&places).filter(|(_, places)| places.len() != 1) {
        let told = kept.iter().any(|found| found.slug == accept.slug);
        let known = super::slugs().any(|slug| slug == accept.slug);
        if judged || told || !known || !places.is_empty() {
            kept.push(unused(accept, places, &kept));
        }
    }
    (kept, accepted)
}

/// Takes out the warnings that are accepted in a spec that makes no piece, of which nobody
/// knows what else would be found.
#[must_use]
pub fn accepted(
    accepts: &[Accept],
    diagnostics: Vec<Diagnostic>,
) -> (Vec<Diagnostic>, Vec<(Diagnostic, usize)>) {
    let (standing, accepted, _) = taken(accepts, diagnostics);
    (standing, accepted)
}

/// What stands, what is accepted and by which `accept`, and the places of each of those.
type Taken = (Vec<Diagnostic>, Vec<(Diagnostic, usize)>, Vec<BTreeSet<String>>);

/// Takes out what is accepted.
fn taken(accepts: &[Accept], diagnostics: Vec<Diagnostic>) -> Taken {
    let places: Vec<BTreeSet<String>> =
        accepts.iter().map(|accept| places(accept, &diagnostics)).collect();
    let accepted_by = |found: &Diagnostic| {
        let by = |(accept, places): (&Accept, &BTreeSet<String>)| {
            places.len() == 1 && concerns(accept, found).is_some_and(|place| places.contains(place))
        };
        accepts.iter().zip(&places).position(by)
    };
    let (mut standing, mut accepted) = (Vec::with_capacity(diagnostics.len()), Vec::new());
    for found in diagnostics {
        match accepted_by(&found).map(|by| (by, &accepts[by])) {
            Some((by, accept)) if has_reason(accept) => accepted.push((found, by)),
            Some((_, accept)) => {
                standing.push(found.label(accept.span, "write why you accept it"));
            }
            None => standing.push(found),
        }
    }
    (standing, accepted, places)
}

/// The line that accepts a warning at its place, at the end of the spec, with a reason for the
/// maker to write; nothing of what can't be accepted.
#[must_use]
pub fn accepting(sources: &Sources, found: &Diagnostic) -> Option<Fix> {
    let subject = found.subject.as_ref().filter(|_| found.severity == Severity::Warning)?;
    if found.slug == RULE.slug {
        return None;
    }
    let (file, spec) = sources.iter().next()?;
    let end = spec.text.len();
    let before = if spec.text.ends_with(['\n', '\r']) || end == 0 { "" } else { "\n" };
    let text = format!("{before}accept {} on {subject} \"{BLANK}\"\n", found.slug);
    let title = format!("accept it on {subject}, and write your reason");
    Some(Fix::new(Grade::Choice, title, Span::new(file, end, end), text))
}

/// What an `accept` silences, with all that lies below it: the one place that it names in
/// full, or every place that has its name in a longer one.
fn places(accept: &Accept, diagnostics: &[Diagnostic]) -> BTreeSet<String> {
    let found = diagnostics.iter().filter_map(|found| concerns(accept, found));
    let places: BTreeSet<String> = found.map(str::to_owned).collect();
    match places.get(&accept.subject) {
        Some(named) => BTreeSet::from([named.clone()]),
        None => places,
    }
}

/// The place that an `accept` may name and a finding of its kind lies at, or below.
fn concerns<'a>(accept: &Accept, found: &'a Diagnostic) -> Option<&'a str> {
    if found.severity == Severity::Error || found.slug != accept.slug {
        return None;
    }
    named(&accept.subject, found.subject.as_deref()?)
}

/// The longest start of a path that a written name suits.
fn named<'a>(written: &str, path: &'a str) -> Option<&'a str> {
    let dots = path.rmatch_indices('.').map(|(at, _)| at);
    let mut starts = [path.len()].into_iter().chain(dots).filter_map(|end| path.get(..end));
    starts.find(|start| parts::suits(written, start))
}

/// One cause, one message: what a rule says again at the same statement, or of the same
/// figures at another, of other places, is told with the first of those that nobody has
/// accepted.
fn fold(diagnostics: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let mut kept: Vec<Diagnostic> = Vec::with_capacity(diagnostics.len());
    for mut diagnostic in diagnostics {
        let same = |known: &&mut Diagnostic| {
            known.slug == diagnostic.slug
                && known.severity == diagnostic.severity
                && (known.primary.span == diagnostic.primary.span
                    || known.alike.is_some() && known.alike == diagnostic.alike)
                && known.subject != diagnostic.subject
        };
        match (kept.iter_mut().find(same), &mut diagnostic.subject) {
            (Some(first), Some(subject)) if !first.also.contains(subject) => {
                first.also.push(std::mem::take(subject));
            }
            (Some(_), Some(_)) => {}
            _ => kept.push(diagnostic),
        }
    }
    kept
}

/// How many places are listed that an `accept` could name.
const LISTED: usize = 6;

/// The places where what it accepts is found.
fn found_at<'k>(accept: &Accept, kept: &'k [Diagnostic]) -> BTreeSet<&'k str> {
    let same = |found: &&Diagnostic| found.slug == accept.slug && found.severity != Severity::Error;
    let found = kept.iter().filter(same);
    found.flat_map(|found| found.subject.iter().chain(&found.also)).map(String::as_str).collect()
}

/// Where what it accepts is found.
fn elsewhere(accept: &Accept, kept: &[Diagnostic]) -> Option<String> {
    let places = found_at(accept, kept);
    let listed: Vec<&str> = places.iter().copied().take(LISTED).collect();
    let more = places.len() - listed.len();
    let tail = if more > 0 { format!(", and {more} more") } else { String::new() };
    let list = format!("{} is found on {}{tail}", accept.slug, listed.join(", "));
    (!places.is_empty()).then_some(list)
}

fn unused(accept: &Accept, places: &BTreeSet<String>, kept: &[Diagnostic]) -> Diagnostic {
    if !places.is_empty() {
        let names: Vec<&str> = places.iter().map(String::as_str).collect();
        let title = format!(
            "this `accept` silences nothing, since {} is the name of {} places",
            accept.subject,
            names.len()
        );
        return RULE.finding(title, accept.span, "which of them?").subject(&accept.subject).note(
            format!("write one `accept` for each place with its whole name: {}", names.join(", ")),
        );
    }
    let title = format!(
        "this `accept` silences nothing, since there is no {} on {}",
        accept.slug, accept.subject
    );
    let warning = RULE.finding(title, accept.span, "silences nothing").subject(&accept.subject);
    let warning = match elsewhere(accept, kept) {
        Some(places) => warning.note(places),
        None => warning,
    };
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
        return warning.note("an error can't be accepted; it must be fixed");
    }
    // Where it is found at one place only, that may be the one that is meant.
    let places = found_at(accept, kept);
    let is_plain = !accept.reason.contains(['"', '\\']);
    let meant = places.first().filter(|_| places.len() == 1 && is_plain).map(|place| {
        let text = format!("accept {} on {place} \"{}\"", accept.slug, accept.reason);
        Fix::new(Grade::Choice, format!("accept it on {place}"), accept.span, text)
    });
    let take_out = Fix::new(Grade::Choice, "take it out", accept.span, "");
    meant.into_iter().chain([take_out]).fold(warning, Diagnostic::fix)
}
