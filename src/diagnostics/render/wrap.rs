//! Breaking text into lines, at places where a reader would.

use unicode_width::UnicodeWidthStr;

/// The columns a text takes.
pub(super) fn columns(text: &str) -> usize {
    text.width()
}

/// Pieces that may not be broken, laid out in lines: the first holds `first`
/// columns, the others `rest`. A piece wider than a line gets its own.
pub(super) fn fill(pieces: &[String], first: usize, rest: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for piece in pieces {
        let room = if lines.is_empty() { first } else { rest };
        if line.is_empty() {
            line.clone_from(piece);
        } else if columns(&line) + 1 + columns(piece) <= room {
            line.push(' ');
            line.push_str(piece);
        } else {
            lines.push(std::mem::replace(&mut line, piece.clone()));
        }
    }
    lines.push(line);
    lines
}

/// A sentence in pieces: words, with whatever stands in backticks kept whole.
pub(super) fn words(text: &str) -> Vec<String> {
    let mut pieces: Vec<String> = Vec::new();
    let mut quoted = false;
    let mut open = false;
    for c in text.chars() {
        if c == '`' {
            quoted = !quoted;
        }
        if c == ' ' && !quoted {
            open = false;
        } else if open {
            if let Some(last) = pieces.last_mut() {
                last.push(c);
            }
        } else {
            pieces.push(c.to_string());
            open = true;
        }
    }
    pieces
}

/// A line of arithmetic in pieces: each term with the sign before it.
pub(super) fn terms(text: &str) -> Vec<String> {
    let mut pieces: Vec<String> = Vec::new();
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        match pieces.last_mut() {
            Some(last) if !matches!(word, "+" | "−" | "-" | "=" | "/") => {
                last.push(' ');
                last.push_str(word);
            }
            _ => pieces.push(word.to_owned()),
        }
    }
    pieces
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_term_keeps_its_sign_and_its_name() {
        let pieces = terms("33 high − 4 base − 1-1/2 top rail = 27-1/2");
        assert_eq!(pieces, ["33 high", "− 4 base", "− 1-1/2 top rail", "= 27-1/2"]);
        assert_eq!(fill(&pieces, 20, 20), ["33 high − 4 base", "− 1-1/2 top rail", "= 27-1/2"]);
    }

    #[test]
    fn code_is_not_broken() {
        assert_eq!(words("write `high 9` here"), ["write", "`high 9`", "here"]);
        assert_eq!(fill(&words("write `high 9` here"), 9, 9), ["write", "`high 9`", "here"]);
    }

    #[test]
    fn nothing_makes_one_empty_line() {
        assert_eq!(fill(&words(""), 10, 10), [""]);
    }
}
