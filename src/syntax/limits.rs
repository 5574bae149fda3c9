//! What a text may be at most, looked at before it is parsed.

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
    // What is wrong first is told.
    let letters = if is_ordinary(text) { None } else { letters(file, text) };
    [letters, nesting(file, text)]
        .into_iter()
        .flatten()
        .min_by_key(|found| found.primary.span.start)
}

/// True for a text in which `letters` would find nothing, as nearly any: a
/// quick look, which may take a sound text for another.
fn is_ordinary(text: &str) -> bool {
    // Beyond ASCII, control characters begin with this byte.
    let is_odd = |b: u8| matches!(b, 0..b'\t' | 11 | 12 | 14..b' ' | 0x7f | 0xc2);
    !text.bytes().fold(false, |odd, byte| odd | is_odd(byte))
        && text.split('\n').all(|line| line.len() <= LONGEST_LINE)
}

/// The first control character or overlong line.
fn letters(file: FileId, text: &str) -> Option<Diagnostic> {
    let mut line_start = 0;
    for (i, c) in text.char_indices() {
        let at = Span::new(file, i, i + c.len_utf8());
        if c.is_control() && !matches!(c, '\n' | '\r' | '\t') {
            return Some(Diagnostic::error(
                "control-character",
                format!("the file holds a control character (U+{:04X})", u32::from(c)),
                at,
                "delete this",
            ));
        }
        if matches!(c, '\n' | '\r') {
            line_start = i + 1;
        } else if i - line_start > LONGEST_LINE {
            return Some(too_long(at));
        }
    }
    None
}

/// The first brace or parenthesis nested too deep. The parser recurses, so it
/// must see none.
fn nesting(file: FileId, text: &str) -> Option<Diagnostic> {
    let (mut braces, mut groups) = (0usize, 0usize);
    for (i, mark) in marks(text) {
        match mark {
            b'{' => braces += 1,
            b'}' => braces = braces.saturating_sub(1),
            b'(' => groups += 1,
            b')' => groups = groups.saturating_sub(1),
            _ => groups = 0,
        }
        if braces > DEEPEST_BLOCK || groups > DEEPEST_GROUP {
            return Some(too_deep(Span::new(file, i, i + 1), braces > DEEPEST_BLOCK));
        }
    }
    None
}

/// Braces, parentheses and ends of lines that stand neither in a text nor in a
/// comment, and the marks that comments begin with, with their bytes: just those
/// that the grammar takes for such. What a line that is no statement makes of
/// quotes (`junk_text`) holds for one that is a statement too.
pub(super) fn marks(text: &str) -> impl Iterator<Item = (usize, u8)> + '_ {
    let bytes = text.as_bytes();
    let mut at = 0;
    std::iter::from_fn(move || {
        loop {
            at += bytes.get(at..)?.iter().position(|byte| IS_SIGN[usize::from(*byte)])?;
            let here = at;
            at += 1;
            match *bytes.get(here)? {
                // A backslash takes a quote along, and an inch mark opens no text.
                b'\\' => at += usize::from(matches!(bytes.get(at), Some(b'"' | b'\\'))),
                b'"' if here > 0 && bytes.get(here - 1).is_some_and(u8::is_ascii_digit) => {}
                b'"' => at = behind_text(bytes, at).unwrap_or(at),
                b'#' => {
                    let rest = bytes.get(at..).unwrap_or_default();
                    at += rest.iter().position(|b| is_newline(*b)).unwrap_or(rest.len());
                    return Some((here, b'#'));
                }
                mark => return Some((here, mark)),
            }
        }
    })
}

/// The bytes that `marks` looks at.
const IS_SIGN: [bool; 256] = {
    let mut is_sign = [false; 256];
    let mut signs: &[u8] = b"\\\"#{}()\n\r";
    while let [first, rest @ ..] = signs {
        is_sign[*first as usize] = true;
        signs = rest;
    }
    is_sign
};

/// The byte behind a text whose opening quote stands before this one; nothing
/// where it is no text after all.
fn behind_text(bytes: &[u8], mut at: usize) -> Option<usize> {
    loop {
        match (*bytes.get(at)?, bytes.get(at + 1)) {
            (b'"', _) => return Some(at + 1),
            (b'\\', Some(next)) if !is_newline(*next) => at += 2,
            (b'\\', _) => return None,
            (byte, _) if is_newline(byte) => return None,
            _ => at += 1,
        }
    }
}

fn is_newline(byte: u8) -> bool {
    matches!(byte, b'\n' | b'\r')
}

/// Refuses more statements than can be looked at on each save.
#[must_use]
pub(super) fn refuse_pairs(file: FileId, pairs: &Pairs<'_, Rule>) -> Option<Diagnostic> {
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
    }
    None
}

pub(super) fn too_large(file: FileId) -> Diagnostic {
    let at = Span::new(file, 0, 0);
    Diagnostic::error("file-too-large", "the file is larger than 8 MiB", at, "")
        .note("move what several jobs share into a file of its own and `use` it")
}

pub(super) fn too_long(at: Span) -> Diagnostic {
    let title = format!("this line is longer than {LONGEST_LINE} bytes");
    Diagnostic::error("line-too-long", title, at, "start a new line before this")
}

fn too_many(at: Span, together: bool) -> Diagnostic {
    let (most, holder) =
        if together { (MOST_TOGETHER, "one block") } else { (MOST_STATEMENTS, "the file") };
    let title = format!("{holder} holds more than {most} statements");
    Diagnostic::error("too-many", title, at, "the first one too many")
        .note("no piece is that large; write one spec for each piece of a job")
}

fn too_deep(at: Span, braces: bool) -> Diagnostic {
    let (what, most) =
        if braces { ("braces", DEEPEST_BLOCK) } else { ("parentheses", DEEPEST_GROUP) };
    Diagnostic::error(
        "nested-too-deep",
        format!("the {what} are nested too deep; no piece needs more than {most} levels"),
        at,
        "one level too many",
    )
}

#[cfg(test)]
mod tests {
    use pest::Parser as _;
    use proptest::prelude::*;

    use super::super::parser::Grammar;
    use super::*;

    /// What tells a text, an inch mark, a comment, a group and a brace apart.
    const PIECES: [&str; 14] =
        ["a", "7", "\"", "\\", "n", "{", "}", " ", "#", "(", ")", ";", "\n", "é"];

    /// Asks whether the scan and the grammar see the same braces, and the scan
    /// each parenthesis that opens a group.
    fn compare(text: &str) {
        let (mut braces, mut groups) = (Vec::new(), Vec::new());
        for pair in Grammar::parse(Rule::file, text).unwrap().flatten() {
            match pair.as_rule() {
                Rule::block => {
                    let span = pair.as_span();
                    let is_open = pair.into_inner().any(|it| it.as_rule() == Rule::missing_close);
                    braces.push(span.start());
                    braces.extend((!is_open).then_some(span.end() - 1));
                }
                Rule::stray_close => braces.push(pair.as_span().start()),
                Rule::group => groups.push(pair.as_span().start()),
                _ => {}
            }
        }
        braces.sort_unstable();
        let of = |few: &[u8]| -> Vec<usize> {
            marks(text).filter(|(_, mark)| few.contains(mark)).map(|(i, _)| i).collect()
        };
        assert_eq!(of(b"{}"), braces, "{text:?}");
        let opened = of(b"(");
        assert!(groups.iter().all(|at| opened.contains(at)), "{text:?}");
    }

    #[test]
    fn each_control_character_is_refused() {
        let plain = |c: &char| matches!(c, '\n' | '\r' | '\t');
        for odd in ('\0'..='\u{ff}').filter(|c| c.is_control() && !plain(c)) {
            let found = refuse(FileId(0), &format!("a {odd}\n")).expect("it is refused");
            assert_eq!((found.slug, found.primary.span.start), ("control-character", 2), "{odd:?}");
        }
        assert!(refuse(FileId(0), "a\tb\r\né ½ \u{a0}\n").is_none());
    }

    #[test]
    fn the_scan_sees_the_braces_that_the_grammar_sees() {
        let mut texts = vec![String::new()];
        for _ in 0..3 {
            texts = texts
                .iter()
                .flat_map(|text| PIECES.iter().map(move |piece| format!("{text}{piece}")))
                .collect();
            for text in &texts {
                // What stands around it decides whether it is a statement.
                compare(text);
                compare(&format!("a {text} \"{{\" {{"));
                compare(&format!("a 7{text}{{\"}}"));
            }
        }
        assert_eq!(texts.len(), 14 * 14 * 14);
    }

    proptest! {
        #[test]
        fn and_in_longer_texts(pieces in prop::collection::vec(prop::sample::select(&PIECES[..]), 4..60)) {
            compare(&pieces.concat());
        }

        #[test]
        fn an_ordinary_text_has_nothing_to_refuse(start in 0usize..3, odd in any::<char>(), more in 0usize..40) {
            let long = "x".repeat(start * 2_040 + more);
            let text = format!("{long}{odd}{long}\n");
            let found = letters(FileId(0), &text);
            prop_assert!(found.is_none() || !is_ordinary(&text), "{found:?}");
        }
    }
}
