//! Bought legs, with figures worked by hand.

use casewright::diagnostics::Severity;
use casewright::papers::{self, Format};
use serde_json::Value;

use crate::bench;
use crate::support::{compile, packet};

/// A case 40 in wide and 16 deep of boards 3/4 thick, on these legs.
fn spec(leg: &str, legs: &str, more: &str) -> String {
    format!(
        "casework 1
job \"legs\" {{ units in; tape 1/32 }}
site {{ }}
shop {{ clamps 20; open-time 30 min }}
stock ply {{ plywood 3/4; sheet {{ long 96; wide 48 }} }}
stock thin {{ plywood 1/4; sheet {{ long 96; wide 48 }} }}
leg l {{ {leg} }}
case c {{
  wide 40; deep 16; high 30
  stock ply
  base {{ legs l {{ {legs} }} }}
  bottom {{ joint dado {{ deep 1/4 }}{more} }}
  back {{ stock thin; joint rabbet {{ deep 3/8 }} }}
  top {{ panel; joint rabbet }}
  frame none
  across {{ open a {{ share 1 }} }}
}}
"
    )
}

const PLATE: &str = "high 6; wide 2-1/2; foot 1; plate { screws 4; from-edge 3/8; deep 1/2 }";

fn slugs(text: &str) -> Vec<&'static str> {
    let compiled = compile(text);
    let own = compiled.diagnostics.iter().filter(|own| own.severity != Severity::Note);
    own.map(|own| own.slug).collect()
}

fn operations(text: &str, kind: &str) -> Vec<Value> {
    let packet = packet(&compile(text));
    let all = packet["operations"].as_array().unwrap().iter();
    all.filter(|own| own["kind"] == kind).cloned().collect()
}

/// The figures of a list of places as they are printed.
fn places(own: &Value, key: &str) -> Vec<[String; 2]> {
    let all = own[key].as_array().unwrap().iter();
    let print = |own: &Value| own["print"].as_str().unwrap().to_owned();
    all.map(|own| [print(&own[0]), print(&own[1])]).collect()
}

#[test]
fn plates_stand_in_from_the_outside_of_the_ends() {
    // The bottom reaches 1/4 into ends 3/4 thick: its ends lie 1/2 inside of the outside
    // faces. A plate 1 in, 2-1/2 wide, has its middle 2-1/4 from there, so 1-3/4 from the
    // end of the bottom, which is 39 long. The bottom is 15-3/4 deep, since the back takes
    // 1/4: middles 2-1/4 and 13-1/2 from its front edge.
    let text = spec(PLATE, "in 1", "");
    assert!(slugs(&text).is_empty(), "{:?}", slugs(&text));
    let all = operations(&text, "legs on");
    let [legs] = all.as_slice() else { panic!("{all:?}") };
    let own = |u: &str, v: &str| [u.to_owned(), v.to_owned()];
    let expected = vec![
        own("1-3/4", "2-1/4"),
        own("37-1/4", "2-1/4"),
        own("1-3/4", "13-1/2"),
        own("37-1/4", "13-1/2"),
    ];
    assert_eq!(places(legs, "centers"), expected);
    // Its screws stand 1-1/4 less 3/8 from the middle both ways: 7/8.
    let bored = operations(&text, "bore");
    let [bored] = bored.as_slice() else { panic!("{bored:?}") };
    assert_eq!(bored["what"], "leg hole");
    assert_eq!(bored["face"], "underside");
    let holes = places(bored, "centers");
    assert_eq!(holes.len(), 16);
    for hole in [own("7/8", "1-3/8"), own("2-5/8", "3-1/8"), own("38-1/8", "14-3/8")] {
        assert!(holes.contains(&hole), "{hole:?} of {holes:?}");
    }
}

#[test]
fn the_ends_stand_so_high_as_the_legs() {
    let packet = packet(&compile(&spec(PLATE, "in 1", "")));
    let ends = packet["drawn"]["parts"].as_array().unwrap();
    let end = ends.iter().find(|part| part["mark"] == "LE").unwrap();
    // 30 less 6.
    assert_eq!(end["size"][0]["print"], "24");
}

#[test]
fn a_hole_keeps_its_distance_from_ends_and_edges() {
    // 3/8 of wood between the end, 3/4 thick, and a screw 3/8 inside the plate: 3/4 in.
    assert!(slugs(&spec(PLATE, "in 3/4", "")).is_empty());
    assert_eq!(slugs(&spec(PLATE, "in 23/32", "")), ["leg-unheld"]);
}

#[test]
fn a_screw_does_not_come_through() {
    // 3/4 of bottom: 11/16 leaves 1/16.
    let plate = |deep: &str| format!("high 6; wide 2-1/2; foot 1; plate {{ deep {deep} }}");
    assert!(slugs(&spec(&plate("11/16"), "in 1", "")).is_empty());
    assert_eq!(slugs(&spec(&plate("23/32"), "in 1", "")), ["leg-unheld"]);
}

#[test]
fn three_legs_across_halve_the_span() {
    // The bottom of a case 40 wide spans 38-1/2 on two legs across, under what lies open.
    let load = "; load 60 lb per ft2";
    assert_eq!(slugs(&spec(PLATE, "in 1", load)), ["sag"]);
    assert!(slugs(&spec(PLATE, "in 1; across 3", load)).is_empty());
    let legs = operations(&spec(PLATE, "in 1; across 3", ""), "legs on");
    let centers = places(&legs[0], "centers");
    assert_eq!(centers.len(), 6);
    // Half of 39.
    assert_eq!(centers[1][0], "19-1/2");
}

#[test]
fn a_bolt_has_one_hole_in_its_middle() {
    let text = spec("high 6; wide 2; foot 1; bolt { bore 3/8; deep 1/2 }", "in 1", "");
    let bored = operations(&text, "bore");
    // 1 in and half of 2, less the 1/2 that the bottom begins farther in.
    assert_eq!(places(&bored[0], "centers")[0], ["1-1/2".to_owned(), "2".to_owned()]);
    assert_eq!(bored[0]["diameter"]["print"], "3/8");
}

/// Four legs with four screws in each plate, in holes 1/2 deep.
#[test]
fn the_screws_of_plates_are_told_and_not_counted() {
    let list = papers::one(&compile(&spec(PLATE, "in 1", "")), "buying-list", Format::Text);
    let told =
        "The plates of the legs take 16 screws, none of which may go more than 1/2 into the wood.";
    assert!(list.unwrap().contains(told));
}

/// Through ends of 49/64 it takes screws of 2, which go 1-15/64 into the bottom. The dowel of a leg
/// is bored into that 1-5/16 and half of its 2 in from the outside, 1-35/64 from the end of the
/// bottom, so from 1-3/64 on and up to its middle: from 1-13/16 to 2-13/16 behind its front edge,
/// and from 12-15/16 to 13-15/16. The screws keep 1/4 from that and from the rabbet of the
/// ends, 1/4 wide at their back: up to 1-9/16 there is room for one, in the middle of that, and from
/// 3-1/16 to 12-11/16 for two, 2 from the ends of that; from 14-3/16 to 15-1/2 it is less than the
/// 1-1/2 that a stretch must have.
#[test]
fn screws_into_the_bottom_keep_clear_of_the_dowels() {
    let leg = "high 5; wide 2; foot 1-1/4; dowel { bore 1; deep 3/8 }";
    let text = spec(leg, "in 1-5/16", "").replace("joint dado { deep 1/4 }", "joint screw");
    let text = text.replace("plywood 3/4; sheet", "plywood 3/4; actual 49/64; sheet");
    let lines = operations(&text, "screw line");
    let own = lines.iter().filter(|own| own["through"] == "LE" && own["into"] == "B");
    let own: Vec<_> =
        own.map(|own| (own["first"]["print"].as_str().unwrap(), own["count"].clone())).collect();
    let places = [("25/32", 1), ("5-1/16", 2)];
    assert_eq!(own, places.map(|(first, count)| (first, Value::from(count))));
    assert_eq!(bench::built(&compile(&text)), Vec::<String>::new());
}
