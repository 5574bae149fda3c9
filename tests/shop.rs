//! What the shop can do: warnings go away with what they ask for, and nothing
//! that makes the work easier ever brings one.

use casewright::diagnostics::{Diagnostic, Grade, Severity};
use casewright::measure::FileId;
use casewright::model::MemoryFiles;
use casewright::pipeline::{self, Compilation};
use casewright::plans::Workings;
use proptest::prelude::*;

const FIRST: &str = include_str!("../specs/first.case");
const CONSOLE: &str = include_str!("../specs/hall-console.case");
const PRESS: &str = include_str!("../specs/tide-cottage-press.case");
const ALCOVE: &str = include_str!("../specs/alcove-shelves.case");

/// What this file is about.
const SLUGS: &[&str] = &[
    "bit-speed",
    "clamps-short",
    "open-time-short",
    "planed-too-thick",
    "planing-scant",
    "small-for-router",
    "small-parts",
];

fn compile(text: &str) -> Compilation {
    let files = MemoryFiles::one("a.case", text)
        .with("bits.case", "bit far { straight 18 mm; speed 30000 }\n")
        .with("wide.case", "bit wide { straight 40 mm; speed 20000 }\n")
        .with("wood.case", "units in\nstock oak { lumber 4/4; thickness 1 }\n");
    pipeline::check(&files, "a.case").expect("readable")
}

fn changed(base: &str, sound: &str, wrong: &str) -> String {
    assert!(base.contains(sound), "{sound}");
    base.replacen(sound, wrong, 1)
}

fn found(text: &str) -> Vec<Diagnostic> {
    compile(text).diagnostics
}

fn slugs(text: &str) -> Vec<&'static str> {
    found(text).iter().map(|d| d.slug).collect()
}

/// Every fix that is a choice, applied: no error is left, and not that finding.
fn mends(text: &str) {
    for diagnostic in found(text) {
        assert!(SLUGS.contains(&diagnostic.slug), "{}", diagnostic.title);
        for fix in diagnostic.fixes.iter().filter(|fix| fix.grade == Grade::Choice) {
            let mut mended = text.to_owned();
            for edit in &fix.edits {
                assert_eq!(edit.span.file, FileId(0));
                mended.replace_range(edit.span.range(), &edit.text);
            }
            let left = found(&mended);
            assert!(left.iter().all(|d| d.severity != Severity::Error), "{mended}");
            let same =
                |d: &Diagnostic| (d.slug, &d.subject) == (diagnostic.slug, &diagnostic.subject);
            assert!(!left.iter().any(same), "{}: {}", diagnostic.title, fix.title);
        }
    }
}

#[test]
fn every_choice_mends_its_finding() {
    for (base, sound, wrong) in [
        (CONSOLE, "shank 1/2; speed 16000", "shank 1/2; speed 26000"),
        (FIRST, "lumber 4/4; thickness 3/4;", "lumber 3/4; thickness 3/4;"),
        (FIRST, "lumber 4/4; thickness 3/4;", "lumber 4/4; thickness 7/8;"),
        (PRESS, "species yellow-birch; thickness 15", "species yellow-birch; thickness 17"),
        (FIRST, "clamps 6 }", "clamps 1 }"),
        (FIRST, "open-time 15 min; clamps 6 }", "open-time 1 min; clamps 6 }"),
        (ALCOVE, "clamps 20; open-time 20 min;", "open-time 20 min;"),
        (PRESS, "clamps 24; open-time 15 min", "clamps 0; open-time 0 min"),
    ] {
        let text = changed(base, sound, wrong);
        assert!(!found(&text).is_empty(), "{wrong}");
        mends(&text);
    }
}

/// The stiles of the first cabinet are 30-1/2 long on its ends, so 3 cauls lie across its
/// rails, with a clamp at each end: 3 bear on each stile, and none on a rail.
#[test]
fn the_clamps_of_cauls_bear_on_the_stiles() {
    let compiled = compile(FIRST);
    let (piece, parts) = (compiled.piece.expect("a piece"), compiled.parts.expect("parts"));
    let all = Workings::of(&piece, &parts).glue_ups().to_vec();
    let one = all.iter().find(|glue_up| glue_up.path == "cupboard.frame-on").unwrap();
    let clamps = |mark: &str| {
        let own = one.load.closings.iter().find(|own| parts.mark(own.part) == mark);
        own.map(|own| own.clamps)
    };
    assert_eq!(["LS", "RS", "TRL", "BRL"].map(clamps), [Some(3), Some(3), Some(0), Some(0)]);
}

/// Worked by hand, joint by joint, at one clamp for each 12 in of a joint:
/// the bookcase has six boards of 300 mm (11-13/16 in), two clamps each and two
/// joints each; the stiles of the console are 29 in long on its ends: 3
/// pull the miter of the one together, and 3 cauls with a clamp at both ends press down
/// the other, its two rails and two inner stiles: 9;
/// each door of the press has two rails, tenoned at both ends, one clamp each;
/// a door of the console is 13 in wide, three boards with two seams, and
/// 26-13/16 in long rough, a clamp for each 8 in: 4.
#[test]
fn glue_ups_take_the_clamps_of_their_joints() {
    for (text, path, joints, clamps) in [
        (ALCOVE, "left-books.carcass", 12, 12),
        (CONSOLE, "console.frame-on", 6, 9),
        (CONSOLE, "console.press.left-door", 2, 4),
        (PRESS, "press.face-frame", 8, 4),
        (PRESS, "press.linen.left-door", 4, 2),
        (PRESS, "press.sheets", 4, 2),
        (FIRST, "cupboard.carcass", 2, 2),
    ] {
        let compiled = compile(text);
        let (piece, parts) = (compiled.piece.expect("a piece"), compiled.parts.expect("parts"));
        let all = Workings::of(&piece, &parts).glue_ups().to_vec();
        let one = all.iter().find(|glue_up| glue_up.path == path).expect(path);
        assert_eq!((one.load.joints(), one.load.clamps()), (joints, clamps), "{path}");
    }
}

/// Worked by hand: bottom, top and three dividers, each over 12 in
/// and under 24 in long in its dado, two clamps each: 10. A bookcase: six boards of 300 mm, which
/// take two each, one near either end: 12.
#[test]
fn a_shop_that_says_nothing_has_eight_clamps() {
    let text = changed(ALCOVE, "clamps 20; open-time 20 min;", "open-time 20 min;");
    let found = found(&text);
    let [only] = found.as_slice() else { panic!("{found:#?}") };
    assert_eq!(only.title, "the carcass of left-books takes 12 clamps, and the shop has 8");
    assert_eq!(only.subject.as_deref(), Some("left-books.carcass"));
    assert!(only.notes.iter().any(|note| note.contains("with `clamps` in `shop`")));
}

/// A case of a bottom and 20 fixed shelves, each joint 16 to 17 in long: 2 clamps for
/// each of 21 boards. The first 12 are named, and the other 9 come to 18 clamps.
#[test]
fn of_many_boards_the_first_few_are_named() {
    let text = changed(
        FIRST,
        "doors store { share 1; shelf { adjustable 1 } }",
        "open store { share 1; shelf { fixed 20 } }",
    );
    let found = found(&text);
    let told = |slug: &str, of: &str| {
        let own = |d: &&Diagnostic| d.slug == slug && d.subject.as_deref() == Some(of);
        found.iter().find(own).unwrap_or_else(|| panic!("{slug}: {found:#?}"))
    };
    let clamps = told("clamps-short", "cupboard.carcass");
    let named: Vec<String> = (1..12).map(|number| format!("shelf-{number}")).collect();
    let said =
        format!("2 each for bottom, {} + 18 for 9 more boards = 42 clamps", named.join(", "));
    assert!(clamps.notes.iter().any(|note| note.starts_with(&said)), "{:#?}", clamps.notes);
    let time = told("open-time-short", "cupboard.carcass");
    let [sum] = time.sums.as_slice() else { panic!("{time:#?}") };
    let names: Vec<&str> = sum.terms.iter().map(|term| term.name.as_str()).collect();
    assert_eq!(names.len(), 13);
    assert_eq!(names[11..], ["shelf-11", "9 more boards"]);
    let long = |at: usize| sum.terms[at].figure.text.clone();
    assert_ne!(long(12), long(11));
}

#[test]
fn a_warning_is_accepted_where_it_is_told() {
    for (base, sound, wrong, accept) in [
        (FIRST, "clamps 6 }", "clamps 5 }", "clamps-short on cupboard.frame-on"),
        (
            FIRST,
            "lumber 4/4; thickness 5/8",
            "lumber 3/4; thickness 5/8",
            "planing-scant on box-side",
        ),
        (FIRST, "length 15; room 15-3/4", "length 10; room 10-3/4", "small-parts on box-side"),
        (CONSOLE, "speed 16000", "speed 26000", "bit-speed on round-nose-half"),
    ] {
        let text = changed(base, sound, wrong);
        assert!(!found(&text).is_empty(), "{wrong}");
        let accepted = format!("{text}\naccept {accept} \"looked at\"\n");
        assert_eq!(slugs(&accepted), Vec::<&str>::new(), "{accept}");
    }
}

/// A bit of a used file counts where the piece is cut with it: the alcove has
/// dados 18 mm wide.
#[test]
fn what_others_share_is_judged_where_it_is_used() {
    let own = "bit straight-18 { straight 18 mm; shank 12 mm }";
    let with = ALCOVE.replacen("casework 1", "casework 1\nuse \"bits.case\"", 1);
    assert_eq!(slugs(&with.replacen(own, "", 1)), ["bit-speed"]);
    let uses = "casework 1\nuse \"wide.case\"\nuse \"wood.case\"";
    let idle = ALCOVE.replacen("casework 1", uses, 1).replace("stock oak", "stock own-oak");
    assert_eq!(slugs(&idle), Vec::<&str>::new());
}

/// Screws hold their own joints: a face frame that is screwed together takes
/// no clamps and no haste, whatever the shop has.
#[test]
fn pocket_screws_need_no_clamps() {
    let text = changed(FIRST, "open-time 15 min; clamps 6 }", "open-time 0 min; clamps 0 }");
    let subjects: Vec<String> = told(&text).into_iter().map(|(_, of)| of).collect();
    assert!(subjects.contains(&"cupboard.frame-on".to_owned()));
    assert!(!subjects.contains(&"cupboard.face-frame".to_owned()), "{subjects:?}");
}

#[test]
fn small_pieces_stand_on_the_cut_list_with_their_caution() {
    let text = changed(FIRST, "length 15; room 15-3/4", "length 10; room 10-3/4");
    let list = |text: &str| {
        let packet = casewright::papers::packet(&compile(text)).expect("papers");
        packet.into_iter().find(|file| file.name == "cut-list.txt").expect("a cut list").text
    };
    assert_eq!(slugs(&text), ["small-parts"]);
    assert!(list(&text).contains("UP-LSD UP-RSD: too short to plane"));
    assert!(!list(FIRST).contains("too short to plane"));
    let long = changed(&text, "clamps 6 }", "clamps 6; allow { length 2 } }");
    assert_eq!(slugs(&long), Vec::<&str>::new());
    let packers = "packer-wide 5/8; bottom-stock thin; slide";
    let narrow = changed(FIRST, "bottom-stock thin; slide", packers);
    assert_eq!(slugs(&narrow), ["small-parts"]);
    assert!(list(&narrow).contains("UP-LPK UP-RPK: too narrow to rip"));
}

/// A false front of 1-13/16 in with flutes along it carries no router; one of
/// 2-13/16 in does.
#[test]
fn flutes_on_a_face_that_carries_no_router_are_told() {
    let fluted = "build slab; flutes { run horizontal; bit nose; deep 1/8; pitch 3/4; land 3/16 }";
    let text = changed(FIRST, "build slab", fluted);
    let text = changed(&text, "finish oil {", "bit nose { round-nose 1/2 }\nfinish oil {");
    let with = |high: &str| changed(&text, "drawer upper { high 5 }", high);
    let narrow = ("small-for-router", "cupboard.upper.front".to_owned());
    assert!(told(&with("false upper { high 2 }")).contains(&narrow));
    assert!(!told(&with("false upper { high 3 }")).contains(&narrow));
}

/// The findings of this file with what they are about.
fn told(text: &str) -> Vec<(&'static str, String)> {
    let all = found(text).into_iter().filter(|d| SLUGS.contains(&d.slug));
    all.flat_map(|d| d.subject.into_iter().chain(d.also).map(move |of| (d.slug, of))).collect()
}

fn no_more(easier: &str, harder: &str) -> Result<(), TestCaseError> {
    let known = told(harder);
    for finding in told(easier) {
        prop_assert!(known.contains(&finding), "{finding:?}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn a_slower_bit_never_creates_a_finding(a in 1u32..40_000, b in 1u32..40_000, wide in 2u32..16) {
        let with = |speed: u32| {
            let bit = format!("bit any {{ straight {wide}/4; speed {speed} }}\nfinish oil");
            changed(FIRST, "finish oil", &bit)
        };
        no_more(&with(a.min(b)), &with(a.max(b)))?;
    }

    #[test]
    fn more_clamps_never_create_a_finding(a in 0u32..20, b in 0u32..20) {
        let with = |clamps: u32| changed(PRESS, "clamps 24; open-time 15 min", &format!("clamps {clamps}; open-time 15 min"));
        no_more(&with(a.max(b)), &with(a.min(b)))?;
    }

    #[test]
    fn a_slower_glue_never_creates_a_finding(a in 0u32..12, b in 0u32..12) {
        let with = |open: u32| changed(PRESS, "open-time 15 min", &format!("open-time {open} min"));
        no_more(&with(a.max(b)), &with(a.min(b)))?;
    }

    #[test]
    fn a_thicker_rough_board_never_creates_a_finding(a in 3u32..17, b in 3u32..17) {
        let with = |rough: u32| changed(FIRST, "lumber 4/4; thickness 3/4", &format!("lumber {rough}/4; thickness 3/4"));
        no_more(&with(a.max(b)), &with(a.min(b)))?;
    }
}

/// Rows on both sides of an opening are level: an end stands on the floor, the
/// opening 4 + 1-1/2 above it; the partition stands 1/4 deep in the bottom,
/// whose upper side the rail hides by nothing (worked by hand).
#[test]
fn pins_of_boards_that_end_at_other_heights_are_level() {
    let text = changed(
        FIRST,
        "bottom { joint dado",
        "partitions { joint dado { deep 1/4 } }\n  bottom { flush; joint dado",
    );
    let from = text.find("    down {").unwrap();
    let to = from + text[from..].find("\n    }").unwrap() + "\n    }".len();
    let text = format!(
        "{}    across {{\n      doors a {{ share 1; shelf {{ adjustable 1 }} }}\n      stile {{ wide 1-1/2 }}\n      \
         doors b {{ same a; shelf {{ adjustable 1 }} }}\n    }}{}",
        &text[..from],
        &text[to..]
    );
    let compiled = compile(&text);
    let packet = casewright::papers::packet(&compiled).expect("papers");
    let order = packet.iter().find(|file| file.name == "assembly-order.txt").expect("the order");
    let lines: Vec<&str> = order.text.lines().filter(|line| line.contains(" it lies ")).collect();
    assert_eq!(lines.len(), 2, "{}", order.text);
    for (line, end) in lines.iter().zip(["LE", "RE"]) {
        assert!(line.contains(&format!("5-1/2 above the bottom end of {end}")), "{line}");
        assert!(line.contains("1/4 above the bottom end of P-"), "{line}");
    }
}
