//! The pieces of the reference: each is sound, is laid out as `format` does it,
//! is built by the virtual shop, and is drawn on the page.

use std::path::Path;

use casewright::diagnostics::Severity;
use casewright::papers::{self, EXAMPLES, Format, SHARED};

use crate::bench;
use crate::support::{Bench, ids_are_unique};

#[test]
fn every_example_is_sound_and_has_its_papers() {
    for example in EXAMPLES {
        let compiled = example.compiled().unwrap();
        let graver: Vec<&str> = compiled
            .diagnostics
            .iter()
            .filter(|found| found.severity != Severity::Note)
            .map(|found| found.slug)
            .collect();
        assert!(graver.is_empty(), "{}: {graver:?}", example.slug);
        assert!(papers::packet(&compiled).is_some(), "{}", example.slug);
        assert!(example.says().ends_with('.'), "{}", example.slug);
        assert!(!example.spec().contains('#'), "{}", example.slug);
    }
}

#[test]
fn the_shop_builds_every_example() {
    for example in EXAMPLES {
        let compiled = example.compiled().unwrap();
        let packet = papers::one(&compiled, "packet", Format::Json).unwrap();
        let complaints = bench::complaints(&packet);
        assert!(complaints.is_empty(), "{}: {complaints:#?}", example.slug);
    }
}

/// What lies in the folder stands in the reference, and the other way round.
#[test]
fn every_file_of_the_folder_is_an_example() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs/examples");
    let mut lie: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
        .collect();
    let mut stand: Vec<String> = EXAMPLES.iter().map(|own| format!("{}.case", own.slug)).collect();
    stand.push(SHARED.0.to_owned());
    lie.sort();
    stand.sort();
    assert_eq!(lie, stand);
}

#[test]
fn the_page_draws_every_example_once() {
    let bench = Bench::new();
    let done = bench.run(&["reference", "--into", "reference.html"]);
    assert_eq!(done.code, Some(0), "{done:?}");
    let page = std::fs::read_to_string(bench.path("reference.html")).unwrap();
    // The pantry has a drawing more, with its doors open.
    assert_eq!(page.matches("<figure>").count(), EXAMPLES.len() + 1);
    assert_eq!(page.matches("<svg").count(), page.matches("</svg>").count());
    assert!(ids_are_unique("reference", &page) > EXAMPLES.len());
    for example in EXAMPLES {
        let job = example.text.split('"').nth(3).unwrap();
        assert!(page.contains(&format!("job \"{job}\"")), "{job}");
    }
    assert!(!page.contains("<p>&lt;") && !page.contains("```"));
}

#[test]
fn the_reference_is_not_written_over_a_spec() {
    let bench = Bench::new().with("my.case", "casework 1\n");
    let done = bench.run(&["reference", "--into", "my.case"]);
    assert_eq!(done.code, Some(2), "{done:?}");
    assert_eq!(std::fs::read_to_string(bench.path("my.case")).unwrap(), "casework 1\n");
    let done = bench.run(&["reference", "--into", "nowhere/reference.html"]);
    assert_eq!(done.code, Some(2), "{done:?}");
    assert!(done.err.contains("can't be written"), "{done:?}");
}
