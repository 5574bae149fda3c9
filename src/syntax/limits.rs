//! What a text may be at most, looked at in one pass before it is parsed.

use pest::Token;
use pest::iterators::Pairs;

use super::parser::Rule;
use crate::diagnostics::Diagnostic;
use crate::measure::{FileId, Span};

/// The longest file, in bytes: room for a job of several thousand cases.
pub const LONGEST_FILE: usize = 8 << 20;
/// How deep braces may nest.
pub const DEEPEST_BLOCK: usize = 64;
/// How deep parentheses may nest.
pub(super) const DEEPEST_GROUP: usize = 32;
/// How many statements one block or file may hold. Names are looked for among
/// their neighbours.
const MOST_TOGETHER: usize = 10_000;
/// How many statements one file may hold.
const MOST_STATEMENTS: usize = 100_000;
/// How many operators and values one line may hold.
pub(super) const LONGEST_LINE: usize = 4096;

/// Refuses what the parser must not see: files too long, nesting too deep,
/// lines too long, control characters.
#[must_use]
pub(super) fn refuse(file: FileId, text: &str) -> Option<Diagnostic> {
    if text.len() > LONGEST_FILE {
        return Some(too_large(file));
    }
    let (mut braces, mut groups, mut line_start) = (0usize, 0usize, 0usize);
    let (mut in_text, mut in_comment, mut escaped) = (false, false, false);
    for (i, c) in text.char_indices() {
        let at = Span::new(file, i, i + c.len_utf8());
        if c.is_control() && !matches!(c, '\n' | '\r' | '\t') {
            return Some(Diagnostic::error(
                "control-character",
                format!("a control character (U+{:04X}) stands in the file", u32::from(c)),
                at,
                "delete this",
            ));
        }
        if matches!(c, '\n' | '\r') {
            (in_text, in_comment, escaped, groups) = (false, false, false, 0);
            line_start = i + 1;
            continue;
        }
        if i - line_start > LONGEST_LINE {
            return Some(too_long(at));
        }
        if in_comment {
            continue;
        }
        if in_text {
            (in_text, escaped) = (escaped || c != '"', c == '\\' && !escaped);
            continue;
        }
        match c {
            // An inch mark touches its digit and opens no text.
            '"' if !behind_digit(&text[line_start..i]) => in_text = true,
            '#' => in_comment = true,
            '{' => braces += 1,
            '}' => braces = braces.saturating_sub(1),
            '(' => groups += 1,
            ')' => groups = groups.saturating_sub(1),
            _ => {}
        }
        if braces > DEEPEST_BLOCK || groups > DEEPEST_GROUP {
            return Some(too_deep(at, braces > DEEPEST_BLOCK));
        }
    }
    None
}

/// Refuses what the grammar nested deeper than the scan could see, and more
/// statements than can be looked at on each save. The scan
/// and the grammar may part company over where a text begins; the reader that
/// walks the pairs recurses, so it must not depend on their agreeing.
#[must_use]
pub(super) fn refuse_pairs(file: FileId, pairs: &Pairs<'_, Rule>) -> Option<Diagnostic> {
    let (mut blocks, mut groups) = (0usize, 0usize);
    let (mut all, mut together) = (0usize, vec![0usize]);
    for token in pairs.clone().tokens() {
        match token {
            Token::Start { rule: Rule::statement, pos } => {
                all += 1;
                let here = together.last_mut().map_or(0, |count| {
                    *count += 1;
                    *count
                });
                if here > MOST_TOGETHER || all > MOST_STATEMENTS {
                    let at = Span::new(file, pos.pos(), pos.pos());
                    return Some(too_many(at, here > MOST_TOGETHER));
                }
            }
            Token::Start { rule: Rule::block, .. } => together.push(0),
            Token::End { rule: Rule::block, .. } => drop(together.pop()),
            _ => {}
        }
        let (depth, most, start) = match token {
            Token::Start { rule: Rule::block, pos } => (&mut blocks, DEEPEST_BLOCK, Some(pos)),
            Token::Start { rule: Rule::group, pos } => (&mut groups, DEEPEST_GROUP, Some(pos)),
            Token::End { rule: Rule::block, .. } => (&mut blocks, DEEPEST_BLOCK, None),
            Token::End { rule: Rule::group, .. } => (&mut groups, DEEPEST_GROUP, None),
            _ => continue,
        };
        let Some(start) = start else {
            *depth = depth.saturating_sub(1);
            continue;
        };
        *depth += 1;
        if *depth > most {
            let at = Span::new(file, start.pos(), start.pos() + 1);
            return Some(too_deep(at, blocks > DEEPEST_BLOCK));
        }
    }
    None
}

pub(super) fn too_large(file: FileId) -> Diagnostic {
    let at = Span::new(file, 0, 0);
    Diagnostic::error("file-too-large", "the file is longer than 8 MiB", at, "")
        .note("split what several jobs share into a file of its own and `use` it")
}

pub(super) fn too_long(at: Span) -> Diagnostic {
    let title = format!("a line is longer than {LONGEST_LINE} bytes");
    Diagnostic::error("line-too-long", title, at, "end the line before this")
}

fn too_many(at: Span, together: bool) -> Diagnostic {
    let (most, holder) =
        if together { (MOST_TOGETHER, "one block") } else { (MOST_STATEMENTS, "the file") };
    let title = format!("more than {most} statements stand in {holder}");
    Diagnostic::error("too-many", title, at, "the first too many")
        .note("no piece is that large; a job of several pieces is several specs")
}

fn too_deep(at: Span, braces: bool) -> Diagnostic {
    let (what, most) =
        if braces { ("braces", DEEPEST_BLOCK) } else { ("parentheses", DEEPEST_GROUP) };
    Diagnostic::error(
        "nested-too-deep",
        format!("{what} nest too deep: no piece needs more than {most} levels"),
        at,
        "one level too many",
    )
}

fn behind_digit(before: &str) -> bool {
    before.ends_with(|c: char| c.is_ascii_digit())
}
