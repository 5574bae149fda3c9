//! The language reference, printed from the vocabulary itself.

use std::fmt::Write as _;

use super::blocks::BLOCKS;
use super::word::{Block, Body, Row, Times};

/// Every word of the language, block by block, as Markdown.
#[must_use]
pub fn words() -> String {
    let mut text = String::new();
    for block in BLOCKS {
        section(&mut text, block);
    }
    text
}

/// What holds for every line of a spec, as Markdown: the head of the reference.
pub const INTRODUCTION: &str = "\
# The casewright language, version 1

Write one fact on each line and start it with its word. `;` stands for a line end, `{ }` groups
lines, and `#` starts a comment. Names are made of lower-case letters, digits, and hyphens.

Lengths look like `3/4`, `1-1/2` or `1 1/2`, `23.5`, `18 mm`, `4 cm`, `1.2 m`, `7 in` or `7\"`,
`5 ft` or `5'`, and `5' 3-1/2\"`. A bare number is in the job's unit. Inches and millimeters mix
freely and exactly, since 1 in is 25.4 mm.

A size may be worked out from others, as in `upper.high + 2` or `(press.wide - 1/4) / 2`. Use the name
of an opening, as short as it is clear, with `.wide` or `.high`. A minus has a space on both sides.

The openings of a case are a list. `across` reads left to right, `down` reads top to bottom, and lists
nest. The items of a list fill it: each has a size of its own (`wide` in `across`, `high` in `down`), or
takes a `share` of what is left, or is the `same` as another. Where sizes give a figure in two ways, the
two are compared. You may leave out an overall size where the openings give it.

";

fn section(text: &mut String, block: &Block) {
    let _ = writeln!(text, "## {}\n\n{}\n", heading(block), block.help);
    for (group, what) in block.one_of {
        let words: Vec<String> = group.iter().map(|word| format!("`{word}`")).collect();
        let mut rows = group.iter().filter_map(|word| block.word(word));
        let unless = rows.find_map(|row| row.unless);
        let unless = unless.map_or_else(String::new, |other| format!(", unless `{other}` stands"));
        let _ = writeln!(text, "Write one of {}{unless}. It gives {what}.\n", words.join(", "));
    }
    let _ = writeln!(text, "| word | what it gives | value | default |\n|---|---|---|---|");
    for word in block.words {
        let _ = writeln!(
            text,
            "| `{}` | {} | {} | {} |",
            word.word,
            cell(&help(word)),
            cell(&value(word)),
            cell(&otherwise(block, word))
        );
    }
    let examples: Vec<&str> = block.words.iter().map(|word| word.example).collect();
    let _ = writeln!(text, "\n```\n{}\n```\n", examples.join("\n"));
}

fn heading(block: &Block) -> String {
    if block.name == "file" {
        return "The file".to_owned();
    }
    let mut opened: Vec<&str> = Vec::new();
    for word in BLOCKS.iter().flat_map(|other| other.words) {
        let opens = word.body.block().is_some_and(|opened| opened.name == block.name);
        if opens && !opened.contains(&word.word) {
            opened.push(word.word);
        }
    }
    let words: Vec<String> = opened.iter().map(|word| format!("`{word}`")).collect();
    let title = block.title.strip_prefix("the ").unwrap_or(block.title);
    format!("{} {{ }}: {title}", words.join(", "))
}

fn help(word: &Row) -> String {
    let mut help = word.help.to_owned();
    if word.times == Times::Many {
        help.push_str("; you may repeat it");
    }
    help
}

fn value(word: &Row) -> String {
    let mut parts: Vec<String> = word
        .takes
        .iter()
        .map(|slot| {
            let kind = slot.kind.describe();
            if slot.optional { format!("({kind})") } else { kind }
        })
        .collect();
    match word.body {
        Body::None => {}
        Body::May(_) => parts.push("`{ }` optional".to_owned()),
        Body::Must(_) => parts.push("`{ }`".to_owned()),
    }
    parts.join(", ")
}

fn otherwise(block: &Block, word: &Row) -> String {
    // What another case has need not be written again.
    let takes_over = block.words.iter().find(|own| own.takes_over).map(|own| own.word);
    match (word.default, word.times) {
        (Some(default), _) => match word.metric {
            Some(metric) => format!("`{default}`, or `{metric}` in a metric file"),
            None => format!("`{default}`"),
        },
        (None, Times::Required) => match word.unless.or(takes_over) {
            Some(other) => format!("required, unless `{other}` stands"),
            None => "required".to_owned(),
        },
        (None, _) => String::new(),
    }
}

fn cell(text: &str) -> String {
    text.replace('|', "\\|")
}
