//! Whether Markdown holds text and what its template lays out, nothing else.

use comrak::nodes::NodeValue;
use comrak::{Arena, Options, parse_document};

/// Read as a code host reads it, nothing leads elsewhere, calls anybody or is
/// markup of its own. What a host looks for in the text after Markdown is done
/// with it (mentions, issues), it leaves alone in code.
pub(crate) fn markdown_is_text(markdown: &str) {
    let mut options = Options::default();
    options.extension.autolink = true;
    options.extension.table = true;
    options.extension.strikethrough = true;
    options.extension.tasklist = true;
    options.extension.footnotes = true;
    options.extension.alerts = true;
    options.extension.math_dollars = true;
    options.parse.relaxed_autolinks = true;
    let arena = Arena::new();
    for node in parse_document(&arena, markdown, &options).descendants() {
        match &node.data().value {
            NodeValue::Text(text) => {
                let letters: Vec<char> = text.chars().collect();
                let calls =
                    |pair: &[char]| matches!(pair, ['@' | '#', next] if next.is_alphanumeric());
                assert!(!letters.windows(2).any(calls), "{text}");
            }
            NodeValue::Document
            | NodeValue::Heading(_)
            | NodeValue::Paragraph
            | NodeValue::BlockQuote
            | NodeValue::List(_)
            | NodeValue::Item(_)
            | NodeValue::TaskItem(_)
            | NodeValue::Code(_)
            | NodeValue::Strong
            | NodeValue::Emph
            | NodeValue::SoftBreak
            | NodeValue::Table(_)
            | NodeValue::TableRow(_)
            | NodeValue::TableCell => {}
            other => panic!("{other:?}"),
        }
    }
}
