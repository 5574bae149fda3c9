//! The pages that `explain` prints.

use std::fmt::Write as _;

use crate::diagnostics::render::paragraph;
use crate::vocabulary;

use super::rule::{Base, Rule};

/// The page of a rule; another spelling of its name is understood.
#[must_use]
pub fn explain(slug: &str) -> Option<String> {
    let slug = vocabulary::finding_named(slug);
    super::all().find(|rule| rule.slug == slug).map(page)
}

/// One line for each rule.
#[must_use]
pub fn index() -> String {
    let mut text = String::new();
    for rule in super::all() {
        let _ = writeln!(
            text,
            "{:<8} {:<22} {}",
            rule.severity.word(),
            rule.slug,
            first_sentence(rule.finds)
        );
    }
    text
}

/// The first sentence, without its full stop.
#[must_use]
pub fn first_sentence(text: &str) -> &str {
    text.split_once(". ").map_or(text.trim_end_matches('.'), |(first, _)| first)
}

fn page(rule: &Rule) -> String {
    let base = match rule.example.base {
        Base::First => "the cabinet that `casewright new` writes",
        Base::Console => "specs/hall-console.case",
        Base::Press => "specs/tide-cottage-press.case",
        Base::Alcove => "specs/alcove-shelves.case",
        Base::Pantry => "specs/weir-house-pantry.case",
        Base::Chest => "specs/orchard-lane-chest.case",
        Base::Wardrobe => "specs/mill-lane-wardrobe.case",
        Base::Hung => "specs/signal-house-media-shelf.case",
        Base::Run => "specs/gate-cottage-laundry.case",
        Base::Hutch => "specs/heron-quay-hutch.case",
        Base::Posts => "specs/fern-bank-stand.case",
        Base::Glazed => "specs/pier-road-bath-cabinet.case",
    };
    let mut text = format!("{}[{}]\n\n", rule.severity.word(), rule.slug);
    let mut part = |head: &str, body: &str| {
        let _ = writeln!(text, "{head}\n{}\n", indent(body));
    };
    part("What it finds", rule.finds);
    if let Some((severity, when)) = rule.sometimes {
        part(&format!("When it is {}", severity.with_article()), when);
    }
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

/// The widest line of a page.
const WIDE: usize = 78;

fn indent(body: &str) -> String {
    let lines = body.lines().flat_map(|line| paragraph(line, WIDE, "  ", "  "));
    lines.collect::<Vec<String>>().join("\n")
}
