//! What a text may be at most, looked at in one pass before it is parsed.

use crate::diagnostics::Diagnostic;
use crate::measure::{FileId, Span};

/// The longest file, in bytes.
pub const LONGEST_FILE: usize = 1 << 20;
/// How deep braces may nest.
pub const DEEPEST_BLOCK: usize = 64;
/// How deep parentheses may nest.
pub(super) const DEEPEST_GROUP: usize = 32;
/// How many operators and values one line may hold.
pub(super) const LONGEST_LINE: usize = 4096;

/// Refuses what the parser must not see: files too long, nesting too deep,
/// lines too long, control characters.
#[must_use]
pub(super) fn refuse(file: FileId, text: &str) -> Option<Diagnostic> {
    if text.len() > LONGEST_FILE {
        let at = Span::new(file, 0, 0);
        return Some(
            Diagnostic::error("file-too-large", "the file is longer than 1 MiB", at, "")
                .note("split what several jobs share into a file of its own and `use` it"),
        );
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
            return Some(Diagnostic::error(
                "line-too-long",
                format!("a line is longer than {LONGEST_LINE} bytes"),
                at,
                "end the line before this",
            ));
        }
        if in_comment {
            continue;
        }
        if in_text {
            (in_text, escaped) = (escaped || c != '"', c == '\\' && !escaped);
            continue;
        }
        match c {
            // An inch mark behind a digit opens no text. Taking a text behind a
            // number for one as well only makes this scan stricter.
            '"' if !behind_digit(&text[line_start..i]) => in_text = true,
            '#' => in_comment = true,
            '{' => braces += 1,
            '}' => braces = braces.saturating_sub(1),
            '(' => groups += 1,
            ')' => groups = groups.saturating_sub(1),
            _ => {}
        }
        if braces > DEEPEST_BLOCK || groups > DEEPEST_GROUP {
            let what = if braces > DEEPEST_BLOCK { "braces" } else { "parentheses" };
            return Some(Diagnostic::error(
                "nested-too-deep",
                format!("{what} nest too deep: no piece needs more than {DEEPEST_BLOCK} levels"),
                at,
                "one level too many",
            ));
        }
    }
    None
}

fn behind_digit(before: &str) -> bool {
    before.trim_end_matches([' ', '\t']).ends_with(|c: char| c.is_ascii_digit())
}
