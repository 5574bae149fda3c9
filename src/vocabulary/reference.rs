//! The language reference, printed from the vocabulary itself.

use std::fmt::Write as _;

use super::blocks::BLOCKS;
use super::word::{Block, Body, Row, Times};

/// The reference as Markdown.
#[must_use]
pub fn reference() -> String {
    let mut text = String::from(HEAD);
    for block in BLOCKS {
        section(&mut text, block);
    }
    text
}

const HEAD: &str = "\
# The casewright language, version 1

One fact a line, keyword first. `;` stands for a line end, `{ }` group, `#` starts a comment.
Names are made of small letters, digits and hyphens.

Lengths: `3/4`, `1-1/2` or `1 1/2`, `23.5`, `18 mm`, `4 cm`, `1.2 m`, `7 in` or `7\"`, `5 ft` or
`5'`, `5' 3-1/2\"`. A bare number counts the unit of the job. Inches and millimetres mix freely and
exactly: 1 in is 25.4 mm.

Sizes may be worked out: `upper.high + 2`, `(press.wide - 1/4) / 2`. The names are those of openings,
as short as they are clear; `.wide` and `.high` are their sizes. A minus has a space on both sides.

The openings of a case are a list: `across` reads left to right, `down` top to bottom, and lists nest.
What a list has, its items fill: each item has a size of its own (`wide` in `across`, `high` in `down`),
or a `share` of what is left, or is the `same` as another. Whatever is written twice is checked.
An overall size may be left out where the openings give it.

";

fn section(text: &mut String, block: &Block) {
    let _ = writeln!(text, "## {}\n\n{}\n", heading(block), block.help);
    for (group, what) in block.one_of {
        let words: Vec<String> = group.iter().map(|word| format!("`{word}`")).collect();
        let _ = writeln!(text, "One of {} must stand: it says {what}.\n", words.join(", "));
    }
    let _ = writeln!(text, "| word | what it says | value | unless written |\n|---|---|---|---|");
    for word in block.words {
        let _ = writeln!(
            text,
            "| `{}` | {} | {} | {} |",
            word.word,
            cell(&help(word)),
            cell(&value(word)),
            cell(&otherwise(word))
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
        help.push_str("; may stand more than once");
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
        Body::May(_) => parts.push("may open `{ }`".to_owned()),
        Body::Must(_) => parts.push("opens `{ }`".to_owned()),
    }
    parts.join(", ")
}

fn otherwise(word: &Row) -> String {
    match (word.default, word.times) {
        (Some(default), _) => match word.metric {
            Some(metric) => format!("`{default}`; `{metric}` in a metric file"),
            None => format!("`{default}`"),
        },
        (None, Times::Required) => "must stand".to_owned(),
        (None, _) => String::new(),
    }
}

fn cell(text: &str) -> String {
    text.replace('|', "\\|")
}
