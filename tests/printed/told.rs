//! Every operation is told on some paper, with its figures.

use std::collections::BTreeMap;

use serde_json::Value;

use super::reading::{Figure, Known, Line, line};
use super::{Block, Shown, all, exact};

/// Where an operation is told: in its step, or on a sheet, in the blocks that name
/// it.
#[derive(Clone, Copy)]
pub(super) enum Told {
    Step,
    Sheet(&'static str),
}

/// The figures of an operation that a paper must have, by their keys, and where.
pub(super) fn told(kind: &str) -> (Told, &'static [&'static str]) {
    match kind {
        "break down" => (Told::Sheet("cut-list"), &[]),
        "glaze" => (Told::Step, &["clear", "beads", "pin"]),
        "order glass" => (Told::Sheet("cut-list"), &["size"]),
        "glue up" => (Told::Step, &["pieces", "wide", "planer"]),
        "mill" => (Told::Sheet("cut-list"), &["to"]),
        "edge" => (Told::Sheet("cut-list"), &["strip"]),
        "verify" => (Told::Step, &["fine", "percent", "within"]),
        "setting" => {
            (Told::Sheet("jig-sheet"), &["sheet", "depths", "pieces", "other_bits", "time"])
        }
        "bore" => (Told::Sheet("cut-list"), &["diameter"]),
        "shape" => (Told::Sheet("cut-list"), &["holes", "pockets"]),
        "join" => (Told::Step, &["moves", "clamps", "square"]),
        "stick" => (Told::Step, &["shorter", "size", "pieces"]),
        "spacers" => (Told::Sheet("fitting"), &["long", "pieces"]),
        "fasten" => (Told::Sheet("fitting"), &["size", "hole"]),
        "screw line" => (Told::Sheet("layout"), &["at", "first", "apart", "count"]),
        "bore rows" => (
            Told::Sheet("fitting"),
            &["first", "pitch", "leaps", "no_shelf", "rows", "diameter", "deep"],
        ),
        "set slides" => (
            Told::Sheet("fitting"),
            &[
                "above_opening",
                "above_bottom",
                "set_back",
                "ahead",
                "used",
                "clear",
                "up_box",
                "box_less",
                "box_above",
                "on",
            ],
        ),
        "run on wood" => {
            (Told::Sheet("fitting"), &["box_high", "box_less", "clear", "stop", "open"])
        }
        "set stop" => (Told::Sheet("fitting"), &["size", "over", "set_back", "screws"]),
        "set catch" => (Told::Sheet("fitting"), &["from_corner"]),
        "set rail" => (
            Told::Sheet("fitting"),
            &["diameter", "long", "between", "above_opening", "screws", "screw", "on", "hangers"],
        ),
        "set front" => (Told::Sheet("fitting"), &["thick", "box_front", "pilot", "wood_left"]),
        "set hinge" => (
            Told::Sheet("fitting"),
            &["number", "on_door", "on_part", "above_opening", "over", "plate", "block"],
        ),
        "fit" => (Told::Sheet("gaps"), &["gaps"]),
        "measure" => (Told::Step, &["drawn", "within", "less", "more"]),
        "dry-fit" => (Told::Step, &["open"]),
        // In words: one at each corner and one halfway between.
        "screw on dry" | "take off" | "plug pockets" => (Told::Step, &[]),
        "sand" => (Told::Step, &["grits", "sheets_from", "never_past", "cured"]),
        "finish" => {
            (Told::Step, &["area", "surfaces", "covers", "takes", "mixed", "rubbed_with", "times"])
        }
        "rest" => (Told::Step, &["for", "clamped"]),
        "carry" | "stand apart" => (Told::Step, &[]),
        "set base" => {
            (Told::Step, &["high", "behind", "beside", "farther", "blocks", "block", "most"])
        }
        "screw onto base" => (Told::Step, &[]),
        "cover ends" => (Told::Step, &["strip"]),
        "level base" => (Told::Step, &["behind", "farther"]),
        "stand on base" => (Told::Step, &["before", "left", "right"]),
        "set on case" => (Told::Step, &["left", "from_end", "back", "round", "slotted"]),
        "put up strip" => (Told::Step, &["up", "over"]),
        "lift onto strip" => (Told::Step, &[]),
        "scribe" => (Told::Step, &["most"]),
        "scribe kick" => (Told::Step, &["scribed"]),
        "fit cover" => (Told::Step, &["ahead", "screws", "long", "scribed"]),
        "fit filler" => (Told::Step, &["most"]),
        "stand off wall" => (Told::Step, &["between"]),
        "keep space" => (Told::Step, &["wide"]),
        "push in" => (Told::Step, &["wide", "high", "clear"]),
        "fix cases" => (Told::Step, &["screws", "long", "most"]),
        "fix to wall" => {
            (Told::Step, &["back", "screws", "least", "into_stud", "lining", "screw", "narrow"])
        }
        "cut out" => (Told::Step, &["spare", "lies", "kept", "size"]),
        "find in house" => (Told::Step, &["across", "up", "deep"]),
        "stand off rail" => (Told::Step, &["by"]),
        "set on base" => (Told::Step, &["block", "most"]),
        "legs on" => (Told::Step, &["centers", "deep", "adjust"]),
        "block leg" => (Told::Step, &["square", "long", "screws"]),
        "glue blocks" => (Told::Step, &["pairs", "block"]),
        "lay frame" => (Told::Step, &["stiles", "pairs", "cauls"]),
        "close with strips" => (Told::Step, &[]),
        "lay on" => (Told::Step, &["free", "ends", "past", "rows"]),
        _ => panic!("no paper is known to tell of {kind}"),
    }
}

/// The printed figures below a key: those that stand behind `print`, whole numbers,
/// and what a text without an exact figure says.
pub(super) fn printed(value: &Value, inches: bool, found: &mut Vec<Figure>) {
    match value {
        Value::Object(all) => match all.get("print") {
            Some(print) => printed(print, inches, found),
            None => all.values().for_each(|own| printed(own, inches, found)),
        },
        Value::Array(all) => all.iter().for_each(|own| printed(own, inches, found)),
        Value::String(text) => found.extend(line(text, inches).figures),
        Value::Number(number) => {
            found.extend(line(&number.to_string(), inches).figures);
        }
        Value::Null | Value::Bool(_) => {}
    }
}

/// The names that a sheet tells an operation by.
fn names(operation: &Value) -> Vec<&str> {
    let mut found = Vec::new();
    for key in ["front", "part", "parts", "opening", "openings", "door", "pieces", "for", "through"]
    {
        let own = &operation[key];
        found.extend(own.as_str());
        for own in own.as_array().into_iter().flatten() {
            found.extend(own.as_str().or_else(|| own["part"].as_str()));
        }
    }
    found
}

/// Every operation is told on its paper, and its figures stand where it is told.
pub(super) fn untold(shown: &Shown) -> Vec<String> {
    let mut missing = Vec::new();
    let blocks: BTreeMap<&str, Vec<Block>> =
        shown.papers.keys().map(|slug| (*slug, shown.blocks(slug))).collect();
    for operation in shown.operations() {
        let kind = operation["kind"].as_str().unwrap();
        let (place, keys) = told(kind);
        let hidden =
            ["hook hole", "plate hole"].contains(&operation["what"].as_str().unwrap_or(""));
        let place = if kind == "bore" && hidden { Told::Sheet("fitting") } else { place };
        let names = names(operation);
        let is_named = |text: &str| names.iter().any(|name| text.contains(name));
        let lines: Vec<&Line> = match place {
            Told::Step => {
                let step = operation["step"].as_u64().unwrap();
                let own = |block: &&Block| {
                    [format!(">> {step} "), format!(">> {step}* ")]
                        .iter()
                        .any(|head| block.head.starts_with(head))
                };
                blocks["assembly-order"].iter().filter(own).flat_map(|own| &own.lines).collect()
            }
            // How thick a stock is planed stands over all of its parts.
            Told::Sheet(slug) if operation["axis"] == "thickness" => {
                blocks[slug].iter().flat_map(|own| &own.lines).collect()
            }
            Told::Sheet(slug) => {
                let own = |block: &&Block| block.lines.iter().any(|own| is_named(&own.text));
                blocks[slug].iter().filter(own).flat_map(|own| &own.lines).collect()
            }
        };
        let mut said = Known::default();
        lines.iter().flat_map(|own| &own.figures).for_each(|own| said.add(own.value));
        let mut wanted = Vec::new();
        keys.iter().for_each(|key| printed(&operation[*key], shown.inches, &mut wanted));
        // A second setting is told by how far the guide moves.
        let set: Vec<f64> = operation["set"].as_array().into_iter().flatten().map(exact).collect();
        for (index, at) in set.iter().enumerate() {
            let moved = index.checked_sub(1).map_or(*at, |last| (at - set[last]).abs());
            let text = |value: &f64| Figure { value: *value, text: "~".to_owned() };
            if ![*at, moved].iter().any(|value| said.has(&text(value), shown.mark)) {
                missing.push(format!("{}: setting {at} of {operation}", shown.name));
            }
        }
        if lines.is_empty() {
            missing.push(format!("{}: nothing tells of {operation}", shown.name));
        }
        for figure in wanted.iter().filter(|own| !said.has(own, shown.mark)) {
            missing.push(format!("{}: {} of {operation}", shown.name, figure.text));
        }
    }
    missing
}

#[test]
fn every_operation_is_told_on_a_paper() {
    let missing: Vec<String> = all().iter().flat_map(untold).collect();
    assert!(missing.is_empty(), "{} figures: {missing:#?}", missing.len());
}
