//! The texts that are open in the editor.

use std::collections::BTreeMap;
use std::sync::Arc;

use lsp_types::{Position, Range, TextDocumentContentChangeEvent, TextEdit, Uri};

use crate::diagnostics::{Source, Utf16Position};

use super::names;

/// A text that is open.
#[derive(Debug)]
pub(super) struct Text {
    /// The file as the editor names it.
    pub(super) uri: Uri,
    /// The editor's count of its changes.
    pub(super) version: i32,
    /// What stands in it.
    pub(super) text: Arc<str>,
}

/// All of them, by the names that compilations know them by.
pub(super) type Texts = BTreeMap<String, Text>;

/// The name of a file that the editor names.
pub(super) fn name(uri: &Uri) -> String {
    names::of_uri(uri.as_str())
}

/// The text after a change: of a part of it, or of all.
pub(super) fn changed(text: &str, change: TextDocumentContentChangeEvent) -> String {
    let Some(range) = change.range else { return change.text };
    let source = Source::new("", text);
    let ends = [range.start, range.end].map(|at| source.byte(utf16(at)) as usize);
    let (start, end) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
    let before = text.get(..start).unwrap_or_default();
    let after = text.get(end..).unwrap_or_default();
    [before, &change.text, after].concat()
}

/// A place as the compiler counts it.
pub(super) fn utf16(position: Position) -> Utf16Position {
    Utf16Position { line: position.line, column: position.character }
}

/// A place as the protocol counts it.
pub(super) fn position(source: &Source, byte: u32) -> Position {
    let at = source.utf16(byte);
    Position { line: at.line, character: at.column }
}

/// From one byte to another.
pub(super) fn range(source: &Source, start: u32, end: u32) -> Range {
    Range { start: position(source, start), end: position(source, end) }
}

/// What makes one text of another: one edit, from the first line that differs to the last.
pub(super) fn edits(source: &Source, new: &str) -> Vec<TextEdit> {
    let old: &str = &source.text;
    if old == new {
        return Vec::new();
    }
    // Whole lines, so that no letter is parted.
    let lines = |text: &str| -> Vec<usize> { text.split_inclusive('\n').map(str::len).collect() };
    let (ours, theirs) = (lines(old), lines(new));
    let piece = |text: &'_ str, at: usize, len: usize| text.get(at..at + len).map(str::to_owned);
    let (mut start, mut kept) = (0, 0);
    while let (Some(one), Some(other)) = (ours.get(kept), theirs.get(kept))
        && one == other
        && piece(old, start, *one) == piece(new, start, *other)
    {
        start += one;
        kept += 1;
    }
    let (mut end, mut new_end, mut below) = (old.len(), new.len(), 0);
    while below + kept < ours.len().min(theirs.len())
        && let (Some(one), Some(other)) =
            (ours.get(ours.len() - 1 - below), theirs.get(theirs.len() - 1 - below))
        && one == other
        && piece(old, end - one, *one) == piece(new, new_end - other, *other)
    {
        end -= one;
        new_end -= other;
        below += 1;
    }
    let new_text = new.get(start..new_end).unwrap_or_default().to_owned();
    vec![TextEdit { range: range(source, start as u32, end as u32), new_text }]
}
