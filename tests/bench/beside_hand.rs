//! Packets worked by hand beside those of `hand`: an edge with a strip where the bit comes
//! out, and screws from one case into the next.

use serde_json::{Value, json};

use super::build;
use super::hand::{all, case, mm};

/// The operations of a packet.
fn operations(packet: &mut Value) -> &mut Vec<Value> {
    packet["operations"].as_array_mut().unwrap()
}

fn complaints(packet: &Value) -> Vec<String> {
    build(&packet.to_string()).complaints
}

/// The case with a strip of 0.5 on the front edge of its left end, whose core is 299.5 wide.
/// The bit of 12 cuts the dado of that end from its back edge to its front edge.
fn banded(scrap: Option<&str>) -> Value {
    let mut packet = case();
    let tape = json!({"name": "tape", "form": "roll", "thickness": mm(0.5)});
    packet["stocks"].as_array_mut().unwrap().push(tape);
    let parts = packet["parts"].as_array_mut().unwrap();
    let left = parts.iter_mut().find(|own| own["mark"] == "LE").unwrap();
    left["edges"] = json!([{"face": "front edge", "stock": "tape", "thick": mm(0.5)}]);
    let all_of = operations(&mut packet);
    let is_of = |own: &Value, kind: &str| own["kind"] == kind && own["parts"][0] == "LE";
    for own in all_of.iter_mut() {
        if own["kind"] == "break down" && own["part"] == "LE" {
            own["size"] = all([600.0, 299.5, 18.0]);
        } else if is_of(own, "mill") && own["axis"] == "width" {
            own["to"] = mm(299.5);
        }
        let pieces = own.get_mut("pieces").and_then(Value::as_array_mut).into_iter().flatten();
        for piece in pieces.filter(|piece| piece["feed"]["to"] == "front edge") {
            if let Some(edge) = scrap {
                piece["scrap"] = edge.into();
            }
        }
    }
    let sawn = all_of.iter().rposition(|own| is_of(own, "mill")).unwrap();
    let strip = json!({"step": 1, "kind": "edge", "part": "LE", "face": "front edge",
        "stock": "tape", "how": "banding", "strip": all([625.0, 20.0, 0.5]), "lines": []});
    all_of.insert(sawn + 1, strip);
    packet
}

/// Where the bit leaves through a strip that is seen, scrap is clamped against that edge, and
/// against no other; else the strip tears. Where nothing covers the edge nobody asks for it.
#[test]
fn scrap_backs_a_covered_edge_where_the_bit_comes_out() {
    assert_eq!(complaints(&case()), Vec::<String>::new());
    assert_eq!(complaints(&banded(Some("front edge"))), Vec::<String>::new());
    for scrap in [None, Some("back edge")] {
        let told = complaints(&banded(scrap));
        let torn = "the bit comes out through what covers its front edge, and tears it";
        assert!(told.iter().any(|own| own.contains(torn)), "{scrap:?}: {told:?}");
    }
}

/// The case with the left end of another one, so high, against its right end, and two screws
/// from inside through the one into the other: the first so far up, 70 behind the front edge,
/// and the second 300 higher.
fn tied(high: f64, first: f64) -> Value {
    let mut packet = case();
    let end = json!({
        "mark": "NE", "name": "part NE", "path": "NE", "stock": "ply", "grain": "length",
        "from": [[], [], []], "spec": 0,
        "faces": {"length": ["bottom end", "top end"], "width": ["front edge", "back edge"],
            "thickness": ["outside", "inside"]},
    });
    packet["parts"].as_array_mut().unwrap().push(end);
    let size = [high, 300.0, 18.0];
    let drawn = json!({"mark": "NE", "size": all(size), "at": all([500.0, 0.0, 0.0]),
        "axes": ["y", "z", "x"], "features": []});
    packet["drawn"]["parts"].as_array_mut().unwrap().push(drawn);
    let all_of = operations(&mut packet);
    let sheet = all_of.iter_mut().find(|own| own["sheet"] == "ply").unwrap();
    sheet["parts"].as_array_mut().unwrap().push("NE".into());
    let mill = |axis: &str, to: f64| json!({"step": 1, "kind": "mill", "axis": axis, "to": mm(to), "parts": ["NE"]});
    let sawn = [
        json!({"step": 1, "kind": "break down", "part": "NE", "stock": "ply", "size": all(size)}),
        mill("width", 300.0),
        mill("length", high),
    ];
    all_of.splice(2..2, sawn);
    all_of.push(json!({"step": 5, "kind": "screw line", "through": "RE", "face": "inside",
        "into": "NE", "from": ["front edge", "bottom end"], "at": mm(70.0), "first": mm(first),
        "apart": mm(300.0), "count": 2, "bored": 4}));
    packet
}

/// Screws at 150 and 450 go through one end into the other. From 109 the first is in the dado
/// for the bottom, from 100 to 118, and into an end that is 400 high the second finds nothing.
#[test]
fn screws_between_two_cases_find_wood_in_both() {
    assert_eq!(complaints(&tied(600.0, 150.0)), Vec::<String>::new());
    let told = |high, first, what: &str| {
        let told = complaints(&tied(high, first));
        assert!(told.iter().any(|own| own.contains(what)), "{what}: {told:?}");
    };
    told(600.0, 109.0, "is cut away there");
    told(400.0, 150.0, "misses");
}
