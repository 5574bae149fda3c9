//! Sizes as they came out: what is made after them goes by them, what was
//! made before stays as it is drawn.

use crate::support::{Bench, compile, slugs, spec};
use casewright::measure::{Exact, Length};
use casewright::model::MemoryFiles;
use casewright::parts::{Part, Parts};
use casewright::pipeline::{self, Compilation};
use casewright::plans::Workings;

/// The hall console with these lines at its end.
fn console(more: &str) -> Compilation {
    compile(&format!("{}\n{more}\n", spec("hall-console.case")))
}

fn parts(compiled: &Compilation) -> &Parts {
    compiled.parts.as_ref().unwrap_or_else(|| panic!("{:#?}", compiled.diagnostics))
}

fn part<'a>(compiled: &'a Compilation, name: &str) -> &'a Part {
    parts(compiled).named(&format!("console.{name}")).unwrap_or_else(|| panic!("no {name}")).1
}

/// 64ths of an inch.
fn sixty_fourths(count: i64) -> Length {
    Length::inches(count, 64)
}

const PRESS: &str = "measured { opening console.press { wide 26-17/32 } }";

#[test]
fn leaves_are_made_to_the_opening_as_measured() {
    let c = console(PRESS);
    assert_eq!(slugs(&c), Vec::<&str>::new());
    // (26-17/32 − 2 × 3/32 − 1/8) / 2 = (1698 − 12 − 8) / 64 / 2 = 839/64 = 13-7/64.
    assert_eq!(part(&c, "press.left-door").width.length, sixty_fourths(839));
    assert_eq!(part(&c, "press.right-door").width.length, sixty_fourths(839));
    // Not measured: 26 − 2 × 3/32 = 25-13/16.
    assert_eq!(part(&c, "press.left-door").length.length, Length::inches(413, 16));
}

#[test]
fn what_was_made_before_stays_as_drawn() {
    let (drawn, built) = (console(""), console(PRESS));
    for part in &parts(&drawn).all {
        let (_, same) = parts(&built).named(&part.path).expect("the part");
        let front = part.path.starts_with("console.press.") && part.path.ends_with("-door");
        // A block between a board and the edge of the opening is made after it.
        let block = part.path.contains("hinge-block");
        if !front && !block {
            assert_eq!(part.length.length, same.length.length, "{}", part.path);
            assert_eq!(part.width.length, same.width.length, "{}", part.path);
            assert_eq!(part.thickness.length, same.thickness.length, "{}", part.path);
        }
    }
}

#[test]
fn a_drawer_goes_by_its_measured_opening() {
    let c = console("measured { opening upper { wide 17-9/32; high 4-31/32 } }");
    assert_eq!(slugs(&c), Vec::<&str>::new());
    // 17-9/32 − 3/16 = 17-3/32; 4-31/32 − 3/16 = 4-25/32.
    assert_eq!(part(&c, "bank.upper.front").length.length, Length::inches(547, 32));
    assert_eq!(part(&c, "bank.upper.front").width.length, Length::inches(153, 32));
    // Inside 17-9/32 − 1-5/8 = 15-21/32; the front lies in rabbets half of
    // the 5/8 sides deep: 15-21/32 + 2 × 5/16 = 16-9/32. High 4-31/32 − 7/8 = 4-3/32.
    assert_eq!(part(&c, "bank.upper.box-front").length.length, Length::inches(521, 32));
    assert_eq!(part(&c, "bank.upper.left-side").width.length, Length::inches(131, 32));
    // The drawer below is as drawn.
    assert_eq!(part(&c, "bank.middle.front").length.length, Length::inches(273, 16));
}

#[test]
fn the_reveals_stay_as_written() {
    let c = console(
        "measured { opening press { wide 26-17/32; high 25-31/32 }; opening upper { wide 17-3/16 } }",
    );
    let piece = c.piece.as_ref().expect("a piece");
    for gap in Workings::of(piece, parts(&c)).gaps() {
        let written = if gap.meeting { Length::inches(1, 8) } else { Length::inches(3, 32) };
        assert_eq!(gap.fitted, written, "{} {}", gap.front.path, gap.edge.word());
    }
}

#[test]
fn a_reading_within_the_tape_changes_nothing() {
    // 26-1/2 is drawn; 1/64 more is what the tape may be off.
    let (drawn, same) =
        (console(""), console("measured { opening press { wide 26-33/64; high 26 } }"));
    assert_eq!(parts(&drawn), parts(&same));
    assert!(same.piece.as_ref().expect("a piece").readings.is_empty());
    // A finer instrument counts it.
    let finer = console("measured { with 0.001; opening press { wide 26-33/64 } }");
    // (1697 − 20) / 128 = 13-13/128.
    assert_eq!(part(&finer, "press.left-door").width.length, Length::inches(1677, 128));
}

#[test]
fn a_measured_sheet_takes_the_place_of_the_written_one() {
    let c = console("measured { stock birch-ply { actual 0.707 } }");
    assert_eq!(slugs(&c), Vec::<&str>::new());
    // Carcass 65-1/4, the left end of cherry-ply 23/32, the right one of
    // birch-ply 0.707; two dadoes of 1/4: 65.25 − 0.71875 − 0.707 + 0.5.
    let long = Length::inches(1, 1) * Exact::ratio(6_432_425, 100_000);
    assert_eq!(part(&c, "bottom").length.length, long);
    // The dado for the bottom is as wide as the bottom is thick.
    let end = part(&c, "left-end");
    let thick = Length::inches(707, 1000);
    let dado = |part: &Part| part.features.iter().any(|f| part.channel(f).wide == thick);
    assert!(dado(end));
    let facts = &c.piece.as_ref().expect("a piece").facts;
    assert!(facts.is_measured(&part(&c, "bottom").length));
    assert!(!facts.is_measured(&part(&c, "top-rail").length));
}

#[test]
fn the_air_of_the_shop_is_what_was_measured() {
    let c = console("measured { shop { humidity 46% } }");
    let shop = &c.piece.as_ref().expect("a piece").shop;
    assert_eq!(shop.humidity.0, Exact::int(46));
    assert_eq!(c.sources.text(shop.humidity_span.expect("a place")), "humidity 46%");
}

#[test]
fn a_shelf_of_a_frame_less_case_goes_by_its_opening() {
    let text = "casework 1\njob \"Shelves\" { units mm }\nsite { left open; right open }\n\
        stock ply { plywood 18 mm }\ncase rack {\n  wide 636; deep 300; high 800\n  ends { stock ply }\n\
        bottom { joint dado { deep 6 } }\n  top { joint dado { deep 6 }; panel }\n  frame none\n\
        across { open bay { shelf { adjustable 1 } } }\n}\n";
    let drawn = compile(text);
    let built = compile(&format!("{text}measured {{ opening bay {{ wide 602 }} }}\n"));
    let shelf = |c: &Compilation| parts(c).named("rack.bay.shelf").expect("a shelf").1.clone();
    // 636 − 2 × 18 = 600 drawn, 602 measured.
    assert_eq!(shelf(&built).length.length - shelf(&drawn).length.length, Length::mm(2));
}

#[test]
fn papers_mark_what_is_as_measured_and_say_of_what() {
    let text = format!(
        "{}\nmeasured 2026-03-20 {{ opening press {{ wide 26-17/32 }}; stock thin-ply {{ actual 0.2 }} }}\n",
        spec("hall-console.case")
    );
    let bench = Bench::new().with("console.case", &text);
    let list = bench.run(&["build", "console.case", "--print", "cut-list"]);
    assert_eq!(list.code, Some(0), "{}", list.err);
    let note = "Note: as measured: opening console.press 26-17/32 wide (drawn 26-1/2) (2026-03-20); thin-ply 0.200 thick (2026-03-20); (m) follows a figure that depends on these";
    assert!(list.out.contains(note), "{}", list.out);
    assert!(list.out.contains(">> 13-1/8~ (m)  fence, 2 pieces"), "{}", list.out);
    assert!(!list.out.contains("61-3/4 (m)"));
    let folder = bench.run(&["build", "console.case", "--into", "papers"]);
    assert_eq!(folder.code, Some(0), "{}", folder.err);
    let csv = std::fs::read_to_string(bench.path("papers/cut-list.csv")).unwrap();
    let row = |mark: &str| csv.lines().find(|line| line.starts_with(mark)).unwrap().to_owned();
    assert!(row("PR-LD,").contains(",width,,,,\""), "{}", row("PR-LD,"));
    assert!(row("TRL,").contains(",3/4,,,,,"), "{}", row("TRL,"));
}

#[test]
fn why_names_the_reading() {
    let text = format!("{}\n{PRESS}\n", spec("hall-console.case"));
    let bench = Bench::new().with("console.case", &text);
    let why = bench.run(&["why", "console.case", "press", "size"]);
    assert!(why.out.contains("as built  26-17/32 in"), "{}", why.out);
    let why = bench.run(&["why", "console.case", "press.left-door"]);
    assert!(why.out.contains("press wide as measured"), "{}", why.out);
    assert!(why.out.contains("wide 26-17/32"), "{}", why.out);
}

#[test]
fn a_used_file_may_not_measure() {
    let files = MemoryFiles::one("a.case", &format!("use \"b.case\"\n{}", spec("first.case")))
        .with("b.case", "measured { shop { humidity 46% } }\n");
    let compiled = pipeline::check(&files, "a.case").expect("readable");
    assert_eq!(slugs(&compiled), ["use-holds-piece"]);
}

#[test]
fn the_form_names_what_there_is_to_measure_and_can_be_filled_in() {
    let bench = Bench::new().with("first.case", &spec("first.case"));
    let form = bench.run(&["measure", "first.case"]);
    assert_eq!((form.code, form.err.as_str()), (Some(0), ""));
    // Empty, each line asks for its figure: 2 openings of 4, 2 sheets, the air.
    let text = format!("{}{}", spec("first.case"), form.out);
    let asked = compile(&text);
    assert_eq!(slugs(&asked), ["value-missing"; 11]);
    // Filled in as drawn, it changes nothing.
    let mut filled = String::new();
    for line in form.out.lines() {
        let drawn = line.split_once("# drawn ").or(line.split_once("# written "));
        match drawn {
            Some((word, figure)) => {
                let word = word.trim_end();
                filled.push_str(&format!("{word} {}\n", figure.trim_end_matches('~')));
            }
            None => filled.push_str(&format!("{line}\n")),
        }
    }
    let same = compile(&format!("{}{filled}", spec("first.case")));
    assert_eq!(slugs(&same), Vec::<&str>::new());
    let sizes = |c: &Compilation| {
        let of = |part: &Part| (part.path.clone(), part.length.length, part.width.length);
        parts(c).all.iter().map(of).collect::<Vec<_>>()
    };
    assert_eq!(sizes(&same), sizes(&compile(&spec("first.case"))));
    assert_eq!(same.piece.as_ref().expect("a piece").readings, Vec::new());
    // What is measured already is not asked for again.
    let bench = bench.with(
        "first.case",
        &format!("{}measured {{ opening store {{ wide 32-9/16 }} }}\n", spec("first.case")),
    );
    let rest = bench.run(&["measure", "first.case"]);
    assert!(rest.out.contains("cupboard.upper") && !rest.out.contains("cupboard.store"));
}

#[test]
fn there_is_no_form_for_what_is_not_there() {
    let bench = Bench::new().with("wrong.case", "casework 1\n");
    assert_eq!(bench.run(&["measure", "nothing.case"]).code, Some(2));
    let wrong = bench.run(&["measure", "wrong.case"]);
    assert_eq!((wrong.code, wrong.out.as_str()), (Some(1), ""));
}

#[test]
fn a_reading_that_cannot_be_right_is_told_alone_and_counts_for_nothing() {
    let drawn = console("");
    for (reading, slug) in [
        ("measured { stock birch-ply { actual 7.07 } }", "measured-far"),
        ("measured { stock birch-ply { actual 0.0707 } }", "measured-far"),
        ("measured { stock cherry { actual 19 } }", "measured-far"),
        ("measured { opening press { wide 2.65; high 26 } }", "measured-far"),
        ("measured { opening press { wide 265 } }", "measured-far"),
        // Two figures changed places: 26-1/2 is drawn.
        ("measured { opening press { wide 62.5 } }", "measured-far"),
        // Diagonals are nothing without their sides.
        (
            "measured { opening press { wide 25.6; diagonals { rising 37-1/8; falling 37-1/4 } } }",
            "measured-far",
        ),
    ] {
        let cut = "cut 2026-03-14 { console.press.left-door { long 25-13/16; wide 13-3/32 }; console.bottom { long 64-5/16; wide 16-9/32 } }";
        let c = console(&format!("{reading}\n{cut}"));
        assert_eq!(slugs(&c), [slug], "{reading}");
        assert!(!c.is_sound(), "{reading}");
        let size = |part: &Part| (part.length.length, part.width.length, part.thickness.length);
        let sizes = |c: &Compilation| parts(c).all.iter().map(size).collect::<Vec<_>>();
        assert!(sizes(&c) == sizes(&drawn), "{reading}");
    }
    // Read again, the right figure is offered.
    let fixes = |reading: &str| {
        let c = console(reading);
        c.diagnostics[0].fixes.iter().map(|fix| fix.edits[0].text.clone()).collect::<Vec<_>>()
    };
    assert_eq!(fixes("measured { stock birch-ply { actual 7.07 } }"), ["actual 0.707"]);
    assert_eq!(fixes("measured { opening press { wide 265 } }"), ["wide 26-1/2"]);
}

#[test]
fn a_sheet_that_cannot_be_so_thick_is_told_alone() {
    for actual in ["7.2", "0.072", "18", "1-1/4"] {
        let text = spec("hall-console.case").replace("actual 23/32", &format!("actual {actual}"));
        let of = |slug: &&str| *slug != "absurd-size";
        let c = compile(&text);
        assert_eq!(slugs(&c).iter().filter(|slug| of(slug)).count(), 0, "{:?}", slugs(&c));
        assert!(!c.is_sound());
    }
    // Sheets as they are sold: a quarter inch of 5 mm, three quarters of 18 mm.
    for (nominal, actual) in
        [("1/4", "5 mm"), ("3/4", "18 mm"), ("1/2", "12 mm"), ("1/8", "2.7 mm")]
    {
        let text = spec("first.case")
            .replace("plywood 1/4; actual 13/64", &format!("plywood {nominal}; actual {actual}"));
        assert!(!slugs(&compile(&text)).contains(&"absurd-size"), "{nominal} {actual}");
    }
}

/// The text of every paper of the hall console with these lines at its end.
fn papers(more: &str) -> Vec<(String, String)> {
    let bench =
        Bench::new().with("console.case", &format!("{}\n{more}\n", spec("hall-console.case")));
    let print = |paper: &casewright::papers::Paper| {
        let done = bench.run(&["build", "console.case", "--print", paper.slug]);
        assert_eq!(done.code, Some(0), "{}", done.err);
        (paper.slug.to_owned(), done.out)
    };
    casewright::papers::PAPERS.iter().map(print).collect()
}

/// Every line of a paper with the mark, its note aside.
fn marked(paper: &str) -> Vec<&str> {
    let lines = paper.lines().filter(|line| line.contains("(m)"));
    lines.filter(|line| !line.starts_with("Note: as measured")).map(str::trim).collect()
}

#[test]
fn every_paper_marks_what_is_as_measured_and_says_so_only_then() {
    for (reading, with) in [
        (
            "opening press { wide 26-17/32; high 26-1/16 }",
            "drawings cut-list board-plan jig-sheet gaps fitting weights",
        ),
        (
            "stock birch-ply { actual 0.707 }",
            "drawings cut-list sheet-plans buying-list layout jig-sheet fitting assembly-order weights",
        ),
        ("shop { humidity 46% }", "cut-list gaps assembly-order weights"),
    ] {
        for (slug, paper) in papers(&format!("measured {{ {reading} }}")) {
            let says = paper.contains("(m) follows a figure that depends on these");
            assert_eq!(!marked(&paper).is_empty(), says, "{slug}: {reading}");
            assert_eq!(with.split(' ').any(|with| with == slug), says, "{slug}: {reading}");
        }
    }
    assert!(papers("").iter().all(|(_, paper)| !paper.contains("(m)")));
}

#[test]
fn a_mark_stands_behind_what_is_made_from_a_reading_and_nothing_else() {
    let all =
        papers("measured { opening press { wide 26-17/32 }; stock birch-ply { actual 0.707 } }");
    let paper = |slug: &str| &all.iter().find(|(own, _)| own == slug).expect("a paper").1;
    let has = |slug: &str, text: &str| {
        assert!(paper(slug).contains(text), "{slug}: {text}\n{}", paper(slug));
    };
    // The leaf is 13-7/64 wide: its cups stand by their hinge, its pull 1-1/32
    // from the other edge, so 12-5/64 from that of the hinges.
    has("cut-list", "center 3 and 22-13/16 from the bottom end, 27/32~ from the hinge edge");
    has(
        "cut-list",
        "center 11-13/32 and 14-13/32 from the bottom end, 12-3/32~ (m) from the hinge edge",
    );
    // The dado takes the measured board; it stands 4 up whatever that is.
    has(
        "cut-list",
        "dado 23/32~ (0.707) (m) wide, 1/4 deep in the inside face, 4 from the bottom end, houses B",
    );
    has(
        "jig-sheet",
        "dado 23/32~ (0.707) (m) wide and 1/4 deep in the inside face; its near side lies 4 from the bottom end",
    );
    // Cut with a bit of 5/8: 0.707 − 0.625 = 0.082 lies between its two walls. The
    // partition stands behind a stile whose middle lies 47-3/4 from the left, the
    // bottom begins at 15/32: its dado ends at 47.635, 3 + 5/16 beyond the guide.
    has("jig-sheet", ">> 44-5/16~ (44.322) (m), then 0.082 (m) toward the left end");
    // The frame is as drawn.
    has("cut-list", "61-3/4");
    assert!(!all.iter().any(|(_, paper)| paper.contains("61-3/4 (m)")));
    // The reveals are as written, the front is not.
    has("gaps", ">> 3/32  gap as fitted");
    has("gaps", "13-1/8~ (m)");
    has("drawings", "13-1/8~ (m)");
    has("weights", "doors: 9.6 lb (m)");
    has("weights", "28.4 lb drawers");
}

#[test]
fn drawings_mark_their_dimensions() {
    let text = "casework 1\njob \"Shelves\" { units mm }\nsite { left open; right open }\n\
        stock ply { plywood 18 mm }\ncase rack {\n  wide 636; deep 300; high 800\n  ends { stock ply }\n\
        bottom { joint dado { deep 6 } }\n  top { joint dado { deep 6 }; panel }\n  frame none\n\
        across { open bay { shelf { adjustable 1 } } }\n}\nmeasured { stock ply { actual 17.6 } }\n";
    let c = compile(text);
    let files = casewright::papers::packet(&c).expect("a packet");
    let page = files.iter().find(|file| file.name == "drawings.html").expect("the drawings");
    // 636 − 2 × 17.6 = 600.8 between ends of 17.6; over all it is 636 as before.
    for figure in [">601≈ (m)<", ">17.5≈ (m)<", ">636<", ">300<"] {
        assert!(page.text.contains(figure), "{figure}");
    }
}
