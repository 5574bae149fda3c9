//! Texts at which fuzzing stopped, each asked again what every target asks.

use crate::oracle;
use std::path::Path;

/// The texts, by name.
fn texts() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzzed");
    let mut texts: Vec<(String, String)> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .map(|path| {
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            (name, std::fs::read_to_string(&path).unwrap())
        })
        .collect();
    texts.sort();
    assert!(!texts.is_empty());
    texts
}

fn ask(question: fn(&str)) {
    for (name, text) in texts() {
        let answer = std::panic::catch_unwind(|| question(&text));
        assert!(answer.is_ok(), "{name}");
    }
}

#[test]
fn they_are_read_or_refused() {
    ask(oracle::parse);
}

#[test]
fn they_are_judged() {
    ask(oracle::check);
}

#[test]
fn their_papers_are_text() {
    ask(oracle::papers);
}

#[test]
fn they_are_formatted_or_refused() {
    ask(oracle::format);
}

#[test]
fn their_fixes_can_be_made() {
    ask(oracle::mend);
}

#[test]
fn an_editor_is_answered() {
    ask(oracle::editor);
}

#[test]
fn they_are_compared_with_the_console() {
    ask(oracle::compare);
}
