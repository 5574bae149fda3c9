//! Every spec in specs/broken holds one mistake: its message is reviewed as a
//! snapshot, and it says one thing only.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use casewright::checks;
use casewright::diagnostics::render::{Look, terminal};
use casewright::model::MemoryFiles;
use casewright::pipeline::{self, Compilation};
use serde_json::Value;

use crate::support::Bench;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("specs/broken")
}

/// The names of the specs, without their ending.
fn names() -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder())
        .expect("the folder")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "case"))
        .map(|path| path.file_stem().expect("a name").to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

fn compile(name: &str) -> Compilation {
    let read = |file: &str| fs::read_to_string(folder().join(file)).expect("a spec");
    let main = format!("{name}.case");
    let files = MemoryFiles::one(&main, &read(&main))
        .with("parts/ring.case", &read("parts/ring.case"))
        .with("parts/back.case", &read("parts/back.case"))
        .with("parts/self.case", &read("parts/self.case"))
        .with("parts/site.case", &read("parts/site.case"));
    pipeline::check(&files, &main).expect("readable")
}

#[test]
fn every_mistake_gives_its_one_message() {
    let mut wrong = Vec::new();
    for name in names() {
        let compiled = compile(&name);
        let slugs: BTreeSet<&str> = compiled.diagnostics.iter().map(|d| d.slug).collect();
        if slugs.len() != 1 || compiled.diagnostics.len() > 2 {
            let titles: Vec<&str> = compiled.diagnostics.iter().map(|d| d.title.as_str()).collect();
            wrong.push(format!("{name}: {titles:#?}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn messages_are_as_reviewed() {
    for name in names() {
        let compiled = compile(&name);
        let text = terminal(&compiled.sources, &compiled.diagnostics, Look::plain());
        insta::with_settings!({ omit_expression => true, prepend_module_to_snapshot => false, snapshot_path => "snapshots/broken" }, {
            insta::assert_snapshot!(name, text);
        });
    }
}

#[test]
fn every_snapshot_has_its_spec() {
    let names = names();
    let snapshots = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/snapshots/broken");
    for entry in fs::read_dir(snapshots).expect("the snapshots") {
        let name = entry.expect("an entry").file_name().to_string_lossy().into_owned();
        // One that waits for review fails the run of its own test.
        if name.ends_with(".snap.new") {
            continue;
        }
        let spec = name.strip_suffix(".snap").unwrap_or(&name);
        assert!(names.iter().any(|known| known == spec), "no spec for {name}");
    }
}

/// What no file that a person reads can show: what is too long is in the tests
/// of the rules.
const ELSEWHERE: &[&str] = &["line-too-long", "file-too-large"];

#[test]
fn every_finding_has_a_broken_spec() {
    let shown: BTreeSet<&str> = names()
        .iter()
        .flat_map(|name| compile(name).diagnostics)
        .map(|diagnostic| diagnostic.slug)
        .collect();
    let missing: Vec<&str> =
        checks::slugs().filter(|slug| !shown.contains(slug) && !ELSEWHERE.contains(slug)).collect();
    assert!(missing.is_empty(), "{missing:?}");
}

/// What a message is, `explain` says and SARIF declares: one severity, or two
/// where the page says when. Both occur then.
#[test]
fn a_message_is_as_bad_as_its_page_and_its_rule_in_sarif_say() {
    let folder = folder().to_string_lossy().into_owned();
    let done = Bench::new().run(&["check", &folder, "--format", "sarif"]);
    let log: Value = serde_json::from_str(&done.out).expect("JSON");
    let run = &log["runs"][0];
    let text = |value: &Value| value.as_str().expect("a text").to_owned();
    let levels: BTreeMap<String, String> = run["tool"]["driver"]["rules"]
        .as_array()
        .expect("rules")
        .iter()
        .map(|rule| (text(&rule["id"]), text(&rule["defaultConfiguration"]["level"])))
        .collect();
    let mut seen: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for found in run["results"].as_array().expect("results") {
        seen.entry(text(&found["ruleId"])).or_default().insert(text(&found["level"]));
    }
    assert!(seen.len() > 90, "{seen:#?}");
    for (slug, levels_seen) in seen {
        let level = &levels[&slug];
        let page = checks::explain(&slug).expect("a page");
        assert!(page.starts_with(&format!("{level}[{slug}]\n")), "{page}");
        let mut declared = BTreeSet::from([level.clone()]);
        for (other, head) in [("error", "an error"), ("warning", "a warning"), ("note", "a note")] {
            if page.contains(&format!("\nWhen it is {head}\n")) {
                declared.insert(other.to_owned());
            }
        }
        assert_eq!(levels_seen, declared, "{slug}");
    }
}
