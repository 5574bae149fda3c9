//! The renderers over findings made by hand; the pictures are snapshots.

use super::*;
use crate::diagnostics::{Diagnostic, Fix, Grade, Sources, Sum};
use crate::measure::{FileId, Length, Span, Tape};

const CONSOLE: &str = "\
    across {
      down bank {
        wide 17-1/4
        drawer upper  { high 5 }
        rail          { wide 1-1/2 }
        drawer middle { high 9-1/32 }
        rail          { wide 1-1/2 }
        drawer lower  { high 9 }
      }
";

/// The `nth` place (from 0) of a piece of text.
fn at(sources: &Sources, file: FileId, text: &str, nth: usize) -> Span {
    let source = sources.get(file).unwrap();
    let (start, _) = source.text.match_indices(text).nth(nth).unwrap();
    Span::new(file, start, start + text.len())
}

/// The console's bank made a 32nd too tall, as PAPERS.md shows it.
fn bank() -> (Sources, Diagnostic) {
    let mut sources = Sources::new();
    // About as many lines before it as the whole spec has.
    let lead = format!("{}case console {{\n  wide 66; deep 17; high 33\n", "#\n".repeat(50));
    let text = format!("{lead}{}{CONSOLE}", "#\n".repeat(40));
    let file = sources.add("hall-console.case", text);
    let tape = Tape::inches();
    let span = |text: &str, nth: usize| at(&sources, file, text, nth);
    let needs = Sum::new("needs", Length::inches(833, 32), &tape)
        .plus(Length::inches(5, 1), "", &tape)
        .plus(Length::inches(3, 2), "", &tape)
        .plus(Length::inches(289, 32), "", &tape)
        .plus(Length::inches(3, 2), "", &tape)
        .plus(Length::inches(9, 1), "", &tape);
    let leaves = Sum::new("leaves", Length::inches(26, 1), &tape)
        .plus(Length::inches(33, 1), "high", &tape)
        .minus(Length::inches(4, 1), "base", &tape)
        .minus(Length::inches(3, 2), "top rail", &tape)
        .minus(Length::inches(3, 2), "bottom rail", &tape);
    let over = Sum::new("over by", Length::inches(1, 32), &tape);
    let share =
        Fix::new(Grade::Choice, "let middle take what is left", span("high 9-1/32", 0), "share 1");
    let found = Diagnostic::error(
        "sizes-conflict",
        "bank is 1/32 too tall: its openings need 26-1/32, the frame leaves 26",
        span("9-1/32", 0),
        "9-1/32",
    )
    .label(span("high 5", 0), "5")
    .label(span("1-1/2", 0), "1-1/2")
    .label(span("1-1/2", 1), "1-1/2")
    .label(span("high 9 ", 0), "9")
    .label(span("high 33", 0), "33 over all")
    .sum(needs)
    .sum(leaves)
    .sum(over)
    .because("the lower drawer front would stand proud of its opening and never close.")
    .note("base 4: from `base { toe-kick }`")
    .fix(Fix::new(Grade::Choice, "make middle 1/32 lower", span("9-1/32", 0), "9"))
    .fix(Fix::new(Grade::Choice, "make lower 1/32 lower", span("high 9 ", 0), "high 8-31/32 "))
    .fix(share)
    .subject("console.bank");
    (sources, found)
}

fn wide(width: usize) -> Look {
    Look { width, ..Look::plain() }
}

fn all_formats(sources: &Sources, found: &Diagnostic) -> [(&'static str, String); 5] {
    let run = Run { version: "0", rules: &[], specs: &[], unread: &[], exit: 1 };
    let found = std::slice::from_ref(found);
    [
        ("text", terminal(sources, found, Look::plain())),
        ("short", short(sources, found)),
        ("json", json(sources, found)),
        ("annotations", annotations(sources, found).concat()),
        ("sarif", sarif(&run, sarif_findings(sources, found))),
    ]
}

fn page(look: Look) -> String {
    let (sources, found) = bank();
    terminal(&sources, &[found], look)
}

#[test]
fn the_page_reads_as_the_sum() {
    insta::assert_snapshot!(page(wide(100)));
}

#[test]
fn a_narrow_page_breaks_between_terms() {
    let narrow = page(wide(56));
    insta::assert_snapshot!(narrow);
    assert!(narrow.lines().all(|line| wrap::columns(line) <= 56), "{narrow}");
}

#[test]
fn without_unicode_the_page_is_ascii() {
    let look = Look { unicode: false, ..wide(100) };
    let ascii = page(look);
    insta::assert_snapshot!(ascii);
    assert!(ascii.is_ascii());
}

#[test]
fn colour_changes_no_letter() {
    let coloured = page(Look { colour: true, ..wide(100) });
    assert!(coloured.contains("\u{1b}["));
    let mut bare = String::new();
    let mut rest = coloured.as_str();
    while let Some((before, after)) = rest.split_once("\u{1b}[") {
        bare.push_str(before);
        rest = after.split_once('m').map_or("", |(_, rest)| rest);
    }
    bare.push_str(rest);
    assert_eq!(bare, page(wide(100)));
}

#[test]
fn labels_in_another_file_stand_in_the_same_frame() {
    let mut sources = Sources::new();
    let spec = sources.add("ferry-road.case", "use \"shop.case\"\ncase stand { wide 30 }\n");
    let shop =
        sources.add("shop.case", "shop { kerf 1/8 }\n\n\n\n\n\n\n\n\nstock ply { actual 23/32 }\n");
    let found = Diagnostic::warning(
        "loose-dado",
        "the bottom of stand sits loose: the dado is 3/4, the sheet 23/32",
        at(&sources, spec, "wide 30", 0),
        "",
    )
    .label(at(&sources, shop, "23/32", 0), "23/32 thick")
    .fix(Fix::new(Grade::Choice, "", at(&sources, shop, "23/32", 0), "3/4"));
    insta::assert_snapshot!(terminal(&sources, &[found], Look::plain()));
}

#[test]
fn hostile_text_stays_text() {
    let mut sources = Sources::new();
    let text = "job \"\u{1b}[2J\u{202e}gnp\u{9b}31m\" { revision\tB }\n";
    let file = sources.add("a\u{1b}]0;b\u{7}.case", text);
    let found = Diagnostic::error(
        "name-unknown",
        "there is no \u{1b}[1mbank\u{1b}[0m\nhere",
        at(&sources, file, "revision", 0),
        "no \u{202e}such",
    )
    .because("\u{1b}c")
    .note("\u{9d}")
    .subject("\u{1b}x")
    .fix(Fix::new(Grade::Sure, "say \u{7f}", at(&sources, file, "B", 0), "\u{200f}C"));
    for (name, out) in all_formats(&sources, &found) {
        let unseen = |c: char| c != '\n' && visible::is_unseen(c);
        assert!(!out.contains(unseen), "{name}: {out:?}");
    }
    insta::assert_snapshot!(terminal(&sources, &[found], Look::plain()));
}

#[test]
fn a_long_line_and_a_wide_label_keep_to_the_page() {
    let mut sources = Sources::new();
    let text = format!("case a {{ {} wide 3 {} }}\n", "x".repeat(300), "y 5; ".repeat(9000));
    let file = sources.add("a.case", text);
    let found = Diagnostic::error("s", "t", at(&sources, file, "wide 3", 0), "w".repeat(10))
        .label(at(&sources, file, "y 5", 8000), "far away, at the other end of the line");
    let page = terminal(&sources, &[found], Look::plain());
    insta::assert_snapshot!(page);
    assert!(page.lines().all(|line| wrap::columns(line) <= 80), "{page}");
}

#[test]
fn odd_spans_are_drawn_or_left_out_but_never_fail() {
    let mut sources = Sources::new();
    let file = sources.add("a.case", "é {\r\n\r\n  wide 3\n}\n");
    let empty = sources.add("empty.case", "");
    let spans = (0..25)
        .flat_map(|start| (start..25).map(move |end| Span::new(file, start, end)))
        .chain([Span::new(empty, 0, 0), Span::new(empty, 3, 9), Span::new(FileId(9), 0, 1)]);
    for span in spans {
        let found = Diagnostic::error("s", "title", span, "here")
            .label(Span::new(file, 10, 14), "there")
            .fix(Fix::new(Grade::Sure, "f", span, "x"));
        for (_, out) in all_formats(&sources, &found) {
            assert!(out.contains("title"), "{span:?} {out}");
        }
    }
}

#[test]
fn a_label_over_several_lines_stands_on_the_first() {
    let mut sources = Sources::new();
    let file = sources.add("a.case", "case a {\n  wide 3\n  deep 4\n");
    let found = Diagnostic::error(
        "unclosed",
        "the block of `a` is never closed",
        Span::new(file, 0, 27),
        "opened here",
    )
    .label(Span::new(file, 27, 27), "a `}` is missing");
    insta::assert_snapshot!(terminal(&sources, &[found], Look::plain()));
}

#[test]
fn statements_in_statements_each_keep_a_line() {
    let mut sources = Sources::new();
    let file = sources.add("a.case", "  drawer upper { high 5 }\n");
    let found = Diagnostic::error("s", "t", at(&sources, file, "high 5", 0), "5 high")
        .label(at(&sources, file, "drawer upper { high 5 }", 0), "one of the bank")
        .label(at(&sources, file, "high 5", 0), "the same again");
    insta::assert_snapshot!(terminal(&sources, &[found], Look::plain()));
}

#[test]
fn many_of_a_kind_are_counted() {
    let (sources, found) = bank();
    let page = terminal(&sources, &vec![found; 27], wide(100));
    assert_eq!(page.matches("error[sizes-conflict]").count(), 20);
    assert!(
        page.ends_with(
            "\n\n7 more findings of sizes-conflict; `--format short` lists them all\n\n"
        )
    );
}

#[test]
fn short_is_one_line_a_finding() {
    let (sources, found) = bank();
    assert_eq!(
        short(&sources, &[found]),
        "hall-console.case:98:30: error[sizes-conflict]: bank is 1/32 too tall: its openings need \
         26-1/32, the frame leaves 26\n"
    );
}

#[test]
fn json_holds_everything() {
    let (sources, found) = bank();
    let out = json(&sources, &[found.clone(), found]);
    let objects: Vec<serde_json::Value> =
        out.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(objects.len(), 2);
    let pretty = serde_json::to_string_pretty(&objects[0]).unwrap();
    insta::assert_snapshot!(pretty);
}

#[test]
fn json_gives_hostile_text_back_unchanged() {
    let mut sources = Sources::new();
    let file = sources.add("a\u{1b}.case", "x");
    let title = "\u{1b}[1m\u{202e}\u{e0041} \"quoted\" \\ é";
    let found = Diagnostic::error("s", title, Span::new(file, 0, 1), "");
    let out = json(&sources, &[found]);
    let object: serde_json::Value = serde_json::from_str(&out).unwrap();
    assert_eq!(object["title"], title);
    assert_eq!(object["file"], "a\u{1b}.case");
}
