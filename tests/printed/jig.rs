//! The figures of the set-up sheet.

use std::collections::BTreeSet;

use serde_json::Value;

use super::reading::{Known, line};
use super::{Shown, all, exact};

/// Figures of a set-up that are none of its setting.
pub(super) fn in_jig(shown: &Shown) -> Vec<String> {
    let mut unknown = Vec::new();
    let shop = shown.known([&shown.packet["shop"], &shown.packet["tools"]]);
    for block in shown.blocks("jig-sheet") {
        let number = block.head.split_once("set-up ").and_then(|(_, rest)| {
            rest.split(':').next().and_then(|number| number.parse::<u64>().ok())
        });
        let own =
            shown.of_kind(&["setting"]).find(|own| Some(own["sheet"].as_u64().unwrap()) == number);
        let mut known = shop.clone();
        if let Some(own) = own {
            known = known.and(shown.known([own]));
            routed(shown, own, &mut known);
        }
        known.add(shown.of_kind(&["setting"]).count() as f64);
        let minutes: f64 = shown.of_kind(&["setting"]).map(|own| exact(&own["time"])).sum();
        known.add((minutes / 60.0).floor());
        known.add(minutes % 60.0);
        unknown.extend(shown.unknown("jig-sheet", &block.lines, &known));
    }
    unknown
}

#[test]
fn figures_of_the_jig_sheet_are_those_of_its_settings() {
    let unknown: Vec<String> = all().iter().flat_map(in_jig).collect();
    assert!(unknown.is_empty(), "{} figures: {unknown:#?}", unknown.len());
}

/// What follows from a setting and the drawn cuts of its parts: the set-over, how
/// many passes and pieces, how wide, deep, and long each cut is, and where it lies.
fn routed(shown: &Shown, setting: &Value, known: &mut Known) {
    let set: Vec<f64> = setting["set"].as_array().unwrap().iter().map(exact).collect();
    for pair in set.windows(2) {
        known.add((pair[1] - pair[0]).abs());
    }
    // The lines of flutes by their numbers, and the straight-edge of each.
    let half = exact(&shown.packet["shop"]["base_plate"]) / 2.0;
    for (number, at) in (1..).zip(&set) {
        known.add(f64::from(number));
        known.add(at + half);
    }
    let pieces = setting["pieces"].as_array().unwrap();
    // A stick that is cut while it is whole is one piece, with the mark of its first part.
    let operations = shown.packet["operations"].as_array().unwrap();
    let sticks = operations.iter().filter(|own| own["kind"] == "stick");
    let sticks: Vec<&Vec<Value>> = sticks.map(|own| own["parts"].as_array().unwrap()).collect();
    let led = pieces.iter().filter(|own| {
        own.get("in_stick").is_none() || sticks.iter().any(|parts| parts[0] == own["part"])
    });
    for own in led.clone().filter(|own| own.get("in_stick").is_some()) {
        let stick = sticks.iter().find(|parts| parts[0] == own["part"]);
        known.add(stick.map_or(0, |parts| parts.len()) as f64);
    }
    known.add(led.clone().count() as f64);
    let runs = led.map(|own| own["run"]["print"].as_str().unwrap());
    known.add(runs.map(|run| line(run, false).figures[0].value).sum());
    known.add(setting["depths"].as_array().unwrap().len() as f64);
    let marks: BTreeSet<&str> = pieces.iter().map(|own| own["part"].as_str().unwrap()).collect();
    let drawn = shown.packet["drawn"]["parts"].as_array().unwrap().iter();
    for part in drawn.filter(|own| marks.contains(own["mark"].as_str().unwrap())) {
        let size: Vec<f64> = part["size"].as_array().unwrap().iter().map(exact).collect();
        let channel = |own: &&Value| {
            ["dado", "groove", "rabbet", "flutes"].contains(&own["kind"].as_str().unwrap())
        };
        let features = part["features"].as_array().unwrap().iter();
        known.add(features.clone().filter(|own| own["kind"] == "flutes").count() as f64);
        for feature in features.filter(channel) {
            for axis in 0..3 {
                let (from, to) = (exact(&feature["from"][axis]), exact(&feature["to"][axis]));
                for value in [from, to - from, size[axis] - to] {
                    known.add(value);
                }
            }
        }
    }
}
