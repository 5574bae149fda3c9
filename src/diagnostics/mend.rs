//! Fixes put to work: what they are called, and the texts they lead to.

use std::collections::BTreeMap;

use super::{Diagnostic, Edit, Fix, Sources};
use crate::measure::{FileId, Span, line_end};

/// A fix with the name that it is asked for by.
#[derive(Clone, Debug)]
pub struct NamedFix<'a> {
    /// Slug, line and number: `sizes-conflict:51:2`; the file stands before
    /// the line where it is not the spec itself.
    pub name: String,
    /// The finding that it mends: its place among those that were asked about.
    pub finding: usize,
    /// Its place among the fixes of its finding.
    pub index: usize,
    /// The fix.
    pub fix: &'a Fix,
}

/// Every fix of these findings under its name, in their order.
#[must_use]
pub fn named<'a>(sources: &Sources, diagnostics: &'a [Diagnostic]) -> Vec<NamedFix<'a>> {
    let mut counts: BTreeMap<String, usize> = BTreeMap::new();
    let mut all = Vec::new();
    for (finding, diagnostic) in diagnostics.iter().enumerate() {
        let span = diagnostic.primary.span;
        let line = sources.position(span).line;
        let place = match sources.get(span.file).filter(|_| span.file != FileId::default()) {
            Some(used) => format!("{}:{}:{line}", diagnostic.slug, used.name),
            None => format!("{}:{line}", diagnostic.slug),
        };
        for (index, fix) in diagnostic.fixes.iter().enumerate() {
            let number = counts.entry(place.clone()).or_default();
            *number += 1;
            all.push(NamedFix { name: format!("{place}:{number}"), finding, index, fix });
        }
    }
    all
}

/// What fixes lead to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Mended {
    /// The files that change, as they read afterwards.
    pub texts: BTreeMap<FileId, String>,
    /// How many fixes were made.
    pub made: usize,
}

/// Makes these fixes; one that touches what another has changed is left out.
#[must_use]
pub fn mend(sources: &Sources, fixes: &[&Fix]) -> Mended {
    let mut edits: BTreeMap<Span, &str> = BTreeMap::new();
    let mut made = 0;
    for fix in fixes {
        let fits = |edit: &Edit| is_there(sources, edit.span) && is_apart(&edits, edit.span);
        if !fix.edits.is_empty() && fix.edits.iter().all(fits) && is_plain(fix) {
            edits.extend(fix.edits.iter().map(|edit| (edit.span, edit.text.as_str())));
            made += 1;
        }
    }
    let mut texts: BTreeMap<FileId, String> = BTreeMap::new();
    // How far each file is written already.
    let mut written: BTreeMap<FileId, usize> = BTreeMap::new();
    for (span, text) in edits {
        let Some(source) = sources.get(span.file) else { continue };
        let at = written.entry(span.file).or_default();
        let mended = texts.entry(span.file).or_default();
        mended.push_str(source.text.get(*at..span.start as usize).unwrap_or_default());
        mended.push_str(&text.replace('\n', line_end(&source.text)));
        *at = span.end as usize;
    }
    for (file, mended) in &mut texts {
        let at = written.get(file).copied().unwrap_or_default();
        mended.push_str(sources.get(*file).and_then(|s| s.text.get(at..)).unwrap_or_default());
    }
    Mended { texts, made }
}

/// True for a place in a text that is there.
fn is_there(sources: &Sources, span: Span) -> bool {
    sources.get(span.file).is_some_and(|source| source.text.get(span.range()).is_some())
}

/// True where a place does not even touch those of other edits, which stand
/// in order and apart: then their neighbours tell.
fn is_apart(edits: &BTreeMap<Span, &str>, span: Span) -> bool {
    let before = edits.range(..=span).next_back().map(|(other, _)| *other);
    let behind = edits.range(span..).next().map(|(other, _)| *other);
    let touches =
        |other: Span| other.file == span.file && other.start <= span.end && span.start <= other.end;
    !before.into_iter().chain(behind).any(touches)
}

/// True where no two edits of one fix are of the same text or place.
fn is_plain(fix: &Fix) -> bool {
    let mut spans: Vec<Span> = fix.edits.iter().map(|edit| edit.span).collect();
    spans.sort_unstable();
    let apart = |pair: &[Span]| match pair {
        [one, next] => one.file != next.file || (one.end <= next.start && one != next),
        _ => true,
    };
    spans.windows(2).all(apart)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostics::Grade;

    fn sources(text: &str) -> Sources {
        let mut sources = Sources::new();
        sources.add("a.case", text);
        sources
    }

    fn fix(start: usize, end: usize, text: &str) -> Fix {
        Fix::new(Grade::Sure, "", Span::new(FileId(0), start, end), text)
    }

    #[test]
    fn fixes_that_touch_wait_for_another_round() {
        let sources = sources("abcdef");
        let (one, next, far) = (fix(0, 2, "X"), fix(2, 3, "Y"), fix(4, 4, "Z"));
        let mended = mend(&sources, &[&one, &next, &far]);
        assert_eq!(mended.made, 2);
        assert_eq!(mended.texts.get(&FileId(0)).map(String::as_str), Some("XcdZef"));
    }

    #[test]
    fn a_fix_is_made_whole_or_not_at_all() {
        let sources = sources("abcdef");
        let mut whole = fix(0, 1, "(");
        whole.edits.extend(fix(5, 6, ")").edits);
        let mended = mend(&sources, &[&fix(5, 5, "!"), &whole]);
        assert_eq!(mended.texts.get(&FileId(0)).map(String::as_str), Some("abcde!f"));
        for wrong in [fix(4, 9, ""), Fix { edits: vec![whole.edits[0].clone(); 2], ..whole }] {
            assert_eq!(mend(&sources, &[&wrong]), Mended::default());
        }
    }

    #[test]
    fn names_count_the_fixes_of_a_line() {
        let mut sources = sources("a\nb\n");
        let shop = sources.add("own/shop.case", "c\n");
        let at = |file, start: usize| {
            let fixes = vec![fix(0, 0, ""), fix(1, 1, "")];
            Diagnostic {
                fixes,
                ..Diagnostic::error("syntax", "", Span::new(file, start, start), "")
            }
        };
        let found = [at(FileId(0), 2), at(FileId(0), 3), at(shop, 0)];
        let all = named(&sources, &found);
        let places: Vec<[usize; 2]> = all.iter().map(|f| [f.finding, f.index]).collect();
        assert_eq!(places, [[0, 0], [0, 1], [1, 0], [1, 1], [2, 0], [2, 1]]);
        let names: Vec<String> = all.into_iter().map(|f| f.name).collect();
        let shared = ["syntax:2:1", "syntax:2:2", "syntax:2:3", "syntax:2:4"];
        assert_eq!(names[..4], shared);
        assert_eq!(names[4..], ["syntax:own/shop.case:1:1", "syntax:own/shop.case:1:2"]);
    }
}
