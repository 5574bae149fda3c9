//! The grammars for editors have the words of the language as it is: what is made from the
//! vocabulary is made again and compared. `CASEWRIGHT_GRAMMARS=write` writes it.

mod highlights;
mod textmate;
mod words;

use std::path::Path;

use words::Words;

/// The file of the repository holds this text.
fn is_fresh(file: &str, text: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(file);
    if std::env::var_os("CASEWRIGHT_GRAMMARS").is_some_and(|said| said == "write") {
        std::fs::write(&path, text).unwrap();
    }
    let written = std::fs::read_to_string(&path).unwrap_or_default().replace("\r\n", "\n");
    let how = "the vocabulary has changed; CASEWRIGHT_GRAMMARS=write cargo test --test main \
               grammars:: writes it again";
    assert!(written == text, "{file} is not what the vocabulary says: {how}");
}

#[test]
fn the_textmate_grammar_is_fresh() {
    is_fresh("editors/textmate/casewright.tmLanguage.json", &textmate::grammar(&Words::all()));
}

#[test]
fn the_tree_sitter_colors_are_fresh() {
    is_fresh("editors/tree-sitter/queries/highlights.scm", &highlights::queries(&Words::all()));
}

/// Both grammars take for a unit what the language takes for one.
#[test]
fn the_units_are_those_of_the_grammar() {
    let units = Words::all().units;
    for known in ["%", "in", "ft", "mm", "deg", "F", "min", "kg"] {
        assert!(units.contains(known), "{known}: {units:?}");
    }
    let form = include_str!("../editors/tree-sitter/grammar.js");
    let rule = form.split("unit: (_) =>").nth(1).unwrap().split(')').next().unwrap();
    let told: std::collections::BTreeSet<&str> = rule.split('"').skip(1).step_by(2).collect();
    assert_eq!(told, units);
}

#[test]
fn words_are_sorted_by_what_they_do() {
    let words = Words::all();
    assert!(words.begin.contains("wide") && words.begin.contains("case"));
    assert!(words.name.contains("case") && !words.name.contains("wide"));
    // Other spellings are understood, so they are colored too.
    assert!(words.choices().contains("miter") && words.choices().contains("mitre"));
    let joints = &words.choosing["joint"];
    assert!(joints.contains("tenon") && joints.contains("dovetail"), "{joints:?}");
    for joining in ["to", "per", "each"] {
        assert!(words.joining.contains(joining), "{:?}", words.joining);
    }
    for unit in ["psi", "GPa", "ft2", "gal", "board-foot", "sheet"] {
        assert!(words.measures.contains(unit), "{:?}", words.measures);
    }
}
