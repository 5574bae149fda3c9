//! Mends as they are printed: those on offer, and the lines they changed.

use std::fmt::Write as _;

use similar::{ChangeTag, TextDiff};

use crate::diagnostics::render::{self, Look};
use crate::diagnostics::{NamedFix, Sources};
use crate::measure::FileId;

/// One line a fix: its name, how sure it is, what will stand there, and why.
pub(super) fn list(sources: &Sources, all: &[NamedFix<'_>], look: Look) -> String {
    let rows: Vec<[String; 3]> = all
        .iter()
        .map(|named| {
            let edit = render::mending(sources, named.fix, FileId::default(), look);
            [render::plain(&named.name), edit, render::plain(&named.fix.title)]
        })
        .collect();
    let columns = |text: &str| text.chars().count();
    let widest = |i: usize| {
        rows.iter().filter_map(|row| row.get(i)).map(|cell| columns(cell)).max().unwrap_or(0)
    };
    let (names, edits) = (widest(0), widest(1));
    let mut text = String::new();
    for ([name, edit, title], named) in rows.iter().zip(all) {
        let grade = named.fix.grade.word();
        let row = format!("{name:<names$}  {grade:<6}  {edit:<edits$}  {title}");
        let _ = writeln!(text, "{}", row.trim_end());
    }
    text
}

/// The lines of a file that are gone and those that stand in their place.
pub(super) fn changes(name: &str, old: impl AsRef<str>, new: impl AsRef<str>) -> String {
    let (old, new) = (old.as_ref(), new.as_ref());
    let diff = TextDiff::from_lines(old, new);
    let last = old.lines().count().max(new.lines().count());
    let wide = last.to_string().len();
    let mut text = format!("{}\n", render::plain(name));
    for change in diff.iter_all_changes() {
        let (sign, index) = match change.tag() {
            ChangeTag::Equal => continue,
            ChangeTag::Delete => ('-', change.old_index()),
            ChangeTag::Insert => ('+', change.new_index()),
        };
        let line = index.unwrap_or_default() + 1;
        let value = render::plain(change.value().trim_end_matches(['\n', '\r']));
        let _ = writeln!(text, "  {line:>wide$} {sign} {value}");
    }
    text
}
