//! The workflow and the hooks under ci/: they are what they claim to be, and
//! what of them can run here does its work.

#![cfg(unix)]

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::support::{Bench, Done, done, spec};
use clap::CommandFactory as _;
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
        [bench.path(".tools"), own.to_path_buf()].into_iter().chain(std::env::split_paths(&path)),
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

/// The commit that a branch stands at.
fn commit_of(bench: &Bench, name: &str) -> String {
    git(bench, &["rev-parse", name]).out.trim().to_owned()
}

/// A step as the host runs it.
fn step(bench: &Bench, name: &str) -> Done {
    step_with(bench, name, &[])
}

/// A step as the host runs it, with what the event says.
fn step_with(bench: &Bench, name: &str, told: &[(&str, &str)]) -> Done {
    let mut bash = at_home(bench, "bash");
    bash.args(["--noprofile", "--norc", "-eo", "pipefail", "-c", &script(name)]);
    done(bash.envs(told.iter().copied()))
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
fn the_form_of_the_specs_is_looked_at() {
    let bench = repository(&[("specs/a b.case", &*spec("first.case")), ("b.case", "stock  x\n")]);
    let sound = step(&bench, "Look at the form");
    assert_eq!((sound.code, sound.out.as_str()), (Some(0), ""), "{sound:?}");
    let bench = bench.with("specs/a b.case", &spec("first.case").replace("  wide", "    wide"));
    let found = step(&bench, "Look at the form");
    assert_ne!(found.code, Some(0));
    assert!(format!("{}{}", found.out, found.err).contains("specs/a b.case"), "{found:?}");
    git(&bench, &["rm", "-qf", "specs/a b.case"]);
    assert_eq!(step(&bench, "Look at the form").code, Some(0), "there is no spec");
}

/// What the step that compares comes to: its code, what it tells the next
/// steps, and what it has written.
fn compared(bench: &Bench, base: &str) -> (Option<i32>, String, String) {
    let (temp, output) = (bench.path(".runner"), bench.path(".runner/output"));
    let _ = std::fs::remove_dir_all(&temp);
    std::fs::create_dir(&temp).unwrap();
    let told = [
        ("RUNNER_TEMP", temp.to_str().unwrap()),
        ("GITHUB_OUTPUT", output.to_str().unwrap()),
        ("BASE", base),
    ];
    let done = step_with(bench, "Compare with the base", &told);
    let text = |name: &str| std::fs::read_to_string(temp.join(name)).unwrap_or_default();
    (done.code, text("output"), text("changes.md"))
}

#[test]
fn what_changes_in_the_shop_is_told_whatever_becomes_of_a_spec() {
    let cut = "cut 2026-03-14 { bottom { long 35-1/16; wide 17-3/64; joints 0 } }";
    let cut = format!("{}\n{cut}\n", spec("first.case"));
    let bench = repository(&[
        ("specs/cut.case", &*cut),
        ("specs/old name.case", &*spec("first.case")),
        ("specs/gone.case", &*cut),
        ("specs/stays.case", &*spec("alcove-shelves.case")),
    ]);
    let base = commit_of(&bench, "HEAD");
    let wider = |text: &str| text.replace("wide 36; deep 18", "wide 37; deep 18");
    git(&bench, &["mv", "specs/old name.case", "specs/new name.case"]);
    let bench = bench
        .with("specs/cut.case", &wider(&cut))
        .with("specs/new name.case", &wider(&spec("first.case")))
        .with("specs/new.case", &spec("hall-console.case"))
        .with("specs/stays.case", &spec("alcove-shelves.case").replacen('\n', "\n# still\n", 1));
    std::fs::remove_file(bench.path("specs/gone.case")).unwrap();
    git(&bench, &["add", "specs"]);
    git(&bench, &["commit", "-qm", "a redraw"]);

    let (code, output, changes) = compared(&bench, &base);
    assert_eq!((code, output.as_str()), (Some(0), "found=2\n"), "{changes}");
    let named: Vec<&str> = changes.lines().filter(|line| line.starts_with("specs/")).collect();
    let all = [
        "specs/cut.case",
        "specs/gone.case is gone",
        "specs/old name.case → specs/new name.case",
        "specs/new.case is new",
    ];
    assert_eq!(named, all, "{changes}");
    for told in [
        "specs/cut.case has an error and can't be built",
        "\n### Wood already cut\n",
        "cupboard 36 → 37 wide, 1 wider",
        "1 of them already cut.",
        "**46 parts to make.**",
    ] {
        assert!(changes.contains(told), "{told}: {changes}");
    }
    assert!(!changes.contains(&base[..7]) && !changes.contains(".runner"), "{changes}");

    // A later push takes it all back.
    git(&bench, &["checkout", "-q", &base, "--", "specs"]);
    git(&bench, &["rm", "-qf", "specs/new.case", "specs/new name.case"]);
    let undone = compared(&bench, &base);
    let told = (Some(0), "found=0\n".to_owned(), "Nothing changes in the shop.\n".to_owned());
    assert_eq!(undone, told);
    // What could not be done is no difference.
    assert_ne!(compared(&bench, "0123456789").0, Some(0));
}

/// Stands in for the host: it knows one comment, or none, and keeps what it is
/// told to write.
const HOST: &str = r#"#!/bin/sh
echo "$*" | tr '\n' ' ' >> calls
case "$*" in
  *--paginate*) cat earlier 2> /dev/null || true ;;
esac
for word in "$@"; do
  case "$word" in body=@*) cp "${word#body=@}" written ;; esac
done
"#;

#[test]
fn one_comment_follows_what_changes() {
    use std::os::unix::fs::PermissionsExt as _;
    let bench = Bench::new().with(".tools/gh", HOST);
    let tool = bench.path(".tools/gh");
    std::fs::set_permissions(tool, std::fs::Permissions::from_mode(0o755)).unwrap();
    let temp = bench.path("");
    let comment = |found: &str, changes: &str| {
        for name in ["calls", "written"] {
            let _ = std::fs::remove_file(bench.path(name));
        }
        std::fs::write(bench.path("changes.md"), changes).unwrap();
        let told = [
            ("RUNNER_TEMP", temp.to_str().unwrap()),
            ("GITHUB_REPOSITORY", "shop/jobs"),
            ("NUMBER", "7"),
            ("BASE", "abc"),
            ("FOUND", found),
        ];
        let done = step_with(&bench, "Comment", &told);
        assert_eq!(done.code, Some(0), "{done:?}");
        let text = |name: &str| std::fs::read_to_string(bench.path(name)).unwrap_or_default();
        (text("calls"), text("written"))
    };
    const MARK: &str = "<!-- what changes in the shop -->\n\n";
    let nothing = "Nothing changes in the shop.\n";
    let (calls, written) = comment("0", nothing);
    assert!(!calls.contains("--method") && written.is_empty(), "{calls}");
    for found in ["1", "2"] {
        let (calls, written) = comment(found, "## A\n");
        assert!(calls.contains("--method POST repos/shop/jobs/issues/7/comments"), "{calls}");
        assert_eq!(written, format!("{MARK}## A\n"));
    }
    std::fs::write(bench.path("earlier"), "11\n12\n").unwrap();
    let (calls, written) = comment("0", nothing);
    assert!(calls.contains("--method PATCH repos/shop/jobs/issues/comments/12 "), "{calls}");
    assert_eq!(written, format!("{MARK}{nothing}"));
    // A long one ends with a line, not within a letter.
    let (_, written) = comment("1", &"- ½ → ⅔ wider\n".repeat(5_000));
    assert!(written.len() < 60_500, "{}", written.len());
    let mut lines: Vec<&str> = written.lines().rev().collect();
    assert!(lines[0].contains("`casewright diff --from abc specs`"), "{}", lines[0]);
    lines.truncate(lines.len() - 2);
    assert!(lines[2..].iter().all(|line| *line == "- ½ → ⅔ wider"), "{:?}", &lines[..4]);
}

/// The entries of the hooks, as the framework runs them: with the files that
/// are committed, or without.
#[test]
fn hook_entries_do_their_work() {
    let bench = repository(&[("jobs/a.case", &*spec("first.case")), ("b.case", "stock ply {}\n")]);
    let run = |id: &str, files: &[&str]| {
        let hooks = yaml("pre-commit-hooks.yaml");
        let hook = hooks.as_vec().unwrap().iter().find(|hook| hook["id"].as_str() == Some(id));
        let hook = hook.unwrap();
        let mut words = hook["entry"].as_str().unwrap().split(' ');
        let mut command = at_home(&bench, words.next().unwrap());
        command.args(words);
        if hook["pass_filenames"].as_bool() != Some(false) {
            command.args(files);
        }
        let done = done(&mut command);
        (done.code, format!("{}{}", done.out, done.err))
    };
    let files = ["jobs/a.case"];
    assert_eq!(run("casewright-check", &files).0, Some(0));
    assert_eq!(run("casewright-format", &files).0, Some(0));
    std::fs::write(bench.path("jobs/a.case"), tall().replace("  wide", "    wide")).unwrap();
    for id in ["casewright-check", "casewright-format"] {
        let (code, said) = run(id, &files);
        assert_eq!(code, Some(1), "{id}: {said}");
        assert!(said.contains("jobs/a.case"), "{id}: {said}");
    }
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
    // What a spec uses may have any name, and lies in the folder otherwise.
    write("jobs/a.case", &spec("first.case").replacen('\n', "\nuse \"more/stocks.txt\"\n", 1));
    std::fs::create_dir(bench.path("jobs/more")).unwrap();
    write("jobs/more/stocks.txt", "stock spare { plywood 1/4 }\n");
    git(&bench, &["add", "."]);
    write("jobs/more/stocks.txt", "nonsense\n");
    let done = commit("what it uses");
    assert_eq!(done.code, Some(0), "{done:?}");
    git(&bench, &["add", "."]);
    let refused = commit("only what it uses");
    assert_eq!(refused.code, Some(1), "{refused:?}");
    git(&bench, &["rm", "-qf", "jobs/a.case"]);
    let done = commit("no spec left");
    assert_eq!(done.code, Some(0), "{done:?}");
}
