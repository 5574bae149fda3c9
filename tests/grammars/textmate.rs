//! The TextMate grammar.

use serde_json::{Value, json};

use super::words::{Set, Words};

/// A name: words with hyphens and dots between them.
const NAME: &str = r"[A-Za-z](?:[A-Za-z0-9]|-[A-Za-z0-9]|\.[A-Za-z])*";

/// Where a name has come to its end.
const NAME_ENDS: &str = r"(?![A-Za-z0-9]|-[A-Za-z0-9]|\.[A-Za-z])";

/// A number in each of its forms.
const NUMBER: &str = r"[0-9]+(?:[- ][0-9]+/[0-9]+|/[0-9]+|\.[0-9]+)?";

/// Where a statement may begin, with the blanks before it.
const BEGIN: &str = r"(?:^\x{FEFF}?|(?<=[;{}]))[ \t]*";

/// The whole grammar, with a line for each of its lists.
pub(super) fn grammar(words: &Words) -> String {
    let begin = one_of(&words.begin);
    let (naming, choices) = (one_of(&words.name), one_of(&words.choices()));
    let (joining, measures) = (one_of(&words.joining), one_of(&words.measures));
    let units = one_of(&words.units.iter().copied().filter(|unit| *unit != "%").collect());
    let mark = format!(r#"'[ \t]*{NUMBER}"|['"]"#);
    let unit = format!(r"[ \t]*(?:%|(?:{units})(?![A-Za-z0-9_]))");
    let word = |list: &str| format!("(?:{list}){NAME_ENDS}");
    // Behind some words stands one of a few, or else a new name.
    let either = words.name.iter().filter_map(|word| Some((word, words.choosing.get(word)?)));
    let either = either.map(|(taker, choices)| {
        rules(
            &format!(r"{BEGIN}({taker})[ \t]+({})", word(&one_of(choices))),
            &["keyword.other", "constant.language"],
        )
    });
    let mut patterns = vec![rule("comment.line.number-sign", "#.*$")];
    patterns.extend(either);
    patterns.extend([
        rules(
            &format!(r"{BEGIN}({})[ \t]+({NAME})", word(&naming)),
            &["keyword.other", "entity.name.type"],
        ),
        rules(&format!("{BEGIN}({})", word(&begin)), &["keyword.other"]),
        rules(&format!("{BEGIN}({NAME})"), &["variable.other"]),
        rule("string.quoted.double", r#""(?:\\.|[^"\\])*""#),
        rule("constant.numeric.date", r"[0-9]{4}-[0-9]{2}-[0-9]{2}(?![A-Za-z0-9_])"),
        // An inch mark behind a figure begins no text.
        rules(&format!("({NUMBER})({mark}|{unit})?"), &["constant.numeric", "keyword.other.unit"]),
        rules(
            &format!(r"(per)[ \t]+({})", word(&format!("{measures}|{units}"))),
            &["keyword.operator.word", "keyword.other.unit"],
        ),
        rule("constant.language", &word(&choices)),
        rule("keyword.operator.word", &word(&joining)),
        rule("keyword.other.unit", &word(&measures)),
        rule("variable.other", NAME),
        rule("keyword.operator.arithmetic", r"[-+*/]"),
        rule("punctuation.terminator", ";"),
        rule("punctuation.section.block", "[{}]"),
        rule("punctuation.section.parens", "[()]"),
    ]);
    let grammar = json!({
        "information_for_contributors": "Made from the vocabulary by tests/grammars; don't edit.",
        "name": "casewright",
        "scopeName": "source.casewright",
        "fileTypes": ["case"],
        "patterns": patterns,
    });
    format!("{grammar:#}\n")
}

/// Any of some words. The longest comes first, so that none hides another.
fn one_of(words: &Set) -> String {
    let mut words: Vec<&str> = words.iter().copied().collect();
    words.sort_by_key(|word| std::cmp::Reverse(word.len()));
    words.join("|")
}

fn rule(scope: &str, pattern: &str) -> Value {
    json!({ "name": format!("{scope}.casewright"), "match": pattern })
}

/// A pattern whose groups have a scope each.
fn rules(pattern: &str, scopes: &[&str]) -> Value {
    let groups = scopes.iter().enumerate().map(|(place, scope)| {
        ((place + 1).to_string(), json!({ "name": format!("{scope}.casewright") }))
    });
    json!({ "match": pattern, "captures": Value::Object(groups.collect()) })
}
