//! Edits that mend a spec, with how sure they are.

use crate::measure::Span;

/// How far a fix may be trusted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Grade {
    /// One reading only; may be applied in bulk.
    Sure,
    /// Valid, but a design decision; any change of a size is one.
    Choice,
    /// Has a hole for the maker to fill.
    Sketch,
}

impl Grade {
    /// The word that is printed.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Sure => "sure",
            Self::Choice => "choice",
            Self::Sketch => "sketch",
        }
    }
}

/// One replacement of text; an empty span inserts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edit {
    /// What is replaced.
    pub span: Span,
    /// What stands there instead.
    pub text: String,
}

/// One way to mend a finding.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fix {
    /// What the edit brings about, short: `let middle take what is left`.
    pub title: String,
    /// How far to trust it.
    pub grade: Grade,
    /// The edits; never overlapping.
    pub edits: Vec<Edit>,
}

impl Fix {
    /// A fix of one edit.
    #[must_use]
    pub fn new(
        grade: Grade,
        title: impl Into<String>,
        span: Span,
        text: impl Into<String>,
    ) -> Self {
        Self { title: title.into(), grade, edits: vec![Edit { span, text: text.into() }] }
    }
}
