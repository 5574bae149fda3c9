//! Breaking text into lines, at places where a reader would. The lines are
//! filled by `textwrap`; here is what may not be torn.

use textwrap::WrapAlgorithm;
use textwrap::core::{Word, display_width};

/// The columns a text takes.
pub(super) fn columns(text: &str) -> usize {
    display_width(text)
}

/// Pieces that may not be broken, laid out in lines: the first holds `first`
/// columns, the others `rest`. A piece wider than a line gets its own.
pub(super) fn fill(pieces: &[String], first: usize, rest: usize) -> Vec<String> {
    let spaced: Vec<String> = pieces.iter().map(|piece| format!("{piece} ")).collect();
    let words: Vec<Word<'_>> = spaced.iter().map(|piece| Word::from(piece)).collect();
    let widths = [first, rest];
    let lines = WrapAlgorithm::FirstFit.wrap(&words, &widths).into_iter();
    let joined = lines.map(|line| line.iter().map(|word| word.word).collect::<Vec<_>>().join(" "));
    joined.collect()
}

/// A paragraph in lines of so many columns, what stands before the first and
/// the others included. What stands in backticks is kept whole.
pub(crate) fn paragraph(text: &str, width: usize, first: &str, rest: &str) -> Vec<String> {
    let room = |indent: &str| width.saturating_sub(columns(indent));
    let lines = fill(&words(text), room(first), room(rest)).into_iter().enumerate();
    lines
        .map(|(number, line)| format!("{}{line}", if number == 0 { first } else { rest }))
        .collect()
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
