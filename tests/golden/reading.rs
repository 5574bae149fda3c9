//! What a paper says, whatever its format: its words and figures in the order
//! in which they stand, with its headings, settings, boxes, notes and drawings.
//! Capitals and the punctuation behind a word are the format's own affair.

use comrak::nodes::{AstNode, NodeValue};
use comrak::{Arena, Options, parse_document};

/// What stands before the words of a heading, a setting of a tool, a note, a
/// warning, and what a drawing shows.
const HEADING: &str = " == ";
const SETTING: &str = " >> ";
const NOTE: &str = " note ";
const CAUTION: &str = " caution ";
const DRAWING: &str = " drawing ";
const OPEN: &str = " ☐ ";
const TICKED: &str = " ☑ ";

/// Words as they are compared, rules to write on left out.
fn words(said: &str) -> Vec<String> {
    said.split_whitespace()
        .map(|word| word.trim_end_matches(['.', ',', ';', ':', '_']).to_lowercase())
        .filter(|word| !word.is_empty() && word != "·")
        .collect()
}

/// Plain text.
pub(super) fn text(paper: &str) -> Vec<String> {
    let mut said = String::new();
    for line in paper.lines() {
        let starts = [
            ("== ", HEADING),
            (">> ", SETTING),
            ("Note: ", NOTE),
            ("! ", CAUTION),
            ("(drawing on the page: ", DRAWING),
        ];
        let start =
            starts.iter().find_map(|(start, sign)| Some((line.strip_prefix(start)?, *sign)));
        let (rest, sign) = start.unwrap_or((line, " "));
        said.push_str(sign);
        said.push_str(match sign {
            HEADING => rest.trim_end_matches(" =="),
            DRAWING => rest.trim_end_matches(')'),
            _ => rest,
        });
    }
    words(&said.replace("[ ]", OPEN).replace("[x]", TICKED))
}

/// The words that a page repeats at its foot: the job, its revision and the
/// digits of its texts.
pub(super) fn job(paper: &str) -> Vec<String> {
    words(paper.lines().nth(1).unwrap_or(""))
}

/// A page, from its body on.
pub(super) fn html(page: &str) -> Vec<String> {
    let page = without_drawings(page);
    let (_, body) = page.split_once("<body>").expect("a body");
    // The way to the other papers is said by no text.
    let (head, behind) = body.split_once("<nav").expect("the way to the others");
    let body = [head, behind.split_once("</nav>").expect("its end").1].concat();
    let mut rest = &body[..];
    let mut said = String::new();
    // What is said a second time: captions, and a setting farther up.
    let (mut aside, mut asides) = (None, Vec::new());
    while let Some((text, tag)) = rest.split_once('<') {
        let (tag, behind) = tag.split_once('>').expect("a tag ends");
        said.push_str(text);
        rest = behind;
        let name = tag.split(' ').next().unwrap_or(tag).trim_start_matches('/');
        if tag == "caption" || tag == "tr class=\"again\"" {
            aside = Some(said.len());
        } else if matches!(tag, "/caption" | "/tr")
            && let Some(at) = aside.take()
        {
            asides.push(said.split_off(at));
        }
        match tag {
            // The head of a list of checks is none in the text.
            "h2" if rest.starts_with("Check<") => said.push(' '),
            "h2" => said.push_str(HEADING),
            "h2 class=\"big\"" | "h3 class=\"big\"" => said.push_str(SETTING),
            "p class=\"note\"" => said.push_str(NOTE),
            "figcaption" => said.push_str(DRAWING),
            // `26` and the fraction behind it.
            "span class=\"fr\"" if rest.starts_with(' ') => {
                said.push('-');
                rest = &rest[1..];
            }
            _ if tag.starts_with("span class=\"box\"") => said.push_str(OPEN),
            _ if tag.starts_with("span class=\"box done\"") => said.push_str(TICKED),
            _ if ["b", "span", "sub", "sup"].contains(&name) => {}
            _ => said.push(' '),
        }
    }
    let mut words = plain_words(said);
    for aside in asides {
        let aside = plain_words(aside);
        let is_said = words.windows(aside.len()).any(|said| said == aside);
        // One that says something else is no repetition.
        if !is_said {
            words.extend(aside);
        }
    }
    words
}

/// The words of a page's text.
fn plain_words(mut said: String) -> Vec<String> {
    for (code, letter) in
        [("≈", "~"), ("&lt;", "<"), ("&gt;", ">"), ("&quot;", "\""), ("&#39;", "'"), ("&amp;", "&")]
    {
        said = said.replace(code, letter);
    }
    words(&said)
}

/// Markdown, read as a code host reads it.
pub(super) fn markdown(paper: &str) -> Vec<String> {
    let mut options = Options::default();
    options.extension.table = true;
    options.extension.tasklist = true;
    let arena = Arena::new();
    let mut said = String::new();
    for node in parse_document(&arena, paper, &options).descendants() {
        match &node.data().value {
            NodeValue::Heading(heading) => {
                said.push_str([" ", HEADING, SETTING][usize::from(heading.level) - 1]);
            }
            NodeValue::BlockQuote => said.push_str(NOTE),
            NodeValue::TaskItem(item) => {
                said.push_str(if item.symbol.is_some() { TICKED } else { OPEN });
            }
            NodeValue::Text(text) if !is_over_boxes(node) => said.push_str(text),
            NodeValue::Code(code) => said.push_str(&code.literal),
            NodeValue::Paragraph | NodeValue::TableCell | NodeValue::SoftBreak => said.push(' '),
            _ => {}
        }
    }
    let said = said.replace("Drawing on the printed page:", DRAWING);
    words(&said.replace(&format!("{NOTE} Caution."), CAUTION))
}

/// The head of the column of boxes to tick.
fn is_over_boxes(text: &AstNode<'_>) -> bool {
    let Some(cell) = text.parent() else { return false };
    let row = cell.parent();
    matches!(&text.data().value, NodeValue::Text(text) if text.trim() == "☐")
        && row.is_some_and(|row| matches!(row.data().value, NodeValue::TableRow(true)))
}

/// A page without what is drawn on it.
pub(super) fn without_drawings(page: &str) -> String {
    let mut pieces = page.split("<svg");
    let mut text = pieces.next().unwrap_or("").to_owned();
    for piece in pieces {
        text.push_str(piece.split_once("</svg>").expect("a drawing ends").1);
    }
    text
}

/// The drawings of a page, each below what it shows, an element a line.
pub(super) fn drawings(page: &str) -> String {
    let mut text = String::new();
    for piece in page.split("<svg").skip(1) {
        let (drawing, behind) = piece.split_once("</svg>").expect("a drawing ends");
        let caption = behind.split_once("<figcaption>").expect("what it shows").1;
        let caption = caption.split_once("</figcaption>").expect("what it shows").0;
        text.push_str(caption);
        text.push_str("\n<svg");
        text.push_str(&drawing.replace("><", ">\n<"));
        text.push_str("</svg>\n\n");
    }
    text
}

/// Both say the same; where not, from the first word that differs.
pub(super) fn same(paper: &str, one: &[String], other: &[String]) {
    let at = one.iter().zip(other).take_while(|(one, other)| one == other).count();
    let around = |said: &[String]| said[at.saturating_sub(8)..(at + 8).min(said.len())].join(" ");
    assert!(
        one == other,
        "{paper}, word {at}: `{}` is `{}` in the text",
        around(one),
        around(other)
    );
}
