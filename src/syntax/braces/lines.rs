//! The lines of a text as far as braces and indents go.

use std::ops::Range;

use crate::syntax::limits::marks;

/// A brace.
#[derive(Clone, Copy, Debug)]
pub(super) struct Brace {
    /// Its byte.
    pub(super) at: usize,
    /// True for `{`.
    pub(super) opens: bool,
}

/// A line on which something stands besides a comment.
#[derive(Debug)]
pub(super) struct Line {
    /// What stands there, without the space before it, a comment, and the space before that.
    pub(super) code: Range<usize>,
    /// How many blanks stand before it.
    pub(super) indent: usize,
    /// The braces on it.
    pub(super) braces: Vec<Brace>,
}

impl Line {
    /// True where it begins with a closing brace.
    pub(super) fn starts_with_close(&self) -> bool {
        self.braces.first().is_some_and(|brace| !brace.opens && brace.at == self.code.start)
    }

    /// Where a word or a value on it ends, a brace, or the last of it.
    pub(super) fn ends(&self, text: &str) -> Vec<usize> {
        let code = text.get(self.code.clone()).unwrap_or("");
        let mut ends = Vec::new();
        let (mut quoted, mut last) = (false, ' ');
        for (at, c) in code.char_indices() {
            let parts = |c: char| c.is_whitespace() || matches!(c, ';' | '{' | '}');
            if !quoted && parts(c) && !last.is_whitespace() && !matches!(last, ';' | '{') {
                ends.push(self.code.start + at);
            }
            if c == '"' && (quoted || !last.is_ascii_digit()) {
                quoted = !quoted;
            }
            last = c;
        }
        ends.push(self.code.end);
        ends
    }
}

/// The lines of a text on which something stands.
pub(super) fn of(text: &str) -> Vec<Line> {
    let mut lines = Vec::new();
    let mut add = |from: usize, end: usize, braces: Vec<Brace>| {
        let all = text.get(from..end).unwrap_or("");
        let trimmed = all.trim_start_matches([' ', '\t', '\u{feff}']);
        let indent = all.len() - trimmed.len();
        let code = from + indent..from + indent + trimmed.trim_end().len();
        if !code.is_empty() {
            lines.push(Line { code, indent, braces });
        }
    };
    let (mut start, mut comment, mut braces) = (0, None, Vec::new());
    for (at, mark) in marks(text) {
        match mark {
            b'{' | b'}' => braces.push(Brace { at, opens: mark == b'{' }),
            b'#' => comment = Some(at),
            b'\n' | b'\r' => {
                add(start, comment.take().unwrap_or(at), std::mem::take(&mut braces));
                start = at + 1;
            }
            _ => {}
        }
    }
    add(start, comment.unwrap_or(text.len()), braces);
    lines
}

/// How many of these braces have no other that they fit: what closes nothing, and what is
/// never closed.
pub(super) fn unmatched(lines: &[Line]) -> (usize, usize) {
    let (mut strays, mut open) = (0, 0usize);
    for brace in lines.iter().flat_map(|line| &line.braces) {
        match (brace.opens, open) {
            (true, _) => open += 1,
            (false, 0) => strays += 1,
            (false, _) => open -= 1,
        }
    }
    (strays, open)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_has_its_indent_its_braces_and_the_ends_of_its_words() {
        let text = "a\n\n  # no\n  drawer \"b { c\" { high 5\"; d } # {\n}";
        let lines = of(text);
        let told: Vec<_> = lines.iter().map(|l| (l.indent, &text[l.code.clone()])).collect();
        assert_eq!(told, [(0, "a"), (2, "drawer \"b { c\" { high 5\"; d }"), (0, "}")]);
        let behind: Vec<&str> =
            lines[1].ends(text).iter().map(|end| &text[lines[1].code.start..*end]).collect();
        let whole = "drawer \"b { c\" { high 5\"; d }";
        let lens = [6, 14, 21, 24, 27, 29];
        assert_eq!(behind, lens.map(|len| whole.get(..len).unwrap()));
        assert!(!lines[1].starts_with_close() && lines[2].starts_with_close());
        assert_eq!(unmatched(&lines), (1, 0));
        assert_eq!(unmatched(&of("} { {")), (1, 2));
    }
}
