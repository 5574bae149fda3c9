//! What stands on which line.
//!
//! A line end that the maker chose stays: statements that share a line go on
//! sharing it, and so does a block with its keyword, for as long as the line
//! is short enough. Otherwise each statement gets a line of its own.

use std::borrow::Cow;

use super::line::{Kind, Line, Piece, Trailing, width};
use super::source::{columns, plain_tabs};
use crate::measure::Span;
use crate::syntax::tree::{Argument, Block, Comment, Item, Name, Statement, Tree};

/// Spaces for each level.
const INDENT: usize = 2;

/// The widest line of several statements, in columns. What aligns it with its neighbours
/// is not counted, or a longer neighbour could break it up; nor is a comment.
pub const WIDEST: usize = 100;

pub(super) fn lines(text: &str, tree: &Tree) -> Vec<Line> {
    let mut layout = Layout { text, measured: plain_tabs(text, tree), lines: Vec::new() };
    layout.items(&tree.items, 0, false);
    layout.lines
}

struct Layout<'a> {
    text: &'a str,
    /// The same bytes, to take columns from.
    measured: Cow<'a, str>,
    lines: Vec<Line>,
}

impl Layout<'_> {
    /// The lines of a block or file; `apart` gives each statement its own.
    fn items(&mut self, items: &[Item], depth: usize, apart: bool) {
        let mut rest = items;
        while let Some((item, behind)) = rest.split_first() {
            rest = behind;
            match item {
                Item::Blank => self.blank(),
                Item::Comment(comment) => self.comment(comment, depth),
                Item::Statement(statement) if apart => self.statement(statement, depth),
                Item::Statement(statement) => {
                    let line = self.sharing(statement, behind);
                    rest = behind.get(line.len() - 1..).unwrap_or_default();
                    self.shared(&line, depth);
                }
            }
        }
    }

    fn blank(&mut self) {
        // A brace may have a comment behind it; then an empty line can follow.
        let opens = |line: &Line| {
            line.kind == Kind::Brace && line.pieces.last().is_some_and(|p| p.text.ends_with('{'))
        };
        if !self.lines.last().is_some_and(opens) {
            self.lines.push(Line::new(Kind::Blank, 0, 0));
        }
    }

    fn comment(&mut self, comment: &Comment, depth: usize) {
        let column = self.column(comment.span.start);
        let above = self.lines.last().and_then(|line| line.comment.as_ref());
        let continued = above.is_some_and(|above| above.stood == column);
        let kind = if continued { Kind::Continued } else { Kind::Comment };
        let line = Line::new(kind, depth * INDENT, comment.span.start);
        self.lines.push(if continued {
            Line { comment: Some(self.trailing(comment)), ..line }
        } else {
            line.with(comment.text.as_str())
        });
    }

    fn trailing(&self, comment: &Comment) -> Trailing {
        let stood = self.column(comment.span.start);
        Trailing { text: comment.text.clone(), stood, column: stood }
    }

    /// The statements of one line of the source: `first` and those behind it.
    fn sharing<'a>(&self, first: &'a Statement, behind: &'a [Item]) -> Vec<&'a Statement> {
        let mut line = vec![first];
        let mut last = first;
        for item in behind {
            let Item::Statement(next) = item else { break };
            let whole = Span { start: last.span.start, ..next.span };
            if self.has_line_end(whole) {
                break;
            }
            line.push(next);
            last = next;
        }
        line
    }

    /// The statements of one line of the source, together if there is room.
    fn shared(&mut self, line: &[&Statement], depth: usize) {
        let indent = depth * INDENT;
        let [first, rest @ .., last] = line else {
            return line.iter().for_each(|statement| self.statement(statement, depth));
        };
        let mut pieces = self.pieces(first);
        if let Some(end) = pieces.last_mut() {
            for statement in rest.iter().copied().chain([*last]) {
                end.text.push_str("; ");
                self.flat(statement, &mut end.text);
            }
        }
        if indent + single_spaced(&pieces) > WIDEST {
            return line.iter().for_each(|statement| self.statement(statement, depth));
        }
        let comment = last.comment.as_ref().map(|comment| self.trailing(comment));
        let line = Line::new(Kind::Statements, indent, first.span.start);
        self.lines.push(Line { pieces, comment, ..line });
    }

    /// A statement on a line of its own, or on several.
    fn statement(&mut self, statement: &Statement, depth: usize) {
        let indent = depth * INDENT;
        let comment = statement.comment.as_ref().map(|comment| self.trailing(comment));
        let stood_flat = !self.has_line_end(statement.span);
        let block = statement.block.as_ref().filter(|block| !block.items.is_empty());
        if block.is_none() || stood_flat {
            let pieces = self.pieces(statement);
            if block.is_none() || indent + single_spaced(&pieces) <= WIDEST {
                let plain = statement.block.is_none() && !statement.arguments.is_empty();
                let kind = if plain { Kind::Plain } else { Kind::Statements };
                let line = Line::new(kind, indent, statement.span.start);
                return self.lines.push(Line { pieces, comment, ..line });
            }
        }
        let Some(block) = block else { return };
        let mut head = self.name(&statement.word).to_owned();
        self.values(statement, &mut head);
        head.push_str(" {");
        let mut open = Line::new(Kind::Brace, indent, statement.span.start).with(head);
        let mut items = block.items.as_slice();
        if let Some((Item::Comment(first), behind)) = items.split_first()
            && !self.has_line_end(block.open.to(first.span))
        {
            open.comment = Some(self.trailing(first));
            items = behind;
        }
        self.lines.push(open);
        self.items(items, depth + 1, stood_flat);
        let close = Line::new(Kind::Brace, indent, block.close.start).with("}");
        self.lines.push(Line { comment, ..close });
    }

    /// A statement on one line, parted where it may be aligned: before its
    /// first value, and before its block.
    fn pieces(&self, statement: &Statement) -> Vec<Piece> {
        let word = statement.word.span;
        let mut pieces = vec![Piece {
            text: self.name(&statement.word).to_owned(),
            gap: 0,
            column: 0,
            stood: 0,
        }];
        let mut piece = |text: String, start: u32, before: u32| {
            let (column, end) = (self.columns(word.start, start), self.columns(word.start, before));
            pieces.push(Piece { text, gap: 1, column, stood: column.saturating_sub(end) });
        };
        if let Some(first) = statement.arguments.first() {
            let mut text = String::new();
            self.values(statement, &mut text);
            piece(text.split_off(1), first.span().start, word.end);
        }
        if let Some(block) = &statement.block {
            let mut text = String::new();
            self.braced(block, &mut text);
            piece(text, block.open.start, statement.head().end);
        }
        pieces
    }

    fn flat(&self, statement: &Statement, text: &mut String) {
        text.push_str(self.name(&statement.word));
        self.values(statement, text);
        if let Some(block) = &statement.block {
            text.push(' ');
            self.braced(block, text);
        }
    }

    /// A block on one line. Such a block holds nothing but statements.
    fn braced(&self, block: &Block, text: &mut String) {
        text.push('{');
        let mut before = " ";
        for item in &block.items {
            if let Item::Statement(statement) = item {
                text.push_str(before);
                self.flat(statement, text);
                before = "; ";
            }
        }
        text.push_str(" }");
    }

    /// Every argument with a space before it.
    fn values(&self, statement: &Statement, text: &mut String) {
        let mut end = statement.word.span.end;
        let mut before = "";
        for argument in &statement.arguments {
            let span = argument.span();
            let written = self.slice(span);
            let gap = self.text.get(end as usize..span.start as usize).unwrap_or_default();
            let is_first = end == statement.word.span.end;
            // `1 1/2` is one number and `1  1/2` two.
            let parts = !is_first && gap != " " && ends_whole(before) && starts_fraction(written);
            text.push_str(if parts { "  " } else { " " });
            match argument {
                Argument::Expr(_) => single_space(written, text),
                Argument::Text { .. } | Argument::Date { .. } => text.push_str(written),
            }
            end = span.end;
            before = written;
        }
    }

    /// The keyword as it is written.
    fn name(&self, name: &Name) -> &str {
        self.slice(name.span)
    }

    fn slice(&self, span: Span) -> &str {
        self.text.get(span.range()).unwrap_or_default()
    }

    fn has_line_end(&self, span: Span) -> bool {
        self.slice(span).contains(['\n', '\r'])
    }

    /// The column of a byte, counted from nought.
    fn column(&self, at: u32) -> usize {
        let before = self.measured.get(..at as usize).unwrap_or_default();
        let line = before.rfind(['\n', '\r']).map_or(0, |end| end + 1);
        columns(before.get(line..).unwrap_or_default().trim_start_matches('\u{FEFF}'))
    }

    /// The columns between two bytes.
    fn columns(&self, from: u32, to: u32) -> usize {
        columns(self.measured.get(from as usize..to as usize).unwrap_or_default())
    }
}

/// Columns of the pieces with one space between them.
fn single_spaced(pieces: &[Piece]) -> usize {
    pieces.iter().map(|piece| piece.gap + width(&piece.text)).sum()
}

/// The parts of a value, one space between those that have any.
fn single_space(written: &str, text: &mut String) {
    for (i, part) in written.split_ascii_whitespace().enumerate() {
        if i > 0 {
            text.push(' ');
        }
        text.push_str(part);
    }
}

fn ends_whole(value: &str) -> bool {
    value.ends_with(|c: char| c.is_ascii_digit())
}

fn starts_fraction(value: &str) -> bool {
    let rest = value.trim_start_matches(|c: char| c.is_ascii_digit());
    rest.len() < value.len() && rest.starts_with('/')
}
