//! Parts that are cut: `cut` in the spec, `casewright record`, and what the
//! cut list says is left.

use crate::support::{Bench, compile, spec};
use casewright::measure::{FileId, Length};
use casewright::pipeline::Compilation;
use casewright::plans::ledger::{Dimension, Ledger, State};
use casewright::plans::made;
use casewright::syntax::{self, Item, Statement};
use casewright::vocabulary;
use proptest::prelude::*;

/// The first cabinet with these lines at its end.
fn first(more: &str) -> Compilation {
    compile(&format!("{}{more}\n", spec("first.case")))
}

/// What is found, but that sizes are not written: most facts here are short.
fn slugs(compiled: &Compilation) -> Vec<&'static str> {
    crate::support::slugs(compiled).into_iter().filter(|slug| *slug != "cut-unsized").collect()
}

fn ledger(compiled: &Compilation) -> Ledger<'_> {
    Ledger::of(compiled.piece.as_ref().expect("a piece"), compiled.parts.as_ref().expect("parts"))
}

fn state<'a>(ledger: &Ledger<'a>, compiled: &'a Compilation, path: &str) -> State<'a> {
    let (id, _) = compiled.parts.as_ref().expect("parts").named(path).expect("the part");
    ledger.state(id)
}

/// Bottom of the first cabinet: 36 − 2 × 23/32 + 2 × 1/4 = 35-1/16 long, and
/// 18 − 3/4 − 13/64 = 17-3/64 wide.
const BOTTOM: &str = "cut 2026-03-14 { cupboard.bottom { long 35-1/16; wide 17-3/64 } }";

#[test]
fn a_part_cut_as_drawn_says_nothing() {
    let c = first(BOTTOM);
    assert_eq!(slugs(&c), Vec::<&str>::new());
    assert!(matches!(state(&ledger(&c), &c, "cupboard.bottom"), State::Cut(_)));
    assert!(matches!(state(&ledger(&c), &c, "cupboard.kick"), State::Uncut));
}

#[test]
fn a_revision_that_wants_it_larger_names_both_lines() {
    let text = spec("first.case").replace("wide 36; deep 18", "wide 36-1/4; deep 18");
    let c = compile(&format!("{text}{BOTTOM}\n"));
    assert_eq!(slugs(&c), ["cut-misfit"]);
    let found = &c.diagnostics[0];
    assert_eq!(c.sources.text(found.primary.span), "long 35-1/16");
    let labelled: Vec<&str> = found.labels.iter().map(|label| c.sources.text(label.span)).collect();
    assert!(labelled.contains(&"wide 36-1/4"), "{labelled:?}");
    let sums: Vec<String> = found.sums.iter().map(casewright::diagnostics::Sum::text).collect();
    // 36-1/4 + 1/2 − 1-7/16 = 35-5/16, 1/4 more than 35-1/16.
    assert!(sums[0].ends_with("= 35-5/16"), "{sums:?}");
    assert_eq!(sums[1], "35-5/16 wanted − 35-1/16 cut = 1/4");
}

#[test]
fn a_revision_that_wants_it_smaller_is_a_trim() {
    let text = spec("first.case").replace("wide 36; deep 18", "wide 35-3/4; deep 18");
    let c = compile(&format!("{text}{BOTTOM}\n"));
    assert_eq!(slugs(&c), Vec::<&str>::new());
    let trims = ledger(&c).trims();
    assert_eq!(trims.len(), 1);
    assert_eq!((trims[0].dimension, trims[0].was), (Dimension::Length, Length::inches(561, 16)));
    // 35-3/4 + 1/2 − 1-7/16 = 34-13/16.
    assert_eq!(trims[0].needs.length, Length::inches(557, 16));
}

#[test]
fn what_the_shop_is_true_to_is_no_difference() {
    // 1/64 either way, as `tolerance { cut … }` has it by default.
    for long in ["35-5/64", "35-3/64"] {
        let c = first(&BOTTOM.replace("35-1/16", long));
        assert_eq!(slugs(&c), Vec::<&str>::new(), "{long}");
        assert!(ledger(&c).trims().is_empty(), "{long}");
    }
    let c = first(&BOTTOM.replace("35-1/16", "35-1/32"));
    assert_eq!(slugs(&c), ["cut-misfit"]);
}

#[test]
fn a_sheet_is_as_thick_as_it_is_and_boards_can_be_planed() {
    // The same sheet, measured later.
    let c =
        first("measured { stock ply { actual 0.74 } }\ncut 2026-03-14 { kick { thick 23/32 } }");
    assert_eq!(slugs(&c), Vec::<&str>::new());
    assert!(ledger(&c).trims().is_empty());
    // A sheet of half an inch is another one.
    assert_eq!(slugs(&first("cut 2026-03-14 { kick { thick 1/2 } }")), ["cut-misfit"]);
    let c = first("cut 2026-03-14 { top-rail { thick 13/16 } }");
    assert_eq!(ledger(&c).trims().first().map(|trim| trim.dimension), Some(Dimension::Thickness));
    assert_eq!(slugs(&first("cut 2026-03-14 { top-rail { thick 11/16 } }")), ["cut-misfit"]);
}

#[test]
fn the_last_word_on_a_part_counts() {
    let spoiled = "cut 2026-03-14 { kick }\ncut 2026-03-16 { kick { spoiled } }\n";
    let c = first(spoiled);
    assert!(matches!(state(&ledger(&c), &c, "cupboard.kick"), State::Spoiled(_)));
    // Cut again on a later day, though it stands before the others.
    let c = first(&format!("cut 2026-03-18 {{ KICK }}\n{spoiled}"));
    let found = state(&ledger(&c), &c, "cupboard.kick");
    assert!(matches!(found, State::Cut(cut) if cut.date.day == 18), "{found:?}");
    // A part too small once is forgotten when it was spoiled.
    let c = first("cut 2026-03-14 { bottom { long 30 } }\ncut 2026-03-15 { bottom { spoiled } }");
    assert_eq!(slugs(&c), Vec::<&str>::new());
}

#[test]
fn a_part_goes_by_its_name_the_end_of_it_or_its_mark() {
    for name in ["cupboard.store.left-door", "store.left-door", "left-door", "ST-LD", "st-ld"] {
        let c = first(&format!("cut 2026-03-14 {{ {name} }}"));
        assert_eq!(slugs(&c), Vec::<&str>::new(), "{name}");
        let found = state(&ledger(&c), &c, "cupboard.store.left-door");
        assert!(matches!(found, State::Cut(_)), "{name}");
    }
    // Outside of `cut`, a capital is a slip still.
    assert_eq!(
        slugs(&compile(&spec("first.case").replace("  finish oil\n", "  Finish oil\n"))),
        ["syntax"]
    );
}

#[test]
fn a_board_left_over_is_told_what_it_would_do_for() {
    let board = "cupboard.plinth { long 34-1/2; wide 4-1/2; thick 23/32; stock ply }";
    let c = first(&format!("cut 2026-03-14 {{ {board} }}"));
    assert_eq!(slugs(&c), ["cut-gone"]);
    let note = &c.diagnostics[0].notes[0];
    // Stretchers are 36 − 2 × 23/32 = 34-9/16 long: 1/16 too long for it.
    assert_eq!(note, "no part that is still to be cut fits on this board");
    let c = first(&format!("cut 2026-03-14 {{ {} }}", board.replace("34-1/2", "36")));
    let note = &c.diagnostics[0].notes[0];
    assert!(note.contains("cupboard.kick (36 by 4)"), "{note}");
    assert!(note.contains("cupboard.back-stretcher (34-9/16 by 4)"), "{note}");
    // What is cut already needs no board.
    let c = first(&format!("cut 2026-03-14 {{ {}; kick }}", board.replace("34-1/2", "36")));
    assert!(!c.diagnostics[0].notes[0].contains("kick"));
    let accepted =
        format!("cut 2026-03-14 {{ {board} }}\naccept cut-gone on cupboard.plinth \"kept\"");
    assert_eq!(slugs(&first(&accepted)), Vec::<&str>::new());
}

#[test]
fn fronts_cut_before_their_opening_was_measured() {
    let cut = "cut 2026-03-14 { store.left-door { long 20-13/16; wide 16-1/16 }; store.right-door { long 20-13/16; wide 16-1/16 } }";
    // Narrower by 1/16: (32-7/16 − 3/8) / 2 = 16-1/32, to be trimmed by 1/32 each.
    let c = first(&format!("measured {{ opening store {{ wide 32-7/16 }} }}\n{cut}"));
    assert_eq!(slugs(&c), Vec::<&str>::new());
    let needs: Vec<Length> = ledger(&c).trims().iter().map(|trim| trim.needs.length).collect();
    assert_eq!(needs, [Length::inches(513, 32); 2]);
    // Wider by 1/8: each leaf is 1/16 short, unless the reveals take it up:
    // 32-5/8 − 2 × 16-1/16 − 3/16 between them leaves 5/16, 5/32 at each side.
    let wide = "measured { opening store { wide 32-5/8 } }\n";
    let c = first(&format!("{wide}{cut}"));
    assert_eq!(slugs(&c), ["cut-misfit"; 2]);
    assert!(c.diagnostics[0].notes[0].ends_with("`gap 5/32`"), "{:?}", c.diagnostics[0].notes);
    let text = spec("first.case")
        .replace("doors store { share 1;", "doors store { share 1; front { gap 5/32 };");
    let c = compile(&format!("{text}{wide}{cut}\n"));
    assert_eq!(slugs(&c), Vec::<&str>::new());
}

#[test]
fn the_cut_list_ticks_what_is_done_and_puts_trims_first() {
    let text = format!(
        "{}cut 2026-03-14 {{ kick; LE {{ joints 2 }}; bottom {{ long 35-1/8 }}; st-rd {{ spoiled }} }}\n",
        spec("first.case")
    );
    let bench = Bench::new().with("first.case", &text);
    let list = bench.run(&["build", "first.case", "--print", "cut-list"]).out;
    let line = |start: &str| list.lines().find(|line| line.starts_with(start)).map(str::to_owned);
    let at = |needle: &str| list.find(needle).unwrap_or_else(|| panic!("{needle}\n{list}"));
    assert!(
        line("3 of 24 pieces are cut, and 2 pieces must be trimmed or worked on.").is_some(),
        "{list}"
    );
    assert!(at("length 35-1/8 to 35-1/16: take 1/16 off") < at("then these; the settings"));
    assert!(list.contains("1 more joint or bore than it was made with"), "{list}");
    let again = line("  [ ]  ST-RD").expect("to be cut again");
    assert!(again.ends_with("again, because it was spoiled on 2026-03-14"), "{again}");
    assert!(line("  [x] KICK").is_some_and(|line| line.contains("2026-03-14")), "{list}");
    assert!(line("  [x] RE").is_none() && line("  [x] ST-RD").is_none());
    // Each part once: ticked, or left.
    let left = list.lines().skip_while(|line| !line.starts_with(">>   then these"));
    let left = left.skip(2).take_while(|line| line.starts_with("  [")).count();
    assert_eq!(left, 21);
    bench.run(&["build", "first.case", "--into", "papers"]);
    let read = |name: &str| std::fs::read_to_string(bench.path("papers").join(name)).unwrap();
    assert!(
        read("cut-list.csv")
            .lines()
            .any(|row| row.starts_with("KICK,") && row.ends_with(",2026-03-14,,,"))
    );
    assert_eq!(read("cut-list.md").matches("| ☑ ").count(), 3);
    assert_eq!(read("cut-list.html").matches("class=\"box done\"").count(), 3);
}

#[test]
fn the_jig_sheet_ticks_what_was_made_with_its_joints() {
    let ticked = |cut: &str| {
        let text = format!("{}cut 2026-03-14 {{ {cut} }}\n", spec("first.case"));
        let bench = Bench::new().with("first.case", &text);
        let sheet = bench.run(&["build", "first.case", "--print", "jig-sheet"]).out;
        sheet.lines().filter(|line| line.starts_with("  [x]  LE ")).count()
    };
    // A rabbet and a dado by the router; the notch is sawn, and is the third.
    assert_eq!(ticked("left-end { joints 3 }"), 2);
    assert_eq!(ticked("left-end { joints 2 }"), 0);
    assert_eq!(ticked("left-end"), 0);
    assert_eq!(ticked("left-end { joints 3; spoiled }"), 0);
    // What is trimmed may lose a joint again.
    assert_eq!(ticked("left-end { long 35; joints 3 }"), 0);
}

#[test]
fn without_a_cut_the_cut_list_is_as_before() {
    let bench = Bench::new().with("first.case", &spec("first.case"));
    let list = bench.run(&["build", "first.case", "--print", "cut-list"]).out;
    assert!(!list.contains("Still to cut") && !list.contains("[x]") && !list.contains("  cut  "));
}

const NOTED: &str = "\n# the saw was set on Friday\ncut 2026-03-14 {\n    kick    # from the offcut\n\n    # ends\n  }   # more tomorrow\n# the end\n";

#[test]
fn a_record_leaves_the_rest_of_the_file_alone() {
    let text = format!("{}{NOTED}", spec("first.case"));
    let bench = Bench::new().with("first.case", &text);
    let done =
        bench.run(&["record", "first.case", "LE", "store.left-door", "--date", "2026-03-14"]);
    assert_eq!(done.code, Some(0), "{done:?}");
    assert_eq!(done.err, "first.case: LE ST-LD cut on 2026-03-14\n");
    // By hand: the rabbet is 3/8 of 23/32 deep and as wide as the back is thick,
    // 13/64 of 17-1/4; the bottom's dado is 1/4 deep, above the 4 of the toe kick.
    let lines = "    # ends
    cupboard.left-end {
      mark LE; long 34-1/2; wide 17-1/4; thick 23/32; stock ply
      made notch { long 0 to 4; wide 0 to 2-31/32 }
      made rabbet { wide 17-3/64 to 17-1/4; thick 11/32 to 23/32 }
      made dado { long 4 to 4-23/32; wide 0 to 17-3/64; thick 15/32 to 23/32 }
    }
    cupboard.store.left-door {
      mark ST-LD; long 20-13/16; wide 16-1/16; thick 3/4; stock maple; species sugar-maple
      made hinge-cup { at 3 by 21.5 mm; across 35 mm; thick 6.55 mm to 3/4 }
      made hinge-cup { at 17-13/16 by 21.5 mm; across 35 mm; thick 6.55 mm to 3/4 }
      made pull-hole { at 10-13/32 by 14-13/16; across 5/32 }
    }
";
    let new = text.replace("    # ends\n", lines);
    assert_eq!(std::fs::read_to_string(bench.path("first.case")).unwrap(), new);
    // Of `kick` no size is said.
    let check = bench.run(&["check", "first.case", "--deny", "warnings"]);
    assert_eq!(check.err.matches("warning[").count(), 1, "{check:?}");
    assert!(check.err.contains("warning[cut-unsized]"), "{check:?}");

    // An opening is no part.
    let whole = bench.run(&["record", "first.case", "upper", "--date", "2026-03-14"]);
    assert_eq!(whole.code, Some(2), "{whole:?}");
    assert!(
        whole.err.starts_with("casewright: `upper` is made of several parts: UP-"),
        "{whole:?}"
    );

    // What is only sawn has no joints, of whatever kind.
    let sawn = Bench::new().with("first.case", &spec("first.case"));
    let done = sawn.run(&["record", "first.case", "LE", "--sawn", "--date", "2026-03-14"]);
    assert_eq!(done.code, Some(0), "{done:?}");
    let list = sawn.run(&["build", "first.case", "--print", "cut-list"]).out;
    assert!(list.contains("Sawn to size, with the joints still to cut: LE."), "{list}");
    assert!(!list.contains("the drawing has changed"), "{list}");

    // Another day gets a block of its own, at the end.
    let done = bench.run(&["record", "first.case", "kick", "--spoiled", "--date", "2026-03-15"]);
    assert_eq!(done.code, Some(0), "{done:?}");
    let last = format!("{new}\ncut 2026-03-15 {{\n  cupboard.kick {{ spoiled }}\n}}\n");
    assert_eq!(std::fs::read_to_string(bench.path("first.case")).unwrap(), last);

    // The same part on the same day is said anew, in its place.
    let done = bench.run(&["record", "first.case", "KICK", "--date", "2026-03-14"]);
    assert_eq!(done.code, Some(0), "{done:?}");
    assert!(done.err.contains("KICK: the later record of 2026-03-15 takes precedence"), "{done:?}");
    let kick = "cupboard.kick { mark KICK; long 36; wide 4-1/2; thick 23/32; stock ply; joints 0 }";
    let last = last.replace("    kick    #", &format!("    {kick}    #"));
    assert_eq!(std::fs::read_to_string(bench.path("first.case")).unwrap(), last);
}

#[test]
fn a_size_that_came_out_different_is_recorded_as_typed() {
    let bench = Bench::new().with("first.case", &spec("first.case"));
    let run = |more: &[&str]| {
        let mut all = vec!["record", "first.case"];
        all.extend(more);
        bench.run(&all)
    };
    let done = run(&["kick", "--size", "wide 4-3/64; long 914.5 mm", "--date", "2026-03-14"]);
    assert_eq!(done.code, Some(0), "{done:?}");
    let text = std::fs::read_to_string(bench.path("first.case")).unwrap();
    assert!(
        text.contains("cupboard.kick { mark KICK; long 914.5 mm; wide 4-3/64; thick 23/32;"),
        "{text}"
    );
    // Too small is a fact as well: it is written, and the spec is unsound.
    let done = run(&["bottom", "--size", "long 35", "--date", "2026-03-14"]);
    assert_eq!(done.code, Some(1), "{done:?}");
    assert!(done.err.contains("error[cut-misfit]"), "{done:?}");
    // It can still be said that it is spoiled.
    let done = run(&["bottom", "--spoiled", "--date", "2026-03-14"]);
    assert_eq!(done.code, Some(0), "{done:?}");
    assert_eq!(bench.run(&["check", "first.case"]).code, Some(0));
}

#[test]
fn what_can_not_be_recorded_changes_nothing() {
    let sound = spec("first.case");
    let bench = Bench::new()
        .with("first.case", &sound)
        .with("wrong.case", &sound.replace("high 5 }", "high 50 }"))
        .with("shelf/mine.case", &sound);
    let refused: [(&[&str], i32, &str); 9] = [
        (&["first.case", "botom"], 2, "did you mean `bottom`?"),
        (&["first.case", "kick", "no-such-thing"], 2, "no part is called `no-such-thing`"),
        (&["first.case", "kick", "--date", "2026-02-30"], 2, "write a date like this: 2026-03-14"),
        (&["first.case", "kick", "--size", "wide"], 2, "is not a size"),
        (&["first.case", "kick", "--size", "wide 4; wide 5"], 2, "is not a size"),
        (&["first.case", "kick", "--size", "high 4"], 2, "is not a size"),
        (&["first.case", "kick", "bottom", "--size", "wide 4"], 2, "--size is for one part"),
        (&["wrong.case", "kick"], 1, "nothing was recorded"),
        (&["nothing.case", "kick"], 2, "there is no file nothing.case"),
    ];
    for (arguments, code, says) in refused {
        let mut all = vec!["record"];
        all.extend(arguments);
        let done = bench.run(&all);
        assert_eq!(done.code, Some(code), "{arguments:?}: {done:?}");
        assert!(done.err.contains(says), "{arguments:?}: {done:?}");
    }
    assert_eq!(std::fs::read_to_string(bench.path("first.case")).unwrap(), sound);
    assert_eq!(std::fs::read_dir(bench.path(".")).unwrap().count(), 3);
}

/// Nobody has cut a part tomorrow.
#[test]
fn a_day_still_to_come_is_refused() {
    let sound = spec("first.case");
    let bench = Bench::new().with("first.case", &sound);
    let done = bench.run(&["record", "first.case", "kick", "--date", "9998-12-31"]);
    assert_eq!(done.code, Some(2), "{done:?}");
    assert!(done.err.contains("9998-12-31 is still to come; today is 20"), "{done:?}");
    assert_eq!(std::fs::read_to_string(bench.path("first.case")).unwrap(), sound);
}

/// The kick is drawn 36 by 4, and 1/2 of it is left on to be scribed; the rough allowance
/// is 1 on the length and 1/4 on the width. No board of it is longer than the sheet of 96.
#[test]
fn a_size_over_the_rough_one_is_recorded_and_doubted() {
    for (size, doubted) in [
        ("long 37; wide 4-3/4", None),
        ("long 37-1/32; wide 4", Some("KICK: recorded 37-1/32 long, but the cut list has 36;")),
        ("long 36; wide 4-25/32", Some("KICK: recorded 4-25/32 wide, but the cut list has 4-1/2;")),
        ("long 360", Some("KICK: recorded 360 long, but the cut list has 36;")),
    ] {
        let bench = Bench::new().with("first.case", &spec("first.case"));
        let arguments = ["record", "first.case", "kick", "--size", size, "--date", "2026-03-14"];
        let done = bench.run(&arguments);
        assert_eq!(done.code, Some(0), "{done:?}");
        let told = done.err.contains("check the figure") || done.out.contains("check the figure");
        assert_eq!(told, doubted.is_some(), "{size}: {done:?}");
        let said = format!("{}{}", done.out, done.err);
        assert!(doubted.is_none_or(|doubted| said.contains(doubted)), "{size}: {said}");
        // The maker's figure stands all the same.
        let first = size.split(';').next().unwrap();
        assert!(std::fs::read_to_string(bench.path("first.case")).unwrap().contains(first));
    }
}

/// Of two records of one day only the last counts: a board too many lies on the
/// bench, or one record is of another part. What follows from the other is none.
#[test]
fn two_records_of_one_part_on_one_day_are_doubted() {
    let twice = |one: &str, other: &str| {
        let day = |name: &str, more: &str| format!("cut 2026-03-14 {{ {name} {{ {more} }} }}\n");
        slugs(&first(&(day("cupboard.kick", one) + &day("KICK", other))))
    };
    let sizes = "long 36; wide 4";
    assert_eq!(twice(sizes, sizes), ["cut-twice"]);
    assert_eq!(twice("long 36; wide 4; sawn", "long 36; wide 4; sawn"), ["cut-twice"]);
    assert_eq!(twice(sizes, "long 36; wide 4; sawn"), ["cut-twice"]);
    assert_eq!(twice("long 36; wide 4; sawn", sizes), [""; 0]);
    assert_eq!(twice("long 30; wide 4; spoiled", sizes), [""; 0]);
    assert_eq!(twice(sizes, "spoiled"), [""; 0]);
    let another_day = "cut 2026-03-14 { kick }\ncut 2026-03-15 { kick }\n";
    assert_eq!(slugs(&first(another_day)), [""; 0]);
}

#[cfg(unix)]
#[test]
fn a_link_stays_a_link_and_a_file_its_own() {
    use std::os::unix::fs::{PermissionsExt as _, symlink};
    let bench = Bench::new().with("real/first.case", &spec("first.case"));
    let real = bench.path("real/first.case");
    std::fs::set_permissions(&real, std::fs::Permissions::from_mode(0o640)).unwrap();
    symlink("real/first.case", bench.path("link.case")).unwrap();
    let done = bench.run(&["record", "link.case", "kick", "--date", "2026-03-14"]);
    assert_eq!(done.code, Some(0), "{done:?}");
    assert!(bench.path("link.case").symlink_metadata().unwrap().is_symlink());
    assert!(std::fs::read_to_string(&real).unwrap().contains("cut 2026-03-14 {"));
    assert_eq!(std::fs::metadata(&real).unwrap().permissions().mode() & 0o777, 0o640);
    std::fs::set_permissions(&real, std::fs::Permissions::from_mode(0o440)).unwrap();
    let done = bench.run(&["record", "link.case", "bottom", "--date", "2026-03-14"]);
    assert_eq!(done.code, Some(2), "{done:?}");
    assert!(done.err.contains("it is read-only"), "{done:?}");
    assert_eq!(std::fs::read_dir(bench.path("real")).unwrap().count(), 1);
}

#[test]
fn today_is_the_day_unless_said() {
    let bench = Bench::new().with("first.case", &spec("first.case"));
    let done = bench.run(&["record", "first.case", "kick"]);
    assert_eq!(done.code, Some(0), "{done:?}");
    let c = compile(&std::fs::read_to_string(bench.path("first.case")).unwrap());
    let piece = c.piece.as_ref().expect("a piece");
    assert!(piece.cuts[0].date.year >= 2026, "{:?}", piece.cuts[0].date);
}

/// A bottom with a dado for the partition in its middle, 1/4 deep, recorded as
/// it is drawn: by hand, its ends stand 1/4 deep in dados of the ends, so that
/// the dado is at 1/4 + 36/2 - 23/32 - 23/64 = 17-11/64 from its left end.
fn parted() -> String {
    let text = spec("first.case").replace(
        "bottom { joint dado",
        "partitions { joint dado { deep 1/4 } }\n  bottom { joint dado",
    );
    let from = text.find("    down {").unwrap();
    let to = from + text[from..].find("\n    }").unwrap() + "\n    }".len();
    let doors = "    across {\n      doors a { share 1 }\n      stile mid { wide 1-1/2 }\n      doors b { share 1 }\n    }";
    format!("{}{doors}{}", &text[..from], &text[to..])
}

fn changed(text: &str, from: &str, to: &str) -> Compilation {
    assert!(text.contains(from), "{from}");
    compile(&text.replacen(from, to, 1))
}

#[test]
fn a_joint_that_the_drawing_moves_is_an_error_and_one_that_trimming_brings_right_is_none() {
    let bench = Bench::new().with("a.case", &parted());
    let done = bench.run(&["record", "a.case", "bottom", "--date", "2026-03-14"]);
    assert_eq!(done.code, Some(0), "{done:?}");
    let text = std::fs::read_to_string(bench.path("a.case")).unwrap();
    let dado = "made dado { long 17-11/64 to 17-57/64; thick 15/32 to 23/32 }";
    assert!(text.contains(dado), "{text}");
    assert!(!slugs(&compile(&text)).contains(&"cut-misfit"));

    // The left stile 1/8 narrower: both openings grow by 1/16, and the middle
    // stile goes 1/16 to the left.
    let moved = changed(&text, "stile left  { wide 1-3/4 }", "stile left  { wide 1-5/8 }");
    let found = moved.diagnostics.iter().find(|d| d.slug == "cut-misfit").expect("an error");
    assert!(found.title.contains("its dado 17-11/64"), "{}", found.title);
    assert!(found.title.ends_with("now wants it at 17-7/64"), "{}", found.title);
    assert_eq!(ledger(&moved).lost().count(), 1);

    let narrower = text.replacen("stile left  { wide 1-3/4 }", "stile left  { wide 1-5/8 }", 1);
    let pair = Bench::new().with("a.case", &text).with("b.case", &narrower);
    let told = pair.run(&["diff", "a.case", "b.case"]).out;
    assert!(told.contains("1 part already cut, to make again"), "{told}");
    assert!(
        told.contains("B (bottom): dado made at 17-3/16~, but the drawing wants 17-1/8~"),
        "{told}"
    );

    // Two inches less of the case: one off each end leaves the dado in the middle.
    let trimmed = changed(&text, "wide 36;", "wide 34;");
    assert!(!slugs(&trimmed).contains(&"cut-misfit"));
    let list = |text: &str| {
        Bench::new().with("a.case", text).run(&["build", "a.case", "--print", "cut-list"]).out
    };
    let narrow = text.replacen("wide 36;", "wide 34;", 1);
    assert!(
        list(&narrow).contains("take 1 off the left end, 1 off the right end"),
        "{}",
        list(&narrow)
    );
    // A partition less: the dado would stand open.
    let open =
        changed(&text, "stile mid { wide 1-1/2 }", "stile mid { wide 1-1/2; partition none }");
    let found = open.diagnostics.iter().find(|d| d.slug == "cut-misfit").expect("an error");
    assert!(found.title.ends_with("the design no longer has one there"), "{}", found.title);
}

/// What is recorded is read again as it was drawn: no finding, no trim, for
/// every part of every demo piece.
#[test]
fn what_is_recorded_is_as_drawn() {
    for name in ["hall-console.case", "tide-cottage-press.case", "alcove-shelves.case"] {
        let bench = Bench::new().with(name, &spec(name));
        let read = |bench: &Bench| compile(&std::fs::read_to_string(bench.path(name)).unwrap());
        let drawn = read(&bench);
        let parts = &drawn.parts.as_ref().expect("parts").all;
        let mut all = vec!["record", name, "--date", "2026-03-14"];
        all.extend(parts.iter().map(|part| part.path.as_str()));
        let done = bench.run(&all);
        assert_eq!(done.code, Some(0), "{done:?}");
        let after = read(&bench);
        assert_eq!(slugs(&after), slugs(&drawn));
        let ledger = ledger(&after);
        assert_eq!(bench.run(&["format", name, "--check"]).code, Some(0), "{name}");
        assert_eq!(ledger.cut().count(), parts.len());
        assert!(ledger.trims().is_empty() && ledger.more_joints().is_empty());
        for (id, part) in after.parts.as_ref().expect("parts").iter() {
            let State::Cut(cut) = ledger.state(id) else { panic!("{}", part.path) };
            assert_eq!(cut.made.len(), part.features.len(), "{}", part.path);
        }
    }
}

/// Wood that a record says is gone, and the drawing does not, is missed: every
/// joint of every demo piece in turn, made 4 mm further on each side in turn.
#[test]
fn a_joint_made_further_than_it_is_drawn_is_lost() {
    let (mut lost, mut covered) = (0, 0);
    for name in ["hall-console.case", "tide-cottage-press.case", "alcove-shelves.case"] {
        let bench = Bench::new().with(name, &spec(name));
        let drawn = compile(&spec(name));
        let parts = &drawn.parts.as_ref().expect("parts").all;
        let mut all = vec!["record", name, "--date", "2026-03-14"];
        all.extend(parts.iter().map(|part| part.path.as_str()));
        assert_eq!(bench.run(&all).code, Some(0));
        let after = compile(&std::fs::read_to_string(bench.path(name)).unwrap());
        let ledger = ledger(&after);
        for (part, cut) in ledger.cut() {
            let sizes = [&part.length, &part.width, &part.thickness].map(|size| size.length);
            for number in 0..cut.made.len() {
                let word = cut.made[number].kind.value.spelling();
                // These do no harm, or leave wood where they are smaller.
                if ["plate-hole", "pocket-holes", "dowel-holes", "tenon"].contains(&word) {
                    continue;
                }
                // A cup that is bored deeper does none either, and beside a haunch the
                // cheeks of its tenon are gone.
                let sides = if ["hinge-cup", "haunch"].contains(&word) { 2 } else { 3 };
                for (axis, whole) in sizes.into_iter().enumerate().take(sides) {
                    let Some((from, to)) = cut.made[number].space[axis] else { continue };
                    for side in [(from - Length::mm(4), to), (from, to + Length::mm(4))] {
                        if side.0.is_negative() || side.1 > whole {
                            continue;
                        }
                        let mut cut = cut.clone();
                        cut.made[number].space[axis] = Some(side);
                        let tolerance = Length::inches(1, 64);
                        let fit = made::fit(part, &cut, [Length::ZERO; 2], tolerance, &[]);
                        match fit.lost.as_slice() {
                            [] => covered += 1,
                            [one] => {
                                assert_eq!(one.made.span, cut.made[number].span, "{}", part.path);
                                lost += 1;
                            }
                            many => panic!("{}: {many:?}", part.path),
                        }
                    }
                }
            }
        }
    }
    // A joint can grow into another, as the dado into the rabbet behind it; a
    // mortise that is too deep does no harm.
    assert!(lost > 500 && covered * 15 < lost, "{lost} {covered}");
}

/// The statements of the only block of a text, and its comments.
fn inside(text: &str) -> (Vec<String>, Vec<String>) {
    let (tree, found) = vocabulary::parse(FileId::default(), text);
    assert!(found.is_empty(), "{text}\n{found:?}");
    let (mut words, mut comments) = (Vec::new(), Vec::new());
    let mut see = |statement: &Statement| {
        comments.extend(statement.comment.as_ref().map(|comment| comment.text.clone()));
    };
    for item in &tree.items {
        let Item::Statement(statement) = item else { continue };
        for item in &statement.block.as_ref().expect("a block").items {
            if let Item::Statement(statement) = item {
                words.push(statement.word.text().to_owned());
                see(statement);
            }
        }
        see(statement);
    }
    (words, comments)
}

proptest! {
    /// However a block is laid out, a statement that joins it is the last one,
    /// and the text without it is the text as it was.
    #[test]
    fn a_statement_joins_any_layout(
        items in prop::collection::vec(
            (0usize..5, prop::sample::select(vec!["; ", ";", "\n", "\n\n  ", "\n\t", "\r\n   "])),
            0..6,
        ),
        head in prop::sample::select(vec!["", " ", "\n", "\n  "]),
        tail in prop::sample::select(vec!["", " ", "\n", " ;\n", "\n# end\n  "]),
    ) {
        let mut body = head.to_owned();
        for (number, (kind, gap)) in items.iter().enumerate() {
            let part = match kind {
                0 => format!("a.p{number}"),
                1 => format!("p{number} {{ long 3 }}"),
                2 => format!("p{number} {{\n    long 3 # sawn\n  }}"),
                3 => format!("p{number} # as drawn\n"),
                _ => format!("# note {number}\n"),
            };
            body.push_str(&part);
            body.push_str(gap);
        }
        let old = format!("cut 2026-03-14 {{{body}{tail}}} # of friday\n");
        let (tree, _) = vocabulary::parse(FileId::default(), &old);
        let Some(Item::Statement(cut)) = tree.items.first() else { panic!("{old}") };
        let block = cut.block.as_ref().expect("a block");
        let added = syntax::append(&old, block, &["x.new { wide 4 }"]).expect("a place");
        let new = syntax::edited(&old, vec![added]).expect("one edit");
        let ((was, said), (is, says)) = (inside(&old), inside(&new));
        let mut expected = was;
        expected.push("x.new".to_owned());
        prop_assert_eq!(is, expected);
        prop_assert_eq!(says, said);
        // Nothing is lost: what was there stands there still, in its order.
        let plain = |text: &str| text.replace("x.new { wide 4 }", "").replace([' ', ';', '\n', '\r', '\t'], "");
        prop_assert_eq!(plain(&new), plain(&old));
    }
}

/// Whoever reads this after 9998 may take another year.
#[test]
fn a_record_of_a_day_to_come_is_told() {
    let text = format!("{}cut 9998-01-01 {{ kick }}\n", spec("first.case"));
    let line = text.lines().count();
    let bench = Bench::new().with("a.case", &text);
    let done = bench.run(&["check", "a.case"]);
    let told = format!("a.case line {line}: this record is of 9998-01-01, but today is ");
    assert!(done.err.contains(&told) || done.out.contains(&told), "{done:?}");
    let done = bench.run(&["record", "a.case", "kick", "--spoiled", "--date", "2026-03-14"]);
    assert!(done.err.contains(&told), "{done:?}");
    let past = format!("{}cut 2026-03-14 {{ kick }}\n", spec("first.case"));
    let bench = Bench::new().with("a.case", &past);
    assert!(!bench.run(&["check", "a.case"]).err.contains("but today is"));
}
