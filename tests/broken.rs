//! Every spec in specs/broken holds one mistake: its message is reviewed as a
//! snapshot, and it says one thing only.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use casewright::checks;
use casewright::diagnostics::render::{Look, terminal};
use casewright::model::MemoryFiles;
use casewright::pipeline::{self, Compilation};

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
