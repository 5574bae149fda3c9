//! Covers over ends, backs, and undersides: figures worked by hand.

use casewright::measure::Length;
use casewright::papers::{self, Format};
use casewright::parts::{Direction, Part, Role};
use casewright::pipeline::Compilation;
use serde_json::Value;

use crate::bench;
use crate::support::{compile, packet, slugs, spec};

fn sound(text: &str) -> Compilation {
    let compiled = compile(text);
    assert!(compiled.piece.is_some(), "{:#?}", compiled.diagnostics);
    compiled
}

fn part<'c>(compiled: &'c Compilation, path: &str) -> &'c Part {
    let parts = compiled.parts.as_ref().expect("parts");
    parts.named(path).unwrap_or_else(|| panic!("{path}")).1
}

fn inches(over: i64, under: i64) -> Length {
    Length::inches(over, under)
}

/// The base of the hutch is 42 wide over all, and plywood of 23/32 lies over both its ends:
/// they stand from 23/32 to 1-7/16, and the right one ends as far before 42. The covers lie
/// behind the frame of 3/4, down to the floor and up to 33, and back to 18; the toe kick is
/// between them.
#[test]
fn a_cover_lies_behind_the_stile_inside_the_width() {
    let compiled = sound(&spec("heron-quay-hutch.case"));
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let x = |path: &str| part(&compiled, path).extent(Direction::X);
    assert_eq!(x("sideboard.left-cover"), (Length::ZERO, inches(23, 32)));
    assert_eq!(x("sideboard.left-end"), (inches(23, 32), inches(46, 32)));
    assert_eq!(x("sideboard.right-end").1, inches(42 * 32 - 23, 32));
    assert_eq!(x("sideboard.right-cover"), (inches(42 * 32 - 23, 32), inches(42, 1)));
    assert_eq!(x("sideboard.kick"), (inches(23, 32), inches(42 * 32 - 23, 32)));
    let cover = part(&compiled, "sideboard.left-cover");
    assert_eq!(cover.extent(Direction::Z), (inches(3, 4), inches(18, 1)));
    assert_eq!(cover.extent(Direction::Y), (Length::ZERO, inches(33, 1)));
    // The stile stays where it was, over the cover and the end.
    assert_eq!(x("sideboard.left-stile"), (Length::ZERO, inches(7, 4)));
}

/// Beside the fronts of a frameless case it comes forward flush with them, and they keep
/// their whole gap to it: 23/32 + 1/8 = 27/32. The opening of 42 less two covers and two
/// ends of 23/32 is 39-1/8.
#[test]
fn beside_fronts_it_keeps_their_gap() {
    let example = include_str!("../specs/examples/hutch.case");
    let (head, _) = example.split_once("case shelves").unwrap();
    let stocks = include_str!("../specs/examples/shop.case");
    let text = head
        .replace("use \"shop.case\"\n", "")
        .replace("wide 36; deep 18", "wide 42; deep 18")
        .replace("  bottom", "  cover left { stock ply }\n  cover right { stock ply }\n  bottom")
        .replace("set inset; gap 3/32;", "set overlay; gap 1/8;");
    let text = text + &stocks.replace("units in\n", "");
    let compiled = sound(&text);
    let door = part(&compiled, "sideboard.china.left-door");
    assert_eq!(door.extent(Direction::X).0, inches(27, 32));
    let cover = part(&compiled, "sideboard.left-cover");
    assert_eq!(cover.extent(Direction::Z).0, door.extent(Direction::Z).0);
    let opening = compiled.piece.as_ref().unwrap().cases[0].openings.last().unwrap();
    assert_eq!(opening.wide.length, inches(313, 8));
}

/// It is screwed on through the end in two lines, 3 from both edges of what they share, and
/// above the bottom, since no hand gets below that. Screws of 1-1/4 don't come through two
/// boards of 23/32.
#[test]
fn it_is_screwed_on_from_inside() {
    let compiled = sound(&spec("heron-quay-hutch.case"));
    let packet = papers::one(&compiled, "packet", Format::Json).expect("a packet");
    let packet: Value = serde_json::from_str(&packet).unwrap();
    let operations = packet["operations"].as_array().unwrap();
    let lines: Vec<&Value> = operations
        .iter()
        .filter(|own| own["kind"] == "screw line" && own["into"] == "LCV")
        .collect();
    let place = |own: &&Value| {
        let from = own["from"][0].as_str().unwrap();
        format!("{} from the {from}", own["at"]["print"].as_str().unwrap())
    };
    let places: Vec<String> = lines.iter().map(place).collect();
    assert_eq!(places, ["3 from the front edge", "3 from the back edge"]);
    assert!(lines.iter().all(|own| own["through"] == "SI-LE" && own["face"] == "inside face"));
    let fit = operations.iter().position(|own| own["kind"] == "fit cover").unwrap();
    let wall = operations.iter().position(|own| own["kind"] == "fix to wall").unwrap();
    let lay = operations.iter().position(|own| own["kind"] == "lay on").unwrap();
    assert!(wall < fit && fit < lay);
    let list = papers::one(&compiled, "cut-list", Format::Text).expect("the paper");
    assert!(list.contains("LCV") && list.contains("RCV"));
    let fitting = papers::one(&compiled, "fitting", Format::Text).expect("the paper");
    let screws = fitting.lines().find(|line| line.contains("covers, from inside")).unwrap();
    assert!(screws.contains("1-1/4"), "{screws}");
}

/// What stands on a case has its cover down to its own underside only.
#[test]
fn a_cover_of_an_upper_case_ends_with_it() {
    let text = spec("heron-quay-hutch.case");
    let text = text.replace("  on sideboard\n", "  on sideboard\n  cover right { stock ply }\n");
    let compiled = sound(&text);
    assert_eq!(part(&compiled, "hutch.right-cover").extent(Direction::Y).0, inches(135, 4));
    let covers = compiled.parts.as_ref().unwrap().all.iter();
    assert_eq!(covers.filter(|part| part.role == Role::Cover).count(), 3);
}

/// What an operation on a part has under a key, printed.
fn printed(packet: &Value, kind: &str, part: &str, key: &str) -> Vec<String> {
    let own = packet["operations"].as_array().unwrap().iter();
    let mut own = own.filter(|own| own["kind"] == kind && own["part"] == part);
    let value = &own.next().unwrap_or_else(|| panic!("{kind} {part}"))[key];
    let text = |own: &Value| own["print"].as_str().unwrap().to_owned();
    value.as_array().unwrap().iter().map(text).collect()
}

/// It stands on the floor and before the wall, so it is sawn 1/2 longer and wider than the
/// 33 by 17-1/4 that it is drawn, or 3/4 where the spec says so. A cover of the upper case
/// meets only the wall: 42 by 10-1/4 + 1/2.
#[test]
fn wood_is_left_on_it_to_scribe() {
    let text = spec("heron-quay-hutch.case");
    let text = text
        .replace("cover right { stock ply }", "cover right { stock ply; scribe 3/4 }")
        .replace("  on sideboard\n", "  on sideboard\n  cover left { stock ply }\n");
    let compiled = sound(&text);
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let packet = packet(&compiled);
    let size = |mark: &str| printed(&packet, "break down", mark, "size");
    assert_eq!(size("SI-LCV"), ["33-1/2", "17-3/4", "23/32"]);
    assert_eq!(size("RCV"), ["33-3/4", "18", "23/32"]);
    assert_eq!(size("HU-LCV"), ["42", "10-3/4", "23/32"]);
    let scribed = |mark: &str| {
        let own = packet["operations"].as_array().unwrap().iter();
        let mut own = own.filter(|own| own["kind"] == "fit cover" && own["part"] == mark);
        let edges = own.next().unwrap()["scribed"].as_array().unwrap().clone();
        let edge = |own: &Value| {
            format!("{} {}", own["edge"].as_str().unwrap(), own["left"]["print"].as_str().unwrap())
        };
        edges.iter().map(edge).collect::<Vec<_>>()
    };
    assert_eq!(scribed("SI-LCV"), ["bottom end 1/2", "back edge 1/2"]);
    assert_eq!(scribed("RCV"), ["bottom end 3/4", "back edge 3/4"]);
    assert_eq!(scribed("HU-LCV"), ["back edge 1/2"]);
    // The upper one goes on when its case stands.
    let operations = packet["operations"].as_array().unwrap();
    let fits = |mark: &str| {
        operations.iter().position(|own| own["kind"] == "fit cover" && own["part"] == mark)
    };
    let set = operations.iter().position(|own| own["kind"] == "set on case");
    assert!(fits("SI-LCV") < set && set < fits("HU-LCV"));
}

/// Beside overlay fronts of 23/32 and the 1/16 bumper behind them, which the plan does not
/// count, the cover's edge lies 23/32 before the end. With a strip of 1/32 on that edge its
/// core is 17 + 23/32 + 1/2 - 1/32 wide and 33 + 1/2 long, and the strip 1 longer than that.
#[test]
fn a_strip_on_its_front_edge_leaves_the_wood_to_scribe() {
    let example = include_str!("../specs/examples/hutch.case");
    let (head, _) = example.split_once("case shelves").unwrap();
    let stocks = include_str!("../specs/examples/shop.case");
    let text = head
        .replace("use \"shop.case\"\n", "stock tape { banding 1/32 }\n")
        .replace("  bottom", "  cover left { stock ply; edges tape }\n  bottom")
        .replace("set inset; gap 3/32;", "set overlay; gap 1/8;");
    let compiled = sound(&(text + &stocks.replace("units in\n", "")));
    let cover = part(&compiled, "sideboard.left-cover");
    let wide = cover.width.length;
    let packet = packet(&compiled);
    let [long, core, _] = &printed(&packet, "break down", &cover.mark, "size")[..] else {
        panic!()
    };
    assert_eq!(long, "33-1/2");
    assert_eq!(cover.rough.width, wide + inches(1, 2) - inches(1, 32));
    assert_eq!(cover.core()[1].length, cover.rough.width, "{core}");
    assert_eq!(printed(&packet, "edge", &cover.mark, "strip")[0], "34-1/2");
}

/// What lies on the bench of a cover may still have the wood that is scribed off, or not.
#[test]
fn a_cover_on_the_bench_may_be_scribed_already() {
    let text = spec("heron-quay-hutch.case");
    let cut = |size: &str| {
        let line = format!(
            "\ncut 2026-03-14 {{ sideboard.left-cover {{ {size}; thick 23/32; stock ply; joints 0 }} }}\n"
        );
        let compiled = compile(&(text.clone() + &line));
        slugs(&compiled)
    };
    assert_eq!(cut("long 33-1/2; wide 17-3/4"), Vec::<&str>::new());
    assert_eq!(cut("long 33; wide 17-1/4"), Vec::<&str>::new());
    assert!(cut("long 32; wide 17-1/4").contains(&"cut-misfit"));
}

/// The bottom of the base lies at 4 + 25/32, and its back ends there: a baseboard of 4-1/2
/// stays under it, and one of 5 is cut out of it.
#[test]
fn a_back_is_cut_out_only_where_it_meets_something() {
    let round = |high: &str| {
        let keep_out =
            format!("keep-out \"baseboard\" {{ from-left 10; wide 20; high {high}; deep 1/8 }}");
        let text = spec("heron-quay-hutch.case");
        let text = text.replace("fixing wall;", &format!("fixing wall; {keep_out};"));
        let packet = packet(&sound(&text));
        let mut all = packet["operations"].as_array().unwrap().iter();
        all.any(|own| own["kind"] == "cut out")
    };
    assert!(!round("4-1/2"));
    assert!(round("5"));
}

/// The island is 54 wide and 26 deep over all, with 23/32 of cover over both ends and the
/// back: that over the back is 54 - 2 x 23/32 wide and lies behind 26 - 23/32, and those
/// over the ends lie over its edges, from the back of the frame at 3/4 to the very back.
/// The back of the case ends before it, and so do the ends.
#[test]
fn a_cover_over_the_back_lies_between_those_over_the_ends() {
    let compiled = sound(&spec("mill-row-island.case"));
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let extent = |path: &str, side| part(&compiled, path).extent(side);
    let z = |path: &str| extent(path, Direction::Z);
    let behind = inches(26 * 32 - 23, 32);
    assert_eq!(z("island.back-cover"), (behind, inches(26, 1)));
    assert_eq!(z("island.left-cover"), (inches(3, 4), inches(26, 1)));
    assert_eq!(z("island.left-end").1, behind);
    assert_eq!(z("island.back").1, behind);
    let between = (inches(23, 32), inches(54 * 32 - 23, 32));
    assert_eq!(extent("island.back-cover", Direction::X), between);
    let high = (Length::ZERO, inches(69, 2));
    assert_eq!(extent("island.back-cover", Direction::Y), high);
    // It is wider than high: its length lies level, and its lower edge is scribed.
    let packet = packet(&compiled);
    let mark = &part(&compiled, "island.back-cover").mark;
    assert_eq!(printed(&packet, "break down", mark, "size"), ["52-9/16", "35", "23/32"]);
}

/// Under a case that hangs with its underside 54 up lies the cover, 23/32 thick; the case
/// begins above that and still ends at 54 + 30. The shelf parts what is left of 30: 30 -
/// 4 x 23/32 is 27-1/8, so each of its spaces is 13-9/16 high.
#[test]
fn a_cover_under_a_case_lies_inside_its_height() {
    let example = include_str!("../specs/examples/cover-under.case");
    let stocks = include_str!("../specs/examples/shop.case").replace("units in\n", "");
    let text = example.replace("use \"shop.case\"\n", "") + &stocks;
    let compiled = sound(&text);
    let extent = |path: &str, side| part(&compiled, path).extent(side);
    let y = |path: &str| extent(path, Direction::Y);
    let above = inches(54 * 32 + 23, 32);
    assert_eq!(y("pots.bottom-cover"), (inches(54, 1), above));
    assert_eq!(y("pots.left-end"), (above, inches(84, 1)));
    assert_eq!(y("pots.bottom").0, above);
    let shelf = y("pots.store.shelf");
    assert_eq!(shelf.0 - y("pots.bottom").1, inches(217, 16));
    assert_eq!(extent("pots.bottom-cover", Direction::X), (Length::ZERO, inches(32, 1)));
    assert_eq!(extent("pots.bottom-cover", Direction::Z), (Length::ZERO, inches(13, 1)));
    // It hangs on its strip before the cover is there.
    let packet = packet(&compiled);
    let operations = packet["operations"].as_array().unwrap();
    let at = |kind: &str| operations.iter().position(|own| own["kind"] == kind).unwrap();
    assert_eq!(operations[at("put up strip")]["up"]["print"], "54-23/32");
    assert!(at("fix to wall") < at("fit cover"));
}

/// The run is 36 + 24 = 60 wide, with covers of 23/32 over its two ends; that over both
/// backs is 60 - 2 x 23/32 wide. On sheets 48 long it is parted at the joint of the cases,
/// at 36, and each piece is screwed on through its own back.
#[test]
fn one_cover_over_the_backs_of_a_run_is_parted_at_a_joint() {
    let example = include_str!("../specs/examples/covers.case");
    let shop = include_str!("../specs/examples/shop.case").replace("units in\n", "");
    let text = example.replace("use \"shop.case\"\n", "") + &shop;
    let backs = |compiled: &Compilation| {
        let all = compiled.parts.as_ref().unwrap().all.clone();
        let own = all.into_iter().filter(|part| part.path.ends_with("back-cover"));
        own.map(|part| part.extent(Direction::X)).collect::<Vec<_>>()
    };
    let whole = sound(&text);
    let (left, right) = (inches(23, 32), inches(60 * 32 - 23, 32));
    assert_eq!(backs(&whole), [(left, right)]);
    let through = |compiled: &Compilation| {
        let packet = packet(compiled);
        let all = packet["operations"].as_array().unwrap().iter();
        let own = all.filter(|own| own["kind"] == "fit cover");
        own.map(|own| own["through"].as_array().unwrap().len()).collect::<Vec<_>>()
    };
    assert_eq!(through(&whole), [2, 1, 1]);
    let short = text.replace("cover back  { stock ply;", "cover back  { stock half;")
        + "\nstock half { plywood 3/4; actual 23/32; species sugar-maple; sheet { long 48; wide 48 } }\n";
    let parted = sound(&short);
    assert_eq!(backs(&parted), [(left, inches(36, 1)), (inches(36, 1), right)]);
    let all = parted.parts.as_ref().unwrap();
    let ends = all.all.iter().filter(|part| part.path.ends_with("left-cover"));
    assert_eq!(ends.count(), 1);
}

/// A short cabinet between two that hang 12 lower. The cover under it goes up between their
/// sides, which stand 30 apart: with 1/32 at each end it is 29-15/16 long. Of the cabinets
/// beside it the lower ends of their inner sides are seen: their covers are banded there too,
/// and that of the short one nowhere but in front.
#[test]
fn a_cover_between_lower_cabinets_has_play() {
    let case = |name: &str, wide: i64, high: i64, up: i64| {
        format!(
            "case {name} {{
  wide {wide}; deep 13; high {high}
  stock ply
  hung {{ up {up} }}
  cover under {{ stock ply; edges tape }}
  bottom {{ joint dado {{ deep 1/4 }} }}
  back {{ stock thin; joint rabbet {{ deep 3/8 }} }}
  top {{ panel; joint dado {{ deep 1/4 }} }}
  frame none
  across {{ open {name}-things {{ share 1; shelf {{ adjustable 1 }} }} }}
}}
"
        )
    };
    let text = format!(
        "casework 1
job \"Trial\" {{ units in; tape 1/32 }}
site {{ left open; right open; fixing wall; humidity 35% to 45% }}
shop {{ humidity 40%; clamps 16; open-time 40 min }}
stock ply  {{ plywood 3/4; actual 3/4; species sugar-maple; sheet {{ long 96; wide 48 }} }}
stock thin {{ plywood 1/4; actual 1/4; species sugar-maple; sheet {{ long 96; wide 48 }} }}
stock tape {{ banding 1/32 }}

{}{}{}",
        case("dishes", 36, 30, 54),
        case("hood", 30, 18, 66),
        case("glasses", 18, 30, 54)
    );
    let compiled = sound(&text);
    let cover = part(&compiled, "hood.bottom-cover");
    assert_eq!(cover.extent(Direction::X), (inches(36 * 32 + 1, 32), inches(66 * 32 - 1, 32)));
    let banded = |path: &str| {
        let told = papers::one(&compiled, "cut-list", Format::Text).expect("a cut list");
        let mark = &part(&compiled, path).mark;
        let row = told.lines().find(|line| line.contains(&format!("] {mark} ")));
        row.unwrap_or_else(|| panic!("{path}: {told}")).to_owned()
    };
    assert!(banded("dishes.bottom-cover").contains("band the left end, right end, and front edge"));
    assert!(
        banded("glasses.bottom-cover").contains("band the left end, right end, and front edge")
    );
    assert!(banded("hood.bottom-cover").contains("band the front edge"));
    let steps = papers::one(&compiled, "assembly-order", Format::Text).expect("the order");
    assert!(
        steps
            .contains("keep the strip for hood between where the sides of dishes and glasses come"),
        "{steps}"
    );
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}
