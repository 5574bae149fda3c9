//! What grows with a piece grows as it does: twice as many cases take about twice the
//! memory and give papers about twice as long. In a file of its own, since memory is
//! counted for the whole process.

#![allow(clippy::expect_used, reason = "a test that can't go on stops")]

use std::alloc::System;
use std::collections::BTreeMap;

use casewright::model::MemoryFiles;
use casewright::papers;
use casewright::pipeline::{self, Compilation};
use casewright::revision::{self, Named};
use stats_alloc::{INSTRUMENTED_SYSTEM, Region, StatsAlloc};

#[global_allocator]
static MEMORY: &StatsAlloc<System> = &INSTRUMENTED_SYSTEM;

const CONSOLE: &str = include_str!("../specs/hall-console.case");

/// So many cases, each step twice as many more as the step before.
const CASES: [usize; 3] = [2, 4, 8];

/// From the second step on something may grow so many times as fast: what is in
/// proportion to the cases grows twice as fast, what is to their square four times. What
/// is between is for names and columns, which are wider where there are more.
const MOST: f64 = 2.3;

/// A list that has as many lines whatever the cases gets a few digits longer.
const DIGITS: f64 = 30.0;

/// The console over and over, each under a name of its own. How large its sheets are is not
/// known: the search for sheet plans takes fewer rounds where there are more pieces, but it
/// begins only where the first plans take more sheets than the bound, which goes by jumps. Nor
/// is it known which boards there are: how many are bought goes by jumps too.
fn consoles(count: usize) -> String {
    let console = CONSOLE.replace("sheet { long 96; wide 48; grain long }", "");
    let console = console
        .replace("sheet { long 96; wide 48 }", "")
        .replace("on-hand { long 40; wide 27 };", "");
    let console = console
        .replace("boards { wide 5 to 8; long 96 to 120 };", "")
        .replace("boards { wide 4 to 7; long 96 to 120 };", "");
    assert!(!console.contains("sheet {") && !console.contains("boards {"));
    let (head, case) = console.split_at(console.find("case console").expect("a case"));
    let cases = (0..count).map(|n| case.replace("case console", &format!("case console-{n}")));
    std::iter::once(head.to_owned()).chain(cases).collect()
}

/// How often something asks for memory, and for how much in all.
type Asked = [(&'static str, usize); 2];

fn counted<T>(what: impl FnOnce() -> T) -> (T, Asked) {
    let region = Region::new(MEMORY);
    let made = what();
    let change = region.change();
    let times = change.allocations + change.reallocations;
    (made, [("times", times), ("bytes", change.bytes_allocated)])
}

fn compiled(text: &str) -> Compilation {
    let compiled =
        pipeline::check(&MemoryFiles::one("a.case", text), "a.case").expect("a readable spec");
    assert!(compiled.is_sound());
    compiled
}

/// Everything that is counted of so many cases, by its name.
fn sizes(cases: usize) -> BTreeMap<String, usize> {
    let text = consoles(cases);
    let (compilation, checked) = counted(|| compiled(&text));
    let (packet, printed) = counted(|| papers::packet(&compilation).expect("a sound piece"));
    let redrawn = text.replace("open niche { wide 15 }", "open niche { wide 14-1/2 }");
    assert_ne!(redrawn, text);
    let redrawn = compiled(&redrawn);
    let (told, compared) = counted(|| {
        let was = Named { name: "a.case", compiled: &compilation };
        let now = Named { name: "b.case", compiled: &redrawn };
        revision::text(&revision::compare(was, now), 80)
    });
    let mut sizes: BTreeMap<String, usize> =
        packet.iter().map(|file| (file.name.clone(), file.text.len())).collect();
    sizes.insert("the difference".into(), told.len());
    for (stage, asked) in [("check", checked), ("papers", printed), ("difference", compared)] {
        sizes.extend(asked.map(|(what, count)| (format!("{what} of the {stage}"), count)));
    }
    sizes
}

#[test]
fn twice_as_many_cases_take_twice_as_much() {
    let [few, more, most] = CASES.map(sizes);
    assert_eq!(few.len(), most.len());
    let grown = |from: &BTreeMap<String, usize>, to: &BTreeMap<String, usize>, what: &str| {
        to[what] as f64 - from[what] as f64
    };
    let too_fast: Vec<String> = few
        .keys()
        .map(|what| (what, grown(&few, &more, what), grown(&more, &most, what)))
        .filter(|(_, first, second)| *second > MOST * first.max(0.0) + DIGITS)
        .map(|(what, first, second)| format!("{what}: {first} and then {second}"))
        .collect();
    assert!(too_fast.is_empty(), "{too_fast:#?}");
    // The papers tell of every case.
    assert!(grown(&few, &more, "packet.json") > 4.0 * 50_000.0);
}
