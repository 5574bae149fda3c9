//! What a spec says as text within Markdown: a code host shows these letters
//! and finds nothing in them that leads or calls anywhere.

use super::emit::visible;

/// Safe inside a Markdown heading, paragraph, list item or table cell.
pub(crate) fn in_markdown(text: &str) -> String {
    let text = visible(text);
    let mut safe = String::with_capacity(text.len() + 16);
    // White space and digits before a full stop mean something where a line
    // begins, and this text may be the first of one.
    let words = text.trim_start();
    safe.push_str(&"&#32;".repeat(text.len() - words.len()));
    let ordinal = words.len() - words.trim_start_matches(|c: char| c.is_ascii_digit()).len();
    for (index, word) in words.split(' ').enumerate() {
        if index > 0 {
            safe.push(' ');
        }
        if is_taken_up(word) {
            code(&mut safe, word);
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

/// Whether a code host makes a link, a call, a picture or a formula of
/// something in this word (user guides of several hosts; from memory).
fn is_taken_up(word: &str) -> bool {
    let low = word.to_ascii_lowercase();
    let chars: Vec<char> = low.chars().collect();
    let refers = |pair: &[char]| matches!(pair, ['#' | '!' | '&' | '%' | '^' | '~', next] if next.is_alphanumeric());
    (word.contains(['@', '$']) && word.len() > 1)
        || chars.windows(2).any(refers)
        || low.contains("://")
        || low.contains("www.")
        || low.contains("gh-")
        || is_picture(&low)
        || is_commit(&low)
}

/// The name of a small picture between two colons.
fn is_picture(low: &str) -> bool {
    let is_name = |name: &str| {
        !name.is_empty()
            && name.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '_' | '+' | '-'))
    };
    let mut between = low.split(':').skip(1).peekable();
    std::iter::from_fn(|| between.next().filter(|_| between.peek().is_some())).any(is_name)
}

/// The least number of digits by which a commit is known.
const SHORT_COMMIT: usize = 7;

fn is_commit(low: &str) -> bool {
    low.split(|c: char| !c.is_alphanumeric())
        .any(|run| run.len() >= SHORT_COMMIT && run.chars().all(|c| c.is_ascii_hexdigit()))
}

#[cfg(test)]
mod tests;
