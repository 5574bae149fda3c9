//! `casewright diff --from` over names that come and go: pieces that are new,
//! gone or renamed, links, whole folders, and what is only staged.

use crate::support::{Done, Repository, spec};
use serde_json::Value;

fn first() -> String {
    spec("first.case")
}

fn wider() -> String {
    with(&first(), "wide 36; deep 18", "wide 37; deep 18")
}

/// With its plywood in a file of its own.
fn sharing(used: &str) -> String {
    let own = "stock ply     { plywood 3/4; actual 23/32; sheet { long 96; wide 48 } }\n";
    let text = with(&first(), own, "");
    text.replacen('\n', &format!("\nuse \"{used}\"\n"), 1)
}

const PLY: &str = "stock ply { plywood 3/4; actual 23/32 }\n";
const THIN: &str = "stock ply { plywood 3/4; actual 45/64 }\n";

/// The text with one thing put otherwise.
fn with(text: &str, old: &str, new: &str) -> String {
    assert!(text.contains(old), "no `{old}`");
    text.replace(old, new)
}

fn repository(files: &[(&str, &str)]) -> Repository {
    let repository = Repository::new();
    for (name, text) in files {
        repository.write(name, text);
    }
    repository.commit();
    repository
}

fn is(done: &Done, code: i32, lines: &[&str]) {
    assert_eq!(done.code, Some(code), "{done:?}");
    for line in lines {
        assert!(done.out.lines().any(|own| own.trim() == *line), "no `{line}` in {}", done.out);
    }
}

#[test]
fn a_renamed_spec_is_compared_with_its_old_name() {
    let repository = repository(&[("jobs/a.case", &first()), ("jobs/other.txt", "x\n")]);
    std::fs::create_dir(repository.bench.path("done")).unwrap();
    repository.git(&["mv", "jobs/a.case", "done/b.case"]);
    let same = repository.diff(&["done/b.case", "--from", "HEAD"]);
    is(&same, 0, &["jobs/a.case (HEAD) → done/b.case (working tree)"]);
    repository.write("done/b.case", &wider());
    let told =
        ["jobs/a.case (HEAD) → done/b.case (working tree)", "cupboard 36 → 37 wide, 1 wider"];
    is(&repository.diff(&["done/b.case", "--from", "HEAD"]), 1, &told);
    // The old name does as well.
    is(&repository.diff(&["jobs/a.case", "--from", "HEAD"]), 1, &told);
    repository.commit();
    let told = ["jobs/a.case (HEAD~1) → done/b.case (HEAD)"];
    for name in ["done/b.case", "jobs/a.case"] {
        is(&repository.diff(&[name, "--from", "HEAD~1", "--to", "HEAD"]), 1, &told);
    }
    let back = repository.diff(&["done/b.case", "--from", "HEAD", "--to", "HEAD~1"]);
    is(&back, 1, &["done/b.case (HEAD) → jobs/a.case (HEAD~1)"]);
    // From a folder further in, and by the whole path.
    let inside = |arguments: &[&str]| {
        let mut command = repository.bench.command(arguments);
        crate::support::done(command.current_dir(repository.bench.path("done")))
    };
    let done = inside(&["diff", "b.case", "--from", "HEAD~1"]);
    is(&done, 1, &["../jobs/a.case (HEAD~1) → b.case (working tree)"]);
    let whole = repository.bench.path("done/b.case");
    is(&repository.diff(&[whole.to_str().unwrap(), "--from", "HEAD~1"]), 1, &[]);
}

#[test]
fn a_new_piece_and_one_that_is_gone_are_told_as_such() {
    let cut = format!("{}\ncut 2026-03-14 {{ bottom {{ long 35-1/16 }} }}\n", first());
    let repository = repository(&[("old/a.case", &cut)]);
    repository.write("new/b.case", &spec("hall-console.case"));
    std::fs::remove_dir_all(repository.bench.path("old")).unwrap();
    let new = ["new/b.case", "--from", "HEAD"];
    let gone = ["old/a.case", "--from", "HEAD"];
    is(
        &repository.diff(&new),
        1,
        &[
            "Lock House hall console: revision B",
            "new/b.case (working tree) is new",
            "46 parts to make.",
        ],
    );
    let told = "24 parts no longer needed, 1 of them already cut.";
    is(&repository.diff(&gone), 1, &["old/a.case (HEAD) is gone", told]);
    let markdown = repository.diff(&[&gone[..], &["--format", "markdown"]].concat());
    is(&markdown, 1, &["## First cabinet: revision A", &format!("**{told}**")]);
    let html = repository.diff(&[&gone[..], &["--format", "html"]].concat());
    assert!(html.out.contains("<title>What changes · First cabinet: revision A</title>"));
    assert!(html.out.contains(told), "{html:?}");

    let schema: Value = serde_json::from_str(include_str!("../schema/difference.json")).unwrap();
    let validator = jsonschema::validator_for(&schema).unwrap();
    for (arguments, verdict, parts) in [(new, "new", 46), (gone, "gone", 24)] {
        let json = repository.diff(&[&arguments[..], &["--format", "json"]].concat());
        let mut value: Value = serde_json::from_str(&json.out).unwrap();
        assert_eq!((&value["verdict"], &value["piece"]["parts"]), (&verdict.into(), &parts.into()));
        assert!(validator.is_valid(&value), "{json:?}");
        value["verdict"] = "something".into();
        assert!(!validator.is_valid(&value));
    }

    repository
        .write("new/b.case", &with(&first(), "doors store { share 1;", "doors store { high 23;"));
    let wrong = repository.diff(&new);
    is(&wrong, 2, &["new/b.case (working tree) has an error and can't be built"]);
    let never = repository.diff(&["new/c.case", "--from", "HEAD", "--to", "HEAD"]);
    assert_eq!((never.code, never.out.as_str()), (Some(2), ""));
    assert!(never.err.contains("there is no file new/c.case at revision HEAD"), "{never:?}");
}

#[cfg(unix)]
#[test]
fn links_are_followed_at_a_revision_too() {
    use std::os::unix::fs::symlink;
    let repository = Repository::new();
    repository.write("store/real.case", &sharing("ply.case"));
    repository.write("ply.case", PLY);
    symlink("store/real.case", repository.bench.path("link.case")).unwrap();
    symlink("nowhere.case", repository.bench.path("torn.case")).unwrap();
    symlink("/etc/hostname", repository.bench.path("out.case")).unwrap();
    repository.commit();
    is(&repository.diff(&["link.case", "--from", "HEAD"]), 0, &[]);
    repository.write("store/real.case", &with(&sharing("ply.case"), "wide 36;", "wide 37;"));
    is(&repository.diff(&["link.case", "--from", "HEAD"]), 1, &["cupboard 36 → 37 wide, 1 wider"]);
    for (name, why) in
        [("torn.case", "to a file that does not exist"), ("out.case", "out of the repository")]
    {
        let done = repository.diff(&[name, "--from", "HEAD", "--to", "HEAD"]);
        assert_eq!((done.code, done.out.as_str()), (Some(2), ""), "{done:?}");
        assert!(done.err.contains(why), "{done:?}");
    }
}

/// Pieces that change, move, come, go and stay; what they use; what was wrong
/// before and is no worse.
fn jobs() -> Repository {
    let broken = with(&first(), "doors store { share 1;", "doors store { high 23;");
    let repository = repository(&[
        ("jobs/a.case", &sharing("ply.case")),
        ("jobs/ply.case", PLY),
        ("jobs/moved.case", &first()),
        ("jobs/gone.case", &with(&first(), "job \"First cabinet\"", "job \"Wash stand\"")),
        ("jobs/same.case", &first()),
        ("jobs/wrong.case", &broken),
        ("jobs/.hidden.case", &first()),
        ("other/z.case", &first()),
    ]);
    let jobs = |name: &str| repository.bench.path(&format!("jobs/{name}"));
    repository.write("jobs/ply.case", THIN);
    std::fs::create_dir(jobs("b")).unwrap();
    repository.git(&["mv", "jobs/moved.case", "jobs/b/moved.case"]);
    repository.write("jobs/b/moved.case", &wider());
    std::fs::remove_file(jobs("gone.case")).unwrap();
    repository.write("jobs/new.case", &spec("hall-console.case"));
    repository.write("jobs/same.case", &format!("{}\n# a thought\n", first()));
    repository.write("other/z.case", &wider());
    repository
}

#[test]
fn of_a_folder_every_piece_that_changes_is_told_in_order() {
    let repository = jobs();
    let heads = [
        "jobs/a.case",
        "jobs/moved.case → jobs/b/moved.case",
        "jobs/gone.case is gone",
        "jobs/new.case is new",
    ];
    let is_head = |line: &&str| line.starts_with("jobs/");
    let text = repository.diff(&["jobs", "--from", "HEAD"]);
    assert_eq!(text.code, Some(1), "{text:?}");
    assert_eq!(text.out.lines().filter(is_head).collect::<Vec<_>>(), heads);
    assert!(text.out.contains("1/64 thinner") && text.out.contains("36 → 37 wide"), "{text:?}");
    let markdown = repository.diff(&["./jobs/", "--from", "HEAD", "--format", "markdown"]);
    assert_eq!(markdown.out.lines().filter(is_head).collect::<Vec<_>>(), heads);
    assert_eq!(markdown.out.matches("\n## ").count() + 1, heads.len(), "{markdown:?}");
    let json = repository.diff(&["jobs", "--from", "HEAD", "--format", "json"]);
    let verdicts: Vec<Value> = json
        .out
        .lines()
        .map(|line| serde_json::from_str::<Value>(line).unwrap()["verdict"].clone())
        .collect();
    assert_eq!(verdicts, ["something", "something", "gone", "new"]);
    let page = repository.diff(&["jobs", "--from", "HEAD", "--format", "html"]).out;
    assert!(page.contains("<title>What changes</title>"), "{page}");
    assert_eq!((page.matches("<main>").count(), page.matches("<h1>").count()), (1, 1));
    let own = repository.diff(&["jobs", "--from", "HEAD", "--into", "jobs/ply.case"]);
    assert!(own.err.contains("jobs/ply.case is one of the specs"), "{own:?}");

    // Committed it is the same, also from within; read backwards its mirror.
    repository.commit();
    let later = repository.diff(&["jobs", "--from", "HEAD~1", "--to", "HEAD"]);
    assert_eq!((later.code, later.out), (Some(1), text.out));
    let mut here = repository.bench.command(&["diff", ".", "--from", "HEAD~1"]);
    let here = crate::support::done(here.current_dir(repository.bench.path("jobs")));
    is(&here, 1, &["a.case", "moved.case → b/moved.case", "gone.case is gone", "new.case is new"]);
    let back = repository.diff(&["jobs", "--from", "HEAD", "--to", "HEAD~1"]);
    let told = ["jobs/gone.case is new", "jobs/b/moved.case → jobs/moved.case"];
    is(&back, 1, &told);
    is(&back, 1, &["jobs/new.case is gone"]);
    let all = repository.diff(&[".", "--from", "HEAD~1", "--to", "HEAD"]);
    is(&all, 1, &heads);
    is(&all, 1, &["other/z.case"]);
    // A folder that is no more.
    std::fs::remove_dir_all(repository.bench.path("other")).unwrap();
    is(&repository.diff(&["other", "--from", "HEAD"]), 1, &["other/z.case is gone"]);
}

/// Git is asked and answers in lines and lists.
#[cfg(unix)]
#[test]
fn odd_names_are_names() {
    let odd = ["jobs/a\nb.case", "jobs/ -q [x]*é.case", "jobs/\t\".case"];
    let repository = Repository::new();
    for name in odd {
        repository.write(name, &first());
    }
    repository.commit();
    for name in odd {
        repository.write(name, &wider());
    }
    repository.git(&["mv", odd[1], "jobs/ü.case"]);
    let done = repository.diff(&["jobs", "--from", "HEAD"]);
    is(&done, 1, &["jobs/a<U+000A>b.case", "jobs/ -q [x]*é.case → jobs/ü.case"]);
    assert_eq!((done.out.matches("36 → 37 wide").count(), done.err.as_str()), (3, ""));
    assert_eq!(repository.bench.run(&["check", "--staged", "jobs"]).code, Some(0));
}

#[test]
fn of_a_folder_in_which_nothing_changes_that_is_said() {
    let repository = repository(&[("jobs/a.case", &first()), ("jobs/stock.case", PLY)]);
    repository.write("jobs/stock.case", THIN);
    for format in ["text", "markdown"] {
        let done = repository.diff(&["jobs", "--from", "HEAD", "--format", format]);
        assert_eq!((done.code, done.out.as_str()), (Some(0), "Nothing changes in the shop.\n"));
    }
    let html = repository.diff(&["jobs", "--from", "HEAD", "--format", "html"]);
    assert!(html.out.contains("Nothing changes in the shop."), "{html:?}");
    let json = repository.diff(&["jobs", "--from", "HEAD", "--format", "json"]);
    assert_eq!((json.code, json.out.as_str()), (Some(0), ""));
    // What can't be read may have changed.
    std::fs::write(repository.bench.path("jobs/a.case"), [0xff, 0xd8]).unwrap();
    let done = repository.diff(&["jobs", "--from", "HEAD"]);
    assert_eq!((done.code, done.out.as_str()), (Some(2), ""));
    assert!(done.err.contains("jobs/a.case is not UTF-8 text"), "{done:?}");
    let done = repository.diff(&["nowhere", "--from", "HEAD"]);
    assert_eq!((done.code, done.out.as_str()), (Some(2), ""));
}

/// An error of the side that is gone by now is told in the past.
#[test]
fn an_error_is_told_of_the_side_that_has_it() {
    let broken = with(&first(), "doors store { share 1;", "doors store { high 23;");
    let repository = repository(&[("jobs/a.case", &broken)]);
    repository.write("jobs/a.case", &first());
    let done = repository.diff(&["jobs", "--from", "HEAD"]);
    is(&done, 2, &["jobs/a.case", "jobs/a.case had an error and could not be built"]);
    repository.commit();
    repository.write("jobs/a.case", &broken);
    let done = repository.diff(&["jobs", "--from", "HEAD"]);
    is(&done, 2, &["jobs/a.case has an error and can't be built"]);
}

/// `git diff --cached` names the working file where it is as it is staged.
#[test]
fn what_is_staged_is_shown_with_what_it_uses_as_staged() {
    let repository = repository(&[("a.case", &sharing("ply.txt")), ("ply.txt", PLY)]);
    repository.write(".git/info/attributes", "*.case diff=casewright\n");
    repository.git(&["config", "diff.casewright.command", "casewright git-diff"]);
    repository.write("a.case", &with(&sharing("ply.txt"), "high 34-1/2", "high 35"));
    repository.git(&["add", "a.case"]);
    repository.write("ply.txt", "stock ply { plywood 3/4; actual 23/64; nonsense }\n");
    let staged = repository.git(&["diff", "--cached"]);
    assert!(staged.out.contains("cupboard 34-1/2 → 35 high"), "{staged:?}");
    assert!(!staged.out.contains("working tree") && !staged.out.contains("built"), "{staged:?}");
    // What lies in the folder is looked at where it is shown.
    repository.write("a.case", &with(&sharing("ply.txt"), "high 34-1/2", "high 36"));
    let work = repository.git(&["diff"]);
    assert!(work.out.contains("a.case (working tree) has an error"), "{work:?}");
    let staged = repository.git(&["diff", "--cached"]);
    assert!(staged.out.contains("cupboard 34-1/2 → 35 high"), "{staged:?}");
    let back = repository.git(&["diff", "-R"]);
    assert!(back.out.contains("a.case (working tree) has an error"), "{back:?}");
}

#[test]
fn what_is_staged_can_be_checked() {
    let repository = repository(&[
        ("jobs/a.case", &sharing("shared/ply.txt")),
        ("jobs/shared/ply.txt", PLY),
        ("jobs/ply.case", PLY),
    ]);
    repository.write("jobs/shared/ply.txt", "nonsense\n");
    std::fs::remove_file(repository.bench.path("jobs/a.case")).unwrap();
    for folder in [".", "jobs"] {
        let done = repository.bench.run(&["check", "--staged", folder]);
        assert_eq!(done.code, Some(0), "{done:?}");
        let told = "jobs/a.case is sound\n1 spec: 1 sound; skipped 1 file without a case\n";
        assert_eq!(done.err, told);
    }
    assert_eq!(repository.bench.run(&["check", "jobs/a.case", "--staged"]).code, Some(0));
    // A whole path is one like any other.
    for name in ["", "jobs", "jobs/a.case"] {
        let whole = repository.bench.path(name);
        let done = repository.bench.run(&["check", "--staged", whole.to_str().unwrap()]);
        assert_eq!(done.code, Some(0), "{done:?}");
    }
    repository.git(&["add", "jobs/shared/ply.txt"]);
    let done = repository.bench.run(&["check", "--staged", ".", "--format", "short"]);
    assert_eq!(done.code, Some(1), "{done:?}");
    assert!(done.out.starts_with("jobs/shared/ply.txt:1:"), "{done:?}");
    let bench = crate::support::Bench::new().with("a.case", &first());
    let mut outside = bench.command(&["check", "--staged", "."]);
    outside.env("GIT_CEILING_DIRECTORIES", bench.path("").parent().unwrap());
    let done = crate::support::done(&mut outside);
    assert_eq!(done.code, Some(2), "{done:?}");
    assert!(done.err.contains(": . is not in a git repository"), "{done:?}");
}
