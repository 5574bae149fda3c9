//! The pages that `explain` prints.

use std::fmt::Write as _;

use super::rule::{Base, Rule};

/// The page of a rule.
#[must_use]
pub fn explain(slug: &str) -> Option<String> {
    super::all().find(|rule| rule.slug == slug).map(page)
}

/// One line for each rule.
#[must_use]
pub fn index() -> String {
    let mut text = String::new();
    for rule in super::all() {
        let _ =
            writeln!(text, "{:<8} {:<22} {}", rule.severity.word(), rule.slug, first(rule.finds));
    }
    text
}

/// The first sentence.
fn first(text: &str) -> &str {
    text.split_once(". ").map_or(text.trim_end_matches('.'), |(first, _)| first)
}

fn page(rule: &Rule) -> String {
    let base = match rule.example.base {
        Base::First => "the cabinet that `casewright new` writes",
        Base::Console => "specs/hall-console.case",
        Base::Press => "specs/tide-cottage-press.case",
        Base::Alcove => "specs/alcove-shelves.case",
    };
    let mut text = format!("{}[{}]\n\n", rule.severity.word(), rule.slug);
    let mut part = |head: &str, body: &str| {
        let _ = writeln!(text, "{head}\n{}\n", indent(body));
    };
    part("What it finds", rule.finds);
    part("Why it matters in the shop", rule.why);
    if !rule.formula.is_empty() {
        part("How it is worked out", rule.formula);
    }
    part(&format!("It fires, in {base}, on"), rule.example.wrong);
    part("It is silent on", rule.example.sound);
    if !rule.accept.is_empty() {
        part("When to accept it", rule.accept);
    }
    part("Source", rule.source);
    text.truncate(text.trim_end().len());
    text.push('\n');
    text
}

fn indent(body: &str) -> String {
    let mut text = String::new();
    for line in body.lines() {
        let mut column = 0;
        let mut words = line.split(' ').peekable();
        text.push_str("  ");
        while let Some(word) = words.next() {
            text.push_str(word);
            column += word.chars().count() + 1;
            if let Some(next) = words.peek() {
                if column + next.chars().count() > 76 {
                    text.push_str("\n  ");
                    column = 0;
                } else {
                    text.push(' ');
                }
            }
        }
        text.push('\n');
    }
    text.truncate(text.trim_end().len());
    text
}
