//! How much work reading takes: counted in calls of the parser, so that a slow
//! machine does not matter. In a file of its own, since the limit holds for
//! the whole process.

use std::num::NonZeroUsize;
use std::sync::Mutex;

use casewright::measure::FileId;
use casewright::vocabulary::parse;

/// Calls of the parser for each byte, and for any text at all: the worst text
/// below takes 10 for each byte, the worst short one 4,700.
const CALLS: usize = 11;
const FEW: usize = 5_000;
/// Calls for each byte of a spec that has little but figures and words side by
/// side, as nearly every spec. The worst below takes 3.1.
const CALLS_OF_A_SPEC: usize = 4;

/// Texts over which a parser may go back and begin again at each letter.
const UNITS: [&str; 16] = [
    "\\\"",
    "\\\";",
    "\"\\\"",
    "\\\\\"",
    "a \"\\\" ",
    "7\"",
    "(",
    "1/",
    "a.",
    "5' ",
    "5 ft ",
    "1-1",
    "a + ",
    "3 - ",
    "a{",
    "{",
];

/// The limit is one for all tests of this file.
static ONE_AT_A_TIME: Mutex<()> = Mutex::new(());

fn is_read_in_time(text: &str) {
    is_read_within(CALLS * text.len() + FEW, text);
}

fn is_read_within(calls: usize, text: &str) {
    let _held = ONE_AT_A_TIME.lock();
    pest::set_call_limit(NonZeroUsize::new(calls));
    // The grammar takes any text to its end; only the limit stops it.
    let (_, found) = parse(FileId(0), text);
    let begins: String = text.chars().take(40).collect();
    let over = found.iter().any(|found| found.title.contains("can't be read from this point on"));
    assert!(!over, "more than {calls} calls: {begins}");
}

#[test]
fn reading_takes_linear_time() {
    for unit in UNITS {
        for lines in [1, 30] {
            let line = format!("{}\n", unit.repeat(3_000 / unit.len()));
            is_read_in_time(&line.repeat(lines));
        }
    }
    is_read_in_time(&format!("a {{\r{}}}", "b 1\r".repeat(20_000)));
}

#[test]
fn a_spec_is_read_without_trying_much_in_vain() {
    for text in [
        include_str!("../specs/hall-console.case"),
        include_str!("../specs/tide-cottage-press.case"),
        include_str!("../specs/alcove-shelves.case"),
        include_str!("../specs/ferry-road-wash-stand.case"),
        include_str!("../specs/first.case"),
        include_str!("../specs/shop.case"),
    ] {
        is_read_within(CALLS_OF_A_SPEC * text.len(), text);
    }
}

/// A block that could fail after all would be tried again at each level above.
#[test]
fn a_bare_brace_under_many_open_ones_takes_no_longer() {
    for head in ["a {\n", "? {\n", "{\n"] {
        for tail in ["{", "} {", "; {", "{ x 1 }", "? {"] {
            is_read_in_time(&format!("{}{tail}", head.repeat(60)));
        }
    }
}
