//! Round holes through boards: figures worked by hand.

use casewright::papers::{self, Format};
use casewright::pipeline::Compilation;
use serde_json::Value;

use crate::bench;
use crate::support::{compile, slugs, spec};

/// The example of the reference, with what it shares.
fn example(from: &str, to: &str) -> Compilation {
    let text = papers::EXAMPLES.iter().find(|own| own.slug == "holes").unwrap().text;
    assert!(text.contains(from), "{from}");
    let shared = format!("{}\n", papers::SHARED.1.replace("units in", ""));
    let text = text.replacen(from, to, 1);
    compile(&text.replace("use \"shop.case\"\n", &shared))
}

/// What is found of its holes.
fn found(from: &str, to: &str) -> Vec<&'static str> {
    let mut found = slugs(&example(from, to));
    // What it shares with other examples is not used up.
    found.retain(|slug| *slug != "block-unused");
    found
}

fn packet(compiled: &Compilation) -> Value {
    let packet = papers::one(compiled, "packet", Format::Json).expect("a packet");
    serde_json::from_str(&packet).unwrap()
}

/// The hole that is bored through a part: its face, what it counts from, and how far.
fn bored(packet: &Value, mark: &str) -> (String, [String; 2], [String; 2], String) {
    let mut all = packet["operations"].as_array().unwrap().iter();
    let own = all
        .find(|own| own["kind"] == "bore" && own["what"] == "round hole" && own["part"] == mark)
        .unwrap_or_else(|| panic!("no hole through {mark}"));
    let text = |own: &Value| own.as_str().unwrap().to_owned();
    let figure = |own: &Value| text(&own["print"]);
    let center = &own["centers"][0];
    (
        text(&own["face"]),
        [text(&own["from"][0]), text(&own["from"][1])],
        [figure(&center[0]), figure(&center[1])],
        figure(&own["diameter"]),
    )
}

/// The countertop is 30 + 1 + 1 = 32 long and 20 + 1 + 1 = 22 wide: 6 from its right end
/// is 26 from its left, and 8 from its back edge is 14 from its front. The end is 34 high
/// and 20 deep: 4 from its back edge is 16 from its front.
#[test]
fn a_hole_is_where_two_edges_say() {
    let packet = packet(&example("hole 2", "hole 2"));
    let owned = |own: [&str; 2]| own.map(str::to_owned);
    let (face, from, at, across) = bored(&packet, "CT");
    assert_eq!((face.as_str(), across.as_str()), ("top face", "2"));
    assert_eq!(from, owned(["left end", "front edge"]));
    assert_eq!(at, owned(["26", "14"]));
    let (_, from, at, _) = bored(&packet, "RE");
    assert_eq!(from, owned(["bottom end", "front edge"]));
    assert_eq!(at, owned(["16", "16"]));
    let (face, from, at, across) = bored(&packet, "K");
    assert_eq!((face.as_str(), across.as_str()), ("inside face", "2-1/2"));
    assert_eq!(from, owned(["bottom end", "left edge"]));
    assert_eq!(at, owned(["14", "6"]));
}

/// It is bored when the board has its size, and before that goes in.
#[test]
fn a_hole_is_bored_before_its_board_goes_in() {
    let packet = packet(&example("hole 2", "hole 2"));
    let operations = packet["operations"].as_array().unwrap();
    let at = |is: &dyn Fn(&Value) -> bool| operations.iter().position(is).expect("it is done");
    for mark in ["CT", "RE", "K", "ST-SH"] {
        let hole = at(&|own| own["what"] == "round hole" && own["part"] == mark);
        let milled = operations
            .iter()
            .rposition(|own| own["kind"] == "mill" && own["parts"].to_string().contains(mark));
        assert!(milled.is_none_or(|milled| milled < hole), "{mark}");
    }
    let laid = at(&|own| own["kind"] == "lay on");
    assert!(at(&|own| own["what"] == "round hole" && own["part"] == "CT") < laid);
}

/// A stretcher 4 in wide lies at the front of the case, 1 in behind the front edge of the
/// countertop, up to 5 in from there. A hole of 2 in with its center 6 in from that edge
/// just clears it, and one at 5-31/32 does not.
#[test]
fn a_hole_comes_out_on_nothing() {
    let at = |front: &str| found("from-back 8; note", &format!("from-front {front}; note"));
    assert_eq!(at("6"), Vec::<&str>::new());
    assert_eq!(at("5-31/32"), ["hole-blocked"]);
    // The bottom lies in a dado of the end, from 4 to 4-23/32 above its lower end.
    let end = |up: &str| found("from-bottom 16", &format!("from-bottom {up}"));
    assert_eq!(end("5-23/32"), Vec::<&str>::new());
    assert_eq!(end("5-11/16"), ["bore-meets-joint"]);
    // Half of it is 1 in, and the end stands 1 in under the edge of the countertop.
    let edge = |right: &str| found("from-right 6", &format!("from-right {right}"));
    assert_eq!(edge("1-1/8"), ["hole-blocked"]);
    assert_eq!(edge("1-3/32"), ["hole-blocked", "hole-near-edge"]);
    assert!(edge("31/32").contains(&"bore-meets-joint"));
}

/// A stretcher 4.04 wide ends 5.04 behind the front edge, where the hole begins. Both are 5.04 as
/// drawn, and the hole is printed at 6-1/32, 0.009 before its place: it still clears the stretcher
/// by what a tape tells. One 5/64 farther in front does not: its edge is printed at 4-31/32, 0.07
/// in the stretcher.
#[test]
fn a_hole_that_grazes_a_board_by_less_than_a_mark_clears_it() {
    let text = papers::EXAMPLES.iter().find(|own| own.slug == "holes").unwrap().text;
    let wide = text.replacen("stretchers 2 { wide 4 }", "stretchers 2 { wide 4.04 }", 1);
    let shared = format!("{}\n", papers::SHARED.1.replace("units in", ""));
    let text = wide.replace("use \"shop.case\"\n", &shared);
    let compiled = compile(&text.replacen("from-back 8; note", "from-front 6.04; note", 1));
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
    let packet = papers::one(&compiled, "packet", Format::Json).expect("a packet");
    let mut packet: Value = serde_json::from_str(&packet).unwrap();
    let all = packet["operations"].as_array_mut().unwrap();
    let bore = all.iter_mut().find(|own| own["what"] == "round hole" && own["part"] == "CT");
    bore.unwrap()["centers"][0][1]["print"] = "5-31/32".into();
    let wrong = "CT: its round hole comes out on FST".to_owned();
    assert!(bench::complaints(&packet.to_string()).contains(&wrong));
}

/// Two places from one side leave the other open.
#[test]
fn a_hole_needs_a_place_in_both_directions() {
    let told = found;
    assert_eq!(told("from-right 6; ", ""), ["word-missing"]);
    assert_eq!(told("from-right 6; ", "from-right 6; from-left 3; "), ["word-twice"]);
    assert_eq!(told("from-right 6; ", "from-bottom 6; "), ["word-missing", "word-unknown"]);
}

/// The media shelf has one behind its player: the case is 1200 wide between rabbets 9 deep
/// in ends of 18, so its back begins 9 from the left side.
#[test]
fn a_hole_in_a_demo_piece_is_told_on_the_cut_list() {
    let compiled = compile(&spec("signal-house-media-shelf.case"));
    let list = papers::one(&compiled, "cut-list", Format::Text).expect("a cut list");
    assert!(list.contains("1 round hole 60 mm through from the inside face"), "{list}");
}

/// The shop sees a hole that comes out on a board: here both the drawing and the figures of
/// the countertop's hole are wrong, 3 in from its front edge, over the stretcher.
#[test]
fn the_shop_sees_a_hole_that_is_closed() {
    let sound = packet(&example("hole 2", "hole 2"));
    assert_eq!(bench::complaints(&sound.to_string()), Vec::<String>::new());
    let mut wrong = sound;
    let of = |figures: &mut Value, inches: f64| {
        figures["print"] = format!("{inches}").into();
        figures["exact"] = format!("{inches}").into();
    };
    let is_countertop = |own: &&mut Value| own["what"] == "round hole" && own["part"] == "CT";
    let operations = wrong["operations"].as_array_mut().unwrap();
    let own = operations.iter_mut().find(is_countertop).unwrap();
    of(&mut own["centers"][0][1], 3.0);
    let drawn = wrong["drawn"]["parts"].as_array_mut().unwrap();
    let part = drawn.iter_mut().find(|own| own["mark"] == "CT").unwrap();
    let features = part["features"].as_array_mut().unwrap();
    let hole = features.iter_mut().find(|own| own["kind"] == "round hole").unwrap();
    of(&mut hole["from"][1], 2.0);
    of(&mut hole["to"][1], 4.0);
    let told = bench::complaints(&wrong.to_string());
    assert!(told.iter().any(|own| own.contains("CT: its round hole comes out on FST")), "{told:?}");
}
