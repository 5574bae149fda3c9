//! What becomes of a spec that commands write: by several at once, with the
//! line ends of another system, in the middle of a merge.

use std::process::{Child, Stdio};

use crate::support::{Bench, Repository, spec};

fn read(bench: &Bench) -> String {
    std::fs::read_to_string(bench.path("a.case")).unwrap()
}

/// Whatever a run said it recorded is in the file, whoever else wrote.
#[test]
fn every_record_that_is_reported_is_in_the_file() {
    const PARTS: [&str; 4] = ["bottom", "left-end", "right-end", "kick"];
    let bench = Bench::new().with("a.case", &spec("first.case"));
    let mut reported = Vec::new();
    for day in 1..=6 {
        let date = format!("2026-03-{day:02}");
        let start = |part: &&str| -> Child {
            let mut command = bench.command(&["record", "a.case", part, "--date", &date]);
            command.stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap()
        };
        let running: Vec<Child> = PARTS.iter().map(start).collect();
        for (part, mut child) in PARTS.iter().zip(running) {
            match child.wait().unwrap().code() {
                Some(0) => reported.push((date.clone(), format!("cupboard.{part} {{"))),
                code => assert_eq!(code, Some(2)),
            }
        }
    }
    let text = read(&bench);
    for (date, part) in &reported {
        let day = text.split(&format!("cut {date} {{")).nth(1).expect("the day");
        let day = day.split("\n}").next().unwrap();
        assert!(day.contains(part), "{part} of {date} is not in\n{text}");
    }
    let recorded = text.lines().filter(|line| line.starts_with("  cupboard.")).count();
    assert_eq!(recorded, reported.len(), "{text}");
    assert!(recorded >= 6, "{text}");
    assert_eq!(std::fs::read_dir(bench.path("")).unwrap().count(), 1);
}

/// The file keeps its line ends, whatever is done to it.
#[test]
fn lines_end_as_they_did() {
    let windows = |text: &str| text.replace('\n', "\r\n");
    let neat = windows(&spec("first.case"));
    let loose = neat.replacen("  revision A\r\n", "      revision A\r\n", 1);
    let bench = Bench::new().with("a.case", &neat);
    assert_eq!(bench.run(&["format", "--check", "a.case"]).code, Some(0));
    let bench = bench.with("a.case", &loose);
    assert_eq!(bench.run(&["format", "--check", "a.case"]).code, Some(1));
    assert_eq!(bench.run(&["format", "a.case"]).code, Some(0));
    assert_eq!(read(&bench), neat);

    assert_eq!(bench.run(&["record", "a.case", "kick", "--date", "2026-03-14"]).code, Some(0));
    let recorded = read(&bench);
    assert!(recorded.contains("cut 2026-03-14 {\r\n"), "{recorded:?}");
    assert_eq!(windows(&recorded.replace("\r\n", "\n")), recorded);

    // One line of another system: the first says how they end.
    let mixed = neat.replacen("  revision A\r\n", "  revision A\n", 1);
    let bench = bench.with("a.case", &mixed);
    assert_eq!(bench.run(&["format", "a.case"]).code, Some(0));
    assert_eq!(read(&bench), neat);

    // An edit that brings a line with it.
    let open = neat.replacen("finish oil\r\n}", "finish oil\r\n", 1);
    assert_ne!(open, neat);
    let bench = bench.with("a.case", &open);
    let list = bench.run(&["mend", "a.case", "--list"]).out;
    let name = list.split_whitespace().next().unwrap();
    assert_eq!(bench.run(&["mend", "a.case", "--take", name]).code, Some(0), "{list}");
    let mended = read(&bench);
    assert_eq!(windows(&mended.replace("\r\n", "\n")), mended);
}

/// A checkout with the line ends of another system is as formatted as what it
/// was made from.
#[test]
fn a_checkout_with_other_line_ends_is_formatted() {
    let own = Repository::new();
    own.write(".gitattributes", "*.case text eol=crlf\n");
    own.write("a.case", &spec("first.case"));
    own.commit();
    std::fs::remove_file(own.bench.path("a.case")).unwrap();
    own.git(&["checkout", "--", "a.case"]);
    assert!(read(&own.bench).contains("\r\n"));
    let done = own.bench.run(&["format", "--check", "a.case"]);
    assert_eq!(done.code, Some(0), "{done:?}");
}

/// Both versions of a line stand in the file until a maker has chosen.
#[test]
fn an_unfinished_merge_is_told_once_and_nothing_touches_it() {
    let own = Repository::new();
    let sound = spec("first.case");
    let with = |high: &str| sound.replacen("drawer upper { high 5 }", high, 1);
    own.write("a.case", &sound);
    own.commit();
    own.git(&["branch", "-M", "main"]);
    own.git(&["checkout", "--quiet", "-b", "deeper"]);
    own.write("a.case", &with("drawer upper { high 6 }"));
    own.commit();
    own.git(&["checkout", "--quiet", "main"]);
    own.write("a.case", &with("drawer upper { high 4 }"));
    own.commit();
    let mut merge = std::process::Command::new("git");
    merge.args(["merge", "deeper"]).current_dir(own.bench.path(""));
    assert_eq!(crate::support::done(&mut merge).code, Some(1));
    let text = read(&own.bench);
    assert!(text.contains("\n=======\n"), "{text}");

    let short = own.bench.run(&["check", "a.case", "--format", "short"]);
    assert_eq!(short.code, Some(1), "{short:?}");
    assert_eq!(short.out.lines().count(), 1, "{short:?}");
    assert!(short.out.contains("error[merge-conflict]"), "{short:?}");
    let page = own.bench.run(&["check", "a.case"]);
    assert!(page.err.contains("<<<<<<< HEAD") && page.err.contains(">>>>>>> deeper"), "{page:?}");
    assert_eq!(own.bench.run(&["mend", "a.case", "--list"]).out, "");
    for arguments in [
        &["mend", "a.case"][..],
        &["format", "a.case"],
        &["record", "a.case", "kick", "--date", "2026-03-14"],
        &["build", "a.case"],
    ] {
        let done = own.bench.run(arguments);
        assert_eq!(done.code, Some(1), "{arguments:?} {done:?}");
        assert_eq!(read(&own.bench), text);
    }
}
