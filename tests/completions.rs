//! `casewright completions` and `casewright man`: all that may be typed, and
//! nothing else.

use crate::support::Bench;
#[cfg(target_os = "linux")]
use crate::support::done;
use clap::CommandFactory as _;
#[cfg(target_os = "linux")]
use std::process::Command;

const SHELLS: [&str; 5] = ["bash", "elvish", "fish", "powershell", "zsh"];

/// Every command with its long flags.
fn typed() -> Vec<(String, Vec<String>)> {
    let mut all = casewright::cli::Arguments::command();
    all.build();
    all.get_subcommands()
        .filter(|command| !command.is_hide_set())
        .map(|command| {
            let flags = command.get_arguments().filter_map(clap::Arg::get_long);
            (command.get_name().to_owned(), flags.map(ToOwned::to_owned).collect())
        })
        .collect()
}

#[test]
fn every_command_and_flag_is_in_every_script() {
    let bench = Bench::new();
    for shell in SHELLS {
        let done = bench.run(&["completions", shell]);
        assert_eq!((done.code, done.err.as_str()), (Some(0), ""), "{shell}");
        for (command, flags) in typed() {
            assert!(done.out.contains(&command), "{shell}: {command}");
            for flag in flags {
                // One shell's script names flags without their dashes.
                let dashed = format!("--{flag}");
                assert!(
                    done.out.contains(&dashed) || done.out.contains(&format!("-l {flag}")),
                    "{shell}: {command} {flag}"
                );
            }
        }
    }
    assert_eq!(bench.run(&["completions", "csh"]).code, Some(2));
}

#[test]
fn names_are_in_the_scripts_of_shells_that_complete_them() {
    let bench = Bench::new();
    let tables = bench.run(&["trade"]).out;
    let tables = tables.lines().filter_map(|line| line.split_whitespace().next());
    let papers = casewright::papers::PAPERS.iter().map(|paper| paper.slug);
    let known = casewright::checks::slugs().chain(papers).map(ToOwned::to_owned);
    let names: Vec<String> = known.chain(tables.map(ToOwned::to_owned)).collect();
    // The others complete the values of flags at most.
    for shell in ["bash", "zsh"] {
        let script = bench.run(&["completions", shell]).out;
        for name in &names {
            assert!(script.contains(name), "{shell}: {name}");
        }
    }
    assert!(bench.run(&["completions", "fish"]).out.contains("cut-list"));
}

/// What bash offers at the end of a line.
#[cfg(target_os = "linux")]
fn offered(line: &[&str]) -> Vec<String> {
    let bench = Bench::new();
    std::fs::write(bench.path("script"), bench.run(&["completions", "bash"]).out).unwrap();
    let words = line.iter().map(|word| format!("'{word}'")).collect::<Vec<_>>().join(" ");
    let (last, before) = (line.len() - 1, line[line.len() - 2]);
    let ask = format!(
        "source ./script; COMP_WORDS=({words}); COMP_CWORD={last}; \
         _casewright casewright '{}' '{before}'; printf '%s\\n' \"${{COMPREPLY[@]}}\"",
        line[last]
    );
    let mut bash = Command::new("bash");
    let done = done(bash.args(["--norc", "-c", &ask]).current_dir(bench.path("")));
    assert_eq!(done.code, Some(0), "{done:?}");
    done.out.lines().map(ToOwned::to_owned).collect()
}

#[cfg(target_os = "linux")]
#[test]
fn bash_completes_names_where_they_stand() {
    assert_eq!(offered(&["casewright", "explain", "sizes-"]), ["sizes-conflict"]);
    assert_eq!(offered(&["casewright", "build", "--print", "cut-"]), ["cut-list"]);
    assert!(offered(&["casewright", "trade", "spec"]).contains(&"species".to_owned()));
    assert_eq!(offered(&["casewright", "check", "--for"]), ["--format"]);
    assert!(offered(&["casewright", "check", "--format", "sa"]).contains(&"sarif".to_owned()));
    assert!(offered(&["casewright", "wh"]).contains(&"why".to_owned()));
}

/// The text of a page without its dashes' escapes.
fn page(arguments: &[&str]) -> String {
    let done = Bench::new().run(arguments);
    assert_eq!((done.code, done.err.as_str()), (Some(0), ""), "{arguments:?}");
    assert!(done.out.contains(".TH casewright"), "{}", done.out);
    done.out.replace("\\-", "-")
}

#[test]
fn the_manual_has_every_command_and_a_page_for_each() {
    let whole = page(&["man"]);
    for (command, flags) in typed() {
        assert!(whole.contains(&format!("casewright-{command}")), "{command}: {whole}");
        let own = page(&["man", &command]);
        assert!(own.contains(&format!("casewright {command}")), "{own}");
        for flag in flags {
            assert!(own.contains(&format!("--{flag}")), "{command} {flag}: {own}");
        }
    }
    let done = Bench::new().run(&["man", "chekc"]);
    assert_eq!(done.code, Some(2));
    assert!(done.err.contains("did you mean `check`?"), "{done:?}");
}
