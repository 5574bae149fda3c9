//! Speed of parse, check and build: the hall console, and jobs of many cases.
//! `cargo bench`; never part of a test.

#![allow(missing_docs, clippy::expect_used, reason = "a benchmark that can't go on stops")]

use casewright::measure::FileId;
use casewright::model::MemoryFiles;
use casewright::revision::{self, Named};
use casewright::{papers, pipeline, vocabulary};
use divan::Bencher;

const CONSOLE: &str = include_str!("../specs/hall-console.case");
const FIRST: &str = include_str!("../specs/first.case");
const CASES: [usize; 4] = [1, 10, 100, 1000];

fn main() {
    divan::main();
}

/// A job of so many small cabinets side by side.
fn job(cases: usize) -> String {
    let at = FIRST.find("case cupboard").expect("a case");
    let (head, case) = FIRST.split_at(at);
    let mut text = head.to_owned();
    for number in 0..cases {
        text.push_str(&case.replace("case cupboard", &format!("case cupboard-{number}")));
    }
    text
}

#[divan::bench]
fn parse_console() -> usize {
    vocabulary::parse(FileId(0), divan::black_box(CONSOLE)).0.items.len()
}

#[divan::bench]
fn check_console(bencher: Bencher<'_, '_>) {
    let files = MemoryFiles::one("a.case", CONSOLE);
    bencher.bench(|| pipeline::check(&files, "a.case").map(|c| c.is_sound()));
}

#[divan::bench]
fn build_console(bencher: Bencher<'_, '_>) {
    let files = MemoryFiles::one("a.case", CONSOLE);
    bencher.bench(|| {
        let compiled = pipeline::check(&files, "a.case").ok()?;
        papers::packet(&compiled).map(|packet| packet.len())
    });
}

/// Both revisions compiled, compared and printed, as the command does it.
#[divan::bench]
fn diff_console(bencher: Bencher<'_, '_>) {
    let redrawn = CONSOLE.replace("open niche { wide 15 }", "open niche { wide 14-1/2 }");
    let files = MemoryFiles::one("a.case", CONSOLE).with("b.case", &redrawn);
    bencher.bench(|| {
        let was = pipeline::check(&files, "a.case").ok()?;
        let now = pipeline::check(&files, "b.case").ok()?;
        let was = Named { name: "a.case", compiled: &was };
        let now = Named { name: "b.case", compiled: &now };
        Some(revision::text(&revision::compare(was, now), 80).len())
    });
}

#[divan::bench(args = CASES, sample_count = 10)]
fn parse_job(bencher: Bencher<'_, '_>, cases: usize) {
    let text = job(cases);
    bencher.bench(|| vocabulary::parse(FileId(0), &text).0.items.len());
}

/// One case of so many drawers over each other: their sizes are solved, and
/// their gaps told, together.
#[divan::bench(args = [10, 100, 400], sample_count = 10)]
fn check_openings(bencher: Bencher<'_, '_>, drawers: usize) {
    let (head, rest) = FIRST.split_once("    down {").expect("a list");
    let (_, tail) = rest.split_once("\n    }\n").expect("its end");
    let one = |number| format!("      drawer d{number} {{ share 1 }}\n");
    let all: Vec<String> = (0..drawers).map(one).collect();
    let list = all.join("      rail { wide 1/2 }\n");
    let text = format!("{head}    down {{\n{list}    }}\n{tail}");
    let text = text.replace("high 34-1/2", &format!("high {}", 8 * drawers + 20));
    let files = MemoryFiles::one("a.case", &text);
    bencher.bench(|| pipeline::check(&files, "a.case").map(|c| c.parts.is_some()));
}

#[divan::bench(args = CASES, sample_count = 10)]
fn check_job(bencher: Bencher<'_, '_>, cases: usize) {
    let files = MemoryFiles::one("a.case", &job(cases));
    bencher.bench(|| pipeline::check(&files, "a.case").map(|c| c.is_sound()));
}

#[divan::bench(args = CASES, sample_count = 3)]
fn build_job(bencher: Bencher<'_, '_>, cases: usize) {
    let files = MemoryFiles::one("a.case", &job(cases));
    bencher.bench(|| {
        let compiled = pipeline::check(&files, "a.case").ok()?;
        papers::packet(&compiled).map(|packet| packet.len())
    });
}

/// Every other line end moved and every column lost: all of it is written anew.
#[divan::bench]
fn format_10_000_lines(bencher: Bencher<'_, '_>) {
    let mut text = String::new();
    let mut cases = 0;
    while text.lines().count() < 10_000 {
        cases += 40;
        text = job(cases).replace(" {", "{").replace("  ", " ");
    }
    bencher.bench(|| vocabulary::format(FileId(0), &text).map(|text| text.len()));
}
