//! What the checks find on one side and not on the other.

use std::collections::{BTreeMap, BTreeSet};

use crate::diagnostics::{Diagnostic, Severity};
use crate::pipeline::Compilation;

use super::difference::Finding;
use super::names::Names;
use super::two_sided::Lists;

type Key = (&'static str, &'static str, String);

/// Findings that came and went, by rule and by what they are about. Figures in
/// their text may change without the finding being another. Of a side with
/// errors nobody knows which warnings and notes it would have without them.
pub(super) fn compare(old: &Compilation, new: &Compilation, names: &Names) -> Lists<Finding> {
    let same = |subject: &str| subject.to_owned();
    let translated = |subject: &str| names.path(subject);
    let was = count(&old.diagnostics, &translated);
    let now = count(&new.diagnostics, &same);
    let told = |other: &Compilation, found: Vec<Finding>| -> Vec<Finding> {
        let known =
            |finding: &Finding| other.is_sound() || finding.severity == Severity::Error.word();
        found.into_iter().filter(known).collect()
    };
    Lists {
        added: told(old, only(&new.diagnostics, &same, &was)),
        dropped: told(new, only(&old.diagnostics, &translated, &now)),
    }
}

/// Everything that a finding is about; one empty name where it is about none.
fn subjects(diagnostic: &Diagnostic) -> BTreeSet<&str> {
    let all: BTreeSet<&str> =
        diagnostic.subject.iter().chain(&diagnostic.also).map(String::as_str).collect();
    if all.is_empty() { BTreeSet::from([""]) } else { all }
}

fn key(diagnostic: &Diagnostic, subject: String) -> Key {
    (diagnostic.slug, diagnostic.severity.word(), subject)
}

fn count(all: &[Diagnostic], name: &dyn Fn(&str) -> String) -> BTreeMap<Key, usize> {
    let mut count = BTreeMap::new();
    for diagnostic in all {
        for subject in subjects(diagnostic) {
            *count.entry(key(diagnostic, name(subject))).or_default() += 1;
        }
    }
    count
}

/// Those beyond what the other side has.
fn only(
    all: &[Diagnostic],
    name: &dyn Fn(&str) -> String,
    other: &BTreeMap<Key, usize>,
) -> Vec<Finding> {
    let mut left = other.clone();
    let mut found = Vec::new();
    for diagnostic in all {
        let beyond = |subject: &&str| {
            let left = left.entry(key(diagnostic, name(subject))).or_default();
            let known = *left > 0;
            *left = left.saturating_sub(1);
            !known
        };
        let own: Vec<&str> = subjects(diagnostic).into_iter().filter(beyond).collect();
        if !own.is_empty() {
            found.push(Finding {
                slug: diagnostic.slug,
                severity: diagnostic.severity.word(),
                title: diagnostic.title.clone(),
                subjects: own.into_iter().filter(|s| !s.is_empty()).map(str::to_owned).collect(),
            });
        }
    }
    found
}
