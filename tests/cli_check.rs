//! `casewright check`, as it is typed.

use std::io::Read as _;
use std::process::Stdio;

use crate::support::{Bench, done, spec};

/// The console with its bank a 32nd too tall.
fn too_tall() -> String {
    let broken = spec("hall-console.case")
        .replace("drawer middle { share 1 }", "drawer middle { high 9-1/32 }")
        .replace("drawer lower  { share 1 }", "drawer lower  { high 9 }");
    assert!(broken.contains("9-1/32") && broken.contains("lower  { high 9 }"));
    broken
}

fn bench() -> Bench {
    Bench::new().with("sound.case", &spec("first.case")).with("tall.case", &too_tall())
}

#[test]
fn a_sound_spec_ends_with_0_and_says_so() {
    let done = bench().run(&["check", "sound.case"]);
    assert_eq!((done.code, done.out.as_str()), (Some(0), ""));
    assert_eq!(done.err, "sound.case is sound\n");
}

#[test]
fn an_error_ends_with_1_and_shows_sum_and_edit() {
    let done = bench().run(&["check", "tall.case"]);
    assert_eq!(done.code, Some(1));
    assert!(
        done.err.starts_with("error[sizes-conflict]: the openings of bank come to 26-1/32"),
        "{}",
        done.err
    );
    assert!(done.err.contains("  over by 1/32\n"), "{}", done.err);
    assert!(done.err.contains("`high 9` "), "{}", done.err);
    assert!(done.err.ends_with("\n1 error in tall.case\n"), "{}", done.err);
}

#[test]
fn several_specs_are_all_checked() {
    let done = bench().run(&["check", "tall.case", "sound.case"]);
    assert_eq!(done.code, Some(1));
    assert!(done.err.ends_with("1 error in tall.case\nsound.case is sound\n"), "{}", done.err);
}

#[test]
fn a_missing_spec_ends_with_2_and_the_others_are_checked() {
    let done = bench().run(&["check", "nowhere.case", "tall.case"]);
    assert_eq!(done.code, Some(2));
    assert!(done.err.starts_with("casewright: there is no file nowhere.case\n"), "{}", done.err);
    assert!(done.err.contains("error[sizes-conflict]"), "{}", done.err);
}

#[test]
fn what_is_no_text_ends_with_2() {
    let bench = Bench::new();
    std::fs::write(bench.path("photo.case"), [0xff, 0xd8, 0xff]).unwrap();
    std::fs::create_dir(bench.path("folder.case")).unwrap();
    for name in ["photo.case", "folder.case"] {
        let done = bench.run(&["check", name]);
        assert_eq!(done.code, Some(2), "{done:?}");
        assert!(done.err.starts_with("casewright: ") && done.err.contains(name), "{done:?}");
    }
}

#[test]
fn wrong_use_ends_with_2() {
    for arguments in [&["check"][..], &["chekc", "a"], &["check", "a", "--format", "xml"]] {
        assert_eq!(bench().run(arguments).code, Some(2), "{arguments:?}");
    }
    assert_eq!(bench().run(&["--help"]).code, Some(0));
}

#[test]
fn warnings_pass_unless_they_are_denied() {
    let warned = format!("{}accept sag on cupboard.store \"it holds\"\n", spec("first.case"));
    let bench = Bench::new().with("warned.case", &warned);
    let usual = bench.run(&["check", "warned.case", "--format", "short"]);
    assert!(usual.out.contains(": warning["), "{usual:?}");
    assert_eq!(usual.code, Some(0), "{usual:?}");
    let strict = bench.run(&["check", "warned.case", "--deny", "warnings"]);
    assert_eq!(strict.code, Some(1));
    assert!(strict.err.ends_with("warned.case can be built, with 1 warning\n"), "{}", strict.err);
}

#[test]
fn short_is_one_line_a_finding_on_standard_output() {
    let done = bench().run(&["check", "--format", "short", "tall.case", "sound.case"]);
    assert_eq!((done.code, done.err.as_str()), (Some(1), ""));
    let place =
        done.out.split(": error[sizes-conflict]: the openings of bank come to 26-1/32").next();
    assert_eq!(done.out.lines().count(), 1);
    assert_eq!(place.map(|place| place.starts_with("tall.case:")), Some(true), "{}", done.out);
}

#[test]
fn json_is_one_object_a_line_whose_edit_mends_the_spec() {
    let bench = bench();
    let done = bench.run(&["check", "--format", "json", "tall.case"]);
    assert_eq!((done.code, done.err.as_str()), (Some(1), ""));
    assert_eq!(done.out.lines().count(), 1);
    let object: serde_json::Value = serde_json::from_str(&done.out).unwrap();
    assert_eq!(object["schema"], 1);
    assert_eq!(object["slug"], "sizes-conflict");
    let edit = &object["fixes"][0]["edits"][0];
    let at = |name: &str| usize::try_from(edit[name].as_u64().unwrap()).unwrap();
    let mut text = too_tall();
    text.replace_range(at("byte_start")..at("byte_end"), edit["text"].as_str().unwrap());
    let bench = bench.with("mended.case", &text);
    assert_eq!(bench.run(&["check", "mended.case"]).err, "mended.case is sound\n");
}

#[test]
fn colour_is_asked_for_or_left_out() {
    let bench = bench();
    let coloured = |arguments: &[&str], environment: &[(&str, &str)]| {
        let mut command = bench.command(arguments);
        done(command.envs(environment.iter().copied())).err.contains("\u{1b}[")
    };
    let usual = ["check", "tall.case"];
    let always = ["check", "tall.case", "--color", "always"];
    let never = ["--color", "never", "check", "tall.case"];
    assert!(!coloured(&usual, &[]), "no terminal, no colour");
    assert!(coloured(&usual, &[("CLICOLOR_FORCE", "1")]));
    assert!(coloured(&usual, &[("FORCE_COLOR", "1")]));
    assert!(!coloured(&usual, &[("CLICOLOR_FORCE", "0")]));
    assert!(!coloured(&usual, &[("CLICOLOR_FORCE", "1"), ("NO_COLOR", "1")]));
    assert!(coloured(&usual, &[("CLICOLOR_FORCE", "1"), ("NO_COLOR", "")]));
    assert!(coloured(&always, &[("NO_COLOR", "1")]));
    assert!(!coloured(&never, &[("FORCE_COLOR", "1")]));
}

#[test]
fn the_page_keeps_to_the_width() {
    let bench = bench();
    for (arguments, width) in [(&[][..], 80), (&["--width", "50"], 50), (&["--width", "120"], 120)]
    {
        let done = bench.run(&[&["check", "tall.case"], arguments].concat());
        let widest = done.err.lines().map(|line| line.chars().count()).max().unwrap();
        assert!(widest <= width && widest > width / 2, "{widest} of {width}: {}", done.err);
    }
}

#[test]
fn what_stands_in_a_spec_never_steers_the_terminal() {
    let hostile = "casework 1\njob \"\u{202e}x\" { revisio\u{9b}n \u{1b}[2J }\n";
    // No file has such a name on Windows.
    let name = if cfg!(windows) { "ab.case" } else { "a\u{7}b.case" };
    let bench = Bench::new().with(name, hostile);
    for format in ["text", "short", "json"] {
        let done = bench.run(&["check", name, "--format", format]);
        assert_eq!(done.code, Some(1), "{done:?}");
        let steers = |c: char| (c.is_control() && c != '\n') || c == '\u{202e}';
        assert!(!done.out.contains(steers) && !done.err.contains(steers), "{format}: {done:?}");
    }
}

#[test]
fn a_closed_pipe_ends_quietly_and_keeps_the_verdict() {
    let many = "zzz 1\n".repeat(4000);
    let bench = Bench::new().with("many.case", &format!("casework 1\n{many}"));
    let mut command = bench.command(&["check", "--format", "json", "many.case"]);
    let mut child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    let mut few = [0; 10];
    child.stdout.take().unwrap().read_exact(&mut few).unwrap();
    let ended = child.wait_with_output().unwrap();
    assert_eq!(String::from_utf8(ended.stderr).unwrap(), "");
    assert_eq!(ended.status.code(), Some(1));
}

#[cfg(target_os = "linux")]
#[test]
fn output_that_can_not_be_written_ends_with_2() {
    let full = std::fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
    let bench = bench();
    let done = done(&mut {
        let mut command = bench.command(&["reference"]);
        command.stdout(full);
        command
    });
    assert_eq!(done.code, Some(2), "{done:?}");
    assert!(done.err.starts_with("casewright: the output can't be written: "), "{done:?}");
}

#[test]
fn a_used_file_is_read_from_beside_or_below_the_spec() {
    let (head, rest) = spec("first.case").split_once("\nshop {").map_or_else(
        || panic!("no shop"),
        |(head, rest)| (head.to_owned(), format!("shop {{{rest}")),
    );
    let (shop, rest) = rest.split_once('\n').unwrap();
    let text = format!("{head}\nuse \"own/shop.case\"\n{rest}");
    let bench = Bench::new().with("a/x.case", &text).with("a/own/shop.case", shop);
    let done = bench.run(&["check", "a/x.case"]);
    assert_eq!(done.err, "a/x.case is sound\n");
}

#[test]
fn a_used_file_elsewhere_is_refused() {
    let bench = Bench::new().with("shop.case", "shop { kerf 1/8 }\n").with("a/b.case", "");
    #[cfg(unix)]
    {
        std::os::unix::fs::symlink(bench.path("shop.case"), bench.path("a/link.case")).unwrap();
        assert_refused(&bench, "link.case");
        let made = std::process::Command::new("mkfifo").arg(bench.path("a/pipe.case")).status();
        if made.is_ok_and(|status| status.success()) {
            assert_refused(&bench, "pipe.case");
        }
    }
    let absolute = bench.path("shop.case").to_str().unwrap().replace('\\', "/");
    for path in ["../shop.case", "b/../../shop.case", &absolute, "none.case", "."] {
        assert_refused(&bench, path);
    }
}

fn assert_refused(bench: &Bench, path: &str) {
    std::fs::write(bench.path("a/x.case"), format!("casework 1\nuse \"{path}\"\n")).unwrap();
    let done = bench.run(&["check", "a/x.case", "--format", "short"]);
    assert_eq!(done.code, Some(1), "{path}: {done:?}");
    assert!(done.out.starts_with("a/x.case:2:"), "{path}: {done:?}");
    assert!(done.out.contains("error[use-unreadable]"), "{path}: {done:?}");
}

#[test]
fn files_that_use_each_other_in_a_ring_are_an_error() {
    let bench = Bench::new()
        .with("a.case", "casework 1\nuse \"./b.case\"\n")
        .with("b.case", "use \"a.case\"\n");
    let done = bench.run(&["check", "./a.case", "--format", "short"]);
    assert!(done.out.contains("error[use-cycle]"), "{done:?}");
    assert_eq!(done.code, Some(1));
}
