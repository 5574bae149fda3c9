//! `casewright format`: one look for every spec, and nothing but the look.

use crate::oracle;
use std::collections::BTreeMap;
use std::io::Write as _;
use std::path::Path;
use std::process::Stdio;

use crate::oracle::outcome;
use crate::support::{Bench, spec};
use casewright::measure::FileId;
use casewright::model::MemoryFiles;
use casewright::papers;
use casewright::pipeline;
use casewright::vocabulary::{self, parse};
use proptest::prelude::*;

fn formatted(text: &str) -> String {
    vocabulary::format(FileId(0), text).unwrap_or_else(|found| panic!("{text}\n{found:#?}"))
}

/// Everything that must hold for any text that can be read.
fn holds(text: &str) {
    oracle::is_formatted(text, &formatted(text));
}

/// All specs of the project by their path below `specs`.
fn specs() -> BTreeMap<String, String> {
    fn walk(folder: &Path, root: &Path, found: &mut BTreeMap<String, String>) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                walk(&path, root, found);
            } else if path.extension().is_some_and(|ending| ending == "case") {
                let name = path.strip_prefix(root).unwrap().to_string_lossy().replace('\\', "/");
                found.insert(name, std::fs::read_to_string(&path).unwrap());
            }
        }
    }
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let mut found = BTreeMap::new();
    walk(&root, &root, &mut found);
    found
}

fn files(all: &BTreeMap<String, String>) -> MemoryFiles {
    all.iter().fold(MemoryFiles::default(), |files, (name, text)| files.with(name, text))
}

/// A text with its blocks and statements spread over as many lines as can be.
fn loosened(text: &str) -> String {
    let spread = |line: &str| {
        let (code, comment) = line.split_at(line.find('#').unwrap_or(line.len()));
        let code = code.replace(" {", "\t {\r\n").replace(';', " ;\r\n\r\n\r\n");
        format!("{code}{comment}\n")
    };
    text.lines().map(spread).collect()
}

#[test]
fn every_spec_keeps_its_meaning_and_is_the_same_when_formatted_twice() {
    let before = specs();
    let mut after = before.clone();
    let mut count = 0;
    for (name, text) in &before {
        if parse(FileId(0), text).1.is_empty() {
            holds(text);
            // Laid out as badly as can be: everything on lines of its own.
            let loose = loosened(text);
            holds(&loose);
            after.insert(name.clone(), formatted(&loose));
            count += 1;
        }
    }
    assert!(count > 100, "{count}");
    let (old, new) = (files(&before), files(&after));
    for name in before.keys() {
        let (old, new) = (pipeline::check(&old, name), pipeline::check(&new, name));
        let (old, new) = (old.expect("readable"), new.expect("readable"));
        assert_eq!(outcome(&old), outcome(&new), "{name}");
        // The other papers carry a mark of the text that they were made from.
        let lists = [&old, &new].map(|compiled| {
            let papers = papers::packet(compiled).unwrap_or_default();
            papers.into_iter().find(|paper| paper.name.ends_with(".csv")).map(|list| list.text)
        });
        assert_eq!(lists[0], lists[1], "{name}");
    }
}

#[test]
fn the_demo_specs_are_formatted() {
    for (name, text) in specs().iter().filter(|(name, _)| !name.contains('/')) {
        assert_eq!(&formatted(text), text, "{name}");
    }
}

/// Each pair is a text and how it is to be written.
const LOOKS: &[(&str, &str)] = &[
    // Indents, spaces, empty lines and line ends.
    (
        "\n\ncase  a{\r\n\r\n\twide   3 ;\r\n\r\n\r\n    deep 4\r\n\r\n}",
        "case a {\n  wide 3\n\n  deep 4\n}\n",
    ),
    ("", ""),
    (";;\n", ""),
    ("\u{FEFF}wide 3", "wide 3\n"),
    ("wide 3\r\rdeep 4\r", "wide 3\n\ndeep 4\n"),
    // A block that stood on one line stays there, any other does not.
    ("a b{c 1;d{e 2};f}", "a b { c 1; d { e 2 }; f }\n"),
    ("a {\n}\nb { }\nc {}\n", "a { }\nb { }\nc { }\n"),
    ("a { b 1\nc 2 }\n", "a {\n  b 1\n  c 2\n}\n"),
    ("a { b {\nc 1 } }\n", "a {\n  b {\n    c 1\n  }\n}\n"),
    // Statements that share a line go on doing so, unless one of them is tall.
    ("wide 3;deep 4 ;  high 5\n", "wide 3; deep 4; high 5\n"),
    ("wide 3; a {\nb 1\n}; deep 4\n", "wide 3\na {\n  b 1\n}\ndeep 4\n"),
    // Values stay as they were written.
    ("a   5'   3-1/2\"   18mm   7  in\n", "a 5' 3-1/2\" 18mm 7 in\n"),
    ("a  \"x  ;  { # \\\" \"  \n", "a \"x  ;  { # \\\" \"\n"),
    ("a b.c  -  1/2*( d+1 )\n", "a b.c - 1/2*( d+1 )\n"),
    ("a 1  1/2; b 1 1/2; c 1\t1/2\n", "a 1  1/2; b 1 1/2; c 1  1/2\n"),
    ("a 1 -b\n", "a 1 -b\n"),
    // Columns that were there, to the longest word in them.
    ("ab    1\nabcd  2\nabc   3\n", "ab    1\nabcd  2\nabc   3\n"),
    ("ab         1\nabcd       2\n", "ab     1\nabcd   2\n"),
    ("ab 1\nabcd 2\n", "ab 1\nabcd 2\n"),
    ("ab     1\n", "ab 1\n"),
    ("ab   1\n\nabcd 2\n", "ab 1\n\nabcd 2\n"),
    // One that is too long for the column leaves it, one that slipped returns.
    ("ab   1\nabcd 2\nabcdefg 3\n", "ab   1\nabcd 2\nabcdefg 3\n"),
    ("ab   1\nabcd 2\na   3\n", "ab   1\nabcd 2\na    3\n"),
    // Braces have columns as well; a word without a name may share them.
    (
        "drawer up  { high 5 }\nrail       { wide 1 }\ndrawer low { share 1 }\n",
        "drawer up  { high 5 }\nrail       { wide 1 }\ndrawer low { share 1 }\n",
    ),
    (
        "left  wall { scribe 1 }\nright wall { scribe 2 }\n",
        "left  wall { scribe 1 }\nright wall { scribe 2 }\n",
    ),
    // Comments.
    ("#a\n\n\n# b  \nwide 3# c\n", "#a\n\n# b\nwide 3  # c\n"),
    ("wide 3    # a\ndeep 44   # b\nhigh 5\n", "wide 3    # a\ndeep 44   # b\nhigh 5\n"),
    ("wide 3 # a\ndeep 44 # b\n", "wide 3   # a\ndeep 44  # b\n"),
    ("wide 3        # a\n              # more\n", "wide 3        # a\n              # more\n"),
    ("wide 3        # a\n   # not\n", "wide 3        # a\n# not\n"),
    ("a {# x\n\n\n# y\nb 1\n# z\n\n}# end\n", "a {  # x\n  # y\n  b 1\n  # z\n}  # end\n"),
    ("a 1; # x\n", "a 1  # x\n"),
    // Values of a block, and one that is added to them; a word too long for
    // the column leaves it alone.
    ("s {\nkerf 1/8\nhumidity 40%\n}\n", "s {\n  kerf     1/8\n  humidity 40%\n}\n"),
    (
        "s {\n  kerf      1/8\n  humidity  40%\n  day 8 h\n  door-thickness 3\n}\n",
        "s {\n  kerf      1/8\n  humidity  40%\n  day       8 h\n  door-thickness 3\n}\n",
    ),
];

#[test]
fn the_look_is_as_agreed() {
    for (text, look) in LOOKS {
        assert_eq!(&formatted(text), look, "{text}");
        holds(text);
    }
}

#[test]
fn a_tab_within_a_text_takes_one_column_wherever_it_stands() {
    let text = "site {\n  left      open         # this end is seen\n  \
                humidity  30% to 55%   # the room through the year\n  \
                keep-out \"heating\tpipe\"  { from-left 52; up 0 }\n}\n";
    holds(text);
    assert!(formatted(text).contains("\"heating\tpipe\""), "the text itself stays");
}

#[test]
fn a_line_that_is_too_long_is_broken_at_its_statements() {
    let row = |count: usize| (0..count).map(|i| format!("word-{i} 1")).collect::<Vec<_>>();
    // `a { word-0 1; … }` of 9 is 98 columns, of 10 it is 108.
    let nine = format!("a {{ {} }}\n", row(9).join("; "));
    assert_eq!(formatted(&nine), nine);
    let ten = format!("a {{ {} }}\n", row(10).join("; "));
    assert_eq!(formatted(&ten), format!("a {{\n  {}\n}}\n", row(10).join("\n  ")));
    let shared = format!("{}\n", row(12).join("; "));
    assert_eq!(formatted(&shared), format!("{}\n", row(12).join("\n")));
    // A column does not make a line longer than it was thought to be.
    let aligned = format!("{nine}abcdefgh  {{ b 1 }}\nabcdefghi {{ b 1 }}\n");
    holds(&aligned);
}

#[test]
fn a_line_that_could_not_be_read_again_is_refused() {
    let note = "x".repeat(4080);
    let text = format!("a {{\nb {{\nc {{\nnote \"{note}\" # tail\n}}\n}}\n}}\n");
    assert!(parse(FileId(0), &text).1.is_empty());
    let found = vocabulary::format(FileId(0), &text).unwrap_err();
    assert_eq!(found[0].slug, "line-too-long");
    assert!(text[found[0].primary.span.start as usize..].starts_with("note"));
}

fn space() -> impl Strategy<Value = &'static str> {
    prop::sample::select(vec![" ", " ", "  ", "\t", " \t  ", "      "])
}

fn line_end() -> impl Strategy<Value = String> {
    let ends = vec![
        "\n",
        "\r\n",
        "\r",
        ";",
        " ; ",
        ";\n",
        "\n\n",
        "\n\n\n",
        "\r\n\r\n",
        " # c\n",
        "#c\n",
        " ; # d\n\n",
        "\n# own\n",
        "\n   # own  \n\n",
        "      # far\n            # further\n",
    ];
    prop::sample::select(ends).prop_map(str::to_owned)
}

fn written() -> impl Strategy<Value = String> {
    let values = vec![
        "1",
        "3/4",
        "1-1/2",
        "1 1/2",
        "1/2",
        "18mm",
        "18  mm",
        "5'",
        "7\"",
        "5' 3\"",
        "35%",
        "miter",
        "a.high",
        "x  -  1",
        "x - 1/2",
        "(a+ 1)",
        "( a  * 2 )",
        "-b",
        "\"t  x # ; {\"",
        "\"t\tx\"",
        "\"é½\"",
        "2026-03-14",
        "2.5",
        "m2",
    ];
    let word = prop::sample::select(vec!["a", "wide", "keep-out", "door-thickness", "x.y", "e1"]);
    (word, prop::collection::vec((space(), prop::sample::select(values)), 0..4)).prop_map(
        |(word, values)| {
            values.iter().fold(word.to_owned(), |text, (space, value)| text + space + value)
        },
    )
}

fn block() -> impl Strategy<Value = String> {
    let list = |statement: BoxedStrategy<String>| {
        (prop::collection::vec((statement, line_end()), 0..6), line_end()).prop_map(
            |(statements, first)| {
                statements.iter().fold(first, |text, (one, end)| text + one + end)
            },
        )
    };
    let leaf = written().boxed();
    let nested = leaf.prop_recursive(4, 40, 6, move |inner| {
        let head = (written(), prop::sample::select(vec!["", " ", "  ", "\t"]));
        let spaced = (list(inner.boxed()), prop::sample::select(vec!["", " ", "\n", "\n\n"]));
        (head, spaced)
            .prop_map(|((head, space), (body, end))| format!("{head}{space}{{{body}{end}}}"))
            .boxed()
    });
    list(nested.boxed())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn any_spec_keeps_its_meaning_however_it_is_spaced(text in block()) {
        prop_assume!(parse(FileId(0), &text).1.is_empty());
        holds(&text);
    }

    #[test]
    fn any_text_of_words_is_formatted_or_refused(
        words in prop::collection::vec(
            prop::sample::select(vec![
                "a", "wide", "1", "1/2", " ", "  ", "\t", "\n", ";", "{", "}", "#", "\"", "'", "-",
                "(", ")", "*", "mm", "\r\n", "é",
            ]),
            0..24,
        ),
    ) {
        let text = words.concat();
        if parse(FileId(0), &text).1.is_empty() {
            holds(&text);
        } else {
            prop_assert!(vocabulary::format(FileId(0), &text).is_err());
        }
    }
}

proptest! {
    // Each reads the whole console several times.
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn the_console_spaced_anew_keeps_its_meaning(
        changes in prop::collection::vec((any::<prop::sample::Index>(), space()), 1..60),
    ) {
        let mut text = spec("hall-console.case");
        for (at, space) in changes {
            let spaces: Vec<usize> = text.match_indices(' ').map(|(at, _)| at).collect();
            let at = spaces[at.index(spaces.len())];
            text.replace_range(at..=at, space);
        }
        if parse(FileId(0), &text).1.is_empty() {
            holds(&text);
        }
    }
}

const LOOSE: &str = "casework   1\njob \"x\"{revision A}\n";
const NEAT: &str = "casework 1\njob \"x\" { revision A }\n";
const WRONG: &str = "casework   1\nwide = 3\n";

fn bench() -> Bench {
    Bench::new().with("loose.case", LOOSE).with("neat.case", NEAT).with("wrong.case", WRONG)
}

fn read(bench: &Bench, name: &str) -> String {
    std::fs::read_to_string(bench.path(name)).unwrap()
}

/// Nothing is left beside the specs.
fn is_tidy(bench: &Bench) -> bool {
    std::fs::read_dir(bench.path(""))
        .unwrap()
        .all(|entry| entry.unwrap().path().extension().is_some_and(|ending| ending == "case"))
}

#[test]
fn specs_are_formatted_where_they_lie() {
    let bench = bench();
    let before = std::fs::metadata(bench.path("neat.case")).unwrap().modified().unwrap();
    let done = bench.run(&["format", "loose.case", "neat.case"]);
    assert_eq!((done.code, done.out.as_str()), (Some(0), ""), "{done:?}");
    assert_eq!(done.err, "formatted loose.case\n");
    assert_eq!(read(&bench, "loose.case"), NEAT);
    let after = std::fs::metadata(bench.path("neat.case")).unwrap().modified().unwrap();
    assert_eq!(before, after, "a formatted file is not written again");
    assert!(is_tidy(&bench));
}

#[test]
fn check_lists_what_would_change_and_changes_nothing() {
    let bench = bench();
    let done = bench.run(&["format", "--check", "loose.case", "neat.case"]);
    assert_eq!((done.code, done.out.as_str()), (Some(1), "loose.case\n"), "{done:?}");
    assert_eq!(read(&bench, "loose.case"), LOOSE);
    assert_eq!(bench.run(&["format", "--check", "neat.case"]).code, Some(0));
}

#[test]
fn a_spec_that_can_not_be_read_is_left_as_it_is() {
    let bench = bench();
    for arguments in
        [&["format", "wrong.case", "loose.case"][..], &["format", "--check", "wrong.case"]]
    {
        let done = bench.run(arguments);
        assert_eq!(done.code, Some(1), "{done:?}");
        assert!(done.err.starts_with("error[syntax]: don't write `=`"), "{done:?}");
        assert!(done.err.contains("1 error in wrong.case; the file was not changed\n"), "{done:?}");
        assert_eq!(read(&bench, "wrong.case"), WRONG);
    }
    assert_eq!(read(&bench, "loose.case"), NEAT, "the others are formatted all the same");
}

#[test]
fn a_hyphen_stands_for_standard_input_and_output() {
    let bench = bench();
    let through = |text: &str, arguments: &[&str]| {
        let mut command = bench.command(arguments);
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut child = command.spawn().unwrap();
        child.stdin.take().unwrap().write_all(text.as_bytes()).unwrap();
        let output = child.wait_with_output().unwrap();
        (output.status.code(), String::from_utf8(output.stdout).unwrap())
    };
    assert_eq!(through(LOOSE, &["format", "-"]), (Some(0), NEAT.to_owned()));
    assert_eq!(through(WRONG, &["format", "-"]), (Some(1), String::new()));
    assert_eq!(through(LOOSE, &["format", "--check", "-"]), (Some(1), "-\n".to_owned()));
    assert_eq!(through(NEAT, &["format", "--check", "-"]), (Some(0), String::new()));
}

#[test]
fn a_file_that_can_not_be_read_or_written_ends_with_2() {
    let bench = bench();
    assert_eq!(bench.run(&["format", "nowhere.case"]).code, Some(2));
    assert_eq!(bench.run(&["format"]).code, Some(2));
    let path = bench.path("loose.case");
    let mut rights = std::fs::metadata(&path).unwrap().permissions();
    rights.set_readonly(true);
    std::fs::set_permissions(&path, rights).unwrap();
    let done = bench.run(&["format", "loose.case"]);
    assert_eq!(done.code, Some(2), "{done:?}");
    assert!(done.err.contains("it is read-only"), "{done:?}");
    assert_eq!(read(&bench, "loose.case"), LOOSE);
    assert!(is_tidy(&bench));
}

#[cfg(unix)]
#[test]
fn rights_and_links_stay_as_they_were() {
    use std::os::unix::fs::{PermissionsExt as _, symlink};
    let bench = bench();
    let path = bench.path("loose.case");
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o640)).unwrap();
    symlink("loose.case", bench.path("link.case")).unwrap();
    assert_eq!(bench.run(&["format", "link.case"]).code, Some(0));
    assert!(bench.path("link.case").symlink_metadata().unwrap().is_symlink());
    assert_eq!(read(&bench, "loose.case"), NEAT);
    assert_eq!(std::fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o640);
}

/// Miter and center are how the shop spells them here; elsewhere they are
/// spelled otherwise. Both are understood, and the shop's is written.
#[test]
fn another_spelling_is_understood_and_the_one_is_written() {
    let one = spec("hall-console.case");
    let other = one.replace("seam miter", "seam mitre").replace("centers 3", "centres 3");
    let changed = one.lines().zip(other.lines()).filter(|(one, other)| one != other).count();
    assert_eq!(changed, 3);
    assert_eq!(formatted(&other), formatted(&one));
    let piece = |text: &str| {
        let compiled = pipeline::check(&MemoryFiles::one("a.case", text), "a.case").unwrap();
        assert!(compiled.diagnostics.is_empty(), "{:?}", compiled.diagnostics);
        compiled.piece.expect("sound")
    };
    // The two spellings are as long, so every span is the same too.
    assert_eq!(piece(&other), piece(&one));
}

/// What is not a word of the language is the maker's own.
#[test]
fn names_and_texts_keep_their_spelling() {
    let text = "pull centres { centres 3; screw 1; note \"mitre the centres\" }  # centres\n";
    let neat = "pull centres { centers 3; screw 1; note \"mitre the centres\" }  # centres\n";
    assert_eq!(formatted(text), neat);
}

/// What is offered, and what the reference shows, is the one spelling.
#[test]
fn only_the_one_spelling_is_offered() {
    let first = spec("first.case");
    let wrong =
        first.replace("stile left  { wide 1-3/4 }", "stile left  { wide 1-3/4; seam mitr }");
    let compiled = pipeline::check(&MemoryFiles::one("a.case", &wrong), "a.case").unwrap();
    let found = compiled.diagnostics.iter().find(|found| found.slug == "value-wrong").unwrap();
    assert_eq!(found.fixes[0].edits[0].text, "miter");
    let told = format!("{} {}", found.title, found.primary.text);
    assert!(told.contains("miter") && !told.contains("mitre"), "{told}");
    let reference = papers::reference();
    assert!(reference.contains("centers") && reference.contains("`miter`"));
    assert!(!reference.contains("centres") && !reference.contains("mitre"));
}
