//! Statements added to a text, or changed in it, with every comment and line
//! of it left as it stands.

use std::ops::Range;

use super::tree::{Block, Item};
use crate::measure::line_end;

/// The text with another in the place of what stands at `range`.
#[must_use]
pub fn replace(text: &str, range: Range<usize>, with: &str) -> Option<String> {
    let (before, after) = (text.get(..range.start)?, text.get(range.end..)?);
    Some(format!("{before}{with}{after}"))
}

/// The text with a statement of one or more lines in the place of what stands
/// at `range`, as far in as that.
#[must_use]
pub fn rewrite(text: &str, range: Range<usize>, statement: &str) -> Option<String> {
    let indent = margin_of(text, range.start)?;
    replace(text, range, &indented(statement, &indent, line_end(text)))
}

/// The text with `statement` as the last one of a closed block: on a line of
/// its own where the closing brace has one, else behind the last statement.
#[must_use]
pub fn append(text: &str, block: &Block, statement: &str) -> Option<String> {
    let close = block.close.start as usize;
    let last = block.items.iter().rev().find_map(end);
    let end = last.unwrap_or(block.open.end as usize);
    let between = text.get(end..close)?;
    let Some(newline) = between.rfind(['\n', '\r']) else {
        let margin = margin_of(text, close)?;
        let statement = indented(statement, &margin, line_end(text));
        return match last {
            Some(_) => replace(text, end..end, &format!("; {statement}")),
            None => replace(text, end..close, &format!(" {statement} ")),
        };
    };
    // Just before the line of the brace, as far in as the other statements.
    let line = end + newline + 1;
    let first = block.items.iter().find_map(start);
    let indent = first.and_then(|first| indent_of(text, first)).unwrap_or_else(|| {
        let outer = indent_of(text, close).unwrap_or_default();
        format!("{outer}  ")
    });
    let newline = line_end(text);
    let statement = indented(statement, &indent, newline);
    replace(text, line..line, &format!("{indent}{statement}{newline}"))
}

/// The text with a block at its end, an empty line before it.
#[must_use]
pub fn append_block(text: &str, head: &str, statement: &str) -> String {
    let newline = line_end(text);
    let mut whole = text.to_owned();
    if !whole.is_empty() && !whole.ends_with(['\n', '\r']) {
        whole.push_str(newline);
    }
    if !whole.trim().is_empty() && !whole.ends_with("\n\n") && !whole.ends_with("\r\n\r\n") {
        whole.push_str(newline);
    }
    let statement = indented(statement, "  ", newline);
    for line in [&format!("{head} {{"), &format!("  {statement}"), "}"] {
        whole.push_str(line);
        whole.push_str(newline);
    }
    whole
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
    use crate::syntax::parse;

    /// Adds `b` to the last block of a text.
    fn added(text: &str) -> String {
        let (tree, found) = parse(FileId(0), text);
        assert!(found.is_empty(), "{found:?}");
        let block = tree.items.iter().rev().find_map(|item| match item {
            Item::Statement(statement) => statement.block.as_ref(),
            _ => None,
        });
        append(text, block.expect("a block"), "b").expect("a place")
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
        assert_eq!(append_block("", "cut", "b"), "cut {\n  b\n}\n");
        assert_eq!(append_block("a", "cut", "b"), "a\n\ncut {\n  b\n}\n");
        assert_eq!(append_block("a\n\n", "cut", "b"), "a\n\ncut {\n  b\n}\n");
        assert_eq!(append_block("a\r\n", "cut", "b"), "a\r\n\r\ncut {\r\n  b\r\n}\r\n");
    }
}
