//! What lies just on a limit is still within it, and of several things that
//! are wrong, or that a rule could look at, the right one is told.

use crate::support::{compile, slugs, spec};
use casewright::diagnostics::Diagnostic;
use casewright::diagnostics::render::{Look, terminal};
use casewright::measure::Length;
use casewright::papers;
use casewright::trade;

/// The starter, a line of it in other words.
fn first(from: &str, to: &str) -> String {
    let text = spec("first.case");
    assert!(text.contains(from), "{from}");
    text.replace(from, to)
}

/// True where this is found.
fn finds(text: &str, slug: &str) -> bool {
    slugs(&compile(text)).contains(&slug)
}

/// A paper of a piece in this form.
fn paper(text: &str, name: &str) -> String {
    let compiled = compile(text);
    let files = papers::packet(&compiled).unwrap_or_else(|| panic!("{:#?}", compiled.diagnostics));
    files.into_iter().find(|file| file.name == name).expect("the paper").text
}

/// A screw of 1-1/4 is usual for 23/32; a quarter more is within what charts
/// differ by, a thirty-second on top is not.
#[test]
fn a_pocket_screw_may_be_a_quarter_longer_than_usual() {
    let screw = |long: &str| {
        let joint = format!("top {{ stretchers 2 {{ wide 4 }}; joint pocket {{ screw {long} }} }}");
        first("top { stretchers 2 { wide 4 }; joint pocket }", &joint)
    };
    assert!(!finds(&screw("1-1/2"), "pocket-screw-through"));
    assert!(finds(&screw("1-17/32"), "pocket-screw-through"));
}

/// A box is 1-5/8 narrower inside than its opening, and the stiles take 3-1/2
/// of the case: 9-1/8 − 3-1/2 − 1-5/8 = 4, as wide as a hand.
#[test]
fn a_drawer_as_wide_as_a_hand_is_a_drawer() {
    let wide = |wide: &str| first("wide 36; deep 18", &format!("wide {wide}; deep 18"));
    let told = |text: &str| {
        let found = compile(text).diagnostics;
        found.iter().any(|found| found.slug == "box-too-big" && found.title.contains("inside"))
    };
    assert!(!told(&wide("9-1/8")));
    assert!(told(&wide("9-3/32")));
}

/// The pull's hole, 5/32 across, lies 2-1/2 above the opening's lower edge, the
/// box 7/16 above it: the hole begins 2-1/16 − 5/64 = 1-63/64 up the box and
/// ends at 2-9/64. The bottom is 13/64 thick: from 1-25/32 up it ends just
/// where the hole begins, from 2-9/64 up it begins just where the hole ends.
#[test]
fn a_pull_may_touch_the_bottom_of_its_drawer() {
    let groove = |up: &str| first("groove { up 13 mm; deep", &format!("groove {{ up {up}; deep"));
    for touching in ["1-25/32", "2-9/64"] {
        assert!(!finds(&groove(touching), "pull-meets-box"), "{touching}");
    }
    for meeting in ["1-51/64", "2-1/8"] {
        assert!(finds(&groove(meeting), "pull-meets-box"), "{meeting}");
    }
}

/// Between the leaves 3/16 is left for two of 16-1/16 of plain-sawn maple, at
/// their upper edges a hair over 1/64 for the little that a rail moves: both
/// close in a damp summer, and where the leaves meet it is by far the worst.
#[test]
fn of_two_gaps_that_close_the_worse_is_told() {
    let text = first("humidity 30% to 55%", "humidity 30% to 80%")
        .replace("species sugar-maple; sawn quarter", "species sugar-maple")
        .replace("gap 3/32; meeting 3/16", "gap 1/63; meeting 3/16")
        .replace("gap 1.5 mm", "gap 0.3 mm");
    let compiled = compile(&text);
    let told: Vec<&str> = compiled
        .diagnostics
        .iter()
        .filter(|found| found.subject.as_deref() == Some("cupboard.store"))
        .filter(|found| found.slug == "gap-closes")
        .map(|found| found.title.as_str())
        .collect();
    assert!(matches!(told[..], [one] if one.contains("two leaves")), "{told:?}");
}

#[test]
fn what_a_piece_does_not_have_is_in_no_step() {
    let drawer = "drawer upper { high 5 }\n      rail { wide 1-1/2 }\n";
    let doors = "doors store { share 1; shelf { adjustable 1 } }";
    let order = paper(&first(drawer, ""), "assembly-order.txt");
    assert!(order.contains("Hang the doors") && !order.contains("Fit the slides"), "{order}");
    let order = paper(&first(doors, "drawer store { share 1 }"), "assembly-order.txt");
    assert!(!order.contains("Hang the doors") && order.contains("Fit the slides"), "{order}");
}

/// A stop is escaped where it would begin a list, `1.`, and nowhere else: who
/// reads the file in an editor reads names as they are.
#[test]
fn names_stay_plain_in_markdown() {
    let weights = paper(&spec("first.case"), "weights.md");
    assert!(weights.contains("| store, left door |"), "{weights}");
    assert!(!weights.contains("cupboard\\."), "{weights}");
}

/// ANSI/KCMA A161.1: 1/16 in in a foot of span, and 1/4 in at most. The
/// Architectural Woodwork Standards set no such limit: the span over 144.
#[test]
fn a_household_shelf_sags_a_quarter_at_most() {
    let inches = |count| Length::inches(count, 1);
    assert_eq!(trade::HOUSEHOLD.over(inches(24)), Length::inches(1, 8));
    assert_eq!(trade::HOUSEHOLD.over(inches(60)), Length::inches(1, 4));
    assert!((trade::HOUSEHOLD.most_inches() - 0.25).abs() < 1e-12);
    assert_eq!(trade::WRITTEN.over(inches(72)), Length::inches(1, 2));
    assert!(trade::WRITTEN.most_inches().is_infinite());
}

/// The back's rabbet, 13/64 wide, is shallower than the dado of the bottom, so
/// the dado stops before it, 13/64 in short of the back edge: 7/32 on the tape.
#[test]
fn a_dado_that_stops_short_of_the_back_is_drawn_so() {
    let thick = "stock thick { plywood 1; actual 31/32; sheet { long 96; wide 48 } }\nstock thin ";
    let text = first("stock thin ", thick)
        .replace("ends { stock ply }", "ends { stock thick }")
        .replace("bottom { joint dado { deep 1/4 } }", "bottom { joint dado { deep 7/16 } }")
        .replace("toe-kick; high 4;", "toe-kick; high 6;");
    let page = paper(&text, "jig-sheet.html");
    // The piece is drawn 860 long, and a stop 220 of that.
    let is_cut = |line: &&str| line.starts_with("<path") && line.contains("fill=\"#e4e4e4\"");
    let so_far = page.lines().filter(is_cut).filter(|line| line.contains("L640 ")).count();
    assert_eq!(so_far, 1, "{page}");
    assert!(page.contains(">7/32≈</text>"), "{page}");
}

/// The pull stands 2 off the door, and the hinge carries the open door 1/16 to
/// the other side: 2 − 1/16 − 1-7/8 = 1/16 too much, so 1-1/2 + 1/16 of stile
/// between door and drawer would do.
#[test]
fn what_a_hinge_moves_an_open_door_aside_counts() {
    let text = spec("broken/drawer-hits-door.case").replace(
        "swing 105 deg",
        "swing 90 deg; pose { at 0 deg }; pose { at 90 deg; out 1/4; aside 1/16 }",
    );
    let compiled = compile(&text);
    let told = terminal(&compiled.sources, &compiled.diagnostics, Look::plain());
    assert!(
        told.contains("2 pull − 1/16 moved by the hinge − 1-13/16 to the drawer = 1/8"),
        "{told}"
    );
    assert!(told.contains("`wide 1-5/8`"), "{told}");
}

/// A second bookcase, too wide for any sheet that the spec has, takes nothing
/// from what would do for the first.
#[test]
fn what_stiffens_a_shelf_is_asked_of_its_own_case() {
    let text = spec("broken/sag-books.case");
    let at = text.find("case bookcase").unwrap();
    let long = text[at..].replace("case bookcase", "case long").replace("wide 42", "wide 70");
    let compiled = compile(&format!("{text}\n{long}"));
    let offers = |path: &str| {
        let of =
            |found: &&Diagnostic| found.slug == "sag" && found.subject.as_deref() == Some(path);
        let found = compiled.diagnostics.iter().find(of).expect("a finding");
        found.fixes.iter().any(|fix| fix.edits.iter().any(|edit| edit.text.contains("stock thick")))
    };
    assert!(offers("bookcase.books"));
    assert!(!offers("long.books"));
}

/// One case may have 300 shelves, all of them together 1,000.
#[test]
fn shelves_are_counted_by_case_and_in_all() {
    let text = spec("first.case");
    let (head, case) = text.split_at(text.find("case cupboard").expect("a case"));
    let (before, rest) = case.split_once("down {").expect("a list");
    let behind = &rest[rest.find("\n    }").expect("its end")..];
    let piece = |cases: &[&[u32]]| {
        let mut text = head.to_owned();
        for (at, sets) in cases.iter().enumerate() {
            let own = before.replace("case cupboard", &format!("case cupboard-{at}"));
            let rows: Vec<String> = sets
                .iter()
                .enumerate()
                .map(|(row, count)| {
                    format!("open row-{row} {{ share 1; shelf {{ adjustable {count} }} }}\n")
                })
                .collect();
            text += &format!("{own}down {{{}{behind}\n", rows.join("rail { wide 1-1/2 }\n"));
        }
        text
    };
    let too_many = |cases: &[&[u32]]| {
        let found = compile(&piece(cases)).diagnostics;
        let told = found.into_iter().find(|found| found.slug == "too-many");
        told.map(|found| found.title)
    };
    let full: &[u32] = &[100; 3];
    assert_eq!(too_many(&[full]), None);
    let one_case = Some("there are more than 300 shelves in one case".to_owned());
    assert_eq!(too_many(&[&[100, 100, 100, 1]]), one_case);
    assert_eq!(too_many(&[&[1], &[100, 100, 100, 1]]), one_case);
    let piece = Some("there are more than 1000 shelves".to_owned());
    assert_eq!(too_many(&[full, full, full, &[100]]), None);
    assert_eq!(too_many(&[full, full, full, &[100], &[1]]), piece);
}

/// A stile of 1-3/4 takes tenons of 1 in, 1/4 thick: their tips lie 3/4 from its outer edge,
/// and they reach 1/2 behind its face, where the miter is 1/2 in from that edge. So
/// 1-3/4 − 1/2 − 1-1/16 = 3/16 is left at the mortise, just enough, and the end is clear of
/// the tenons however thick its sheet is; a stile 1/32 narrower is refused.
#[test]
fn tenons_lie_before_the_miter_of_their_stile() {
    let text = |wide: &str, sheet: &str| {
        format!(
            r#"casework 1
job "t" {{ units in; tape 1/32 }}
site {{ left open; right open; fixing wall }}
stock ply {{ plywood 3/4; {sheet}sheet {{ long 96; wide 48 }} }}
stock thin {{ plywood 1/4; sheet {{ long 96; wide 48 }} }}
stock maple {{ lumber 4/4; thickness 3/4; species sugar-maple; sawn quarter }}
case low {{
  wide 40; deep 17; high 28; stock ply
  base {{ toe-kick; high 4; set-back 3; cut-into ends }}
  end left {{ seam miter }}
  bottom {{ joint dado {{ deep 1/4 }} }}
  back {{ stock thin; joint rabbet {{ deep 3/8 }} }}
  top {{ stretchers 2 {{ wide 3 }}; joint pocket }}
  frame {{
    stock maple; joint tenon {{ long 1; thick 1/4 }}
    stile left {{ wide {wide}; seam miter }}
    stile right {{ wide 2 }}
    rail top {{ wide 1-1/2 }}
    rail bottom {{ wide 1-3/4 }}
    down {{ open one {{ share 1 }} }}
  }}
}}
"#
        )
    };
    for sheet in ["", "actual 0.754; ", "actual 0.762; "] {
        let compiled = compile(&text("1-3/4", sheet));
        assert_eq!(slugs(&compiled), Vec::<&str>::new(), "{sheet}");
        assert_eq!(crate::bench::built(&compiled), Vec::<String>::new(), "{sheet}");
    }
    assert_eq!(slugs(&compile(&text("1-23/32", ""))), ["member-too-narrow"]);
}
