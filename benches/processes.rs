//! Speed as the maker sees it: whole processes on the hall console, from the
//! command to its end, and from a save to the papers of a watch.
//! `cargo bench`; never part of a test.

#![allow(
    missing_docs,
    clippy::expect_used,
    clippy::panic,
    reason = "a benchmark that can't go on stops"
)]

use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use divan::Bencher;
use tempfile::TempDir;

const CONSOLE: &str = include_str!("../specs/hall-console.case");
const FIRST: &str = include_str!("../specs/first.case");

fn main() {
    divan::main();
}

fn command(folder: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_casewright"));
    command.args(arguments).current_dir(folder);
    command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    command
}

/// The console, with a niche half an inch narrower.
fn redrawn() -> String {
    let redrawn = CONSOLE.replace("open niche { wide 15 }", "open niche { wide 14-1/2 }");
    assert_ne!(redrawn, CONSOLE);
    redrawn
}

fn folder(files: &[(&str, &str)]) -> TempDir {
    let folder = TempDir::new().expect("a folder");
    for (name, text) in files {
        std::fs::write(folder.path().join(name), text).expect("a file");
    }
    folder
}

fn run(bencher: Bencher<'_, '_>, files: &[(&str, &str)], arguments: &[&str], code: i32) {
    let folder = folder(files);
    bencher.bench(|| {
        let status = command(folder.path(), arguments).status().expect("a command");
        assert_eq!(status.code(), Some(code));
    });
}

/// What any command takes.
#[divan::bench]
fn version(bencher: Bencher<'_, '_>) {
    run(bencher, &[], &["--version"], 0);
}

#[divan::bench]
fn check(bencher: Bencher<'_, '_>) {
    run(bencher, &[("a.case", CONSOLE)], &["check", "a.case"], 0);
}

#[divan::bench]
fn build(bencher: Bencher<'_, '_>) {
    run(bencher, &[("a.case", CONSOLE)], &["build", "a.case"], 0);
}

/// The console over and over, each under a name of its own, side by side.
fn consoles(count: usize) -> String {
    let (head, case) = CONSOLE.split_at(CONSOLE.find("case console").expect("a case"));
    let cases = (0..count).map(|n| case.replace("case console", &format!("case console-{n}")));
    std::iter::once(head.to_owned()).chain(cases).collect()
}

#[divan::bench(args = [10, 100, 500], sample_count = 10)]
fn check_consoles(bencher: Bencher<'_, '_>, count: usize) {
    run(bencher, &[("a.case", &consoles(count))], &["check", "a.case"], 0);
}

#[divan::bench(args = [10, 100, 500], sample_count = 10)]
fn build_consoles(bencher: Bencher<'_, '_>, count: usize) {
    run(bencher, &[("a.case", &consoles(count))], &["build", "a.case"], 0);
}

/// Nearly as many shelves as a piece may have, in cases of as many as one may have.
fn shelves() -> String {
    let row = "open row-0 { share 1; shelf { fixed 100 } }\n";
    let rows: Vec<String> = (0..3).map(|n| row.replace("row-0", &format!("row-{n}"))).collect();
    let (before, rest) = FIRST.split_once("down {").expect("a list");
    let behind = &rest[rest.find("\n    }").expect("its end")..];
    let mut grown = format!("{before}across {{{}{behind}", rows.join("stile { wide 1-1/2 }\n"));
    for (usual, large) in [
        ("  top {", "  partitions { joint dado { deep 1/4 } }\n  top {"),
        ("wide 36", "wide 66"),
        ("high 34-1/2", "high 230"),
        ("long 96; wide 48", "long 236; wide 118"),
    ] {
        assert!(grown.contains(usual), "{usual}");
        grown = grown.replace(usual, large);
    }
    let (head, case) = grown.split_at(grown.find("case cupboard").expect("a case"));
    let cases = (0..3).map(|n| case.replace("case cupboard", &format!("case cupboard-{n}")));
    std::iter::once(head.to_owned()).chain(cases).collect()
}

/// Drawers side by side and over each other, all in one face frame.
fn drawers() -> String {
    let column = |column: usize| {
        let drawers = (0..16).map(|row| format!("drawer d{column}-{row} {{ share 1 }}\n"));
        let drawers: Vec<String> = drawers.collect();
        format!("down {{ share 1\n{}}}\n", drawers.join("rail { wide 1 }\n"))
    };
    let columns: Vec<String> = (0..13).map(column).collect();
    let (before, rest) = FIRST.split_once("down {").expect("a list");
    let behind = &rest[rest.find("\n    }").expect("its end")..];
    let text = format!("{before}across {{\n{}{behind}", columns.join("stile { wide 2 }\n"));
    let text = text.replace("high 34-1/2", "high 116").replace("wide 36", "wide 230");
    text.replace("long 96; wide 48", "long 236; wide 118")
}

#[divan::bench(sample_count = 10)]
fn build_208_drawers(bencher: Bencher<'_, '_>) {
    run(bencher, &[("a.case", &drawers())], &["build", "a.case"], 0);
}

#[divan::bench(sample_count = 10)]
fn build_900_shelves(bencher: Bencher<'_, '_>) {
    run(bencher, &[("a.case", &shelves())], &["build", "a.case"], 0);
}

#[divan::bench(sample_count = 10)]
fn diff_900_shelves(bencher: Bencher<'_, '_>) {
    let (old, new) = (shelves(), shelves().replace("wide 1-1/2", "wide 1-1/4"));
    run(bencher, &[("a.case", &old), ("b.case", &new)], &["diff", "a.case", "b.case"], 1);
}

#[divan::bench]
fn diff(bencher: Bencher<'_, '_>) {
    run(bencher, &[("a.case", CONSOLE), ("b.case", &redrawn())], &["diff", "a.case", "b.case"], 1);
}

/// Two revisions of one file, the earlier handed out by git.
#[divan::bench]
fn diff_of_git(bencher: Bencher<'_, '_>) {
    let folder = folder(&[("a.case", CONSOLE)]);
    for arguments in [
        &["init", "--quiet"][..],
        &["add", "a.case"],
        &["-c", "user.name=a", "-c", "user.email=a@example.org", "commit", "--quiet", "-m", "a"],
    ] {
        let status = Command::new("git").args(arguments).current_dir(folder.path()).status();
        assert!(status.expect("git").success());
    }
    std::fs::write(folder.path().join("a.case"), redrawn()).expect("a file");
    bencher.bench(|| {
        let status = command(folder.path(), &["diff", "a.case", "--from", "HEAD"]).status();
        assert_eq!(status.expect("a command").code(), Some(1));
    });
}

#[divan::bench]
fn format_10_000_lines(bencher: Bencher<'_, '_>) {
    let (head, case) = FIRST.split_at(FIRST.find("case cupboard").expect("a case"));
    let mut text = head.to_owned();
    let mut number = 0;
    while text.lines().count() < 10_000 {
        text.push_str(&case.replace("case cupboard", &format!("case cupboard-{number}")));
        number += 1;
    }
    run(bencher, &[("a.case", &text)], &["format", "--check", "a.case"], 0);
}

/// Ends with what is measured, whatever happens.
struct Running(Child);

impl Drop for Running {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// From the moment a redraw is saved until its papers lie there.
#[divan::bench(sample_count = 30)]
fn watch_from_save_to_papers(bencher: Bencher<'_, '_>) {
    let folder = folder(&[("a.case", CONSOLE)]);
    let spec = folder.path().join("a.case");
    let paper = folder.path().join("papers/a/cut-list.csv");
    let _watch = Running(command(folder.path(), &["watch", "a.case"]).spawn().expect("a watch"));
    let wait = |old: &str| {
        let until = Instant::now() + Duration::from_secs(20);
        loop {
            match std::fs::read_to_string(&paper) {
                Ok(text) if text != old => return text,
                _ => assert!(Instant::now() < until, "no papers came"),
            }
            std::thread::sleep(Duration::from_micros(500));
        }
    };
    let mut last = wait("");
    let texts = [redrawn(), CONSOLE.to_owned()];
    let mut next = 0;
    bencher.bench_local(|| {
        // As an editor saves: the new text takes the place of the old.
        let beside = folder.path().join("a.tmp");
        std::fs::write(&beside, &texts[next % 2]).expect("a file");
        std::fs::rename(&beside, &spec).expect("a file");
        next += 1;
        last = wait(&last);
    });
}
