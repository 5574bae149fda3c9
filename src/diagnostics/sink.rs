//! Where stages put what they find.

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
