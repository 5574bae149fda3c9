//! Countertops: figures worked by hand.

use casewright::measure::Length;
use casewright::papers::{self, Format};
use casewright::parts::{Feature, FeatureKind, Part};
use casewright::pipeline::Compilation;
use serde_json::Value;

use crate::support::{compile, slugs, spec};

fn bar() -> String {
    spec("quarry-steps-coffee-bar.case")
}

fn part(compiled: &Compilation, path: &str) -> Part {
    let parts = compiled.parts.as_ref().expect("parts");
    parts.named(path).unwrap_or_else(|| panic!("{path}")).1.clone()
}

fn inches(top: i64, bottom: i64) -> Length {
    Length::inches(top, bottom)
}

fn slots(part: &Part) -> Vec<Feature> {
    part.features.iter().filter(|own| own.kind == FeatureKind::Slot).cloned().collect()
}

/// What the step says that lays it on.
fn lay_on(compiled: &Compilation) -> Value {
    let packet = papers::one(compiled, "packet", Format::Json).expect("a packet");
    let packet: Value = serde_json::from_str(&packet).unwrap();
    let mut own = packet["operations"].as_array().unwrap().iter();
    own.find(|own| own["kind"] == "lay on").expect("it is laid on").clone()
}

/// The bar is 40 wide and 20 deep. At the left stands a wall, at the right the end is
/// seen: 40 + 0 + 1/2 long; 20 + 1 wide. It lies 35 above the floor, 1 before the face
/// of the frame.
#[test]
fn it_reaches_past_what_is_free() {
    let compiled = compile(&bar());
    let top = part(&compiled, "bar.countertop");
    assert_eq!(top.length.length, inches(81, 2));
    assert_eq!(top.width.length, inches(21, 1));
    assert_eq!(top.placement.origin.x, Length::ZERO);
    assert_eq!(top.placement.origin.y, inches(35, 1));
    assert_eq!(top.placement.origin.z, inches(-1, 1));
}

/// What is written holds at every side that is free, and `left` and `right` where they
/// differ.
#[test]
fn an_overhang_is_written_for_all_sides_or_for_one() {
    let size = |over: &str, site: &str| {
        let text = bar().replace("countertop { stock walnut }", over);
        let text = text.replace("left wall { scribe 3/4 }", site);
        let text = text.replace("stile left { wide 2-1/2 }", "stile left { wide 1-3/4 }");
        let compiled = compile(&text);
        assert!(compiled.piece.is_some(), "{:#?}", compiled.diagnostics);
        let top = part(&compiled, "bar.countertop");
        (top.length.length, top.width.length)
    };
    let open = "left open";
    assert_eq!(size("countertop { stock walnut; over 2 }", open), (inches(44, 1), inches(22, 1)));
    let one = "worktop { stock walnut; over 2 { left 1/2 } }";
    assert_eq!(size(one, open), (inches(85, 2), inches(22, 1)));
}

/// Flatsawn black walnut moves 0.00274 for each point (Wood Handbook, Table 13-5), and
/// from 42 % to 60 % humidity at 68 F wood takes up 2.97 points. The stretchers, 4 wide,
/// lie behind 3/4 of frame and before 13/64 of back: their middles are 2-3/4 and
/// 17-51/64 behind the face, 15-3/64 apart, which moves 0.122. A slot is 1/4 and twice
/// (0.122 + 1/16) long: 0.620, up to 5/8.
#[test]
fn slots_have_room_for_the_year() {
    let compiled = compile(&bar());
    let back = slots(&part(&compiled, "bar.back-stretcher"));
    assert!(slots(&part(&compiled, "bar.front-stretcher")).is_empty());
    assert_eq!(back.len(), 5);
    for slot in &back {
        assert_eq!(slot.u.1 - slot.u.0, inches(1, 4));
        assert_eq!((slot.v.0 + slot.v.1).half(), inches(2, 1));
        assert_eq!(slot.v.1 - slot.v.0, inches(5, 8));
        assert_eq!(slot.deep, inches(23, 32));
    }
}

/// From the row that holds it fast, 2-3/4 behind the face, it is 17-1/4 to the wall:
/// 17.25 × 0.00274 × 2.97 = 0.140, up to 5/32. The screws go through 23/32 and 1 more at
/// the most, and stay 1/8 short of its top: 23/32 + 1 − 1/8 = 1.594, so 1-1/2.
#[test]
fn it_is_screwed_from_below_and_keeps_off_the_wall() {
    let compiled = compile(&bar());
    let own = lay_on(&compiled);
    assert_eq!(own["free"]["print"], "5/32");
    assert_eq!(own["by"], "1 person");
    assert_eq!(own["ends"][0]["most"]["print"], "3/4");
    let rows = own["rows"].as_array().unwrap();
    let told: Vec<(bool, &str)> = rows
        .iter()
        .map(|row| (row["slotted"].as_bool().unwrap(), row["at"]["print"].as_str().unwrap()))
        .collect();
    assert_eq!(told, [(false, "2"), (true, "2")]);
    let fitting = papers::one(&compiled, "fitting", Format::Text).unwrap();
    let fitting = fitting.split_whitespace().collect::<Vec<_>>().join(" ");
    let told = "pan-head screws with washers, 1-1/2 long No. 8 countertops, from below";
    assert!(fitting.contains(told), "{fitting}");
}

/// A piece that stands free is held along its middle: of a whole top 20 − 13/64 deep,
/// without a frame, the rows lie 2 from its edges and 9-29/32 from the front.
#[test]
fn a_piece_that_stands_free_is_held_along_its_middle() {
    let text = papers::EXAMPLES.iter().find(|own| own.slug == "countertop").unwrap();
    let compiled = text.compiled().unwrap();
    let own = lay_on(&compiled);
    let slotted: Vec<bool> =
        own["rows"].as_array().unwrap().iter().map(|row| row["slotted"] == true).collect();
    assert_eq!(slotted, [true, false, true]);
    assert!(own.get("free").is_none());
    // 20 in of case, 1 before it and 6 behind it.
    assert_eq!(part(&compiled, "island.countertop").width.length, inches(27, 1));
}

/// Of plywood it needs no slots; of solid wood screwed fast in two rows it splits.
#[test]
fn a_sheet_is_screwed_fast() {
    let with = |said: &str| compile(&bar().replace("countertop { stock walnut }", said));
    let compiled = with("countertop { stock ply }");
    assert!(slots(&part(&compiled, "bar.back-stretcher")).is_empty());
    assert_eq!(lay_on(&compiled)["rows"].as_array().unwrap().len(), 2);
    assert!(!slugs(&compiled).contains(&"cross-grain"));
    assert!(slugs(&with("countertop { stock walnut; held screw }")).contains(&"cross-grain"));
}

/// One tape mark on the sound side: of 20 in of case with 1 in past the front, a third of
/// the whole stands past the back at (20 + 1) / 2 = 10-1/2.
#[test]
fn a_third_may_stand_free() {
    let slugs = |back: &str| {
        let text = papers::EXAMPLES.iter().find(|own| own.slug == "countertop").unwrap().text;
        let text = text.replace("back 6", &format!("back {back}"));
        let text = text.replace(
            "use \"shop.case\"\n",
            &format!("{}\n", papers::SHARED.1.replace("units in", "")),
        );
        slugs(&compile(&text))
    };
    assert!(!slugs("10-1/2").contains(&"overhang"));
    assert!(slugs("10-17/32").contains(&"overhang"));
}

/// 40-1/2 × 21 × 1 in of walnut at 0.55 × 1.12 × 62.43 lb/ft³ (Wood Handbook, Table
/// 5-3b): 18.9 lb, lifted by itself.
#[test]
fn it_is_weighed_and_lifted_by_itself() {
    let weights = papers::one(&compile(&bar()), "weights", Format::Text).unwrap();
    assert!(weights.contains("18.9 lb  countertop of bar"), "{weights}");
}

/// What stands on a countertop is said of it, or of the top under it: it sags as far.
#[test]
fn what_stands_on_a_countertop_may_be_said_of_it() {
    let example = papers::EXAMPLES.iter().find(|own| own.slug == "countertop").unwrap().text;
    let shared = format!("{}\n", papers::SHARED.1.replace("units in", ""));
    let with = |top: &str, countertop: &str| {
        let text = example.replace("use \"shop.case\"\n", &shared);
        let text = text.replace("top { panel;", &format!("top {{ panel;{top}"));
        let compiled = compile(&text.replace("{ back 6 }", &format!("{{ back 6 }}{countertop}")));
        let sags = compiled.diagnostics.iter().filter(|own| own.slug == "sag");
        sags.map(|own| own.title.clone()).collect::<Vec<_>>()
    };
    assert_eq!(with("", ""), Vec::<String>::new());
    let told = with("", "; load 60 lb per ft2");
    assert!(told.len() == 1 && told[0].contains("island.countertop sags 5/16"), "{told:?}");
    assert_eq!(told, with(" load 60 lb per ft2;", ""));
}
