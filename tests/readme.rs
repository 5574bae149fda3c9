//! What the README shows is what the compiler says.

use std::path::Path;
use std::process::Command;

const README: &str = include_str!("../README.md");
const FIRST: &str = include_str!("../specs/first.case");

fn run(folder: &Path, arguments: &[&str]) -> (String, String) {
    let output = Command::new(env!("CARGO_BIN_EXE_casewright"))
        .args(arguments)
        .current_dir(folder)
        .env_remove("FORCE_COLOR")
        .env_remove("CLICOLOR_FORCE")
        .output()
        .expect("the command runs");
    let text = |bytes| String::from_utf8(bytes).expect("text");
    (text(output.stdout), text(output.stderr))
}

/// The README holds these lines as they are, trailing spaces aside.
fn shows(text: &str) {
    for line in text.trim_end().lines() {
        assert!(
            README.lines().any(|known| known.trim_end() == line.trim_end()),
            "the README lacks: {line}"
        );
    }
}

#[test]
fn the_conflict_it_shows_is_the_one_the_compiler_prints() {
    let folder = tempfile::tempdir().expect("a folder");
    let wrong = FIRST.replace("doors store { share 1;", "doors store { high 23;");
    std::fs::write(folder.path().join("my.case"), wrong).expect("written");
    let (_, message) = run(folder.path(), &["check", "my.case"]);
    assert!(message.contains("sizes-conflict"));
    shows(&message);
    let (list, _) = run(folder.path(), &["mend", "my.case", "--list"]);
    assert_eq!(list.lines().count(), 4);
    shows(&list);
    let (lines, _) = run(folder.path(), &["mend", "my.case", "--take", "sizes-conflict:49:3"]);
    assert_eq!(lines.lines().count(), 3);
    shows(&lines);
}

#[test]
fn a_new_spec_builds_and_explains_itself_as_shown() {
    let folder = tempfile::tempdir().expect("a folder");
    run(folder.path(), &["new", "my.case"]);
    run(folder.path(), &["build", "my.case"]);
    assert!(folder.path().join("papers/my/index.html").exists());
    let (why, _) = run(folder.path(), &["why", "my.case", "bottom", "size"]);
    shows(&why);
    let (hinges, _) = run(folder.path(), &["why", "my.case", "LS", "hinge"]);
    shows(&hinges);
    let (list, _) = run(folder.path(), &["build", "my.case", "--print", "cut-list"]);
    let from = list.find("== maple").expect("the maple");
    let to = list.find("== box-side").expect("the drawer stock");
    shows(&list[from..to]);
}

#[test]
fn the_records_it_shows_are_what_the_command_writes() {
    let folder = tempfile::tempdir().expect("a folder");
    run(folder.path(), &["new", "my.case"]);
    let spec = folder.path().join("my.case");
    let text = |path| std::fs::read_to_string(path).expect("text");
    let before = text(&spec);
    let day = ["--date", "2026-03-14"];
    for parts in [&["bottom", "LE"][..], &["kick", "--size", "wide 4-17/32"]] {
        let (_, said) = run(folder.path(), &[&["record", "my.case"], parts, &day].concat());
        shows(&said);
    }
    let after = text(&spec);
    shows(after.strip_prefix(before.as_str()).expect("nothing else is changed"));
    // What it shows of `measured` is sound, and is what the form asks for.
    let from = README.find("measured 2026-03-20 {").expect("a form");
    let form = &README[from..from + README[from..].find("```").expect("its end")];
    std::fs::write(&spec, format!("{before}{form}")).expect("written");
    let (_, said) = run(folder.path(), &["check", "my.case", "--deny", "warnings"]);
    assert!(said.contains("my.case can be built, with 1 note"), "{said}");
}

#[test]
fn the_difference_it_shows_is_the_one_that_is_printed() {
    let folder = tempfile::tempdir().expect("a folder");
    let higher = FIRST.replace("drawer upper { high 5 }", "drawer upper { high 5-1/2 }");
    std::fs::write(folder.path().join("my.case"), FIRST).expect("written");
    std::fs::write(folder.path().join("new.case"), higher).expect("written");
    let (text, _) = run(folder.path(), &["diff", "my.case", "new.case"]);
    let shown = text.find("== Assembly").expect("the assembly");
    shows(&text[..shown]);
}
