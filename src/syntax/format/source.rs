//! Columns as they stood in the source.

use std::borrow::Cow;

use unicode_width::UnicodeWidthChar as _;

use crate::measure::Span;
use crate::syntax::tree::{Argument, Item, Statement, Tree};

/// Columns of a piece of the source; a tab leads to the next eighth column.
pub(super) fn columns(text: &str) -> usize {
    text.chars().fold(0, |at, c| match c {
        '\t' => (at / 8 + 1) * 8,
        c => at + c.width().unwrap_or(0),
    })
}

/// The source with a space in place of each tab within a text: such a tab aligns
/// nothing, and its columns would change with the place the text is moved to.
pub(super) fn plain_tabs<'a>(text: &'a str, tree: &Tree) -> Cow<'a, str> {
    let mut texts = Vec::new();
    if text.contains('\t') {
        tree.items.iter().for_each(|item| gather(item, &mut texts));
    }
    let mut plain = Cow::Borrowed(text);
    for span in texts {
        if let Some(written) = text.get(span.range()).filter(|written| written.contains('\t')) {
            plain.to_mut().replace_range(span.range(), &written.replace('\t', " "));
        }
    }
    plain
}

fn gather(item: &Item, texts: &mut Vec<Span>) {
    let Item::Statement(Statement { arguments, block, .. }) = item else { return };
    let spans = arguments.iter().filter(|argument| matches!(argument, Argument::Text { .. }));
    texts.extend(spans.map(Argument::span));
    let items = block.iter().flat_map(|block| &block.items);
    items.for_each(|item| gather(item, texts));
}
