//! `casewright check FOLDER`: every spec under it, in order.

use crate::support::{Bench, spec};

/// A shop's folder: three pieces, one of them wrong, and what they share.
fn shop() -> Bench {
    let used = spec("ferry-road-wash-stand.case");
    assert!(used.contains("use \"shop.case\""));
    let tall = spec("first.case").replace("doors store { share 1;", "doors store { high 23;");
    Bench::new()
        .with("jobs/ferry/stand.case", &used)
        .with("jobs/ferry/shop.case", &spec("shop.case"))
        .with("jobs/a/first.case", &spec("first.case"))
        .with("jobs/tall.case", &tall)
        .with("jobs/notes.txt", "case no { spec }\n")
        .with("jobs/.git/hidden.case", "case hidden {\n")
        .with("jobs/.hidden.case", "case hidden {\n")
}

#[test]
fn every_spec_under_it_is_checked_in_order_and_counted() {
    let done = shop().run(&["check", "jobs"]);
    assert_eq!(done.code, Some(1));
    let ends: Vec<&str> = done
        .err
        .lines()
        .filter(|line| {
            line.ends_with(" is sound") || line.contains(" error in ") || line.contains(" specs")
        })
        .collect();
    assert_eq!(
        ends,
        [
            "jobs/a/first.case is sound",
            "jobs/ferry/stand.case is sound",
            "1 error in jobs/tall.case",
            "3 specs: 2 sound, 1 with errors; skipped 1 file without a case",
        ]
    );
    assert!(done.err.ends_with("without a case\n"), "{}", done.err);
}

#[test]
fn the_bytes_are_the_same_whatever_the_threads() {
    let broken = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("specs/broken");
    let mut bench = shop();
    let mut names: Vec<_> = std::fs::read_dir(&broken)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter(|name| name.ends_with(".case"))
        .collect();
    names.sort();
    for name in names.iter().step_by(8) {
        let text = std::fs::read_to_string(broken.join(name)).unwrap();
        bench = bench.with(&format!("jobs/{name}"), &text);
    }
    for format in ["text", "sarif", "annotations"] {
        let run = |threads: &str| {
            let done = bench.run(&["check", "jobs", "--format", format, "--threads", threads]);
            assert_eq!(done.code, Some(1), "{format}: {done:?}");
            (done.out, done.err)
        };
        let alone = run("1");
        assert!(alone.0.len() + alone.1.len() > 3000, "{alone:?}");
        for threads in ["2", "5", "64"] {
            assert!(run(threads) == alone, "{format}, {threads} threads");
        }
    }
}

#[test]
fn the_worst_end_counts() {
    let bench = shop();
    assert_eq!(bench.run(&["check", "jobs/a", "jobs/ferry"]).code, Some(0));
    assert_eq!(bench.run(&["check", "jobs/a", "jobs/tall.case"]).code, Some(1));
    std::fs::write(bench.path("jobs/photo.case"), [0xff, 0xd8]).unwrap();
    let done = bench.run(&["check", "jobs", "--format", "short"]);
    assert_eq!(done.code, Some(2));
    assert!(done.err.contains("casewright: jobs/photo.case is not UTF-8 text\n"), "{done:?}");
    assert!(done.err.contains("4 specs: 2 sound, 1 with errors, 1 unreadable;"), "{done:?}");
    assert!(done.out.starts_with("jobs/tall.case:"), "{done:?}");
}

#[test]
fn a_folder_without_a_spec_is_a_mistake() {
    let bench = Bench::new().with("photos/a.jpg", "");
    let done = bench.run(&["check", "photos"]);
    assert_eq!(done.code, Some(2));
    assert!(done.err.contains("casewright: there is no .case file in photos\n"), "{done:?}");
}

#[test]
fn what_is_named_twice_is_checked_once() {
    let done =
        shop().run(&["check", "./jobs/a/first.case", "jobs/a", "jobs/a/", "--format", "short"]);
    assert_eq!((done.code, done.err.as_str()), (Some(0), "1 spec: 1 sound\n"));
}

#[test]
fn here_is_a_folder_too() {
    let bench = shop();
    let done =
        crate::support::done(bench.command(&["check", "."]).current_dir(bench.path("jobs/a")));
    assert_eq!(done.err, "first.case is sound\n1 spec: 1 sound\n");
}

/// A piece whose case can't be seen for a slip is no file to be left out.
#[test]
fn a_slip_never_hides_a_piece() {
    let bench = Bench::new()
        .with("a/lost.case", "casework 1\njob \"x\" { revision A; units in }\ncsae b { wide 3 }\n")
        .with("a/torn.case", "casework 1\n} case b { wide 3 }\u{1}\n")
        .with("a/stock.case", "stock ply { plywood 3/4 }\n");
    let done = bench.run(&["check", "a", "--format", "short"]);
    assert_eq!(done.code, Some(1));
    for name in ["a/lost.case", "a/torn.case"] {
        assert!(done.out.contains(name), "{name}: {done:?}");
    }
    assert!(!done.out.contains("a/stock.case"), "{done:?}");
    assert!(done.err.contains("2 specs: 2 with errors; skipped 1 file without a case"), "{done:?}");
}

/// A word with one letter gone, doubled, put before its neighbour, or another.
fn slips(word: &str) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for at in 0..word.len() {
        let (before, rest) = word.split_at(at);
        let (own, after) = rest.split_at(1);
        all.push(format!("{before}{after}"));
        all.push(format!("{before}{own}{own}{after}"));
        all.push(format!(
            "{before}{}{own}{}",
            &after[..after.len().min(1)],
            after.get(1..).unwrap_or("")
        ));
        all.push(format!("{before}q{after}"));
    }
    all.retain(|slip| slip != word);
    all
}

/// Whichever two of the words that begin its statements are misspelt.
#[test]
fn two_slips_never_hide_a_piece() {
    let text = spec("first.case");
    let is_statement = |line: &&str| line.starts_with(|first: char| first.is_ascii_lowercase());
    let mut words: Vec<&str> =
        text.lines().filter(is_statement).filter_map(|line| line.split(' ').next()).collect();
    words.dedup();
    assert!(words.contains(&"job") && words.contains(&"case"), "{words:?}");
    let misspelt = |text: &str, word: &str, slip: &str| {
        text.replacen(&format!("\n{word} "), &format!("\n{slip} "), 1)
    };
    let mut bench = Bench::new();
    let mut names = Vec::new();
    for (index, first) in words.iter().enumerate() {
        for second in &words[index + 1..] {
            let (one, other) = (slips(first), slips(second));
            // Every slip of both words that make a piece, one of the others.
            let all = (*first, *second) == ("job", "case");
            for turn in 0..if all { one.len() * other.len() } else { 1 } {
                let text = misspelt(&text, first, &one[turn % one.len()]);
                let text = misspelt(&text, second, &other[turn / one.len()]);
                let name = format!("a/{first}-{second}-{turn}.case");
                bench = bench.with(&name, &text);
                names.push(name);
            }
        }
    }
    assert!(names.len() > 200, "{names:?}");
    let done = bench.run(&["check", "a", "--format", "short"]);
    assert_eq!(done.code, Some(1));
    for name in names {
        assert!(done.out.contains(&format!("{name}:")), "{name} is passed over");
    }
    assert!(!done.err.contains("left out"), "{}", done.err);
}

/// The fault of a file that a piece uses is told with that piece.
#[test]
fn a_slip_in_a_used_file_is_told_once() {
    let text = format!("{}use \"x/own.case\"\n", spec("first.case"));
    let bench =
        Bench::new().with("a/b.case", &text).with("a/x/own.case", "stock odd { plywood = 3/4 }\n");
    let done = bench.run(&["check", "a", "--format", "short"]);
    assert_eq!(done.out.lines().count(), 1, "{done:?}");
    assert!(done.out.starts_with("a/x/own.case:1:"), "{done:?}");
    assert!(
        done.err.ends_with("1 spec: 1 with errors; skipped 1 file without a case\n"),
        "{done:?}"
    );
}

#[cfg(unix)]
#[test]
fn links_are_not_followed() {
    let bench = shop();
    std::os::unix::fs::symlink(bench.path("jobs"), bench.path("jobs/a/round")).unwrap();
    std::os::unix::fs::symlink(bench.path("jobs/tall.case"), bench.path("jobs/a/tall.case"))
        .unwrap();
    let done = bench.run(&["check", "jobs/a"]);
    assert_eq!((done.code, done.err.lines().last()), (Some(0), Some("1 spec: 1 sound")));
}
