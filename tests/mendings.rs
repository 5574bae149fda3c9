//! Every fix that is offered mends, whatever the figures are; and the fixes of
//! every rule are put to it.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use crate::oracle::places::tokens;
use crate::support::compile;
use casewright::checks;
use casewright::diagnostics::{self, Diagnostic, Fix, Grade, Severity};
use casewright::model::MemoryFiles;
use casewright::pipeline::{self, Compilation};
use casewright::vocabulary;
use proptest::prelude::*;
use proptest::sample::Index;

/// Every spec that something is wrong with: those in specs/broken, and the
/// example of each rule.
fn broken_specs() -> Vec<(String, String)> {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("specs/broken");
    let mut all: Vec<(String, String)> = std::fs::read_dir(folder)
        .expect("the folder")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "case"))
        .map(|path| {
            let name = path.file_name().expect("a name").to_string_lossy().into_owned();
            (name, std::fs::read_to_string(&path).expect("a spec"))
        })
        .collect();
    all.sort();
    all.extend(
        checks::all().map(|rule| (format!("example of {}", rule.slug), rule.example.broken())),
    );
    all
}

/// A spec with the files that broken ones use.
fn with_parts(text: &str) -> MemoryFiles {
    ["ring", "back", "self", "site"].iter().fold(MemoryFiles::one("a.case", text), |files, part| {
        let path = format!("{}/specs/broken/parts/{part}.case", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(path).expect("a part");
        files.with(&format!("parts/{part}.case"), &text)
    })
}

/// What came of a fix that was made.
struct Tried {
    severity: Severity,
    /// What is wrong with it, told with the spec it was made in.
    unmended: Option<String>,
    /// An error that was not there before.
    fresh: Option<String>,
}

/// Makes each fix that is offered for whatever is found, but for those with a
/// hole.
fn try_all(name: &str, text: &str) -> Vec<Tried> {
    let files = with_parts(text);
    let compiled = pipeline::check(&files, "a.case").expect("readable");
    let fixes = compiled.diagnostics.iter().flat_map(|found| {
        found.fixes.iter().filter(|fix| fix.grade != Grade::Sketch).map(move |fix| (found, fix))
    });
    fixes.map(|(found, fix)| tried(name, &files, &compiled, found, fix)).collect()
}

fn tried(
    name: &str,
    files: &MemoryFiles,
    compiled: &Compilation,
    found: &Diagnostic,
    fix: &Fix,
) -> Tried {
    let mended = diagnostics::mend(&compiled.sources, &[fix]);
    assert_eq!(mended.made, 1, "{name}: {} can't be made", fix.title);
    let files = mended.texts.iter().fold(files.clone(), |files, (file, text)| {
        files.with(&compiled.sources.get(*file).expect("a file").name, text)
    });
    let again = pipeline::check(&files, "a.case").expect("readable");
    // A part that is cut may be wrong in several ways, told one after the other.
    let is_one_of_many = found.slug == "cut-misfit";
    let count = |all: &[Diagnostic]| {
        // What is found of nothing in particular may be two things.
        let same = |d: &&Diagnostic| {
            d.slug == found.slug
                && d.subject == found.subject
                && (d.subject.is_some() && !is_one_of_many || d.title == found.title)
        };
        all.iter().filter(same).count()
    };
    let is_there = count(&again.diagnostics) >= count(&compiled.diagnostics);
    let is_fresh = |d: &&Diagnostic| {
        d.severity == Severity::Error && compiled.diagnostics.iter().all(|old| old.title != d.title)
    };
    let fresh = again.diagnostics.iter().find(is_fresh);
    Tried {
        severity: found.severity,
        unmended: is_there.then(|| format!("{name}: {}: {} does not mend", found.title, fix.title)),
        fresh: fresh.map(|worse| format!("{name}: {}: then {}", fix.title, worse.title)),
    }
}

/// Every fix that is offered gives a spec in which what it is for is found no
/// more, and that has no error which was not there before. Warnings that an
/// error hid may come to light.
#[test]
fn every_mending_that_is_offered_mends() {
    let mut wrong = Vec::new();
    let mut count = BTreeMap::<Severity, usize>::new();
    for (name, text) in broken_specs() {
        for tried in try_all(&name, &text) {
            wrong.extend(tried.unmended);
            wrong.extend(tried.fresh);
            *count.entry(tried.severity).or_default() += 1;
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    let count = [Severity::Error, Severity::Warning].map(|severity| count.get(&severity).copied());
    assert!(count[0] > Some(60) && count[1] > Some(30), "{count:?}");
}

/// The rules in whose source a fix is made.
fn rules_that_mend() -> BTreeSet<&'static str> {
    let mut folders = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join("src/checks")];
    let mut files: Vec<PathBuf> = Vec::new();
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.is_dir() { folders.push(path) } else { files.push(path) }
        }
    }
    let mends = |slug: &&str| {
        let name = format!("{}.rs", slug.replace('-', "_"));
        let folder = slug.replace('-', "_");
        let is_own = |path: &&PathBuf| {
            path.ends_with(&name) || path.parent().is_some_and(|own| own.ends_with(&folder))
        };
        files.iter().filter(is_own).any(|path| {
            let text = std::fs::read_to_string(path).expect("text");
            text.contains(".fix(") || text.contains("fixes")
        })
    };
    checks::slugs().filter(mends).collect()
}

/// What no fix is offered for is not tried: each rule that can offer one does
/// so for some spec or example here.
#[test]
fn the_fixes_of_every_rule_are_tried() {
    let mut reached = BTreeSet::new();
    for (_, text) in broken_specs() {
        let compiled = pipeline::check(&with_parts(&text), "a.case").expect("readable");
        let mended = compiled.diagnostics.iter().filter(|found| !found.fixes.is_empty());
        reached.extend(mended.map(|found| found.slug));
    }
    let rules = rules_that_mend();
    assert!(rules.len() > 20, "{rules:?}");
    let missed: Vec<_> = rules.difference(&reached).collect();
    assert!(missed.is_empty(), "{missed:?}");
}

/// Figures at which what is usual would not be enough.
#[test]
fn nothing_is_offered_that_would_not_do() {
    let press = include_str!("../specs/tide-cottage-press.case");
    let binds = include_str!("../specs/broken/door-binds.case");
    for (text, slug, changes) in [
        (press, "tenon-too-thick", &[("thickness 19", "thickness 7")][..]),
        (
            press,
            "dado-too-deep",
            &[
                ("species yellow-birch; thickness 15", "species yellow-birch; thickness 0.5"),
                ("finish oil {", "accept figure-odd on birch.thickness \"veneer\"\nfinish oil {"),
            ],
        ),
        (
            binds,
            "door-binds",
            &[
                ("thickness 3/4; species", "thickness 5; species"),
                ("accept ", "accept figure-odd on maple.thickness \"a timber\"\naccept "),
            ],
        ),
    ] {
        let text = changes.iter().fold(text.to_owned(), |text, (from, to)| {
            assert!(text.contains(from), "{from}");
            text.replacen(from, to, 1)
        });
        let found = compile(&text).diagnostics;
        assert!(found.iter().any(|found| found.slug == slug), "{slug}: {found:#?}");
        for tried in try_all(slug, &text) {
            assert_eq!(tried.unmended, None);
        }
    }
}

/// A stile as wide as is advised brings a board near enough, a wider one not.
#[test]
fn a_stile_may_be_as_wide_as_it_is_told() {
    let text = include_str!("../specs/broken/slide-unheld-stile.case");
    let unheld = |wide: &str| {
        let found = compile(&text.replacen("{ wide 12 }", &format!("{{ wide {wide} }}"), 1));
        found.diagnostics.iter().filter(|found| found.slug == "slide-unheld").count()
    };
    assert_eq!((unheld("12"), unheld("4-23/32"), unheld("4-3/4")), (1, 0, 1));
}

/// What a figure of a spec may be changed to.
const FIGURES: &[&str] = &[
    "0.5", "1", "2", "3", "5", "7", "9", "12", "18", "40", "90", "150", "1/8", "1/4", "1/2", "3/4",
];

fn changed(text: &str, at: Index, figure: &str) -> String {
    let mut figures = tokens(text);
    figures.retain(|token| text[token.clone()].starts_with(|c: char| c.is_ascii_digit()));
    let mut text = text.to_owned();
    text.replace_range(at.get(&figures).clone(), figure);
    text
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(192))]

    /// Other errors may come to light then, which the first hid.
    #[test]
    fn and_it_mends_whatever_the_figures_are(
        spec in any::<Index>(),
        changes in prop::collection::vec((any::<Index>(), prop::sample::select(FIGURES)), 1..3),
    ) {
        let all = broken_specs();
        let (name, text) = spec.get(&all[..]);
        let text = changes.iter().fold(text.clone(), |text, (at, figure)| changed(&text, *at, figure));
        let tried = try_all(name, &text);
        // Beside what can't be built at all no warning is worked out to the end.
        let found = pipeline::check(&with_parts(&text), "a.case").expect("readable").diagnostics;
        let unsound = found.iter().any(|found| found.severity == Severity::Error);
        for tried in tried {
            if unsound && tried.severity != Severity::Error {
                continue;
            }
            prop_assert_eq!(tried.unmended, None, "{}", text);
        }
    }
}

/// A fix with a hole can be written in where it says: with something in the
/// hole the text can be read, and where there is none what was found is gone.
#[test]
fn every_sketch_can_be_written_in() {
    let (mut open, mut closed) = (0, 0);
    for (name, text) in broken_specs() {
        let compiled = pipeline::check(&with_parts(&text), "a.case").expect("readable");
        for found in &compiled.diagnostics {
            for fix in found.fixes.iter().filter(|fix| fix.grade == Grade::Sketch) {
                let mended = diagnostics::mend(&compiled.sources, &[fix]);
                let (file, mended) = mended.texts.iter().next().expect("a text");
                let written = mended.replace('…', "something");
                let (_, faults) = vocabulary::parse(*file, &written);
                assert!(faults.is_empty(), "{name}: {}: {faults:?}", fix.title);
                if mended.contains('…') {
                    open += 1;
                    continue;
                }
                let again = compile(mended);
                let still = again.diagnostics.iter().any(|it| it.title == found.title);
                assert!(!still, "{name}: {}: {}\n{mended}", found.title, fix.title);
                closed += 1;
            }
        }
    }
    assert!(open > 0 && closed > 2, "{open} {closed}");
}
