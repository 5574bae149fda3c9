//! What a spec says as text within Markdown: a code host shows these letters
//! and finds nothing in them that leads or calls anywhere.

use std::borrow::Cow;

use super::visible::visible;

/// Safe inside a Markdown heading, paragraph, list item or table cell.
pub(crate) fn in_markdown(text: &str) -> Cow<'_, str> {
    let text = visible(text);
    // White space and digits before a full stop mean something where a line
    // begins, and this text may be the first of one.
    let words = text.trim_start();
    let mut safe = String::new();
    for _ in text[..text.len() - words.len()].chars() {
        safe.push_str("&#32;");
    }
    let ordinal = words.bytes().take_while(u8::is_ascii_digit).count();
    let begins = |at: usize, c: char| match c {
        '-' | '+' | '=' => at == 0,
        '.' | ')' => at > 0 && at == ordinal,
        _ => false,
    };
    // Nearly every word stands for itself: they are copied many at a time.
    let (mut copied, mut from) = (0, 0);
    while let Some(rest) = words.as_bytes().get(from..) {
        let (size, signs) = Signs::of_first(rest);
        let (start, end) = (from, from + size);
        from = end + 1;
        let word = &words[start..end];
        let taken_up = is_taken_up(word, signs);
        let first = start == 0;
        let line_sign = first && word.char_indices().any(|(at, c)| begins(at, c));
        if !(taken_up || signs.escaped() || line_sign) {
            continue;
        }
        if copied == 0 {
            safe.reserve(text.len() * 2);
        }
        safe.push_str(&words[copied..start]);
        copied = end;
        if taken_up {
            code(&mut safe, word);
            continue;
        }
        for (at, c) in word.char_indices() {
            letter(&mut safe, c, first && begins(at, c));
        }
    }
    if safe.is_empty() {
        return text;
    }
    safe.push_str(&words[copied..]);
    Cow::Owned(safe)
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
struct Signs(u8);

impl Signs {
    /// One that [`letter`] escapes.
    const ESCAPED: u8 = 1;
    /// One that may begin a mention, a reference, a picture or a formula.
    const REFERS: u8 = 2;
    const HYPHEN: u8 = 4;
    const STOP: u8 = 8;
    /// Between two words.
    const SPACE: u8 = 16;

    /// What each byte is.
    const OF: [u8; 256] = {
        let mut of = [0; 256];
        let mut at = 0;
        while at < of.len() {
            of[at] = match at as u8 {
                b'&' | b'#' | b'~' => Self::ESCAPED | Self::REFERS,
                b'@' | b'$' | b'!' | b'%' | b'^' | b':' => Self::REFERS,
                b'`' | b'|' | b'\\' | b'*' | b'_' | b'<' | b'>' | b'[' | b']' => Self::ESCAPED,
                b'-' => Self::HYPHEN,
                b'.' => Self::STOP,
                b' ' => Self::SPACE,
                _ => 0,
            };
            at += 1;
        }
        of
    };

    /// Of the first word, and how many bytes that has.
    fn of_first(words: &[u8]) -> (usize, Self) {
        let mut all = 0;
        for (at, byte) in words.iter().enumerate() {
            let own = Self::OF[usize::from(*byte)];
            if own == Self::SPACE {
                return (at, Self(all));
            }
            all |= own;
        }
        (words.len(), Self(all))
    }

    fn escaped(self) -> bool {
        self.0 & Self::ESCAPED != 0
    }

    fn refers(self) -> bool {
        self.0 & Self::REFERS != 0
    }

    fn hyphen(self) -> bool {
        self.0 & Self::HYPHEN != 0
    }

    fn stop(self) -> bool {
        self.0 & Self::STOP != 0
    }
}

/// Whether a code host makes a link, a call, a picture or a formula of
/// something in this word (user guides of several hosts; from memory).
fn is_taken_up(word: &str, signs: Signs) -> bool {
    (signs.refers() && is_taken_up_for_a_sign(word))
        || (signs.stop() && has(word, "www."))
        || (signs.hyphen() && is_issue(word))
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
    // Of so many digits in a row one has a place that is so many times a whole number.
    let mut every = word.as_bytes().iter().skip(SHORT_COMMIT - 1).step_by(SHORT_COMMIT);
    if !every.any(u8::is_ascii_hexdigit) {
        return false;
    }
    // Long words are many, and so many of these digits in a row are rare.
    let mut row = 0;
    let mut long = |byte: u8| {
        row = if byte.is_ascii_hexdigit() { row + 1 } else { 0 };
        row >= SHORT_COMMIT
    };
    word.bytes().any(&mut long)
        && word
            .split(|c: char| !c.is_alphanumeric())
            .any(|run| run.len() >= SHORT_COMMIT && run.chars().all(|c| c.is_ascii_hexdigit()))
}

#[cfg(test)]
mod tests;
