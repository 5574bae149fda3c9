//! The one diagnostic type.

use crate::measure::{Exact, Span};

use super::{Fix, Sum};

/// How bad it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// The piece can't be built as written.
    Error,
    /// Something a maker may accept, with a reason.
    Warning,
    /// Advice.
    Note,
}

impl Severity {
    /// The word that is printed.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Error => "error",
            Self::Warning => "warning",
            Self::Note => "note",
        }
    }

    /// The same in a sentence.
    #[must_use]
    pub fn with_article(self) -> &'static str {
        match self {
            Self::Error => "an error",
            Self::Warning => "a warning",
            Self::Note => "a note",
        }
    }
}

/// A statement that takes part, with what it contributes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    /// Where it stands.
    pub span: Span,
    /// Its own figure or role, short: `5`, `the frame leaves 26`.
    pub text: String,
}

/// One finding. A rule returns it as data; the renderers print it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Diagnostic {
    /// The rule's name, as `explain` and `accept` take it.
    pub slug: &'static str,
    /// How bad it is.
    pub severity: Severity,
    /// Stands alone in a list: thing, fact, amount. Lower case, no full stop.
    pub title: String,
    /// The smallest place at which the maker would edit.
    pub primary: Label,
    /// Every other statement that takes part; may be in other files.
    pub labels: Vec<Label>,
    /// The arithmetic, line by line.
    pub sums: Vec<Sum>,
    /// Arithmetic that is no sum of lengths: a head, and the line as a maker
    /// writes it: `leaf`, `13-3/32 × 0.00248 × 4.28 = 0.139`.
    pub working: Vec<(String, String)>,
    /// What goes wrong at the bench, in one sentence.
    pub because: Option<String>,
    /// Whatever else helps: defaults in force, figures taken from elsewhere.
    pub notes: Vec<String>,
    /// Edits that mend it, best first.
    pub fixes: Vec<Fix>,
    /// The part or opening it is about: `console.bank.upper`.
    pub subject: Option<String>,
    /// Others that the same is true of, by the same statement.
    pub also: Vec<String>,
    /// What makes it one with others of its rule that stand at other statements: the same
    /// figures, written again for each.
    pub alike: Option<String>,
    /// Of findings of one slug at one statement the greatest comes first, so
    /// that the edits of the worst are told, which hold for the rest too.
    pub urgency: i64,
    /// What it is about is plain and was read as it was meant: nothing is missing behind it.
    pub is_meant: bool,
    /// A piece lacks it; a file that others use need not have it.
    pub of_piece: bool,
}

impl Diagnostic {
    /// A finding with its title and the place to edit.
    #[must_use]
    pub fn new(
        slug: &'static str,
        severity: Severity,
        title: impl Into<String>,
        span: Span,
        label: impl Into<String>,
    ) -> Self {
        Self {
            slug,
            severity,
            title: title.into(),
            primary: Label { span, text: label.into() },
            labels: Vec::new(),
            sums: Vec::new(),
            working: Vec::new(),
            because: None,
            notes: Vec::new(),
            fixes: Vec::new(),
            subject: None,
            also: Vec::new(),
            alike: None,
            urgency: 0,
            is_meant: false,
            of_piece: false,
        }
    }

    /// An error: the piece can't be built as written.
    #[must_use]
    pub fn error(
        slug: &'static str,
        title: impl Into<String>,
        span: Span,
        label: impl Into<String>,
    ) -> Self {
        Self::new(slug, Severity::Error, title, span, label)
    }

    /// A warning: the maker may accept it.
    #[must_use]
    pub fn warning(
        slug: &'static str,
        title: impl Into<String>,
        span: Span,
        label: impl Into<String>,
    ) -> Self {
        Self::new(slug, Severity::Warning, title, span, label)
    }

    /// Adds another statement that takes part.
    #[must_use]
    pub fn label(mut self, span: Span, text: impl Into<String>) -> Self {
        self.labels.push(Label { span, text: text.into() });
        self
    }

    /// Adds a line of arithmetic.
    #[must_use]
    pub fn sum(mut self, sum: Sum) -> Self {
        self.sums.push(sum);
        self
    }

    /// Adds a line of arithmetic that is no sum of lengths.
    #[must_use]
    pub fn working(mut self, head: impl Into<String>, text: impl Into<String>) -> Self {
        self.working.push((head.into(), text.into()));
        self
    }

    /// Says what goes wrong at the bench.
    #[must_use]
    pub fn because(mut self, text: impl Into<String>) -> Self {
        self.because = Some(text.into());
        self
    }

    /// Adds a note.
    #[must_use]
    pub fn note(mut self, text: impl Into<String>) -> Self {
        self.notes.push(text.into());
        self
    }

    /// Adds an edit that mends it.
    #[must_use]
    pub fn fix(mut self, fix: Fix) -> Self {
        self.fixes.push(fix);
        self
    }

    /// How bad it is among those of its slug: by how much it is over.
    #[must_use]
    pub fn urgency(mut self, over: Exact) -> Self {
        self.urgency = over.to_thousandths();
        self
    }

    /// Says that what it is about was read as it was meant.
    #[must_use]
    pub fn meant(mut self) -> Self {
        self.is_meant = true;
        self
    }

    /// Says that only a piece lacks it.
    #[must_use]
    pub fn of_piece(mut self) -> Self {
        self.of_piece = true;
        self
    }

    /// Adds what makes it one with others of its rule at other statements.
    #[must_use]
    pub fn alike(mut self, alike: String) -> Self {
        self.alike = Some(alike);
        self
    }

    /// Names the part or opening it is about.
    #[must_use]
    pub fn subject(mut self, path: impl Into<String>) -> Self {
        self.subject = Some(path.into());
        self
    }
}
