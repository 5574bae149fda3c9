//! `packet.json` keeps to its schema, and names what it speaks of.

use std::collections::{BTreeMap, BTreeSet};

use casewright::papers::{self, Format};
use serde_json::Value;

use crate::support::{compile, demo_pieces, spec};

/// The packet of every demo piece.
fn packets() -> Vec<(String, Value)> {
    let packet = |(name, compiled)| {
        let text = papers::one(&compiled, "packet", Format::Json).expect("a packet");
        (name, serde_json::from_str(&text).expect("JSON"))
    };
    demo_pieces().into_iter().map(packet).collect()
}

#[test]
fn packets_keep_to_their_schema() {
    let schema: Value = serde_json::from_str(include_str!("../schema/packet.json")).unwrap();
    jsonschema::meta::validate(&schema).unwrap();
    let validator = jsonschema::validator_for(&schema).unwrap();
    let mut kinds: BTreeSet<String> = BTreeSet::new();
    for (name, value) in packets() {
        let errors: Vec<String> =
            validator.iter_errors(&value).map(|error| error.to_string()).collect();
        assert!(errors.is_empty(), "{name}: {errors:#?}");
        let operations = value["operations"].as_array().unwrap();
        kinds.extend(operations.iter().map(|own| own["kind"].as_str().unwrap().to_owned()));
    }
    // Every kind of operation has been seen.
    let all = ["bench", "bore", "break down", "finish", "glue up", "install", "join", "mill"];
    let all: BTreeSet<String> =
        all.into_iter().chain(["setting", "shape", "verify"]).map(str::to_owned).collect();
    assert_eq!(kinds, all);
}

/// Whoever reads an operation must find the face that it names, and no other
/// one by that name.
#[test]
fn six_faces_of_a_part_have_six_names() {
    for (name, value) in packets() {
        let mut faces: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
        for part in value["parts"].as_array().unwrap() {
            let axes = part["faces"].as_object().unwrap().values();
            let names: Vec<&str> = axes
                .flat_map(|pair| pair.as_array().unwrap())
                .map(|face| face.as_str().unwrap())
                .collect();
            let all: BTreeSet<&str> = names.iter().copied().collect();
            assert_eq!(all.len(), 6, "{name}: {names:?}");
            faces.insert(part["mark"].as_str().unwrap(), all);
        }
        for operation in value["operations"].as_array().unwrap() {
            if operation["kind"] != "setting" {
                continue;
            }
            for piece in operation["pieces"].as_array().unwrap() {
                let mark = piece["part"].as_str().unwrap();
                let own = &faces[mark];
                for face in [&operation["datum"], &piece["face"]] {
                    assert!(own.contains(face.as_str().unwrap()), "{name}, {mark}: {face}");
                }
            }
        }
    }
}

/// Two layers of a sheet that is sold as 17/32 in and is 33/64 in make a packer of
/// 1-1/32 in.
#[test]
fn layers_of_a_sheet_are_as_thick_as_it_was_bought() {
    let two = "stock two { plywood 17/32; actual 33/64; sheet { long 96; wide 48 } }\nstock thin ";
    let text = spec("first.case")
        .replace("joint rabbet\n", "joint rabbet; packer-stock two\n")
        .replace("stock thin ", two);
    let packet = papers::one(&compile(&text), "packet", Format::Json).expect("a packet");
    let packet: Value = serde_json::from_str(&packet).unwrap();
    let broken_down: Vec<&Value> = packet["operations"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|own| own["kind"] == "break down" && own["part"] == "UP-LPK")
        .collect();
    assert_eq!(broken_down.len(), 1);
    assert_eq!(broken_down[0]["stock"], "two");
    assert_eq!(broken_down[0]["pieces"], 2);
    assert_eq!(broken_down[0]["size"][2]["exact"], "33/64");
}
