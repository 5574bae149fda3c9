//! Where screws go that meet others or a cut: figures worked by hand.

use serde_json::Value;

use crate::bench;
use crate::support::{compile, packet, screw_lines, slugs, spec};

/// What the shop says of screws.
fn complaints(text: &str) -> Vec<String> {
    let all = bench::built(&compile(text)).into_iter();
    all.filter(|own| own.starts_with("screws")).collect()
}

const STACK: &str = r#"casework 1
job "t" { units in; tape 1/32 }
site { left open; right open; fixing wall }
stock ply { plywood 3/4; sheet { long 96; wide 48 } }
stock thin { plywood 1/4; sheet { long 96; wide 48 } }
case low {
  wide 40; deep 17; high 28; stock ply
  bottom { joint dado { deep 1/4 } }
  back { stock thin; joint rabbet { deep 3/8 } }
  top { stretchers 2 { wide 3 }; joint pocket }
  frame none
  across { open one { share 1 }; divider { joint dado { deep 1/4 } }; open two { share 1 } }
}
case up {
  on low { left 8 }; wide 24; deep 10; high 20; stock ply
  bottom { joint dado { deep 1/4 } }
  back { stock thin; joint rabbet { deep 3/8 } }
  top { panel; joint rabbet { deep 3/8 } }
  frame none
  down { open over { share 1; shelf { fixed 1 } } }
}
"#;

/// The divider stands in the middle of 40, in a dado from 19-5/8 to 20-3/8. The upper case
/// is clear from 8-3/4 to 31-1/4, and three screws along that would have one at 20. So there
/// are two from 8-3/4 to the dado, 2 from both, at 10-3/4 and 17-5/8, and two behind it, at
/// 22-3/8 and 29-1/4. The bottom is let in 1/4: its left end is 8-1/2 from the side.
#[test]
fn no_screw_of_a_case_goes_down_into_a_dado() {
    let text = STACK;
    let from = || "front edge".to_owned();
    let apart = || Some("6-7/8".to_owned());
    let found = screw_lines(text, ["UP-B", "KST"]);
    let wanted =
        [(from(), "2-1/4".to_owned(), apart(), 2), (from(), "13-7/8".to_owned(), apart(), 2)];
    assert_eq!(found, wanted);
    assert_eq!(complaints(text), Vec::<String>::new());
    // With the dado clear of them the three stay.
    let text = text.replace("share 1 }; divider", "wide 12 }; divider");
    let found = screw_lines(&text, ["UP-B", "KST"]);
    assert_eq!(found, [(from(), "2-1/4".to_owned(), Some("9-1/4".to_owned()), 3)]);
}

/// Pocket holes at the lower end of a partition part the lines of the packers at both its
/// sides. The first and the last part of a line take one screw each, which will do, and
/// those of the second packer go 1/2 beside those of the first.
#[test]
fn screws_of_packers_at_both_sides_of_a_partition_keep_apart() {
    let text = spec("first.case").replace(
        "drawer upper { high 5 }",
        "across { high 5; drawer one { share 1 }; stile { wide 1-1/2; partition { joint pocket } }; drawer two { share 1 } }",
    );
    let low = |through| {
        let lines = screw_lines(&text, [through, "PON-TW"]).into_iter();
        let low = lines.filter(|(from, ..)| from == "bottom edge");
        low.map(|(_, first, _, count)| (first, count)).collect::<Vec<_>>()
    };
    let firsts = |firsts: [&str; 2]| firsts.map(|first| (first.to_owned(), 1)).to_vec();
    assert_eq!(low("ON-RPK"), firsts(["2-13/32", "12-5/32"]));
    assert_eq!(low("TW-LPK"), firsts(["1-29/32", "11-21/32"]));
    assert_eq!(complaints(&text), Vec::<String>::new());
}

/// A false front with such a place in the list, over the frame.
fn held(high: &str) -> String {
    let text = spec("first.case")
        .replace("drawer upper { high 5 }", &format!("false upper {{ high {high} }}"));
    let text = text.replace("set inset", "set overlay { by 3/8 }").replace("pull knob\n", "\n");
    // No drawer is left whose box is to be made.
    let (before, rest) = text.split_once("  drawers {").expect("the drawers");
    let (_, after) = rest.split_once("joint rabbet\n  }\n").expect("their end");
    format!("{before}{after}")
}

/// An opening of 2 has blocks of 1-3/4. Their screws into the front are a quarter of that
/// from both ends, 7/16 and 1-5/16; beside them is no place for two more, so one goes into
/// the stile, half way between. In blocks of 2-3/4 two stand 1-3/8 apart, and those into the
/// stile find room.
#[test]
fn a_short_block_has_one_screw_between_two() {
    let line = |first: &str, apart: Option<&str>, count| {
        ("front edge".to_owned(), first.to_owned(), apart.map(str::to_owned), count)
    };
    assert_eq!(screw_lines(&held("2"), ["UP-LHB", "LS"]), [line("7/8", None, 1)]);
    assert_eq!(complaints(&held("2")), Vec::<String>::new());
    let [(_, _, _, count)] = &*screw_lines(&held("3"), ["UP-LHB", "LS"]) else {
        panic!("one line")
    };
    assert_eq!(*count, 2);
    assert_eq!(complaints(&held("3")), Vec::<String>::new());
}

/// A block of 3/4 has room for one screw. With 9/32 from one to the next, 5/32 for the
/// screw and 1/8 of wood, two want a block of 1-1/8.
#[test]
fn a_block_that_is_too_short_for_its_screws_is_told() {
    // The slide, the pull, and the sides of the drawer that was are left over.
    let found = |high: &str| {
        let mut all = slugs(&compile(&held(high)));
        all.retain(|slug| *slug != "block-unused");
        all
    };
    assert_eq!(found("1"), ["screws-meet"]);
    assert_eq!(found("1-1/2"), Vec::<&str>::new());
}

/// Two cases of 30 on one base. The bottom of the right one is let in 1/4, so it is 29 long
/// from 30-1/2 on, and five screws 2 from its ends would be 6-1/4 apart, the third at 45. The
/// base there has a sleeper whose middle is 15-3/16 from its right end, at 44-13/16, and is
/// screwed to that: only 3/16 beside it. So they all go 1 to the left.
#[test]
fn screws_into_a_base_under_two_cases_clear_those_of_the_base() {
    let text = r#"casework 1
job "t" { units in; tape 1/32 }
site { left open; right open; fixing wall }
stock ply { plywood 3/4; sheet { long 96; wide 48 } }
stock thin { plywood 1/4; sheet { long 96; wide 48 } }
run row {
  wide 60; deep 20; high 34; stock ply
  base { toe-kick; high 4; set-back 3; separate }
  bottom { joint dado { deep 1/4 } }
  back { stock thin; joint rabbet { deep 3/8 } }
  top { panel; joint dado { deep 1/4 } }
  frame none
  across {
    case one { wide 30; across { open l { share 1 } } }
    case two { share 1; across { open r { share 1 } } }
  }
}
"#;
    let found = screw_lines(text, ["TW-B", "BSF"]);
    assert_eq!(found, [("front edge".to_owned(), "1".to_owned(), Some("6-1/4".to_owned()), 5)]);
    assert_eq!(complaints(text), Vec::<String>::new());
}

/// Three stretchers of 3 share out the 16-3/4 before the back: the middle one lies from
/// 6-7/8 to 9-7/8. The bottom of a case 7-1/2 deep begins 9-1/2 behind the front and lies
/// 3/8 over it: a screw wants 1/4 beside it on both sides. That of one 7-5/8 deep lies 1/2
/// over it.
#[test]
fn a_narrow_strip_of_a_stretcher_holds_no_screw() {
    let text = STACK.replace("stretchers 2 { wide 3 }", "stretchers 3 { wide 3 }");
    let into = |deep: &str, board: &str| {
        let text = text.replace("deep 10; high 20", &format!("deep {deep}; high 20"));
        assert_eq!(complaints(&text), Vec::<String>::new());
        screw_lines(&text, ["UP-B", board]).len()
    };
    assert_eq!(["7-1/2", "7-5/8"].map(|deep| into(deep, "MST1")), [0, 2]);
    assert_eq!(["7-1/2", "7-5/8"].map(|deep| into(deep, "KST")), [2, 2]);
}

/// A case on the floor, whose bottom of 3/4 is flush with a rail, over a leg.
const ON_A_LEG: &str = r#"casework 1
job "t" { units in; tape 1/32 }
site { left open; right open; fixing wall }
stock ply { plywood 3/4; sheet { long 96; wide 48 } }
stock thin { plywood 1/4; sheet { long 96; wide 48 } }
stock maple { lumber 4/4; thickness 3/4; species sugar-maple; sawn quarter }
case low {
  wide 40; deep 17; high 28; stock ply
  leg { }
  bottom { joint screw; flush }
  back { stock thin; joint rabbet { deep 3/8 } }
  top { stretchers 2 { wide 3 }; joint pocket }
  frame {
    stock maple; joint dowel
    stile left { wide 2 }
    stile right { wide 2 }
    rail top { wide 1-1/2 }
    rail bottom { wide 1-3/4 }
    down { open one { share 1 } }
  }
}
"#;

/// Under a rail of 1-3/4 the leg is 1 high: of 3/4 + 1 less 1/8 to its lower edge, 1-5/8,
/// the longest screw sold is 1-1/2. Under one of 2-1/4 it is 1-1/2 high, and the screw goes
/// 1 in into it: 1-3/4. In 1/2, it is the longest up to 3/4 + 1/2 − 1/8: 1-1/8.
#[test]
fn a_screw_stays_in_a_low_leg() {
    for (rail, long) in [("1-3/4", "1-1/2"), ("2-1/4", "1-3/4"), ("1-1/4", "1-1/8")] {
        let text = ON_A_LEG
            .replace("rail bottom { wide 1-3/4 }", &format!("rail bottom {{ wide {rail} }}"));
        let packet = packet(&compile(&text));
        let is_of_leg = |own: &&Value| own["kind"] == "fasten" && own["in"][0]["part"] == "LEG";
        let found = packet["operations"].as_array().unwrap().iter().find(is_of_leg);
        assert_eq!(found.expect("screws of the leg")["size"]["is"]["print"], long, "{rail}");
        assert_eq!(complaints(&text), Vec::<String>::new(), "{rail}");
    }
}

/// A hinge block is 32 and twice 20 mm high, 72. Its plate is screwed 37 mm behind its front
/// edge, and its own two screws stand halfway before that, 18.5 mm (185/254 in), a quarter
/// of the block from its ends: 18 mm, on the tape 11/16, and 1-13/32 apart.
#[test]
fn the_screws_of_a_hinge_block_stand_before_its_plate() {
    let text = spec("first.case").replacen("swing 105 deg", "swing 105 deg; plate { }", 1);
    let found = screw_lines(&text, ["ST-LH1", "LE"]);
    let wanted = ("front edge".to_owned(), "11/16".to_owned(), Some("1-13/32".to_owned()), 2);
    assert_eq!(found, [wanted]);
    let packet = packet(&compile(&text));
    let all = packet["operations"].as_array().expect("operations").iter();
    let at = |line: &&Value| line["kind"] == "screw line" && line["through"] == "ST-RH2";
    let line = all.into_iter().find(at).expect("a line");
    assert_eq!(line["at"]["exact"], "185/254");
    assert_eq!(complaints(&text), Vec::<String>::new());
}
