//! Cases that hang on the wall: figures worked by hand.

use casewright::editor;
use casewright::measure::{Exact, Length, Mass};
use casewright::papers::{self, EXAMPLES, Format};
use casewright::parts::{Direction, Part};
use casewright::pipeline::Compilation;
use casewright::plans::Workings;
use serde_json::Value;

use crate::support::{compile, compile_example, packet, slugs, spec};

fn shelf() -> String {
    spec("signal-house-media-shelf.case")
}

fn part(compiled: &Compilation, path: &str) -> Part {
    let parts = compiled.parts.as_ref().expect("parts");
    parts.named(path).unwrap_or_else(|| panic!("{path}")).1.clone()
}

fn mm(length: i64) -> Length {
    Length::mm(length)
}

/// It hangs 250 off the floor and is 400 high. The ends run from 250 to 650. The top of 18
/// lies at 632, so the upper nailer of 100 stands from 532 up to there; the bottom's upper
/// face is at 268, and the lower nailer stands on it. The back of 6 is let in 6 deep, and
/// the nailers of 18 stand before it: from 326 to 344 behind the front of a case whose
/// doors lie 18 before it.
#[test]
fn it_stands_clear_of_the_floor_between_two_nailers() {
    let compiled = compile(&shelf());
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let up = |path: &str| part(&compiled, path).extent(Direction::Y);
    assert_eq!(up("shelf.left-end"), (mm(250), mm(650)));
    assert_eq!(up("shelf.bottom"), (mm(250), mm(268)));
    assert_eq!(up("shelf.top-nailer"), (mm(532), mm(632)));
    assert_eq!(up("shelf.bottom-nailer"), (mm(268), mm(368)));
    let nailer = part(&compiled, "shelf.top-nailer");
    assert_eq!(nailer.extent(Direction::Z), (mm(326), mm(344)));
    // Between the ends of 18.
    assert_eq!(nailer.length.length, mm(1164));
}

/// A box 1200 wide surely meets three studs that stand 400 apart, so 2 screws at each of
/// 2 nailers are 12, and 6 go through the upper one.
///
/// On the top and the bottom stand 50 kg to the square meter, on the shelves 100. The top
/// lies 9 deep in its rabbets: 1200 − 36 + 18 = 1182 long; the bottom 6 in its dados: 1176.
/// Both are 350 − 18 − 6 = 326 deep. The fixed shelf is 408 + 12 = 420 by 320, since it
/// stands 6 back; the loose ones are 360 − 3 = 357 by 320: (1.182 + 1.176) × 0.326 × 50 +
/// (0.42 + 2 × 0.357) × 0.32 × 100 = 38.4 + 36.3 = 74.7 kg.
#[test]
fn every_screw_bears_its_share() {
    let compiled = compile(&shelf());
    let (piece, parts) = (compiled.piece.as_ref().unwrap(), compiled.parts.as_ref().unwrap());
    let work = Workings::of(piece, parts);
    let [hangs] = work.hung() else { panic!("one case hangs") };
    assert_eq!((hangs.studs, hangs.screws), (3, (6, 12)));
    let kilograms = |mass: Mass| mass.0.to_f64();
    assert!((kilograms(hangs.holds) - 74.7).abs() < 0.1, "{:?}", hangs.holds);
    let whole = kilograms(hangs.own) + kilograms(hangs.holds);
    assert!((kilograms(hangs.down) - whole / 12.0).abs() < 0.01);
    // The upper nailer's middle is 582 − 250 = 332 above the lower edge. What stands in the
    // case hangs 175 before the wall, and the case itself balances about there.
    let near = whole * 175.0 / 332.0 / 6.0;
    assert!((kilograms(hangs.out) / near - 1.0).abs() < 0.1, "{:?} {near}", hangs.out);
    assert!(hangs.share() < 1.0);
}

/// `high` is the height of the case itself; how far it hangs up is told apart.
#[test]
fn it_is_lifted_onto_a_strip() {
    let compiled = compile(&shelf());
    let packet = papers::one(&compiled, "packet", Format::Json).expect("a packet");
    let packet: Value = serde_json::from_str(&packet).unwrap();
    let operations = packet["operations"].as_array().unwrap();
    let strip = operations.iter().position(|own| own["kind"] == "put up strip").unwrap();
    assert_eq!(operations[strip]["up"]["print"], "250");
    let lift = operations.iter().position(|own| own["kind"] == "lift onto strip").unwrap();
    assert_eq!(operations[lift]["by"], "2 people");
    let wall = operations.iter().position(|own| own["kind"] == "fix to wall").unwrap();
    assert!(strip < lift && lift + 1 == wall);
    assert_eq!(operations[lift]["step"], operations[wall]["step"]);
    let through = operations[wall]["through"].as_array().unwrap();
    assert_eq!(through, &["TNL", "BNL"]);
    let piece = compiled.piece.as_ref().unwrap();
    assert_eq!(piece.cases[0].overall_high().length, mm(400));
    assert_eq!(piece.cases[0].high.length, mm(650));
}

/// How far it hangs up is told from where it is written.
#[test]
fn how_far_up_it_hangs_is_told() {
    let compiled = compile(&shelf());
    let whys = editor::answer(&compiled, &["shelf"]).unwrap().whys;
    let sums = || whys.iter().flat_map(|why| &why.sizes);
    let told = |word: &str| sums().find(|sum| sum.word == word).map(|sum| sum.paper.clone());
    assert_eq!(told("up").as_deref(), Some("250"));
    assert_eq!(told("high").as_deref(), Some("400"));
}

/// A pipe parts the upper nailer: of three studs one may stand in the gap, so that two hold it
/// with 4 screws, and with the 6 of the lower one there are 10.
#[test]
fn a_stud_in_the_gap_of_a_nailer_holds_nothing() {
    let pipe = "site { keep-out \"pipe\" { from-left 500; wide 60; up 560; high 40; deep 40 };";
    let text = shelf().replacen("site {", pipe, 1).replacen(
        "hung { up 250 }",
        "hung { up 250 }\n  around \"pipe\"",
        1,
    );
    let compiled = compile(&text);
    let (piece, parts) = (compiled.piece.as_ref().unwrap(), compiled.parts.as_ref().unwrap());
    let parted = |part: &&Part| part.path.contains("top-nailer");
    assert_eq!(parts.all.iter().filter(parted).count(), 2, "{:#?}", slugs(&compiled));
    let work = Workings::of(piece, parts);
    let [hangs] = work.hung() else { panic!("one case hangs") };
    assert_eq!((hangs.studs, hangs.screws), (3, (4, 10)));
}

/// One stud is too few, a written second one is enough; with six screws in all the load of a
/// full case is too much, with twelve it is not.
#[test]
fn studs_and_screws_are_counted() {
    let narrow = shelf()
        .replace("wide 1200; deep 350", "wide 700; deep 350")
        .replace("wide 360; hung left", "wide 180; hung left");
    assert_eq!(slugs(&compile(&narrow)), ["studs-few"]);
    let found = narrow.replace("hung { up 250 }", "hung { up 250; studs 2 }");
    assert_eq!(slugs(&compile(&found)), Vec::<&str>::new());
    let heavy = shelf().replace("load 50 kg per m2", "load 120 kg per m2");
    let few = heavy.replace("hung { up 250 }", "hung { up 250; studs 2; screws 1 }");
    assert!(slugs(&compile(&few)).contains(&"hung-load"));
    assert!(!slugs(&compile(&heavy)).contains(&"hung-load"));
}

/// 1200 holds three studs at 400: two screws go through each of two nailers into each.
#[test]
fn wall_screws_are_on_the_list() {
    let sheet = papers::one(&compile(&shelf()), "fitting", Format::Text).unwrap();
    assert!(sheet.contains("For the wall, about 12 cabinet screws"), "{sheet}");
}

/// A half of what a screw bears down and half of what it bears out come to one.
#[test]
fn both_loads_of_a_screw_count_together() {
    let half = |mass: Mass| Mass(mass.0 / Exact::int(2));
    let compiled = compile(&shelf());
    let (piece, parts) = (compiled.piece.as_ref().unwrap(), compiled.parts.as_ref().unwrap());
    let work = Workings::of(piece, parts);
    let mut hangs = work.hung()[0].clone();
    // 67.78 lb down and 117.85 lb out of a #8 screw, 1-1/2 in deep in spruce.
    hangs.down = half(Mass::pounds(Exact::ratio(6778, 100)));
    hangs.out = half(Mass::pounds(Exact::ratio(11785, 100)));
    assert!((hangs.share() - 1.0).abs() < 1e-9);
}

/// A cupboard of two studs, with a nailer under the top and one above the bottom.
const CUPBOARD: &str = r#"casework 1
job "Cupboard over the sink" { units in }
site { fixing wall; humidity 35% to 55%; keep-out "socket" { SOCKET; wide 3; high 5; deep 1 } }
shop { clamps 10 }
stock ply { plywood 3/4; sheet { long 96; wide 48 } }
stock thin { plywood 1/4; sheet { long 96; wide 48 } }
case cupboard {
  wide 24; deep 8; high 30; stock ply
  hung { up 48; studs 2 }
  bottom { joint dado { deep 1/4 } }
  back { stock BACK }
  top { panel; joint dado { deep 1/4 } }
  frame none
  down { open above { share 1 } }
}
"#;

fn cupboard(socket: &str, back: &str) -> Compilation {
    compile(&CUPBOARD.replace("SOCKET", socket).replace("BACK", back))
}

/// The screws through the upper board, and through all.
fn screws(compiled: &Compilation) -> (u32, u32) {
    let piece = compiled.piece.as_ref().expect("a piece");
    let parts = compiled.parts.as_ref().expect("parts");
    Workings::of(piece, parts).hung()[0].screws
}

/// Worked by hand. The case hangs from 48 to 78, and its nailers lie from 0-3/4 to 23-1/4,
/// the upper one from 74-1/4 to 77-1/4. Two studs with two screws each make 4 in a row. A
/// socket at 17 leaves 1/2 around it, so that a nailer at its height ends at 16-1/2, and one
/// of two studs 16 apart may stand to its right.
#[test]
fn a_stud_that_a_socket_may_take_from_a_nailer_holds_nothing() {
    let screws_at = |socket: &str| screws(&cupboard(socket, "thin"));
    assert_eq!(screws_at("from-left 17; up 60"), (4, 8));
    assert_eq!(screws_at("from-left 17; up 72"), (2, 6));
    assert_eq!(screws_at("from-left 10; up 72"), (2, 6));
    assert_eq!(screws_at("from-left 17; up 47"), (4, 6));
}

/// A back of 1/2 takes the screws itself, close under the top: there it is cut out around a
/// socket too.
#[test]
fn a_back_that_takes_the_screws_loses_those_where_it_is_cut() {
    let screws_at = |socket: &str| {
        let stout = CUPBOARD.replace("plywood 1/4", "plywood 1/2");
        let text = stout.replace("SOCKET", socket).replace("BACK", "thin");
        screws(&compile(&text))
    };
    assert_eq!(screws_at("from-left 10; up 60"), (4, 4));
    assert_eq!(screws_at("from-left 10; up 74"), (2, 2));
}

/// With all of the nailer gone the case hangs from nothing.
#[test]
fn a_case_whose_nailer_is_gone_is_refused() {
    let wide = |up: &str| {
        let text = CUPBOARD.replace("wide 3; high 5", "wide 18; high 5");
        slugs(&compile(
            &text.replace("SOCKET", &format!("from-left 3; up {up}")).replace("BACK", "thin"),
        ))
    };
    assert_eq!(wide("60"), Vec::<&str>::new());
    assert_eq!(wide("72"), ["nailer-lost"]);
}

/// The example of a case over another, with something else in place of a text of it.
fn over(from: &str, to: &str) -> Compilation {
    let text = spec("examples/over-a-case.case");
    assert!(text.contains(from), "{from}");
    compile_example(&text.replace(from, to))
}

/// A rack of 44 over the middle of a bench of 48 begins 2 to the right of the bench's left side,
/// and one that is told `left 3` begins 3. Its ends run from 60 to 74. Nothing stands beside the
/// bench: its countertop reaches 3/4 past both ends, 48 + 2 × 3/4 = 49-1/2 long.
#[test]
fn a_case_hangs_over_another() {
    let compiled = over("over bench", "over bench");
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let inches = |numer: i64, denom: i64| Length::inches(numer, denom);
    let end = part(&compiled, "rack.left-end");
    assert_eq!(end.extent(Direction::X).0, inches(2, 1));
    assert_eq!(end.extent(Direction::Y), (inches(60, 1), inches(74, 1)));
    assert_eq!(part(&compiled, "bench.countertop").length.length, inches(99, 2));
    let left = over("over bench", "over bench; left 3");
    assert_eq!(part(&left, "rack.left-end").extent(Direction::X).0, inches(3, 1));
    let steps = papers::one(&left, "assembly-order", Format::Text).unwrap();
    let steps = steps.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(steps.contains("from the left side of bench, and mark on the strip where the left side of rack comes: 3 to the right of that line"), "{steps}");
}

/// What hangs over nothing, over itself, or over what hangs is refused, and so is a place from
/// the left of nothing. The bench is 20 high, and 20-3/4 with its countertop.
#[test]
fn a_case_hangs_over_what_stands_on_the_floor() {
    let found = |from: &str, to: &str| slugs(&over(from, to));
    assert_eq!(found("over bench", "over rack"), ["not-supported-yet"]);
    assert_eq!(found("over bench", "over bank"), ["name-unknown"]);
    assert_eq!(found("over bench", "left 2"), ["word-missing"]);
    assert_eq!(found("up 60", "up 12"), ["hangs-and-stands"]);
    assert_eq!(found("up 60", "up 20-11/16"), ["hangs-and-stands"]);
    assert_eq!(found("up 60", "up 20-3/4"), Vec::<&str>::new());
}

/// A run that hangs says so once: its cases are lifted onto one strip from the left, each is
/// screwed to the studs before the next, and all are screwed to each other.
#[test]
fn a_run_hangs_from_one_strip() {
    let example = EXAMPLES.iter().find(|own| own.slug == "run-on-the-wall").unwrap();
    let compiled = compile_example(example.text);
    assert!(compiled.is_sound(), "{:?}", compiled.diagnostics);
    let order = papers::one(&compiled, "assembly-order", Format::Text).unwrap();
    let strip = "strike a level line on the wall 54 above that place for plates, glasses, and spice, and screw a straight strip to the studs";
    assert!(order.contains(strip), "{order}");
    let packet = packet(&compiled);
    let operations = packet["operations"].as_array().unwrap();
    let house = [
        "put up strip",
        "lift onto strip",
        "fix to wall",
        "fix cases",
        "fit filler",
        "stand off wall",
        "keep space",
    ];
    let kinds = operations.iter().map(|own| own["kind"].as_str().unwrap());
    let kinds: Vec<&str> = kinds.filter(|kind| house.contains(kind)).collect();
    let each = ["lift onto strip", "fix to wall"];
    let strips = ["put up strip", "put up strip", "put up strip", "stand off wall"];
    let all = [&strips[..], &each, &each, &each, &["fix cases"; 2], &["fit filler"]];
    assert_eq!(kinds, all.concat());
    let lifted = operations.iter().filter(|own| own["kind"] == "lift onto strip");
    let lifted: Vec<&str> = lifted.map(|own| own["case"].as_str().unwrap()).collect();
    assert_eq!(lifted, ["plates", "glasses", "spice"]);
    // A space between them is kept while they are hung.
    let space = "space hood { takes { wide 23-3/4; high 20 }; clear 1/8 }\n    case spice";
    let compiled = compile_example(&example.text.replace("case spice", space));
    assert!(compiled.is_sound(), "{:?}", compiled.diagnostics);
    let packet = crate::support::packet(&compiled);
    let operations = packet["operations"].as_array().unwrap();
    let at = |kind: &str| operations.iter().position(|own| own["kind"] == kind).unwrap();
    assert!(at("put up strip") < at("keep space") && at("keep space") < at("lift onto strip"));
    assert_eq!(operations[at("keep space")]["wide"]["print"], "24");
    assert_eq!(operations[at("keep space")]["step"], operations[at("put up strip")]["step"]);
    assert_eq!(crate::bench::built(&compiled), Vec::<String>::new());
}

/// Worked by hand over the run of the examples, 96 wide: one of 70 hangs over its middle from
/// 13 in, or in from its left side as far as it says. Its cases are 26, 26, and 18 wide.
#[test]
fn a_run_hangs_over_a_run() {
    let text = |slug: &str| EXAMPLES.iter().find(|own| own.slug == slug).unwrap().text;
    let (_, upper) = text("run-on-the-wall").split_once("\nrun uppers").unwrap();
    let upper = upper.replace("    filler corner { wide 2 }\n", "").replace("wide 90;", "wide 70;");
    let over = |left: &str| {
        let upper = upper.replace("up 54", &format!("up 54; {left} over kitchen"));
        format!("{}\nrun uppers{upper}", text("run"))
    };
    for (left, from) in [("", 13), ("left 2;", 2), ("left 26;", 26)] {
        let compiled = compile_example(&over(left));
        assert!(compiled.is_sound(), "{:?}", compiled.diagnostics);
        let piece = compiled.piece.as_ref().unwrap();
        let at = |name: &str| piece.cases.iter().find(|own| own.name == name).unwrap().x;
        let places = ["plates", "glasses", "spice"].map(at);
        assert_eq!(places, [from, from + 26, from + 52].map(|at| Length::inches(at, 1)), "{left}");
        assert_eq!(piece.wide(), Length::inches(96, 1));
        let order = papers::one(&compiled, "assembly-order", Format::Text).unwrap();
        let told = format!(
            "mark on the strip where the left side of glasses comes: {} to the right of that line",
            from + 24
        );
        assert!(order.contains(&told), "{order}");
        assert_eq!(crate::bench::built(&compiled), Vec::<String>::new(), "{left}");
    }
    // Nothing hangs over what hangs, or over itself.
    for (from, to) in [("over kitchen", "over uppers"), ("over kitchen", "over plates")] {
        let found = compile_example(&over("").replace(from, to)).diagnostics;
        let [only] = &found[..] else { panic!("{to}: {found:?}") };
        assert_eq!(only.slug, "not-supported-yet", "{to}");
    }
    // On a wall beside its left end, a run that is even there is scribed.
    let walled = over("left 0;")
        .replace("case plates { share 1;", "filler next { wide 2 }\n    case plates { share 1;");
    let compiled = compile_example(&walled);
    assert!(compiled.is_sound(), "{:?}", compiled.diagnostics);
    assert_eq!(crate::bench::built(&compiled), Vec::<String>::new());
}

/// The rack of 44 begins 10 to the right of the bench's left side and ends at 54. The bench ends
/// at 48, and there is the wall. At 3 it ends at 47.
#[test]
fn nothing_hangs_in_a_wall() {
    let walled = |left: &str| {
        let text = spec("examples/over-a-case.case");
        let site = "site { fixing wall }";
        assert!(text.contains(site));
        let text = text
            .replace(site, "site { fixing wall; right wall { scribe 0 } }")
            .replace("over bench }", &format!("over bench; left {left} }}"));
        let compiled = compile_example(&text);
        let found = compiled.diagnostics.iter().find(|found| found.slug == "cases-overlap");
        found.map(|found| found.title.clone())
    };
    assert_eq!(walled("10").as_deref(), Some("rack reaches 6 into the right wall"));
    assert_eq!(walled("3"), None);
}

/// The shelf hangs 250 off the floor, and its strip takes 38 below that: what reaches up to 230
/// stands in its way, and what ends at 210 does not.
#[test]
fn what_is_where_the_strip_would_be_is_told() {
    let order = |high: i64| {
        let out = format!(
            "keep-out \"duct\" {{ from-left 100; up 100; wide 300; high {high}; deep 60 }} }}"
        );
        let text = shelf().replacen("60% }", &format!("60%; {out}"), 1);
        papers::one(&compile(&text), "assembly-order", Format::Text).unwrap()
    };
    let told = "duct comes up to where the strip for shelf would be";
    assert!(order(130).contains(told));
    assert!(!order(110).contains(told));
}

/// The tops hang 84 up. The cases 30 high hang 54 off the floor, and the one 18 high 66. Each has
/// its own strip at its underside, and its upper nailer as far below its top: 3-11/32 and 4 wide
/// under a top of 23/32, all at one height.
#[test]
fn tops_hang_in_one_line() {
    let example = EXAMPLES.iter().find(|own| own.slug == "tops-in-line").unwrap();
    let compiled = compile_example(example.text);
    let up = |path: &str| part(&compiled, path).extent(Direction::Y);
    let inches = |whole: i64| Length::inches(whole, 1);
    for (case, from) in [("plates", 54), ("hood", 66), ("glasses", 54)] {
        assert_eq!(up(&format!("uppers.{case}.left-end")), (inches(from), inches(84)), "{case}");
        let nailer = up(&format!("uppers.{case}.top-nailer"));
        let top = inches(84) - Length::inches(23, 32);
        assert_eq!(nailer, (top - inches(4), top), "{case}");
    }
    let packet = packet(&compiled);
    let operations = packet["operations"].as_array().unwrap();
    let strips = operations.iter().filter(|own| own["kind"] == "put up strip");
    let strips: Vec<_> = strips
        .map(|own| (own["case"].as_str().unwrap(), own["up"]["print"].as_str().unwrap()))
        .collect();
    assert_eq!(strips, [("plates", "54"), ("hood", "66"), ("glasses", "54")]);
    let beside = operations.iter().filter(|own| own["kind"] == "fix cases").count();
    assert_eq!(beside, 2);
    let order = papers::one(&compiled, "assembly-order", Format::Text).unwrap();
    assert!(
        order.contains(
            "clamp the cases together with their backs in one plane and their tops in one line"
        ),
        "{order}"
    );
    assert!(order.contains("54 above that place for plates and glasses"), "{order}");
    assert!(order.contains("66 above that place for hood"), "{order}");
}

/// What hangs by its top is as high up as what hangs by its underside, cover and all.
#[test]
fn a_top_says_what_an_underside_says() {
    for cover in ["", "  cover under { stock birch }\n"] {
        let text = shelf().replace("  frame none\n", &format!("{cover}  frame none\n"));
        let by_top = text.replace("hung { up 250 }", "hung { top 650 }");
        let places = |text: &str| {
            let compiled = compile(text);
            let parts = compiled.parts.as_ref().expect("parts");
            let own = parts.all.iter().map(|part| (part.path.clone(), part.extent(Direction::Y)));
            own.collect::<Vec<_>>()
        };
        assert_eq!(places(&text), places(&by_top), "{cover}");
    }
    let both = shelf().replace("hung { up 250 }", "hung { up 250; top 650 }");
    assert_eq!(slugs(&compile(&both)), ["word-twice"]);
    let neither = shelf().replace("hung { up 250 }", "hung { studs 3 }");
    assert_eq!(slugs(&compile(&neither)), ["word-missing"]);
}
