//! Statements added to a text, or changed in it, with every comment and line
//! of it left as it stands.

use std::ops::Range;

use super::tree::{Block, Item};
use crate::measure::line_end;

/// What stands at a place of a text, and what takes it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edit {
    /// The place.
    pub at: Range<usize>,
    /// The new text.
    pub with: String,
}

/// The text with all edits made; `None` where two of them overlap.
#[must_use]
pub fn edited(text: &str, mut edits: Vec<Edit>) -> Option<String> {
    edits.sort_by_key(|edit| (edit.at.start, edit.at.end));
    let mut whole = String::with_capacity(text.len());
    let mut done = 0;
    for edit in edits {
        whole.push_str(text.get(done..edit.at.start)?);
        whole.push_str(&edit.with);
        done = edit.at.end;
    }
    whole.push_str(text.get(done..)?);
    Some(whole)
}

/// A statement of one or more lines in the place of what stands at `range`, as
/// far in as that.
#[must_use]
pub fn rewrite(text: &str, range: Range<usize>, statement: &str) -> Option<Edit> {
    let indent = margin_of(text, range.start)?;
    Some(Edit { at: range, with: indented(statement, &indent, line_end(text)) })
}

/// The statements as the last ones of a closed block: on lines of their own
/// where the closing brace has one, else behind the last statement.
#[must_use]
pub fn append(text: &str, block: &Block, statements: &[&str]) -> Option<Edit> {
    let close = block.close.start as usize;
    let last = block.items.iter().rev().find_map(end);
    let end = last.unwrap_or(block.open.end as usize);
    let between = text.get(end..close)?;
    let newline = line_end(text);
    let all = |indent: &str, parted: &str| {
        let all = statements.iter().map(|statement| indented(statement, indent, newline));
        all.collect::<Vec<_>>().join(parted)
    };
    let Some(line) = between.rfind(['\n', '\r']) else {
        let all = all(&margin_of(text, close)?, "; ");
        return Some(match last {
            Some(_) => Edit { at: end..end, with: format!("; {all}") },
            None => Edit { at: end..close, with: format!(" {all} ") },
        });
    };
    // Just before the line of the brace, as far in as the other statements.
    let line = end + line + 1;
    let first = block.items.iter().find_map(start);
    let indent = first.and_then(|first| indent_of(text, first)).unwrap_or_else(|| {
        let outer = indent_of(text, close).unwrap_or_default();
        format!("{outer}  ")
    });
    let all = all(&indent, &format!("{newline}{indent}"));
    Some(Edit { at: line..line, with: format!("{indent}{all}{newline}") })
}

/// A block at the end of the text, an empty line before it.
#[must_use]
pub fn append_block(text: &str, head: &str, statements: &[&str]) -> Edit {
    let newline = line_end(text);
    let mut with = String::new();
    if !text.is_empty() && !text.ends_with(['\n', '\r']) {
        with.push_str(newline);
    }
    if !text.trim().is_empty() && !text.ends_with("\n\n") && !text.ends_with("\r\n\r\n") {
        with.push_str(newline);
    }
    let statements = statements.iter().map(|statement| indented(statement, "  ", newline));
    let lines = statements.map(|statement| format!("  {statement}"));
    for line in std::iter::once(format!("{head} {{")).chain(lines).chain(["}".to_owned()]) {
        with.push_str(&line);
        with.push_str(newline);
    }
    Edit { at: text.len()..text.len(), with }
}

fn start(item: &Item) -> Option<usize> {
    match item {
        Item::Statement(statement) => Some(statement.span.start as usize),
        Item::Comment(comment) => Some(comment.span.start as usize),
        Item::Blank => None,
    }
}

/// Where an item ends, the comment behind it included.
fn end(item: &Item) -> Option<usize> {
    match item {
        Item::Statement(statement) => {
            let comment = statement.comment.as_ref().map(|comment| comment.span);
            Some(comment.unwrap_or(statement.span).end as usize)
        }
        Item::Comment(comment) => Some(comment.span.end as usize),
        Item::Blank => None,
    }
}

/// The lines of a statement, those behind the first as far in as said.
fn indented(statement: &str, indent: &str, newline: &str) -> String {
    statement.lines().collect::<Vec<_>>().join(&format!("{newline}{indent}"))
}

/// The space that the line of a place begins with.
fn margin_of(text: &str, at: usize) -> Option<String> {
    let before = text.get(..at)?;
    let line = before.rfind(['\n', '\r']).map_or(0, |newline| newline + 1);
    let rest = text.get(line..)?;
    Some(rest.chars().take_while(|c| matches!(c, ' ' | '\t')).collect())
}

/// What stands before a place on its line, if that is space alone.
fn indent_of(text: &str, at: usize) -> Option<String> {
    let before = text.get(..at)?;
    let line = before
        .rfind(['\n', '\r'])
        .map_or(before, |newline| before.get(newline + 1..).unwrap_or(""));
    line.chars().all(|c| c == ' ' || c == '\t').then(|| line.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::FileId;
    use crate::syntax::{Language, Shape, parse};

    const LANGUAGE: Language =
        Language { shape: |_| Shape::default(), misplaced: |_| 0, wrong: |_| 0 };

    /// Adds `b` to the last block of a text.
    fn added(text: &str) -> String {
        let (tree, found) = parse(FileId(0), text, LANGUAGE);
        assert!(found.is_empty(), "{found:?}");
        let block = tree.items.iter().rev().find_map(|item| match item {
            Item::Statement(statement) => statement.block.as_ref(),
            _ => None,
        });
        let edit = append(text, block.expect("a block"), &["b"]).expect("a place");
        edited(text, vec![edit]).expect("a text")
    }

    fn with_block(text: &str) -> String {
        edited(text, vec![append_block(text, "cut", &["b"])]).expect("a text")
    }

    #[test]
    fn a_statement_joins_its_block_as_that_is_written() {
        assert_eq!(added("cut { a }"), "cut { a; b }");
        assert_eq!(added("cut { a; }"), "cut { a; b; }");
        assert_eq!(added("cut {}"), "cut { b }");
        assert_eq!(added("cut { }"), "cut { b }");
        assert_eq!(added("cut {\n}"), "cut {\n  b\n}");
        assert_eq!(added("cut {\n    a # why\n}\n"), "cut {\n    a # why\n    b\n}\n");
        assert_eq!(added("cut { a\n  c }"), "cut { a\n  c; b }");
        assert_eq!(added("cut { a\n\n  # more\n\n  }"), "cut { a\n\n  # more\n\n    b\n  }");
        assert_eq!(added("cut {\r\n\ta\r\n}\r\n"), "cut {\r\n\ta\r\n\tb\r\n}\r\n");
    }

    #[test]
    fn a_block_comes_last() {
        assert_eq!(with_block(""), "cut {\n  b\n}\n");
        assert_eq!(with_block("a"), "a\n\ncut {\n  b\n}\n");
        assert_eq!(with_block("a\n\n"), "a\n\ncut {\n  b\n}\n");
        assert_eq!(with_block("a\r\n"), "a\r\n\r\ncut {\r\n  b\r\n}\r\n");
    }
}
