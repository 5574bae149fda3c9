//! A line as it will stand, in pieces that may be moved to a column.

use unicode_width::UnicodeWidthChar as _;

/// What a line is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// Whole statements.
    Statements,
    /// One statement that is a word with its values.
    Plain,
    /// The first or last line of a block that stands on several.
    Brace,
    /// A comment by itself, at the indent of its block.
    Comment,
    /// A comment by itself, below a trailing one and in its column.
    Continued,
    /// Nothing.
    Blank,
}

/// One line.
#[derive(Clone, Debug)]
pub(super) struct Line {
    pub(super) kind: Kind,
    /// Spaces before it.
    pub(super) indent: usize,
    pub(super) pieces: Vec<Piece>,
    pub(super) comment: Option<Trailing>,
    /// The byte of the source that it starts with.
    pub(super) at: u32,
}

/// Text that follows the piece before it after some spaces.
#[derive(Clone, Debug)]
pub(super) struct Piece {
    pub(super) text: String,
    /// Spaces before it, as they will stand.
    pub(super) gap: usize,
    /// Where it stood in the source, counted from the start of its statement.
    pub(super) column: usize,
    /// Spaces before it in the source.
    pub(super) stood: usize,
}

/// A comment behind the code of a line, or in the column of one.
#[derive(Clone, Debug)]
pub(super) struct Trailing {
    pub(super) text: String,
    /// The column it stood in, counted from nought.
    pub(super) stood: usize,
    /// The column it will stand in.
    pub(super) column: usize,
}

impl Line {
    pub(super) fn new(kind: Kind, indent: usize, at: u32) -> Self {
        Self { kind, indent, pieces: Vec::new(), comment: None, at }
    }

    /// The same line with one more piece, which stays where it is.
    pub(super) fn with(mut self, text: impl Into<String>) -> Self {
        self.pieces.push(Piece { text: text.into(), gap: 0, column: 0, stood: 0 });
        self
    }

    /// The columns that its first `pieces` pieces take, without the indent.
    pub(super) fn width(&self, pieces: usize) -> usize {
        self.pieces.iter().take(pieces).map(|piece| piece.gap + width(&piece.text)).sum()
    }

    /// The columns that it takes before its comment.
    pub(super) fn code_width(&self) -> usize {
        if self.pieces.is_empty() { 0 } else { self.indent + self.width(self.pieces.len()) }
    }

    pub(super) fn write(&self, text: &mut String) {
        let spaces = |text: &mut String, count| text.extend(std::iter::repeat_n(' ', count));
        if !self.pieces.is_empty() {
            spaces(text, self.indent);
        }
        for piece in &self.pieces {
            spaces(text, piece.gap);
            text.push_str(&piece.text);
        }
        if let Some(comment) = &self.comment {
            spaces(text, comment.column.saturating_sub(self.code_width()));
            text.push_str(&comment.text);
        }
    }
}

/// Columns of a text on a page of equal letters. What is written has tabs in
/// texts alone; wherever it is moved to, such a tab counts as one column.
pub(super) fn width(text: &str) -> usize {
    text.chars().map(|c| if c == '\t' { 1 } else { c.width().unwrap_or(0) }).sum()
}
