//! `casewright mend`: edits made by command, on files.

use crate::support::{Bench, spec};

/// A sound spec with one text in the place of another.
fn changed(from: &str, to: &str) -> String {
    let sound = spec("first.case");
    assert!(sound.contains(from), "{from}");
    sound.replacen(from, to, 1)
}

fn read(bench: &Bench, name: &str) -> String {
    std::fs::read_to_string(bench.path(name)).unwrap()
}

/// Nothing but specs lies in the folder.
fn is_tidy(bench: &Bench) -> bool {
    std::fs::read_dir(bench.path("")).unwrap().all(|entry| {
        let path = entry.unwrap().path();
        path.is_dir() || path.extension().is_some_and(|ending| ending == "case")
    })
}

/// Two mistakes on one line and one elsewhere; each has one reading only.
fn slips() -> String {
    let text = changed("gap 3/32; meeting 3/16", "gap = 3/32; meating 3/16");
    text.replacen("high 34-1/2 ", "high 34½ ", 1)
}

/// The doors too tall for their case: four ways to mend it, all of them choices.
fn too_tall() -> String {
    changed("doors store { share 1;", "doors store { high 23;")
}

#[test]
fn what_is_sure_is_mended_round_by_round() {
    let bench = Bench::new().with("a.case", &slips());
    let done = bench.run(&["mend", "a.case"]);
    assert_eq!(done.code, Some(0), "{done:?}");
    assert_eq!(read(&bench, "a.case"), spec("first.case"), "{done:?}");
    assert!(done.out.starts_with("a.case\n"), "{done:?}");
    for line in ["  57 -     gap = 3/32; meating 3/16", "  57 +     gap 3/32; meeting 3/16"] {
        assert!(done.out.lines().any(|printed| printed == line), "{}", done.out);
    }
    assert!(done.err.ends_with("a.case is sound\n"), "{done:?}");
    assert!(is_tidy(&bench));
    let again = bench.run(&["mend", "a.case"]);
    assert_eq!((again.code, again.out.as_str()), (Some(0), ""), "{again:?}");
    assert!(again.err.starts_with("a.case has no sure fix\n"), "{again:?}");
}

/// A whole by the golden section, and by it twice: six places are no fault.
#[test]
fn shares_and_divisors_may_have_six_places() {
    let text = changed("drawer upper { high 5 }", "drawer upper { share 1 }")
        .replace("doors store { share 1;", "doors store { share 1.618034;");
    let divided = changed("drawer upper { high 5 }", "drawer upper { high store.high / 1.618034 }")
        .replace("doors store { share 1;", "doors store {");
    for text in [text, divided] {
        let done = Bench::new().with("a.case", &text).run(&["check", "a.case"]);
        assert_eq!(done.err, "a.case is sound\n");
    }
}

/// Words that a block can't do without; nothing else is said of it.
#[test]
fn a_needed_word_that_is_spelt_wrong_is_told_once() {
    for (from, to) in [
        ("screw 5/32", "scrw 5/32"),
        ("cup 35 mm", "cpu 35 mm"),
        ("swing 105", "swng 105"),
        ("wide 36;", "wdie 36;"),
        ("undermount;", "undermuont;"),
        ("plywood 3/4", "plywod 3/4"),
    ] {
        let bench = Bench::new().with("a.case", &changed(from, to));
        let done = bench.run(&["check", "a.case", "--format", "short"]);
        assert_eq!(done.out.lines().count(), 1, "{done:?}");
        assert!(done.out.contains("error[word-unknown]: `"), "{done:?}");
        assert_eq!(bench.run(&["mend", "a.case"]).code, Some(0));
        assert_eq!(read(&bench, "a.case"), spec("first.case"));
    }
}

#[test]
fn check_tells_what_waits_and_changes_nothing() {
    let bench = Bench::new().with("a.case", &slips()).with("tall.case", &too_tall());
    let done = bench.run(&["mend", "--check", "a.case"]);
    assert_eq!(done.code, Some(1), "{done:?}");
    assert!(done.out.contains("syntax:57:1        sure "), "{done:?}");
    assert_eq!(read(&bench, "a.case"), slips());
    let choices = bench.run(&["mend", "--check", "tall.case"]);
    assert_eq!((choices.code, choices.out.as_str()), (Some(0), ""), "{choices:?}");
}

#[test]
fn a_choice_is_made_by_its_name_and_only_then() {
    let bench = Bench::new().with("tall.case", &too_tall());
    let done = bench.run(&["mend", "tall.case"]);
    assert_eq!((done.code, done.out.as_str()), (Some(1), ""), "{done:?}");
    assert!(done.err.contains("casewright mend tall.case --list\n"), "{done:?}");
    assert_eq!(read(&bench, "tall.case"), too_tall());

    let list = bench.run(&["mend", "--list", "tall.case"]);
    assert_eq!(list.code, Some(0), "{list:?}");
    assert_eq!(list.out.lines().count(), 4, "{}", list.out);
    let second = "sizes-conflict:49:2  choice  line 51: `high 21`      make store 21";
    assert_eq!(list.out.lines().nth(1), Some(second), "{}", list.out);

    let done = bench.run(&["mend", "tall.case", "--take", "sizes-conflict:49:2"]);
    assert_eq!(done.code, Some(0), "{done:?}");
    assert_eq!(
        done.out,
        "tall.case\n  51 -       doors store { high 23; shelf { adjustable 1 } }\n  \
         51 +       doors store { high 21; shelf { adjustable 1 } }\n"
    );
    assert_eq!(done.err, "1 fix was made\ntall.case is sound\n");
    assert_eq!(read(&bench, "tall.case"), too_tall().replace("high 23", "high 21"));
}

#[test]
fn every_name_on_the_list_can_be_taken() {
    let bench = Bench::new().with("tall.case", &too_tall());
    let list = bench.run(&["mend", "--list", "tall.case"]).out;
    for line in list.lines() {
        let name = line.split_whitespace().next().unwrap();
        std::fs::write(bench.path("tall.case"), too_tall()).unwrap();
        let done = bench.run(&["mend", "tall.case", "--take", name]);
        assert_eq!(done.code, Some(0), "{name}: {done:?}");
        assert_ne!(read(&bench, "tall.case"), too_tall(), "{name}");
    }
}

#[test]
fn a_name_that_is_not_there_is_guessed_and_changes_nothing() {
    let bench = Bench::new().with("tall.case", &too_tall());
    let done = bench.run(&["mend", "tall.case", "--take", "size-conflict:49:2"]);
    assert_eq!(done.code, Some(2), "{done:?}");
    assert!(done.err.contains("did you mean `sizes-conflict:49:2`?"), "{done:?}");
    // Four are of that line, so the number can't be left out.
    assert_eq!(bench.run(&["mend", "tall.case", "--take", "sizes-conflict:49"]).code, Some(2));
    assert_eq!(read(&bench, "tall.case"), too_tall());
    let one = Bench::new().with("a.case", &changed("meeting 3/16", "meating 3/16"));
    assert_eq!(one.run(&["mend", "a.case", "--take", "word-unknown:57"]).code, Some(0));
    assert_eq!(read(&one, "a.case"), spec("first.case"));
}

#[test]
fn what_has_a_hole_is_never_made() {
    let text = changed("units    in ", "");
    let text = text.replacen("  # bare numbers are inches", "", 1);
    let bench = Bench::new().with("a.case", &text);
    let list = bench.run(&["mend", "--list", "a.case"]);
    let sketch = list.out.lines().find(|line| line.contains("  sketch  ")).expect("a sketch");
    assert!(list.err.contains("sketch: this one has a blank to fill"), "{list:?}");
    let name = sketch.split_whitespace().next().unwrap();
    let done = bench.run(&["mend", "a.case", "--take", name]);
    assert_eq!(done.code, Some(2), "{done:?}");
    assert!(done.err.contains("has a blank to fill"), "{done:?}");
    bench.run(&["mend", "a.case"]);
    assert_eq!(read(&bench, "a.case"), text);
}

/// The sound spec with its shop in a file of its own.
fn parted() -> (String, String) {
    let sound = spec("first.case");
    let shop = sound.lines().find(|line| line.starts_with("shop {")).unwrap().to_owned();
    let text =
        sound.replacen(&shop, "", 1).replacen("casework 1", "casework 1\nuse \"own/shop.case\"", 1);
    (text, format!("{shop}\n"))
}

#[test]
fn a_used_file_beside_or_below_the_spec_is_mended_too() {
    let (text, shop) = parted();
    let wrong = shop.replacen("kerf 1/8", "kerff 1/8", 1);
    let bench = Bench::new().with("a.case", &text).with("own/shop.case", &wrong);
    let list = bench.run(&["mend", "--list", "a.case"]).out;
    assert!(list.starts_with("word-unknown:own/shop.case:1:1  sure "), "{list}");
    let done = bench.run(&["mend", "a.case"]);
    assert_eq!(done.code, Some(0), "{done:?}");
    assert!(done.out.starts_with("own/shop.case\n  1 - shop {"), "{done:?}");
    assert_eq!(read(&bench, "own/shop.case"), shop);
    assert_eq!(read(&bench, "a.case"), text);
}

#[cfg(unix)]
#[test]
fn a_used_file_elsewhere_is_left_alone() {
    let (text, shop) = parted();
    let wrong = shop.replacen("kerf 1/8", "kerff 1/8", 1);
    let bench = Bench::new().with("job/a.case", &text).with("shop.case", &wrong);
    std::fs::create_dir(bench.path("job/own")).unwrap();
    std::os::unix::fs::symlink(bench.path("shop.case"), bench.path("job/own/shop.case")).unwrap();
    let done = bench.run(&["mend", "job/a.case"]);
    assert_eq!(done.code, Some(1), "{done:?}");
    assert!(done.err.contains("lies outside the spec's folder"), "{done:?}");
    assert_eq!(read(&bench, "shop.case"), wrong);
}

/// A line may be so long that its mended form is longer than can be read.
#[test]
fn nothing_changes_where_the_edit_would_make_the_file_unreadable() {
    let line = |fraction: &str| {
        let rest = format!("note {fraction} \"");
        // As long as a line may be, so that one more byte is too much.
        format!("{rest}{}\"", "x".repeat(4097 - rest.len() - 1))
    };
    let long = changed("  revision A\n", &format!("  revision A\n{}\n", line("½")));
    let bench = Bench::new().with("a.case", &long);
    let list = bench.run(&["mend", "--list", "a.case"]).out;
    assert!(list.contains("  sure "), "{list}");
    for arguments in [&["mend", "a.case"][..], &["mend", "a.case", "--take", "syntax:5:1"]] {
        let done = bench.run(arguments);
        assert_eq!(done.code, Some(1), "{done:?}");
        assert!(done.err.contains("this line is longer than 4096 bytes"), "{done:?}");
        assert!(done.err.ends_with(", so nothing was changed\n"), "{done:?}");
        assert_eq!(read(&bench, "a.case"), long);
    }
}

#[test]
fn a_file_that_can_not_be_read_or_written_ends_with_2() {
    let bench = Bench::new().with("a.case", &slips());
    assert_eq!(bench.run(&["mend", "nowhere.case"]).code, Some(2));
    assert_eq!(bench.run(&["mend"]).code, Some(2));
    assert_eq!(bench.run(&["mend", "a.case", "--list", "--check"]).code, Some(2));
    let path = bench.path("a.case");
    let mut rights = std::fs::metadata(&path).unwrap().permissions();
    rights.set_readonly(true);
    std::fs::set_permissions(&path, rights).unwrap();
    let done = bench.run(&["mend", "a.case"]);
    assert_eq!((done.code, done.out.as_str()), (Some(2), ""), "{done:?}");
    assert!(done.err.contains("it is read-only"), "{done:?}");
    assert_eq!(read(&bench, "a.case"), slips());
    assert!(is_tidy(&bench));
}

/// Wherever a line lost the brace that it ends with, the message is at that
/// line and putting the brace there mends it.
#[test]
fn a_lost_opening_brace_is_found_by_the_indent() {
    let mut tried = 0;
    for name in ["first.case", "hall-console.case", "tide-cottage-press.case"] {
        let sound = spec(name);
        for (line, at) in sound.match_indices(" {\n").map(|(at, _)| (&sound[..at], at)) {
            let text = format!("{line}{}", &sound[at + 2..]);
            let compiled = crate::support::compile(&text);
            let found = &compiled.diagnostics;
            assert_eq!(crate::support::slugs(&compiled), ["stray-brace"], "{name}: {found:#?}");
            let place = compiled.sources.position(found[0].primary.span).line;
            assert_eq!(place as usize, line.lines().count(), "{name}: {found:#?}");
            let mended = casewright::diagnostics::mend(&compiled.sources, &[&found[0].fixes[0]]);
            assert_eq!(mended.texts.values().next(), Some(&sound), "{name}");
            tried += 1;
        }
    }
    assert!(tried > 30, "{tried}");
}

/// A brace too many that no other lacks is still to be taken out.
#[test]
fn a_brace_too_many_is_taken_out() {
    for text in
        [format!("{}}}\n", spec("first.case")), changed("    }\n  }\n", "    }\n  }\n  }\n")]
    {
        let compiled = crate::support::compile(&text);
        let found = &compiled.diagnostics;
        let strays = found.iter().filter(|found| found.slug == "stray-brace");
        assert!(strays.clone().count() == 1, "{found:#?}");
        assert!(strays.clone().all(|found| found.title == "there is one closing brace too many"));
    }
}

/// However a day is written, the message says how a spec writes it.
#[test]
fn a_date_of_another_form_is_put_right() {
    for (word, written, right) in [
        ("cut", "15.5.2026", Some("2026-05-15")),
        ("cut", "5/15/2026", Some("2026-05-15")),
        ("cut", "2026-5-15", Some("2026-05-15")),
        ("measured", "3.4.2026", Some("2026-04-03")),
        ("measured", "15/5/2026", Some("2026-05-15")),
        ("cut", "3/4/2026", None),
        ("cut", "31.2.2026", None),
    ] {
        let body = if word == "cut" { "cupboard.kick" } else { "shop { humidity 46% }" };
        let with = |date: &str| format!("{}\n{word} {date} {{ {body} }}\n", spec("first.case"));
        let compiled = crate::support::compile(&with(written));
        let [found] = compiled.diagnostics.as_slice() else {
            panic!("{written}: {:#?}", compiled.diagnostics)
        };
        assert!(found.title.starts_with("write a date as year, month, and day"), "{found:?}");
        let fixes: Vec<_> = found.fixes.iter().collect();
        let mended = casewright::diagnostics::mend(&compiled.sources, &fixes);
        assert_eq!(mended.texts.values().next().cloned(), right.map(with), "{written}");
    }
    let bench = Bench::new().with("a.case", &spec("first.case"));
    for (written, said) in [
        ("15.5.2026", "did you mean 2026-05-15?"),
        ("3/4/2026", "write a date like this: 2026-03-14"),
        ("today", "write a date like this: 2026-03-14"),
    ] {
        let done = bench.run(&["record", "a.case", "kick", "--date", written]);
        assert_eq!(done.code, Some(2), "{done:?}");
        assert!(done.err.contains(said), "{done:?}");
    }
    assert_eq!(read(&bench, "a.case"), spec("first.case"));
}
