//! Cases that stand on others: figures worked by hand.

use casewright::editor::{self, Names};
use casewright::measure::Length;
use casewright::papers::{self, Format};
use casewright::parts::{Direction, FeatureKind, Part};
use casewright::pipeline::Compilation;
use casewright::plans::Workings;

use crate::bench;
use crate::support::{compile, packet, slugs, spec};

fn hutch() -> String {
    spec("heron-quay-hutch.case")
}

/// The hutch with its bottom down on the countertop, so that screws go through it.
fn screwed() -> String {
    hutch().replace(
        "deep 1/4 }; flush }\n  back { stock thin; joint rabbet { deep 3/8 } }\n  top { panel",
        "deep 1/4 } }\n  back { stock thin; joint rabbet { deep 3/8 } }\n  top { panel",
    )
}

fn sound(text: &str) -> Compilation {
    let compiled = compile(text);
    assert!(compiled.piece.is_some(), "{:#?}", compiled.diagnostics);
    compiled
}

fn inches(over: i64, under: i64) -> Length {
    Length::inches(over, under)
}

fn part<'c>(compiled: &'c Compilation, path: &str) -> &'c Part {
    let parts = compiled.parts.as_ref().expect("parts");
    parts.named(path).unwrap_or_else(|| panic!("{path}")).1
}

fn order(compiled: &Compilation) -> String {
    papers::one(compiled, "assembly-order", Format::Text).expect("the paper")
}

/// The base is 33 high and 42 wide, and its countertop 3/4 thick: the hutch of 36 stands
/// in the middle, 3 from its left side, from 33-3/4 to 75-3/4. Its back is in the plane of
/// the other's, 18 behind the face of the base, so its frame of 3/4 begins 7 behind that.
/// The flush bottom of 23/32 lies with its top level with that of the rail of 1-1/4.
#[test]
fn it_stands_in_the_middle_with_its_back_at_the_wall() {
    let compiled = sound(&hutch());
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let end = part(&compiled, "hutch.left-end");
    assert_eq!(end.extent(Direction::Y), (inches(135, 4), inches(303, 4)));
    assert_eq!(end.extent(Direction::X).0, inches(3, 1));
    assert_eq!(end.extent(Direction::Z), (inches(31, 4), inches(18, 1)));
    let bottom = part(&compiled, "hutch.bottom");
    assert_eq!(bottom.extent(Direction::Y).1, inches(35, 1));
    let base = part(&compiled, "sideboard.left-end");
    // A cover of 23/32 lies over it.
    assert_eq!(base.extent(Direction::X).0, inches(23, 32));
    // Two nailers hold it, since no screw goes down; the base of 33 has one.
    part(&compiled, "hutch.top-nailer");
    part(&compiled, "hutch.bottom-nailer");
    part(&compiled, "sideboard.top-nailer");
    assert!(compiled.parts.as_ref().unwrap().named("sideboard.bottom-nailer").is_none());
}

/// `left` counts from the side of the base; its countertop reaches 3/4 past that.
#[test]
fn its_place_is_told_from_the_side_and_from_the_countertop() {
    let compiled = sound(&hutch().replace("  on sideboard\n", "  on sideboard { left 5 }\n"));
    assert_eq!(part(&compiled, "hutch.left-end").extent(Direction::X).0, inches(5, 1));
    let packet = packet(&compiled);
    let operations = packet["operations"].as_array().unwrap();
    let set = operations.iter().find(|own| own["kind"] == "set on case").unwrap();
    assert_eq!(set["left"]["print"], "5");
    assert_eq!(set["from_end"]["print"], "5-3/4");
    assert_eq!(set["on"], serde_json::json!(["sideboard"]));
    assert!(set.get("bottom").is_none() && set.get("back").is_none());
    let told = format!("{:?}", editor::why(&compiled, "hutch"));
    assert!(told.contains("\"up\"") && told.contains("\"from left\""), "{told}");
}

/// First the base is fixed to the wall, then it gets its countertop, then the hutch comes
/// onto that, and the wall holds it before anybody lets go.
#[test]
fn the_base_is_fixed_and_covered_before_it_comes() {
    let order = order(&sound(&hutch()));
    let at = |line: &str| order.find(line).unwrap_or_else(|| panic!("{line}"));
    let steps = [
        "Carry it in and level it",
        "Fix sideboard to the wall",
        "Lay on the countertop",
        "Set hutch on sideboard, and fix it to the wall",
    ];
    let places: Vec<usize> = steps.iter().map(|own| at(own)).collect();
    assert!(places.is_sorted(), "{places:?}");
    assert!(!order.contains("and screw it down"));
    // Only the base is set on the floor and leveled there.
    assert!(order.contains("lift hutch onto CT with 2 people"));
}

/// The solid top of 18-3/4 is held by the front stretcher of 4 behind the frame of 3/4: its
/// row runs 2-3/4 behind the face. The hutch is at the wall, and one row holds it down, 2
/// before the back edge of its bottom, which the back of 13/64 covers: 18 - 13/64 - 2. That
/// row goes through slots, since the countertop moves and the hutch does not.
///
/// The bottom is 36 less two ends of 23/32 long between them: 34-9/16; less 2 at each end
/// leaves 30-9/16, which is three spaces of no more than 12: four screws.
#[test]
fn solid_wood_slides_under_it() {
    let compiled = sound(&screwed());
    let bottom = part(&compiled, "hutch.bottom");
    let slots: Vec<_> =
        bottom.features.iter().filter(|own| own.kind == FeatureKind::Slot).collect();
    assert_eq!(slots.len(), 4);
    let front = bottom.extent(Direction::Z).0;
    for slot in &slots {
        assert_eq!(front + (slot.v.0 + slot.v.1).half(), inches(18 * 64 - 13 - 128, 64));
        assert_eq!(slot.deep, bottom.thickness.length);
        assert_eq!(slot.u.1 - slot.u.0, inches(1, 4));
        assert!(slot.v.1 - slot.v.0 > inches(1, 4));
    }
    assert!(compiled.parts.as_ref().unwrap().named("hutch.bottom-nailer").is_none());
    assert!(order(&compiled).contains("Set hutch on sideboard, and screw it down"));
}

/// On a countertop of sheet goods they go through round holes, in a line that is struck.
/// The bottom is let in 1/4 at each end, so the first of them is 2-1/4 from its end.
#[test]
fn on_a_sheet_it_is_screwed_fast() {
    let compiled =
        sound(&screwed().replace("countertop { stock maple;", "countertop { stock ply;"));
    let bottom = part(&compiled, "hutch.bottom");
    assert!(bottom.features.iter().all(|own| own.kind != FeatureKind::Slot));
    let packet = packet(&compiled);
    let operations = packet["operations"].as_array().unwrap();
    let set = operations.iter().find(|own| own["kind"] == "set on case").unwrap();
    assert_eq!((set["round"].as_u64(), set["slotted"].as_u64()), (Some(4), None));
    let mut lines = operations.iter().filter(|own| own["kind"] == "screw line");
    let line = lines.find(|own| own["through"] == set["bottom"] && own["into"] == "CT").unwrap();
    assert_eq!(line["first"]["print"], "2-1/4");
    assert_eq!(line["count"], 4);
}

/// No wall: two rows, and both tip as one about the toe kick of the base.
#[test]
fn without_a_wall_two_rows_hold_it() {
    let compiled = sound(
        &screwed()
            .replace("fixing wall; ", "")
            .replace("countertop { stock maple;", "countertop { stock ply;"),
    );
    let packet = packet(&compiled);
    let operations = packet["operations"].as_array().unwrap();
    let set = operations.iter().find(|own| own["kind"] == "set on case").unwrap();
    assert_eq!(set["round"].as_u64(), Some(8));
    assert_eq!(set["back"]["print"], "0");
    let (piece, parts) = (compiled.piece.as_ref().unwrap(), compiled.parts.as_ref().unwrap());
    let work = Workings::of(piece, parts);
    let [tipping] = work.tipping() else { panic!("{:#?}", work.tipping()) };
    assert_eq!(tipping.cases.len(), 2);
}

/// Ends that stand over those below bend nothing. The base is 42 wide, and its ends lie
/// 23/32 in from that behind covers; a hutch of 40-9/16 stands end over end.
#[test]
fn an_end_over_an_end_bends_nothing() {
    let wide = hutch().replace("wide 36; deep 11", "wide 40-9/16; deep 11");
    for (text, bends) in [(wide, false), (hutch(), true)] {
        let compiled = sound(&text);
        let (piece, parts) = (compiled.piece.as_ref().unwrap(), compiled.parts.as_ref().unwrap());
        let work = Workings::of(piece, parts);
        let [presses] = work.presses() else { panic!("one") };
        assert_eq!(presses.bends.is_some(), bends);
    }
}

/// The hutch of 36 stands 3 in: its ends of 23/32 have their middles 3-23/64 from the side.
/// A cover and an end of 23/32 each are 1-7/16, so that is 1-59/64 from the inside of the
/// end below, over a free span of 42 - 2 × 1-7/16 = 39-1/8. On
/// its three boards stand 15 and twice 20 lb per square foot. What it weighs with that
/// comes down half on each end. Under it lie 11 in of quartersawn maple of 3/4:
/// EI = 1,830,000 × 11 × 0.75³ / 12. The two ends bend it alike, and years make it 2.5
/// times as much.
#[test]
fn its_weight_bends_the_countertop_as_worked() {
    let compiled = sound(&hutch());
    let (piece, parts) = (compiled.piece.as_ref().unwrap(), compiled.parts.as_ref().unwrap());
    let work = Workings::of(piece, parts);
    let [presses] = work.presses() else { panic!("one") };
    let bends = presses.bends.as_ref().unwrap();
    assert_eq!(bends.span, inches(313, 8));
    let pounds = (presses.own.0 + presses.holds.0).to_f64() / 0.453_592_37;
    let (span, at) = (39.125_f64, 1.921_875_f64);
    let stiff = 1_830_000.0 * 11.0 * 0.75_f64.powi(3) / 12.0;
    let one = pounds / 2.0 * at * (span.powi(2) - at.powi(2)).powf(1.5)
        / (9.0 * 3.0_f64.sqrt() * stiff * span);
    let sag = bends.sag.to_mm_f64() / 25.4;
    assert!((sag / (one * 2.0 * 2.5) - 1.0).abs() < 0.02, "{sag} {one}");
}

/// Two run cases, as high as each other, carry one that reaches over both; it counts from
/// the left side of the run.
#[test]
fn it_stands_on_a_run() {
    let run = hutch();
    let (head, tail) = run.split_once("case sideboard").unwrap();
    let (_, upper) = tail.split_once("case hutch").unwrap();
    let text = format!(
        "{head}run base {{ wide 60; deep 18; high 33; stock ply\n base {{ toe-kick; high 4; set-back 3; separate }}\n bottom {{ joint dado {{ deep 1/4 }} }}\n back {{ stock thin; joint rabbet {{ deep 3/8 }} }}\n top {{ stretchers 2 {{ wide 4 }} }}\n countertop {{ stock maple }}\n frame none\n across {{ case one {{ share 1; across {{ doors a {{ share 1 }} }} }}; case two {{ share 1; across {{ doors b {{ share 1 }} }} }} }}\n fronts {{ stock ply; set overlay; gap 1/8; hinge cup; pull knob }}\n finish oil }}\n\ncase hutch{}",
        upper.replace("on sideboard", "on base { left 12 }")
    );
    let compiled = sound(&text);
    assert_eq!(part(&compiled, "hutch.left-end").extent(Direction::X).0, inches(12, 1));
    let packet = packet(&compiled);
    let operations = packet["operations"].as_array().unwrap();
    let set = operations.iter().find(|own| own["kind"] == "set on case").unwrap();
    assert_eq!(set["on"], serde_json::json!(["one", "two"]));
    let past = compile(&text.replace("left 12", "left 30"));
    assert!(slugs(&past).contains(&"stack-unheld"), "{:?}", slugs(&past));
}

/// The name of the base follows where another case stands on it.
#[test]
fn a_new_name_is_followed() {
    let compiled = sound(&hutch());
    let names = Names::of(&compiled);
    let base = names.all().find(|(_, named)| named.path == "sideboard").unwrap().0;
    assert_eq!(names.mentions(base).count(), 2);
}

/// A case on a run of two whose tops are panels, so far from its left side.
fn on_two(left: &str) -> String {
    let case = |name: &str| {
        format!(
            "    case {name} {{ wide 30; bottom {{ joint dado {{ deep 1/4 }} }}; back {{ stock thin; joint rabbet {{ deep 3/8 }} }}; top {{ panel; joint dowel }}; frame none; across {{ open {name}-one {{ share 1 }} }} }}\n"
        )
    };
    format!(
        r#"casework 1
job "t" {{ units in; tape 1/32 }}
site {{ left open; right open; fixing wall }}
stock ply {{ plywood 3/4; sheet {{ long 96; wide 48 }} }}
stock thin {{ plywood 1/4; sheet {{ long 96; wide 48 }} }}
stock maple {{ lumber 4/4; thickness 3/4; species sugar-maple; sawn quarter }}
run row {{ deep 20; high 29; stock ply
  base {{ toe-kick; high 4; set-back 3; separate }}
  across {{
{}{}  }}
}}
case upper {{ on row {{ left {left} }}; wide 24; deep 10; high 29; stock ply
  bottom {{ joint dowel; flush }}
  back {{ stock thin; joint rabbet }}
  top {{ panel; joint rabbet {{ deep 3/8 }} }}
  shelves {{ joint dado {{ deep 1/4 }} }}
  frame {{ stock maple; joint pocket; stile left {{ wide 1-3/4 }}; stile right {{ wide 1-3/4 }}
    rail top {{ wide 2 }}; rail bottom {{ wide 1-1/4 }}; down {{ open above {{ share 1; shelf {{ fixed 1 }} }} }} }}
}}
"#,
        case("a"),
        case("b")
    )
}

/// Two cases 30 wide, whose tops lie between their ends of 3/4: that of the first from 3/4 to
/// 29-1/4, and that of the second from 30-3/4 to 59-1/4. On a case of 24 that begins 29-1/2
/// from the side, the left end stands over the two ends that meet, from 29-1/2 to 30-1/4, and
/// the right one, from 52-3/4 to 53-1/2, over the second top. Begun at 12 its ends come down on
/// the tops, and the rail of its frame on the ends between them; begun at 1, on one top only.
#[test]
fn what_it_comes_down_on_is_told() {
    let told = |left: &str| {
        let compiled = sound(&on_two(left));
        assert_eq!(crate::bench::built(&compiled), Vec::<String>::new(), "{left}");
        let packet = packet(&compiled);
        let all = packet["operations"].as_array().unwrap();
        let own = all.iter().find(|own| own["kind"] == "set on case").expect("the step");
        own["into"]
            .as_array()
            .unwrap()
            .iter()
            .map(|own| own.as_str().unwrap().to_owned())
            .collect::<Vec<_>>()
    };
    assert_eq!(told("29-1/2"), ["A-RE", "B-LE", "B-T"]);
    assert_eq!(told("12"), ["A-RE", "A-T", "B-LE", "B-T"]);
    assert_eq!(told("1"), ["A-T"]);
    let order = order(&sound(&on_two("29-1/2")));
    assert!(
        order.contains("lay a straightedge over A-RE, B-LE, B-T where upper comes to stand"),
        "{order}"
    );
}

/// The tops lie 3/8 deep in rabbets of the ends: that of the first case reaches to 29-5/8. The
/// bottom of the upper case, let in 1/4, is bare from 23/32 behind its left side: begun at
/// 27-3/8 it laps the top by 1-17/32, where a right-angle driver of 1-1/2 goes in beside its
/// end; begun at 27-1/2 by 1-13/32, and at 28-7/8 by 1/32 of wood.
#[test]
fn a_short_lap_takes_no_screw() {
    let into = |left: &str| {
        let text = on_two(left)
            .replace("top { panel; joint dowel }", "top { panel; joint rabbet { deep 3/8 } }")
            .replace("bottom { joint dowel; flush }", "bottom { joint dado { deep 1/4 } }");
        let compiled = sound(&text);
        assert_eq!(crate::bench::built(&compiled), Vec::<String>::new(), "{left}");
        let packet = packet(&compiled);
        let all = packet["operations"].as_array().unwrap().iter();
        let lines = all.filter(|own| own["kind"] == "screw line" && own["through"] == "UP-B");
        let mut into: Vec<String> =
            lines.map(|own| own["into"].as_str().unwrap().to_owned()).collect();
        into.sort_unstable();
        into.dedup();
        into
    };
    assert_eq!(into("27-3/8"), ["A-T", "B-T"]);
    assert_eq!(into("27-1/2"), ["B-T"]);
    assert_eq!(into("28-7/8"), ["B-T"]);
}

/// Two cases in a row, 53 and 38 wide, and one of 21 over their middle.
const OVER_TWO: &str = r#"casework 1
job "Two and one" { units in; tape 1/64 }
shop { clamps 40; open-time 40 min }
site { left open; right open }
stock ply { plywood 3/4; sheet { long 96; wide 48 } }
stock thin { plywood 1/4; sheet { long 96; wide 48 } }
stock maple { lumber 4/4; thickness 3/4; species sugar-maple }
run row {
  deep 20; high 28; stock ply
  base { toe-kick; high 4; set-back 3; separate }
  across {
    case a {
      wide 53
      bottom { joint dowel }
      back { stock thin; joint screw }
      top { stretchers 2 { wide 3 }; joint pocket }
      frame none
      down { open n6 { share 1 } }
    }
    case b {
      wide 38
      bottom { joint dowel }
      back { stock thin; joint screw }
      top { panel; joint screw }
      frame none
      down { open n8 { share 1 } }
    }
  }
}
case upper {
  on row; wide 21; deep 10; high 21; stock ply
  bottom { joint dowel }
  back { stock thin; joint screw }
  top { panel; joint dowel }
  frame none
  down { open above { share 1 } }
}
"#;

/// Worked by hand. The upper case covers the row from 35 to 56, and its bottom goes from 35-3/4
/// to 55-1/4; the right one of the lower tops begins at 53-3/4. They share 1-1/2, whose middle is
/// 18-3/4 from the left end of the bottom. A screw of the end below, 2 long, is in the way of
/// the back one of the screws down: the boards have no wood further than that middle for it to
/// step aside to by an inch, since the bottom is 19-1/2 long.
#[test]
fn a_screw_that_steps_aside_stays_in_the_wood_that_both_boards_have() {
    let compiled = sound(OVER_TWO);
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
    let packet = packet(&compiled);
    let lines = packet["operations"].as_array().unwrap().iter();
    let mut down = lines.filter(|own| own["through"] == "UP-B" && own["into"] == "B-T").peekable();
    assert!(down.peek().is_some());
    for line in down {
        assert_eq!((&line["first"]["print"], &line["count"]), (&"18-3/4".into(), &1.into()));
    }
}

/// What stands on another is planed to the wall before it comes to its place, where it would
/// reach into the wall by what may come off. The screws in slots are never turned tight.
#[test]
fn a_stile_above_is_scribed_before_its_case_comes_to_its_place() {
    let text = hutch()
        .replace("left open", "left wall { scribe 1/2 }")
        .replace("  cover left { stock ply }\n", "")
        .replace("  on sideboard\n", "  on sideboard { left 0 }\n")
        .replace("stile left  { wide 1-3/4 }", "stile left  { wide 2-1/2 }");
    let order = order(&sound(&text));
    let at = |told: &str| order.find(told).unwrap_or_else(|| panic!("no {told}: {order}"));
    let steps = [
        "beside its place, farther from the wall by the same amount at the front and the back",
        "scribe the left stile of hutch to the wall",
        "lift it down again, and plane to the line",
        "not slid, with its left side even with that of sideboard, and its back at the wall",
    ];
    assert!(steps.map(at).is_sorted(), "{order}");
}
