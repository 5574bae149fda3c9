//! Which brace a maker forgot, as the indentation tells.

use std::collections::BTreeMap;

use pest::iterators::{Pair, Pairs};

use super::parser::Rule;
use super::tree::{Block, Item, Statement, Tree};
use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{FileId, Span};

/// An opening brace.
struct Brace {
    open: Span,
    closed: bool,
    /// The first statement read into it that stands as far left as the line
    /// it opened on.
    outdented: Option<Span>,
}

impl Brace {
    fn of(file: FileId, text: &str, block: Pair<'_, Rule>) -> Self {
        let span = |pair: &Pair<'_, Rule>| {
            let span = pair.as_span();
            Span::new(file, span.start(), span.end())
        };
        let open = Span { end: span(&block).start + 1, ..span(&block) };
        let mut brace = Self { open, closed: true, outdented: None };
        for part in block.into_inner() {
            match part.as_rule() {
                Rule::missing_close => brace.closed = false,
                Rule::statement if is_outdented(text, open, span(&part)) => {
                    brace.outdented.get_or_insert(span(&part));
                }
                _ => {}
            }
        }
        brace
    }
}

/// True for a statement on a later line that stands as far left as the line
/// of the brace that it is read into.
fn is_outdented(text: &str, open: Span, statement: Span) -> bool {
    let (open_line, open_indent) = indent(text, open.start);
    let (line, own_indent) = indent(text, statement.start);
    line > open_line && own_indent <= open_indent && line + own_indent == statement.start as usize
}

/// The message for braces that are still open at the end. The indentation
/// tells which of them the maker forgot to close.
pub(super) fn unclosed(file: FileId, text: &str, pairs: Pairs<'_, Rule>) -> Option<Diagnostic> {
    let blocks = pairs.flatten().filter(|pair| pair.as_rule() == Rule::block);
    let braces: Vec<Brace> = blocks.map(|block| Brace::of(file, text, block)).collect();
    let missing = braces.iter().filter(|brace| !brace.closed).count();
    let outermost = braces.iter().find(|brace| !brace.closed)?;
    let guilty = braces
        .iter()
        .filter_map(|brace| brace.outdented.map(|span| (span.start, brace)))
        .min_by_key(|(start, _)| *start)
        .map_or(outermost, |(_, brace)| brace);
    let title = match missing {
        1 => "a brace is never closed".to_owned(),
        n => format!("{n} braces are never closed"),
    };
    let mut diagnostic =
        Diagnostic::error("unclosed-block", title, guilty.open, "opened here, never closed");
    let end = guilty.outdented.map_or(text.trim_end().len(), |span| {
        text.get(..span.start as usize).map_or(0, |before| before.trim_end().len())
    });
    let at = Span::new(guilty.open.file, end, end);
    if let Some(next) = guilty.outdented {
        diagnostic = diagnostic.label(next, "by its indent, `}` is missing before this line");
    }
    diagnostic = diagnostic.fix(Fix::new(Grade::Choice, "close it with `}`", at, "\n}"));
    Some(diagnostic)
}

/// What is said of closing braces that close nothing. Most often another lost
/// its opening brace: its block ended where the one around it was to end, and
/// so on to the last.
pub(super) fn stray(text: &str, tree: &Tree, strays: &[Span]) -> Vec<Diagnostic> {
    if strays.is_empty() {
        return Vec::new();
    }
    let mut unopened = Vec::new();
    gather(text, &tree.items, &Closes::of(text, strays), &mut unopened);
    let mut unopened = unopened.into_iter();
    let told = strays.iter().map(|stray| match unopened.next() {
        Some(statement) => without_opening(statement, *stray),
        None => Diagnostic::error(
            "stray-brace",
            "there is one closing brace too many",
            *stray,
            "no brace is open here",
        )
        .fix(Fix::new(Grade::Choice, "delete it", *stray, "")),
    });
    told.collect()
}

fn without_opening(statement: &Statement, stray: Span) -> Diagnostic {
    let word = statement.word.text();
    let title = format!("by the indent of the next lines, `{word}` lacks its opening brace");
    let end = Span { start: statement.span.end, ..statement.span };
    Diagnostic::error("stray-brace", title, statement.span, "`{` is missing after this")
        .label(stray, "this brace then closes nothing")
        .fix(Fix::new(Grade::Choice, format!("open `{word}` with `{{`"), end, " {"))
}

/// The last of the closing braces that begin a line, for each indent.
struct Closes(BTreeMap<usize, u32>);

impl Closes {
    fn of(text: &str, braces: &[Span]) -> Self {
        let placed = |brace: &Span| Some((first_at(text, brace.start)?, brace.start));
        Self(braces.iter().filter_map(placed).collect())
    }

    /// True where one stands further down, as far in as this.
    fn is_below(&self, at: u32, indent: usize) -> bool {
        self.0.get(&indent).is_some_and(|last| *last > at)
    }
}

/// Statements that lost their brace: the next lines stand further in, and a
/// brace that closes what is around them, or nothing, stands below their own
/// beginning.
fn gather<'a>(text: &str, items: &'a [Item], closes: &Closes, unopened: &mut Vec<&'a Statement>) {
    for (index, item) in items.iter().enumerate() {
        let Item::Statement(statement) = item else { continue };
        if let Some(Block { items, close, .. }) = &statement.block {
            gather(text, items, &Closes::of(text, &[*close]), unopened);
            continue;
        }
        let Some(own) = first_at(text, statement.span.start) else { continue };
        let next = items.iter().skip(index + 1).find_map(|item| match item {
            Item::Statement(next) => Some(next.span.start),
            Item::Comment(comment) => Some(comment.span.start),
            Item::Blank => None,
        });
        let is_further_in = |next: u32| first_at(text, next).is_some_and(|next| next > own);
        if next.is_some_and(is_further_in) && closes.is_below(statement.span.start, own) {
            unopened.push(statement);
        }
    }
}

/// How far in a line stands that begins with what stands here; nothing where
/// something else stands before it.
fn first_at(text: &str, at: u32) -> Option<usize> {
    let (line, indent) = indent(text, at);
    (line + indent == at as usize).then_some(indent)
}

/// Where the line of this place begins, and how far in its first word stands.
fn indent(text: &str, at: u32) -> (usize, usize) {
    let before = text.get(..at as usize).unwrap_or("");
    let line = before.rfind(['\n', '\r']).map_or(0, |newline| newline + 1);
    let text = text.get(line..).unwrap_or("");
    (line, text.len() - text.trim_start_matches([' ', '\t']).len())
}
