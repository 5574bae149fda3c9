//! Edits that mend a spec, with how sure they are.

use super::Sources;
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

    /// True where the spec says something else afterwards: how many spaces
    /// stand between two words says nothing.
    #[must_use]
    pub fn changes(&self, sources: &Sources) -> bool {
        let words = |text: &str| -> Option<Vec<String>> {
            let on_one_line = !text.trim().is_empty() && !text.contains('\n');
            on_one_line.then(|| text.split_whitespace().map(str::to_owned).collect())
        };
        self.edits.iter().any(|edit| {
            let source = sources.get(edit.span.file);
            let Some(there) = source.and_then(|source| source.text.get(edit.span.range())) else {
                return true;
            };
            there != edit.text && (words(there).is_none() || words(there) != words(&edit.text))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::FileId;

    #[test]
    fn what_stands_there_already_is_no_mending() {
        let mut sources = Sources::new();
        sources.add("a.case", "from-edge  1-15/32;\n up 3");
        let fix = |start, end, text: &str| {
            Fix::new(Grade::Choice, "", Span::new(FileId(0), start, end), text)
        };
        assert!(!fix(0, 18, "from-edge 1-15/32").changes(&sources));
        assert!(!fix(11, 18, "1-15/32").changes(&sources));
        assert!(fix(0, 18, "from-edge 1-1/2").changes(&sources));
        // A line is broken, an empty place filled, a word taken out.
        assert!(fix(19, 21, " ").changes(&sources));
        assert!(fix(18, 18, " x").changes(&sources));
        assert!(fix(0, 18, "").changes(&sources));
    }
}
