//! What is offered for a word or a value that is missing.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{Span, Unit};
use crate::syntax::{Item, Statement, statements};
use crate::vocabulary::blocks::{case, job};
use crate::vocabulary::example;
use crate::vocabulary::known::Known;
use crate::vocabulary::word::{Block, Body, Kind, Row, Slot};

/// A fix that adds a statement behind the last one before any braces, before the braces
/// that come first, or in an empty block.
pub(super) fn insert(
    items: &[Item],
    close: Span,
    (grade, title): (Grade, &str),
    example: &str,
) -> Fix {
    let has_braces = |statement: &&Statement| statement.block.is_some();
    let last = statements(items).take_while(|own| !has_braces(own)).last();
    let (at, text) = match (last, statements(items).find(has_braces)) {
        (Some(last), _) => (last.span.end, format!("; {example}")),
        (None, Some(first)) => (first.span.start, format!("{example}; ")),
        (None, None) => (close.start, format!(" {example}; ")),
    };
    let at = Span { start: at, end: at, ..close };
    Fix::new(grade, title, at, text)
}

/// So many names at most are offered one by one; more are listed.
const MOST_NAMES: usize = 4;

/// The names that a word may take.
pub(super) fn names<'k>(word: &Row, known: &'k Known) -> &'k [String] {
    word.takes.first().map_or(&[], |slot| known.for_kind(slot.kind))
}

/// The names that are offered one by one.
pub(super) fn offered(names: &[String]) -> impl Iterator<Item = &String> {
    names.iter().filter(|_| names.len() <= MOST_NAMES)
}

/// Lists the names where they are too many to be offered.
pub(super) fn listed(found: Diagnostic, names: &[String]) -> Diagnostic {
    match names.len() > MOST_NAMES {
        true => found.note(format!("the names in this job are {}", names.join(", "))),
        false => found,
    }
}

/// The edit that puts a name behind its word.
pub(super) fn named(word: &Row, name: &str, behind: Span) -> Fix {
    let title = format!("write `{} {name}`", word.word);
    Fix::new(Grade::Choice, title, behind, format!(" {name}"))
}

/// What is offered for a word that is missing: each of two choices, each of a few names,
/// else an example with a blank to fill.
pub(super) fn missing(
    block: &Block,
    word: &Row,
    names: &[String],
    unit: Unit,
    items: &[Item],
    close: Span,
) -> Vec<Fix> {
    // Which unit a file counts in is told by its figures, and one of the two is wrong.
    if let [Slot { kind: Kind::Choice(choices @ [_, _]), .. }] = word.takes
        && word.word != job::UNITS.spelling()
    {
        let written = choices.iter().map(|choice| format!("{} {}", word.word, choice.word));
        return written
            .map(|text| {
                let title = format!("write `{text}`");
                insert(items, close, (Grade::Choice, &title), &text)
            })
            .collect();
    }
    // Openings that stand in the case itself have no frame around them.
    if word.word == case::FRAME.spelling() && statements(items).any(is_list) {
        let none = "frame none";
        let title = "the case has no face frame";
        return vec![insert(items, close, (Grade::Choice, title), none)];
    }
    let offers: Vec<String> = offered(names).map(|name| format!("{} {name}", word.word)).collect();
    if !offers.is_empty() {
        let offer =
            |text: &String| insert(items, close, (Grade::Choice, &format!("write `{text}`")), text);
        return offers.iter().map(offer).collect();
    }
    let example = match names.first() {
        Some(name) => format!("{} {name}", word.word).into(),
        None => example::of(block, word, unit),
    };
    vec![insert(items, close, (Grade::Sketch, "write this, for example"), &example)]
}

/// True for a list of openings.
fn is_list(statement: &Statement) -> bool {
    [case::ACROSS.spelling(), case::DOWN.spelling()].contains(&statement.word.text())
}

/// What is offered where one of several words is missing: each of a few that take nothing
/// to fill in, and the first as an example where it does.
pub(super) fn one_of_missing(
    block: &Block,
    group: &[&str],
    unit: Unit,
    items: &[Item],
    close: Span,
) -> Vec<Fix> {
    let is_whole = |row: &Row| {
        matches!(row.body, Body::None)
            && row.takes.iter().all(|slot| matches!(slot.kind, Kind::Choice([_])))
    };
    let rows = || group.iter().filter_map(|word| block.word(word));
    let is_few = rows().filter(|row| is_whole(row)).count() <= MOST_NAMES;
    let offer = |(at, row): (usize, &Row)| {
        let text = example::of(block, row, unit);
        let is_whole = is_few && is_whole(row);
        match (is_whole, at) {
            (true, _) => {
                let title = format!("write `{text}`");
                Some(insert(items, close, (Grade::Choice, &title), &text))
            }
            (false, 0) => {
                Some(insert(items, close, (Grade::Sketch, "write this, for example"), &text))
            }
            (false, _) => None,
        }
    };
    rows().enumerate().filter_map(offer).collect()
}
