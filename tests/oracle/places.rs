//! Places in a spec at which a hand may slip.

use std::ops::Range;

/// The lines of a text, with their ends.
pub(crate) fn lines(text: &str) -> Vec<Range<usize>> {
    let mut from = 0;
    let line = |line: &str| {
        from += line.len();
        from - line.len()..from
    };
    text.split_inclusive('\n').map(line).collect()
}

/// Words, figures and quoted texts; signs one by one. Comments are left alone.
pub(crate) fn tokens(text: &str) -> Vec<Range<usize>> {
    let word = |c: char| c.is_alphanumeric() || matches!(c, '-' | '/' | '.');
    let mut tokens: Vec<Range<usize>> = Vec::new();
    let (mut quoted, mut comment) = (false, false);
    for (at, c) in text.char_indices() {
        let end = at + c.len_utf8();
        if quoted {
            quoted = c != '"' && c != '\n';
            if let Some(last) = tokens.last_mut() {
                last.end = end;
            }
            continue;
        }
        comment = c == '#' || comment && c != '\n';
        match tokens.last_mut() {
            _ if comment || c.is_whitespace() => {}
            Some(last) if last.end == at && word(c) && text[last.clone()].ends_with(word) => {
                last.end = end;
            }
            _ => {
                // An inch mark stands behind a digit and opens no text.
                quoted = c == '"' && !text[..at].ends_with(|c: char| c.is_ascii_digit());
                tokens.push(at..end);
            }
        }
    }
    tokens
}
