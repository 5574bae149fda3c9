//! The workflow and the hooks under ci/: they are what they claim to be, and
//! what of them can run here does its work.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test that can't go on stops"
)]
#![cfg(unix)]

mod support;

use std::path::{Path, PathBuf};
use std::process::Command;

use clap::CommandFactory as _;
use support::{Bench, Done, done, spec};
use yaml_rust2::{Yaml, YamlLoader};

fn file(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("ci").join(name)
}

fn yaml(name: &str) -> Yaml {
    let text = std::fs::read_to_string(file(name)).unwrap();
    let [document] = YamlLoader::load_from_str(&text).unwrap().try_into().unwrap();
    document
}

/// The scripts of the workflow, by the names of their steps.
fn scripts() -> Vec<(String, String)> {
    let workflow = yaml("workflow.yml");
    let steps = workflow["jobs"]["specs"]["steps"].as_vec().unwrap();
    steps
        .iter()
        .filter_map(|step| {
            Some((step["name"].as_str()?.to_owned(), step["run"].as_str()?.to_owned()))
        })
        .collect()
}

fn script(name: &str) -> String {
    let found = scripts().into_iter().find(|(known, _)| known == name);
    found.unwrap_or_else(|| panic!("no step {name}")).1
}

/// Everything that is called, hooks too: the words behind `casewright`.
fn calls() -> Vec<Vec<String>> {
    let mut texts: Vec<String> = scripts().into_iter().map(|(_, script)| script).collect();
    let hooks = yaml("pre-commit-hooks.yaml");
    texts.extend(
        hooks.as_vec().unwrap().iter().map(|hook| hook["entry"].as_str().unwrap().to_owned()),
    );
    texts.push(std::fs::read_to_string(file("pre-commit")).unwrap());
    let lines = texts.iter().flat_map(|text| text.lines()).filter(|line| !line.starts_with('#'));
    lines
        .filter_map(|line| line.split_once("casewright "))
        .map(|(_, call)| {
            let words =
                call.split_whitespace().take_while(|word| !matches!(*word, "|" | "||" | ">"));
            words.map(ToOwned::to_owned).collect()
        })
        .collect()
}

#[test]
fn every_command_and_flag_that_is_called_exists() {
    let mut all = casewright::cli::Arguments::command();
    all.build();
    let calls = calls();
    assert!(calls.len() >= 7, "{calls:?}");
    for call in &calls {
        let command = all.find_subcommand(&call[0]).unwrap_or_else(|| panic!("{call:?}"));
        for flag in call.iter().filter_map(|word| word.strip_prefix("--")) {
            assert!(
                command.get_arguments().any(|known| known.get_long() == Some(flag)),
                "{call:?}"
            );
        }
    }
}

#[test]
fn the_workflow_asks_for_no_more_than_it_needs() {
    let workflow = yaml("workflow.yml");
    assert_eq!(workflow["permissions"]["contents"].as_str(), Some("read"));
    for on in ["push", "pull_request"] {
        assert!(!workflow["on"][on].is_badvalue(), "{on}");
    }
    for (name, script) in scripts() {
        // What others may write must not become part of a script.
        assert!(!script.contains("${{"), "{name}");
        let mut bash = Command::new("bash");
        let checked = done(bash.args(["-n", "-c", &script]));
        assert_eq!((checked.code, checked.err.as_str()), (Some(0), ""), "{name}");
    }
}

/// A git repository with these files, all of them committed.
fn repository(files: &[(&str, &str)]) -> Bench {
    let mut bench = Bench::new();
    for (name, text) in files {
        bench = bench.with(name, text);
    }
    for arguments in [&["init", "-q"][..], &["add", "."], &["commit", "-qm", "first"]] {
        assert_eq!(git(&bench, arguments).code, Some(0));
    }
    bench
}

fn git(bench: &Bench, arguments: &[&str]) -> Done {
    let mut git = at_home(bench, "git");
    done(git.args(["-c", "user.name=m", "-c", "user.email=m@example.org"]).args(arguments))
}

/// A command in the repository that finds casewright on its path, and no
/// settings of whoever runs the tests.
fn at_home(bench: &Bench, name: &str) -> Command {
    let own = Path::new(env!("CARGO_BIN_EXE_casewright")).parent().unwrap();
    let path = std::env::var_os("PATH").unwrap();
    let path = std::env::join_paths(
        std::iter::once(own.to_path_buf()).chain(std::env::split_paths(&path)),
    );
    let mut command = Command::new(name);
    command
        .current_dir(bench.path(""))
        .env("PATH", path.unwrap())
        .env("GIT_CONFIG_GLOBAL", "/dev/null")
        .env("GIT_CONFIG_SYSTEM", "/dev/null")
        .env("SPECS", "specs");
    for (name, _) in std::env::vars().filter(|(name, _)| name.starts_with("GIT_")) {
        if !name.starts_with("GIT_CONFIG_") {
            command.env_remove(name);
        }
    }
    command
}

/// A step as the host runs it.
fn step(bench: &Bench, name: &str) -> Done {
    done(at_home(bench, "bash").args([
        "--noprofile",
        "--norc",
        "-eo",
        "pipefail",
        "-c",
        &script(name),
    ]))
}

fn tall() -> String {
    spec("first.case").replace("doors store { share 1;", "doors store { high 23;")
}

#[test]
fn the_steps_of_the_workflow_do_their_work() {
    let stand = spec("ferry-road-wash-stand.case");
    let shop = spec("shop.case");
    let files = [
        ("specs/a b.case", &*spec("first.case")),
        ("specs/jobs/stand.case", &*stand),
        ("specs/jobs/shop.case", &*shop),
    ];
    let bench = repository(&files);
    let checked = step(&bench, "Check");
    assert_eq!((checked.code, checked.out.as_str()), (Some(0), ""), "{checked:?}");
    assert_eq!(step(&bench, "Write the log").code, Some(0));
    assert_eq!(step(&bench, "Make the papers").code, Some(0));
    for index in ["papers/specs/a b/index.html", "papers/specs/jobs/stand/index.html"] {
        assert!(bench.path(index).exists(), "{index}");
    }
    assert!(!bench.path("papers/specs/jobs/shop").exists());

    let bench = bench.with("specs/a b.case", &tall());
    let checked = step(&bench, "Check");
    assert_eq!(checked.code, Some(1));
    assert!(checked.out.starts_with("::error file=specs/a b.case,line="), "{checked:?}");
    assert_eq!(step(&bench, "Write the log").code, Some(0), "findings are no failure of the log");
    let log = std::fs::read_to_string(bench.path("casework.sarif")).unwrap();
    assert!(log.contains("\"ruleId\":\"sizes-conflict\""));
    std::fs::remove_dir_all(bench.path("specs")).unwrap();
    assert_ne!(step(&bench, "Write the log").code, Some(0), "a log of nothing is one");
}

#[test]
fn hook_entries_have_what_the_framework_needs() {
    let hooks = yaml("pre-commit-hooks.yaml");
    for hook in hooks.as_vec().unwrap() {
        for key in ["id", "name", "entry", "language", "files"] {
            assert!(hook[key].as_str().is_some_and(|value| !value.is_empty()), "{key}: {hook:?}");
        }
    }
}

#[test]
fn the_git_hook_looks_at_what_is_committed() {
    let bench = repository(&[("jobs/a.case", &*spec("first.case")), ("notes.txt", "one\n")]);
    std::fs::create_dir_all(bench.path(".git/hooks")).unwrap();
    std::fs::copy(file("pre-commit"), bench.path(".git/hooks/pre-commit")).unwrap();
    let commit = |message| git(&bench, &["commit", "-qm", message]);
    let write = |name: &str, text: &str| std::fs::write(bench.path(name), text).unwrap();

    write("jobs/a.case", &tall());
    git(&bench, &["add", "."]);
    let refused = commit("too tall");
    assert_eq!(refused.code, Some(1), "{refused:?}");
    assert!(refused.err.contains("[jobs/a.case:"), "{refused:?}");
    // Mended in the folder only: still refused.
    write("jobs/a.case", &spec("first.case"));
    assert_eq!(commit("not added").code, Some(1));
    git(&bench, &["add", "."]);
    write("notes.txt", "two\n");
    git(&bench, &["add", "."]);
    // Spoilt in the folder only: what is committed is sound.
    write("jobs/a.case", &tall());
    let done = commit("notes");
    assert_eq!(done.code, Some(0), "{done:?}");
    git(&bench, &["rm", "-qf", "jobs/a.case"]);
    let done = commit("no spec left");
    assert_eq!(done.code, Some(0), "{done:?}");
}
