//! The texts of a spec, with their names and lines.

use std::sync::{Arc, OnceLock};

use crate::measure::{FileId, Span};

use super::utf16::Utf16Position;

/// One text.
#[derive(Clone, Debug)]
pub struct Source {
    /// The name shown in messages, relative to where the command was run.
    pub name: String,
    /// The whole text.
    pub text: Arc<str>,
    line_starts: Vec<u32>,
    /// The same as editors count, once one asks.
    pub(super) editor_lines: OnceLock<Vec<u32>>,
}

/// A place a person can find: both count from 1, columns in characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Position {
    /// The line.
    pub line: usize,
    /// The column, in Unicode scalar values.
    pub column: usize,
}

/// All texts of one compilation, by [`FileId`].
#[derive(Clone, Debug, Default)]
pub struct Sources {
    files: Vec<Source>,
}

impl Sources {
    /// No texts yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a text and says which file it is.
    pub fn add(&mut self, name: impl Into<String>, text: impl Into<Arc<str>>) -> FileId {
        self.files.push(Source::new(name, text));
        FileId(self.files.len() as u32 - 1)
    }

    /// The text of a file; `None` for an id that another set gave out.
    #[must_use]
    pub fn get(&self, file: FileId) -> Option<&Source> {
        self.files.get(file.0 as usize)
    }

    /// All texts in the order they were added.
    pub fn iter(&self) -> impl Iterator<Item = (FileId, &Source)> {
        self.files.iter().enumerate().map(|(i, source)| (FileId(i as u32), source))
    }

    /// The text a span covers; empty where it covers none.
    #[must_use]
    pub fn text(&self, span: Span) -> &str {
        self.get(span.file).and_then(|source| source.text.get(span.range())).unwrap_or("")
    }

    /// Line and column of a span's first byte.
    #[must_use]
    pub fn position(&self, span: Span) -> Position {
        self.get(span.file).map_or(Position { line: 1, column: 1 }, |s| s.position(span.start))
    }

    /// Where an editor finds the first byte of a span and the one just past its
    /// last.
    #[must_use]
    pub fn utf16(&self, span: Span) -> (Utf16Position, Utf16Position) {
        let nowhere = Utf16Position { line: 0, column: 0 };
        let source = self.get(span.file);
        source.map_or((nowhere, nowhere), |s| (s.utf16(span.start), s.utf16(span.end)))
    }

    /// Line and column just past a span's last byte.
    #[must_use]
    pub fn end_position(&self, span: Span) -> Position {
        self.get(span.file).map_or(Position { line: 1, column: 1 }, |s| s.position(span.end))
    }
}

impl Source {
    /// A text by itself.
    pub fn new(name: impl Into<String>, text: impl Into<Arc<str>>) -> Self {
        let text = text.into();
        let mut line_starts = vec![0];
        line_starts.extend(
            text.bytes().enumerate().filter(|(_, b)| *b == b'\n').map(|(i, _)| i as u32 + 1),
        );
        Self { name: name.into(), text, line_starts, editor_lines: OnceLock::new() }
    }

    /// Line and column of a byte.
    #[must_use]
    pub fn position(&self, byte: u32) -> Position {
        let line = self.line_starts.partition_point(|start| *start <= byte).max(1);
        let start = self.line_starts[line - 1] as usize;
        let before = self.text.get(start..byte as usize).unwrap_or("");
        Position { line, column: before.chars().count() + 1 }
    }

    /// The first byte of a line (counted from 1); the end of the text where
    /// there is no such line.
    #[must_use]
    pub fn line_start(&self, line: usize) -> usize {
        let start = line.checked_sub(1).and_then(|i| self.line_starts.get(i));
        start.map_or(self.text.len(), |start| *start as usize)
    }

    /// The text of a line (counted from 1), without its end.
    #[must_use]
    pub fn line(&self, line: usize) -> &str {
        let Some(start) = line.checked_sub(1).and_then(|i| self.line_starts.get(i)) else {
            return "";
        };
        let end = self.line_starts.get(line).map_or(self.text.len(), |next| *next as usize);
        self.text.get(*start as usize..end).unwrap_or("").trim_end_matches(['\n', '\r'])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn positions_count_characters_from_one() {
        let mut sources = Sources::new();
        let file = sources.add("a.case", "één\nwide 3\n");
        let at = |start| sources.position(Span::new(file, start, start));
        assert_eq!(at(0), Position { line: 1, column: 1 });
        assert_eq!(at(5), Position { line: 1, column: 4 });
        assert_eq!(at(6), Position { line: 2, column: 1 });
        assert_eq!(sources.get(file).map(|s| s.line(2)), Some("wide 3"));
    }
}
