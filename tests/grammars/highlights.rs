//! The colors of tree-sitter's grammar. No place is colored twice, since editors differ in
//! which of two they take.

use std::fmt::Write as _;

use super::words::{Set, Words};

const HEAD: &str = "\
; The colors of a casewright spec. Made from the vocabulary by tests/grammars; don't edit.

(comment) @comment
(text) @string
(number) @number
(date) @number
(unit) @type
(operator) @operator
[ \"{\" \"}\" \"(\" \")\" ] @punctuation.bracket
\";\" @punctuation.delimiter
";

/// All of them.
pub(super) fn queries(words: &Words) -> String {
    let mut text = HEAD.to_owned();
    section(&mut text, "Words that begin a statement.");
    let _ =
        write!(text, "((statement word: (name) @keyword)\n{})\n", any("@keyword", &words.begin));
    section(&mut text, "New names.");
    let (both, name): (Set, Set) =
        words.name.iter().partition(|word| words.choosing.contains_key(*word));
    let mut names = |takers: &Set, but: String| {
        let pattern = "(statement word: (name) @_word . (name) @variable)";
        let _ = write!(text, "({pattern}\n{}{but})\n", any("@_word", takers));
    };
    names(&name, String::new());
    for word in both {
        let choices: Vec<&str> = words.choosing[word].iter().copied().collect();
        let but = format!("  (#not-match? @variable \"^({})$\")", choices.join("|"));
        names(&Set::from([word]), format!("\n{but}"));
    }
    section(&mut text, "Choices, behind the words that take them.");
    for (choices, takers) in words.by_choices() {
        let own: Set = choices.difference(&words.joining).copied().collect();
        let pattern = "(statement word: (name) @_word (name) @constant)";
        let (takers, own) = (any("@_word", &takers), any("@constant", &own));
        let _ = write!(text, "({pattern}\n{takers}\n{own})\n");
    }
    section(&mut text, "Words between figures, and measures that are words.");
    let _ = write!(
        text,
        "((statement word: (_) (name) @keyword.operator)\n{})\n",
        any("@keyword.operator", &words.joining)
    );
    let own: Set = words.measures.difference(&words.joining).copied().collect();
    let _ = write!(text, "((quantity) . (name) @type\n{})\n", any("@type", &own));
    let own: Set = own.union(&words.units).filter(|unit| **unit != "%").copied().collect();
    let per = "  (#eq? @_per \"per\")";
    let _ = write!(text, "((name) @_per . (name) @type\n{per}\n{})\n", any("@type", &own));
    text
}

fn section(text: &mut String, title: &str) {
    let _ = write!(text, "\n; {title}\n");
}

/// That a node is one of some words, in lines of at most 100 columns.
fn any(node: &str, words: &Set) -> String {
    let mut lines = vec![format!("  (#any-of? {node}")];
    for word in words {
        let word = format!(" \"{word}\"");
        match lines.last_mut().filter(|line| line.len() + word.len() < 98) {
            Some(line) => line.push_str(&word),
            None => lines.push(format!("   {word}")),
        }
    }
    lines.join("\n") + ")"
}
