//! A fix as a maker reads it: the line, and what the statement there will say.

use std::ops::Range;

use super::Look;
use super::visible::visible;
use crate::diagnostics::{Edit, Fix, Source, Sources};
use crate::measure::FileId;

/// The longest statement that is printed whole, in characters.
const LONGEST: usize = 72;

/// Where and what: ``line 98: `high 9` ``. Names the file where it is not `home`.
#[must_use]
pub fn describe(sources: &Sources, fix: &Fix, home: FileId, look: Look) -> String {
    let mut edits: Vec<&Edit> = fix.edits.iter().collect();
    edits.sort_by_key(|edit| edit.span);
    let together = |left: &&Edit, right: &&Edit| {
        left.span.file == right.span.file
            && sources.end_position(left.span).line == sources.position(right.span).line
    };
    let changes: Vec<String> =
        edits.chunk_by(together).filter_map(|group| change(sources, group, home, look)).collect();
    changes.join(", ")
}

/// Edits on one line, or that hang together over several.
fn change(sources: &Sources, edits: &[&Edit], home: FileId, look: Look) -> Option<String> {
    let (first, last) = (edits.first()?, edits.last()?);
    let source = sources.get(first.span.file)?;
    let line = sources.position(first.span).line;
    let place = if first.span.file == home {
        format!("line {line}")
    } else {
        format!("{} line {line}", visible(&source.name, look.unicode))
    };
    if let [edit] = edits
        && edit.span.range().is_empty()
        && is_statement(&edit.text)
    {
        return Some(format!("{place}: add {}", code(&edit.text, look)));
    }
    let around = statement(source, first.span.start as usize..last.span.end as usize)?;
    let mut after = String::new();
    let mut at = around.start;
    for edit in edits {
        after.push_str(source.text.get(at..edit.span.start as usize).unwrap_or(""));
        after.push_str(&edit.text);
        at = edit.span.end as usize;
    }
    after.push_str(source.text.get(at..around.end).unwrap_or(""));
    if after.trim().is_empty() {
        let gone = source.text.get(around)?;
        return Some(format!("{place}: take out {}", code(gone, look)));
    }
    Some(format!("{place}: {}", code(&after, look)))
}

/// True for an insertion that is a statement of its own.
fn is_statement(text: &str) -> bool {
    let text = text.trim_matches(' ');
    text.starts_with([';', '\n']) || text.ends_with([';', '\n'])
}

/// The bytes of the statement round an edit: up to the nearest brace,
/// semicolon, comment or line end outside quoted text.
fn statement(source: &Source, edit: Range<usize>) -> Option<Range<usize>> {
    let text: &str = &source.text;
    let line_start = text.get(..edit.start)?.rfind('\n').map_or(0, |at| at + 1);
    let mut quotes = Quotes::default();
    let mut start = line_start;
    for (at, c) in text.get(line_start..edit.start)?.char_indices() {
        if !quotes.inside(c) && matches!(c, '{' | '}' | ';') {
            start = line_start + at + 1;
        }
    }
    for c in text.get(edit.clone())?.chars() {
        quotes.inside(c);
    }
    let rest = text.get(edit.end..)?;
    let stop = |(at, c): (usize, char)| {
        let ends = !quotes.inside(c) && matches!(c, '{' | '}' | ';' | '#');
        (ends || c == '\n').then_some(edit.end + at)
    };
    let end = rest.char_indices().find_map(stop).unwrap_or(text.len());
    Some(start..end)
}

/// Follows quoted text through a line.
#[derive(Default)]
struct Quotes {
    open: bool,
    escaped: bool,
}

impl Quotes {
    /// True where this character belongs to quoted text.
    fn inside(&mut self, c: char) -> bool {
        let was_open = self.open;
        let was_escaped = std::mem::take(&mut self.escaped);
        match c {
            '\n' => self.open = false,
            '\\' if self.open && !was_escaped => self.escaped = true,
            '"' if !was_escaped => self.open = !self.open,
            _ => {}
        }
        was_open || self.open
    }
}

/// Statements on one line, in backticks.
fn code(text: &str, look: Look) -> String {
    let mut line = String::new();
    for part in text.lines().map(str::trim).filter(|part| !part.is_empty()) {
        if !(line.is_empty() || line.ends_with(['{', ';']) || part.starts_with('}')) {
            line.push(';');
        }
        if !line.is_empty() {
            line.push(' ');
        }
        line.push_str(&single_spaced(part));
    }
    let shown = visible(line.trim_matches([';', ' ']), look.unicode);
    if shown.chars().count() <= LONGEST {
        return format!("`{shown}`");
    }
    let kept: String = shown.chars().take(LONGEST).collect();
    format!("`{}{}`", kept.trim_end(), look.ellipsis())
}

/// The statement without the spaces that only align it with its neighbours.
fn single_spaced(text: &str) -> String {
    let mut quotes = Quotes::default();
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            ' ' | '\t' if !quotes.open => {
                if !out.ends_with(' ') {
                    out.push(' ');
                }
            }
            c => {
                quotes.inside(c);
                out.push(c);
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostics::Grade;
    use crate::measure::Span;

    /// The description of edits given as (old text, new text); an old text
    /// that ends in `|` stands for the place behind it.
    fn mended(text: &str, edits: &[(&str, &str)]) -> String {
        let mut sources = Sources::new();
        let file = sources.add("a.case", text);
        let edits = edits
            .iter()
            .map(|(old, new)| {
                let (at, length) = match old.strip_suffix('|') {
                    Some(before) => (text.find(before).unwrap() + before.len(), 0),
                    None => (text.find(old).unwrap(), old.len()),
                };
                Edit { span: Span::new(file, at, at + length), text: (*new).to_owned() }
            })
            .collect();
        let fix = Fix { title: String::new(), grade: Grade::Choice, edits };
        describe(&sources, &fix, file, Look::plain())
    }

    const SPEC: &str = "case a {\n  drawer b { high 9-1/32; wide 4 } # \"b\n  note \"x; {\"\n}\n";

    #[test]
    fn shows_the_whole_statement_as_it_will_read() {
        assert_eq!(mended(SPEC, &[("9-1/32", "9")]), "line 2: `high 9`");
        assert_eq!(mended(SPEC, &[("4", "5")]), "line 2: `wide 5`");
        assert_eq!(mended(SPEC, &[("x; {", "y")]), "line 3: `note \"y\"`");
        assert_eq!(mended(SPEC, &[("drawer", "open")]), "line 2: `open b`");
        let aligned = mended("rail   top\t{ note \"a  b\" }\n", &[("top", "foot")]);
        assert_eq!(aligned, "line 1: `rail foot`");
    }

    #[test]
    fn several_edits_are_all_shown() {
        let both = mended(SPEC, &[("9-1/32", "9"), ("4", "5")]);
        assert_eq!(both, "line 2: `high 9; wide 5`");
        let apart = mended(SPEC, &[("case a", "case c"), ("high 9-1/32", "share 1")]);
        assert_eq!(apart, "line 1: `case c`, line 2: `share 1`");
    }

    #[test]
    fn additions_and_removals_say_so() {
        let lines = mended(SPEC, &[("case a {|", "\n  deep 4\n  high 2\n")]);
        assert_eq!(lines, "line 1: add `deep 4; high 2`");
        assert_eq!(mended(SPEC, &[("b {|", " share 1;")]), "line 2: add `share 1`");
        assert_eq!(mended(SPEC, &[("wide 4", "")]), "line 2: take out `wide 4`");
    }

    #[test]
    fn another_file_is_named() {
        let mut sources = Sources::new();
        let home = sources.add("a.case", "use \"shop.case\"\n");
        let shop = sources.add("shop.case", "shop { kerf 1/8 }\n");
        let fix = Fix::new(Grade::Choice, "", Span::new(shop, 12, 15), "3/32");
        let text = describe(&sources, &fix, home, Look::plain());
        assert_eq!(text, "shop.case line 1: `kerf 3/32`");
    }
}
