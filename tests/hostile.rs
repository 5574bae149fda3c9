//! Texts that a terminal, a page, a spreadsheet or a file system might take
//! for its own, put wherever a text goes in: they come out as text.

#[cfg(unix)]
use crate::oracle;
use std::ffi::OsStr;

#[cfg(unix)]
use crate::oracle::is_shown;
#[cfg(unix)]
use crate::support::Bench;
use crate::support::spec;
#[cfg(unix)]
use casewright::diagnostics::render::plain;
use casewright::papers::{Format, packet};

/// Each is a text in quotes of the language.
const TEXTS: &[&str] = &[
    "\u{202e}desrever\u{2066}",
    "<script>alert(1)</script><img src=x onerror=alert(1)>",
    "</title></text></svg><b onclick='x'>\\\"",
    "=HYPERLINK(1)",
    "+1",
    "-1",
    "@SUM(A1)",
    "| a | b |",
    "# head](http://example.org) ![x](y) `code` <!-- -->",
    "a\\nb",
    "::error file=x::y",
    "%0A::error::x",
    "&amp;&lt;",
    "@someone #12 GH-7 https://evil.example/ www.evil.example a@evil.example *x* _y_ ~~z~~ :smile:",
    "\u{feff}\u{200b}",
];

/// Every text of a spec put otherwise, and a note where one may stand.
fn with_text(name: &str, hostile: &str) -> String {
    let mut text = String::new();
    for line in spec(name).lines() {
        let mut parts = line.split('"');
        text.push_str(parts.next().unwrap());
        // Between the first two quotes of a line stands its text; an inch mark
        // has a digit before it, and none of these specs has one.
        if let (Some(_), Some(rest)) = (parts.next(), parts.next()) {
            text.push_str(&format!("\"{hostile}\"{rest}"));
        }
        text.push('\n');
    }
    let note =
        |block: &str| (format!("{block} {{\n"), format!("{block} {{\n note \"{hostile}\"\n"));
    for block in ["drawers", "fronts", "frame", "site", "shop"] {
        let (old, new) = note(block);
        text = text.replacen(&old, &new, 1);
    }
    text
}

#[test]
fn a_spec_may_say_anything_and_its_papers_are_papers() {
    for name in ["hall-console.case", "first.case"] {
        for hostile in TEXTS {
            let text = with_text(name, hostile);
            let compiled = oracle::compile(&text);
            assert!(compiled.is_sound(), "{hostile}: {:#?}", compiled.diagnostics);
            oracle::papers(&text);
            oracle::format(&text);
            oracle::compare(&text);
        }
    }
}

/// The list holds the names of a spec, letter for letter, and the oracle would
/// see a cell that is none.
#[test]
fn names_reach_the_cells_of_the_list_as_they_are() {
    let text = spec("first.case").replace("maple", "e5-1").replace("upper", "true-1");
    let compiled = oracle::compile(&text);
    let files = packet(&compiled).expect("papers");
    let list = files.iter().find(|file| file.format == Format::Csv).expect("a list");
    oracle::csv_is_text(&list.text);
    let mut reader = csv::Reader::from_reader(list.text.as_bytes());
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    let has = |column: usize, cell: &str| rows.iter().any(|row| row.get(column) == Some(cell));
    assert!(has(1, "cupboard.true-1.front") && has(2, "e5-1"), "{}", list.text);
    assert_eq!(rows.len(), compiled.parts.expect("parts").all.len());
    for cell in ["=1", "+1", "-1", "@x", "\"\t=1\"", "\"\r=1\""] {
        let wrong = list.text.replacen("e5-1", cell, 1);
        assert!(std::panic::catch_unwind(|| oracle::csv_is_text(&wrong)).is_err(), "{cell:?}");
    }
}

#[test]
fn a_misspelt_word_may_be_anything_and_its_message_is_a_message() {
    for hostile in TEXTS {
        // As a name, as a word, and as a line that is none.
        for wrong in [
            format!("accept \"{hostile}\" on x \"{hostile}\""),
            format!("case \"{hostile}\" {{ }}"),
            format!("\"{hostile}\""),
            format!("{hostile} 3"),
            format!("use \"{hostile}\""),
        ] {
            let text = format!("{}\n{wrong}\n", spec("first.case"));
            oracle::check(&text);
            oracle::mend(&text);
        }
    }
}

/// Names that a Unix file may have and that nobody would want.
#[cfg(unix)]
const NAMES: &[&str] = &[
    "a\u{1b}[2J\u{1b}]0;x\u{7}.case",
    "a\u{202e}b.case",
    "a\nb.case",
    "=1+1|x.case",
    "<b onclick=x>.case",
    "CON.case",
    "nul.case",
    "-rf.case",
    "%0A::error::x.case",
    "a\"b'c.case",
];

#[cfg(unix)]
#[test]
fn a_spec_may_be_called_anything() {
    let commands: &[&[&str]] = &[
        &["check"],
        &["check", "--format", "json"],
        &["check", "--format", "short"],
        &["check", "--format", "sarif"],
        &["check", "--format", "annotations"],
        &["build"],
        &["format"],
        &["format", "--check"],
        &["mend"],
        &["mend", "--list"],
        &["measure"],
        &["record", "--date", "2026-03-14"],
        &["why"],
        &["diff", "other.case"],
        &["diff", "other.case", "--format", "markdown"],
        &["diff", "other.case", "--format", "html"],
        &["diff", "other.case", "--format", "json"],
        &["new"],
    ];
    // A sound spec, and one with an error and a warning in it.
    let broken = spec("first.case").replace("doors store { share 1;", "doors store { high 23;");
    for name in NAMES {
        for text in [&spec("first.case"), &broken] {
            let bench = Bench::new().with(name, text).with("other.case", &spec("first.case"));
            for command in commands {
                let mut arguments = command.to_vec();
                let path = format!("./{name}");
                arguments.push(&path);
                arguments.extend(matches!(command[0], "why" | "record").then_some("bottom"));
                let done = bench.run(&arguments);
                assert!(matches!(done.code, Some(0..=2)), "{arguments:?} {done:?}");
                is_shown(&done.out);
                is_shown(&done.err);
            }
            // The folder of papers is one that every system can have.
            let papers = std::fs::read_dir(bench.path("papers"));
            for folder in papers.into_iter().flatten() {
                let folder = folder.unwrap().file_name();
                let folder = folder.to_str().unwrap();
                assert_eq!(plain(folder), folder);
                let stem = folder.split('.').next().unwrap().to_lowercase();
                assert!(!["con", "nul"].contains(&stem.as_str()), "{folder}");
            }
        }
    }
}

#[cfg(unix)]
#[test]
fn arguments_may_be_anything() {
    let bench = Bench::new().with("a.case", &spec("first.case"));
    for hostile in ["\u{1b}[2J", "\u{202e}x", "a\nb", "\u{9b}31m"] {
        let option = format!("--{hostile}");
        let runs: &[&[&str]] = &[
            &[hostile],
            &["check", &option],
            &["check", hostile],
            &["check", "a.case", "--format", hostile],
            &["build", "a.case", "--print", hostile],
            &["explain", hostile],
            &["trade", hostile],
            &["man", hostile],
            &["completions", hostile],
            &["why", "a.case", hostile],
            &["record", "a.case", hostile],
            &["record", "a.case", "bottom", "--size", hostile],
            &["record", "a.case", "bottom", "--date", hostile],
            &["mend", "a.case", "--take", hostile],
            &["diff", "a.case", "--from", hostile],
            &["diff", "a.case", hostile],
            &["new", hostile],
            &["new", hostile],
        ];
        for arguments in runs {
            let done = bench.run(arguments);
            assert!(matches!(done.code, Some(0..=2)), "{arguments:?} {done:?}");
            is_shown(&done.out);
            is_shown(&done.err);
        }
    }
    // Bytes that are no text at all.
    use std::os::unix::ffi::OsStrExt as _;
    let mut command = bench.command(&["check"]);
    let done = crate::support::done(command.arg(OsStr::from_bytes(b"a\xff\x1b[2J.case")));
    assert_eq!(done.code, Some(2), "{done:?}");
    is_shown(&done.err);
}
