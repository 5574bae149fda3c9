//! Whether what a spec says came out as text and as nothing else.

/// Characters that act on a terminal or on the order of letters, written down
/// here from the Unicode standard (general category Cc; the directional
/// formatting characters of annex 9; line and paragraph separators), not
/// taken from the compiler.
fn acts(c: char) -> bool {
    (c.is_control() && c != '\n')
        || matches!(c, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}')
        || matches!(c, '\u{2066}'..='\u{2069}' | '\u{feff}')
}

/// Nothing in the text acts on a terminal.
pub(crate) fn is_shown(text: &str) {
    let at = text.find(acts);
    let around = at.map(|at| text[..at].chars().rev().take(60).collect::<Vec<_>>());
    let around: Option<String> = around.map(|letters| letters.into_iter().rev().collect());
    assert!(at.is_none(), "U+{:04X} behind `{}`", char_at(text, at), around.unwrap_or_default());
}

fn char_at(text: &str, at: Option<usize>) -> u32 {
    at.and_then(|at| text[at..].chars().next()).map_or(0, u32::from)
}

/// Elements that a page has, drawings and the style sheet included.
const ELEMENTS: &[&str] = &[
    "!doctype",
    "a",
    "article",
    "b",
    "body",
    "br",
    "caption",
    "circle",
    "code",
    "col",
    "colgroup",
    "dd",
    "defs",
    "desc",
    "details",
    "div",
    "dl",
    "dt",
    "ellipse",
    "em",
    "figcaption",
    "figure",
    "footer",
    "g",
    "h1",
    "h2",
    "h3",
    "h4",
    "head",
    "header",
    "html",
    "i",
    "kbd",
    "li",
    "line",
    "main",
    "marker",
    "mark",
    "meta",
    "nav",
    "ol",
    "p",
    "path",
    "pattern",
    "polygon",
    "polyline",
    "pre",
    "rect",
    "section",
    "small",
    "span",
    "strong",
    "style",
    "sub",
    "summary",
    "sup",
    "svg",
    "table",
    "tbody",
    "td",
    "text",
    "tfoot",
    "th",
    "thead",
    "title",
    "tr",
    "tspan",
    "ul",
    "use",
];

/// A page holds the elements that its template has, each tag whole, and none
/// that runs, loads or leads elsewhere.
pub(crate) fn html_is_text(page: &str) {
    let mut rest = page;
    while let Some(at) = rest.find('<') {
        rest = &rest[at + 1..];
        let end = rest.find('>').expect("a tag ends");
        let tag = &rest[..end];
        rest = &rest[end + 1..];
        let name: String = tag
            .trim_start_matches('/')
            .chars()
            .take_while(|c| c.is_ascii_alphanumeric() || *c == '!')
            .collect::<String>()
            .to_ascii_lowercase();
        assert!(ELEMENTS.contains(&name.as_str()), "<{tag}>");
        assert!(!tag.contains('<'), "<{tag}>");
        let low = tag.to_ascii_lowercase();
        assert!(
            !low.contains("javascript:") && !low.contains("://") || low.contains("xmlns"),
            "<{tag}>"
        );
        assert!(tag.matches('"').count().is_multiple_of(2), "<{tag}>");
        assert!(!without_values(&low).contains(" on"), "<{tag}>");
    }
}

/// The tag without what stands in quotes.
fn without_values(tag: &str) -> String {
    tag.split('"').step_by(2).collect()
}

/// Every row has the columns of the first, and no cell begins as a formula
/// does in a spreadsheet (OWASP, CSV injection: `=`, `+`, `-`, `@`, tab,
/// carriage return; from memory).
pub(crate) fn csv_is_text(text: &str) {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    for row in reader.records() {
        for cell in &row.expect("a row as long as the first") {
            assert!(!cell.starts_with(['=', '+', '-', '@', '\t', '\r']), "{cell}");
        }
    }
}
