//! Other figures in the papers and in the packet: the tests must see them.

use std::collections::BTreeSet;

use serde_json::Value;

use super::jig::in_jig;
use super::reading::line;
use super::told::{printed, told, untold};
use super::{Shown, all, excused_in, in_fitting, in_order};

/// What finds fault with a piece.
type Look = fn(&Shown) -> Vec<String>;

/// A figure that is on no paper and in no packet.
const ODD: &str = "7777";

/// Every line that has a figure is looked at: another one in its place is seen.
#[test]
fn another_figure_on_a_paper_is_seen() {
    let looks: [(&str, Look); 3] =
        [("assembly-order", in_order), ("fitting", in_fitting), ("jig-sheet", in_jig)];
    let shown = &all()[0];
    for (slug, look) in looks {
        let text = &shown.papers[slug];
        let end = text.find("Figures marked ~").unwrap_or(text.len());
        let mut spoiled = 0;
        for (index, own) in text[..end].lines().enumerate() {
            let read = line(own, shown.inches);
            let free = (0..read.figures.len()).find(|at| !excused_in(&read.shape).contains(at));
            let (Some(free), true) = (free, index > 3 && !own.starts_with(['>', 'N'])) else {
                continue;
            };
            let odd: Vec<String> = text
                .lines()
                .enumerate()
                .map(|(at, line)| match at == index {
                    true => replaced(line, &read.figures[free].text, free, shown.inches),
                    false => line.to_owned(),
                })
                .collect();
            let mut other = shown.clone();
            other.papers.insert(slug, odd.join("\n"));
            assert!(!look(&other).is_empty(), "{slug}: {own}");
            spoiled += 1;
            if spoiled == 40 {
                break;
            }
        }
        assert!(spoiled > 10, "{slug}: {spoiled}");
    }
}

/// A line with an odd figure in the place of its figure number `at`.
fn replaced(text: &str, figure: &str, at: usize, inches: bool) -> String {
    let places = text.match_indices(figure).map(|(place, _)| place);
    let odd =
        places.map(|place| format!("{}{ODD}{}", &text[..place], &text[place + figure.len()..]));
    let is_it = |own: &String| {
        let figures = line(own, inches).figures;
        figures.get(at).is_some_and(|own| own.text == ODD)
    };
    let found: Option<String> = odd.into_iter().find(is_it);
    found.unwrap_or_else(|| format!("{text} {ODD}"))
}

/// Every figure that a paper must have is looked for: another one in the packet is
/// seen.
#[test]
fn another_figure_in_the_packet_is_seen() {
    let mut kinds: BTreeSet<String> = BTreeSet::new();
    for shown in all() {
        for (index, operation) in shown.operations().iter().enumerate() {
            let kind = operation["kind"].as_str().unwrap();
            for key in told(kind).1 {
                let mut wanted = Vec::new();
                printed(&operation[*key], shown.inches, &mut wanted);
                // Once each: it takes a while to look through all papers.
                if wanted.is_empty() || !kinds.insert(format!("{kind}, {key}")) {
                    continue;
                }
                let mut other = shown.clone();
                odd(&mut other.packet["operations"][index][*key]);
                assert!(!untold(&other).is_empty(), "{kind}, {key}");
            }
        }
    }
    assert!(kinds.len() > 50, "{kinds:?}");
}

/// Puts an odd figure in the place of every printed one.
fn odd(value: &mut Value) {
    match value {
        Value::Object(all) => match all.get_mut("print") {
            Some(print) => *print = ODD.into(),
            None => all.values_mut().for_each(odd),
        },
        Value::Array(all) => all.iter_mut().for_each(odd),
        Value::String(text) => *text = ODD.to_owned(),
        Value::Number(_) => *value = 7777.into(),
        Value::Null | Value::Bool(_) => {}
    }
}
