//! What is said of a word that stands twice where it may stand once.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::Span;
use crate::syntax::Item;
use crate::vocabulary::entries::Entry;
use crate::vocabulary::value::Value;

/// The finding, with an edit that takes out either of the two.
pub(super) fn twice(first: &Entry, second: &Entry, items: &[Item]) -> Diagnostic {
    let found = Diagnostic::error(
        "word-twice",
        format!("`{}` is written twice", second.word.word),
        second.head,
        "written again here",
    )
    .label(first.head, "written here first");
    let again = without(items, second.head);
    // Where both say the same, either may go.
    let said = |entry: &Entry| -> Vec<Option<Value>> {
        entry.values.iter().map(|own| own.as_ref().map(|own| own.value.clone())).collect()
    };
    if said(first) == said(second) {
        let fix = again.map(|span| Fix::new(Grade::Sure, "leave it out here", span, ""));
        return fix.into_iter().fold(found, Diagnostic::fix);
    }
    let both =
        [(again, "the first one holds"), (without(items, first.head), "the second one holds")];
    let fixes = both.into_iter().filter_map(|(span, title)| Some((span?, title)));
    fixes.fold(found, |found, (span, title)| found.fix(Fix::new(Grade::Choice, title, span, "")))
}

/// What goes with a statement that is taken out: all up to the next one, or from the one
/// before it, where no comment lies between. `None` where it has braces, which say more.
fn without(items: &[Item], head: Span) -> Option<Span> {
    let place = items.iter().position(
        |item| matches!(item, Item::Statement(own) if own.head() == head && own.block.is_none()),
    )?;
    let statement = |at: Option<usize>| match items.get(at?)? {
        Item::Statement(own) => Some(own),
        Item::Comment(_) | Item::Blank => None,
    };
    let own = statement(Some(place))?;
    let before = statement(place.checked_sub(1)).filter(|it| it.comment.is_none());
    if let Some(before) = before {
        return Some(Span { start: before.span.end, ..own.span });
    }
    let next = statement(Some(place + 1)).filter(|_| own.comment.is_none());
    Some(next.map_or(own.span, |next| Span { end: next.span.start, ..own.span }))
}
