//! Where stages put what they find.

use std::collections::BTreeSet;

use crate::measure::Span;

use super::{Diagnostic, Severity};

/// Collects diagnostics; hands them on ordered by place.
#[derive(Clone, Debug, Default)]
pub struct Sink {
    found: Vec<Diagnostic>,
}

impl Sink {
    /// An empty one.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a finding.
    pub fn push(&mut self, diagnostic: Diagnostic) {
        self.found.push(diagnostic);
    }

    /// Adds all findings of another sink.
    pub fn extend(&mut self, other: impl IntoIterator<Item = Diagnostic>) {
        self.found.extend(other);
    }

    /// What has been found so far.
    #[must_use]
    pub fn all(&self) -> &[Diagnostic] {
        &self.found
    }

    /// How many errors have been found.
    #[must_use]
    pub fn errors(&self) -> usize {
        self.found.iter().filter(|d| d.severity == Severity::Error).count()
    }

    /// True once anything has been found.
    #[must_use]
    pub fn has_findings(&self) -> bool {
        !self.found.is_empty()
    }

    /// True once an error has been found.
    #[must_use]
    pub fn has_errors(&self) -> bool {
        self.found.iter().any(|d| d.severity == Severity::Error)
    }

    /// True once something was found that leaves a hole in what is read.
    #[must_use]
    pub fn has_holes(&self) -> bool {
        self.found.iter().any(|d| d.severity == Severity::Error && !d.is_meant)
    }

    /// Leaves of what is said again, at one statement that several things share, the first.
    pub fn tell_once(&mut self, is_shared: impl Fn(Span) -> bool) {
        let mut told: BTreeSet<(&'static str, Span)> = BTreeSet::new();
        self.found.retain(|own| {
            let at = own.primary.span;
            // Of warnings with a place each may be accepted by itself.
            let may_differ = own.severity != Severity::Error && own.subject.is_some();
            may_differ || !is_shared(at) || told.insert((own.slug, at))
        });
    }

    /// Everything, ordered by file and place, the same finding only once.
    #[must_use]
    pub fn into_sorted(mut self) -> Vec<Diagnostic> {
        self.found.sort_by(|a, b| {
            let key = |d: &Diagnostic| (d.primary.span, d.severity);
            key(a)
                .cmp(&key(b))
                .then_with(|| a.slug.cmp(b.slug))
                .then_with(|| b.urgency.cmp(&a.urgency))
                .then_with(|| a.title.cmp(&b.title))
        });
        self.found.dedup();
        self.found
    }
}
