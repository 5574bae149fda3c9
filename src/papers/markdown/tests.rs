#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that can't go on stops")]

use comrak::nodes::NodeValue;
use comrak::{Arena, Options, parse_document};
use proptest::prelude::*;

use super::{in_markdown, visible};

/// Where a text may stand: the shape, and what of it is not the text.
const PLACES: &[(&str, &str, &str)] = &[
    ("## ", "\n", ""),
    ("", "\n\nnext", "next"),
    ("- ", "\n  - under\n", "under"),
    ("- [ ] ", "\n", ""),
    ("> ", "\n", ""),
    ("> **Caution.** ", "\n", "Caution."),
    ("| ☐ | one |\n|---|---|\n| ☐ | ", " |\n", "☐one☐"),
];

const TEXTS: &[&str] = &[
    "@someone fixes #12 GH-7 https://evil.example/ www.evil.example &lt;img&gt; <b>x</b> |cell| \
     *x* _y_ ~z~ [a](b) ![i](u) :smile:",
    "@an-org/a-team, (@someone) `@someone` \\@someone @someone|@someone @a`b`@c",
    "owner/repo#12 owner/repo@0123abc 6dcb09b5b57875f334f61aebed695e2e4193db5e 38450ec",
    "mail@evil.example mailto:mail@evil.example xmpp:a@evil.example ftp://evil.example",
    "&amp; &copy &#64;someone &#x40; AT&T",
    "a.case:100:22: :+1:",
    "$x$ costs $1 and $2, $`y`$ $$z$$",
    "!12 %3 ~label &4 ^5",
    "# head ## ",
    "- x",
    "+ x",
    "* x",
    "1. x",
    "12) x",
    "=== x",
    "---",
    "> x",
    "    code",
    "~~~",
    "```",
    "[x] done",
    "[!NOTE]",
    "[^1]: x",
    "<!-- x -->",
    "<https://evil.example>",
    "a \\| b \\\\ c\\",
    "26-1/2 by 15-7/32~, 30% of 2 & 3",
];

#[test]
fn a_text_reads_as_it_is_and_leads_nowhere() {
    for text in TEXTS {
        is_text(text);
    }
}

#[test]
fn what_leads_nowhere_is_set_as_text() {
    assert_eq!(in_markdown("26-1/2 by 15-7/32~ & 30% x"), "26-1/2 by 15-7/32\\~ &amp; 30% x");
    let words = "high-gloss through-tenons rough-sawn high-2 gh-x";
    assert_eq!(in_markdown(words), words);
    assert_eq!(in_markdown("see GH-7 (gh-8)"), "see `GH-7` `(gh-8)`");
    // One letter of three bytes.
    assert_eq!(in_markdown("\u{3000}x"), "&#32;x");
    assert_eq!(in_markdown("made by @someone, #12"), "made by `@someone,` `#12`");
}

proptest! {
    #[test]
    fn any_text_reads_as_it_is(text in "([@#:$&;|`*_<>~!\\[\\]()\\\\. -]|[a-f0-9]|www|://|=|\\+){0,24}") {
        is_text(&text);
    }
}

/// Wherever it stands, a text is these letters and nothing else.
fn is_text(text: &str) {
    for (before, after, own) in PLACES {
        let markdown = format!("{before}{}{after}", in_markdown(text));
        let (told, open) = read(&markdown);
        let plain: String = visible(text).split_whitespace().collect();
        let wanted = match after.trim() {
            "next" | "- under" => format!("{plain}{own}"),
            _ => format!("{own}{plain}"),
        };
        assert_eq!(told, wanted, "{text:?} in {markdown:?}");
        let open: Vec<char> = open.chars().collect();
        for pair in open.windows(2) {
            let is_reference = matches!(pair, ['@' | '#' | '$', next] if next.is_alphanumeric());
            assert!(!is_reference, "{text:?} in {markdown:?}");
        }
    }
}

/// Every letter but spaces, as a reader with the habits of a code host has it;
/// and what of that is not code.
fn read(markdown: &str) -> (String, String) {
    let mut options = Options::default();
    options.extension.autolink = true;
    options.extension.table = true;
    options.extension.strikethrough = true;
    options.extension.tasklist = true;
    options.extension.footnotes = true;
    options.extension.alerts = true;
    options.extension.math_dollars = true;
    options.extension.math_code = true;
    options.parse.relaxed_autolinks = true;
    let arena = Arena::new();
    let (mut told, mut open) = (String::new(), String::new());
    for node in parse_document(&arena, markdown, &options).descendants() {
        match &node.data().value {
            NodeValue::Text(text) => {
                told.push_str(text);
                open.push_str(text);
            }
            NodeValue::Code(code) => {
                told.push_str(&code.literal);
                open.push(' ');
            }
            NodeValue::Document
            | NodeValue::Heading(_)
            | NodeValue::Paragraph
            | NodeValue::BlockQuote
            | NodeValue::List(_)
            | NodeValue::Item(_)
            | NodeValue::TaskItem(_)
            | NodeValue::Strong
            | NodeValue::Table(_)
            | NodeValue::TableRow(_)
            | NodeValue::TableCell => open.push(' '),
            other => panic!("{other:?} in {markdown:?}"),
        }
    }
    (told.split_whitespace().collect(), open)
}
