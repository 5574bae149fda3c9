//! What a spec says as text within Markdown: a code host shows these letters
//! and finds nothing in them that leads or calls anywhere.

use super::visible::visible;

/// Safe inside a Markdown heading, paragraph, list item or table cell.
pub(crate) fn in_markdown(text: &str) -> String {
    let text = visible(text);
    let mut safe = String::with_capacity(text.len() + 16);
    // White space and digits before a full stop mean something where a line
    // begins, and this text may be the first of one.
    let words = text.trim_start();
    safe.push_str(&"&#32;".repeat(text.chars().take_while(|c| c.is_whitespace()).count()));
    let ordinal = words.len() - words.trim_start_matches(|c: char| c.is_ascii_digit()).len();
    for (index, word) in words.split(' ').enumerate() {
        if index > 0 {
            safe.push(' ');
        }
        let signs = Signs::of(word);
        if is_taken_up(word, signs) {
            code(&mut safe, word);
            continue;
        }
        if index > 0 && !signs.escaped {
            safe.push_str(word);
            continue;
        }
        for (at, c) in word.char_indices() {
            let begins = index == 0
                && match c {
                    '-' | '+' | '=' => at == 0,
                    '.' | ')' => at > 0 && at == ordinal,
                    _ => false,
                };
            letter(&mut safe, c, begins);
        }
    }
    safe
}

fn letter(safe: &mut String, c: char, begins: bool) {
    match c {
        '&' => safe.push_str("&amp;"),
        // Escaped it would still close a piece of code that began before it.
        '`' => safe.push_str("&#96;"),
        '|' | '\\' | '*' | '_' | '<' | '>' | '[' | ']' | '#' | '~' => {
            safe.push('\\');
            safe.push(c);
        }
        c => {
            if begins {
                safe.push('\\');
            }
            safe.push(c);
        }
    }
}

/// The word as code. Code hosts look for mentions and references in the page
/// that Markdown became, where an escaped letter is a letter like any other;
/// only code they pass over. Two characters can't stand in it everywhere.
fn code(safe: &mut String, word: &str) {
    for piece in word.split_inclusive(['`', '|']) {
        let plain = piece.trim_end_matches(['`', '|']);
        if !plain.is_empty() {
            safe.push('`');
            safe.push_str(plain);
            safe.push('`');
        }
        for c in piece[plain.len()..].chars() {
            letter(safe, c, false);
        }
    }
}

/// The signs in a word. Most words have none, and every paper is full of
/// them: one look at each letter says what else need not be looked for.
#[derive(Clone, Copy, Default)]
struct Signs {
    /// One that [`letter`] escapes.
    escaped: bool,
    /// One that may begin a mention, a reference, a picture or a formula.
    refers: bool,
    hyphen: bool,
    stop: bool,
}

impl Signs {
    fn of(word: &str) -> Self {
        let mut signs = Self::default();
        for byte in word.bytes().filter(|byte| !byte.is_ascii_alphanumeric()) {
            match byte {
                b'&' | b'#' | b'~' => (signs.escaped, signs.refers) = (true, true),
                b'@' | b'$' | b'!' | b'%' | b'^' | b':' => signs.refers = true,
                b'`' | b'|' | b'\\' | b'*' | b'_' | b'<' | b'>' | b'[' | b']' => {
                    signs.escaped = true;
                }
                b'-' => signs.hyphen = true,
                b'.' => signs.stop = true,
                _ => {}
            }
        }
        signs
    }
}

/// Whether a code host makes a link, a call, a picture or a formula of
/// something in this word (user guides of several hosts; from memory).
fn is_taken_up(word: &str, signs: Signs) -> bool {
    (signs.refers && is_taken_up_for_a_sign(word))
        || (signs.stop && has(word, "www."))
        || (signs.hyphen && is_issue(word))
        || is_commit(word)
}

fn is_taken_up_for_a_sign(word: &str) -> bool {
    let refers = |(sign, next): (char, char)| {
        matches!(sign, '#' | '!' | '&' | '%' | '^' | '~') && next.is_alphanumeric()
    };
    (word.contains(['@', '$']) && word.len() > 1)
        || word.chars().zip(word.chars().skip(1)).any(refers)
        || word.contains("://")
        || is_picture(word)
}

/// True for a word that holds these letters, large or small.
fn has(word: &str, letters: &str) -> bool {
    let size = letters.len();
    word.as_bytes().windows(size).any(|part| part.eq_ignore_ascii_case(letters.as_bytes()))
}

/// `GH-12` by itself. Within a word, as in `high-gloss`, the letters say nothing.
fn is_issue(word: &str) -> bool {
    word.as_bytes().windows(4).enumerate().any(|(at, part)| {
        part[..3].eq_ignore_ascii_case(b"gh-")
            && part[3].is_ascii_digit()
            && !word[..at].ends_with(char::is_alphanumeric)
    })
}

/// The name of a small picture between two colons.
fn is_picture(word: &str) -> bool {
    let is_name = |name: &str| {
        !name.is_empty()
            && name.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '_' | '+' | '-'))
    };
    let mut between = word.split(':').skip(1).peekable();
    std::iter::from_fn(|| between.next().filter(|_| between.peek().is_some())).any(is_name)
}

/// The least number of digits by which a commit is known.
const SHORT_COMMIT: usize = 7;

fn is_commit(word: &str) -> bool {
    word.len() >= SHORT_COMMIT
        && word
            .split(|c: char| !c.is_alphanumeric())
            .any(|run| run.len() >= SHORT_COMMIT && run.chars().all(|c| c.is_ascii_hexdigit()))
}

#[cfg(test)]
mod tests;
