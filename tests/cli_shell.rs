//! `casewright new`, `explain`, `reference` and `why`, as they are typed.

use crate::support::{Bench, spec};

#[test]
fn a_new_spec_is_sound_and_nothing_is_overwritten() {
    let bench = Bench::new();
    let done = bench.run(&["new", "mine.case"]);
    assert_eq!(done.code, Some(0), "{done:?}");
    assert!(done.err.contains("casewright build mine.case"), "{done:?}");
    assert_eq!(bench.run(&["check", "mine.case", "--deny", "warnings"]).code, Some(0));

    let bench = bench.with("mine.case", "my own\n");
    let done = bench.run(&["new", "mine.case"]);
    assert_eq!(done.code, Some(2), "{done:?}");
    assert!(done.err.contains("mine.case already exists"), "{done:?}");
    assert_eq!(std::fs::read_to_string(bench.path("mine.case")).unwrap(), "my own\n");
    assert_eq!(bench.run(&["new", "no/such/folder.case"]).code, Some(2));
}

#[test]
fn every_slug_that_is_listed_has_a_page() {
    let bench = Bench::new();
    let list = bench.run(&["explain"]);
    assert_eq!(list.code, Some(0));
    let slugs: Vec<&str> =
        list.out.lines().filter_map(|line| line.split_whitespace().nth(1)).collect();
    assert!(slugs.contains(&"sizes-conflict"), "{slugs:?}");
    for slug in slugs {
        let page = bench.run(&["explain", slug]);
        assert_eq!(page.code, Some(0), "{slug}");
        assert!(page.out.lines().count() > 3, "{slug}: {}", page.out);
    }
}

/// Findings that were renamed, and those with a word that others spell
/// otherwise.
#[test]
fn a_slug_in_another_spelling_is_explained() {
    let bench = Bench::new();
    for (other, one) in
        [("mitre-unequal", "miter-unequal"), ("division-by-nought", "division-by-zero")]
    {
        let page = bench.run(&["explain", other]);
        assert_eq!(page.code, Some(0), "{page:?}");
        assert_eq!(page.out, bench.run(&["explain", one]).out);
    }
}

#[test]
fn a_slug_misspelt_is_guessed() {
    let done = Bench::new().run(&["explain", "size-conflict"]);
    assert_eq!(done.code, Some(2));
    assert!(done.err.contains("did you mean `sizes-conflict`?"), "{done:?}");
}

#[test]
fn the_reference_names_the_words_of_the_language() {
    let done = Bench::new().run(&["reference"]);
    assert_eq!(done.code, Some(0));
    for word in ["casework", "case", "frame", "stile", "drawer", "hinge", "measured"] {
        assert!(done.out.contains(word), "{word}");
    }
}

#[test]
fn why_leads_a_size_back_to_its_statements() {
    let bench = Bench::new().with("console.case", &spec("hall-console.case"));
    let done = bench.run(&["why", "console.case", "press"]);
    assert_eq!(done.code, Some(0), "{done:?}");
    // Worked by hand: 61-3/4 less the bank, the niche and two stiles.
    assert!(done.out.contains("26-1/2 in"), "{}", done.out);
    assert!(done.out.contains("wide 17-1/4") && done.out.contains("console.case:"), "{}", done.out);
    let done = bench.run(&["why", "console.case", "pres"]);
    assert_eq!(done.code, Some(1));
    assert!(done.err.contains("did you mean `press`?"), "{done:?}");
}

#[test]
fn every_table_of_the_trade_can_be_read_with_its_source() {
    let bench = Bench::new();
    let list = bench.run(&["trade"]);
    assert_eq!(list.code, Some(0));
    for slug in list.out.lines().filter_map(|line| line.split_whitespace().next()) {
        let table = bench.run(&["trade", slug]);
        assert_eq!(table.code, Some(0), "{slug}");
        assert!(table.out.lines().all(|line| line.chars().count() <= 100), "{slug}: {}", table.out);
        assert!(table.out.contains("For your own figures:"), "{slug}: {}", table.out);
    }
    // Wood Handbook, Table 13-5: black cherry 0.00126 and 0.00248.
    let woods = bench.run(&["trade", "species"]).out;
    let cherry = woods.lines().find(|line| line.starts_with("black-cherry")).unwrap();
    assert!(cherry.contains("0.00126") && cherry.contains("0.00248"), "{cherry}");
    let done = bench.run(&["trade", "speces"]);
    assert_eq!(done.code, Some(2));
    assert!(done.err.contains("did you mean `species`?"), "{done:?}");
}
