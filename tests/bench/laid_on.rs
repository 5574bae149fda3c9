//! A countertop that is damper than it was milled: it must move over its screws.

use serde_json::Value;

use super::build_of;
use super::demos::packet;
use super::off::Off;
use crate::support::{compile, spec};
use std::collections::BTreeMap;

/// The packet of the coffee bar, in which nobody reads how damp its wood is, so that
/// none of it rests.
fn bar() -> Value {
    let text = packet(&compile(&spec("quarry-steps-coffee-bar.case"))).unwrap();
    let mut packet: Value = serde_json::from_str(&text).unwrap();
    let operations = packet["operations"].as_array_mut().unwrap();
    operations.retain(|own| own["what"] != "moisture");
    packet
}

fn rows(packet: &mut Value) -> &mut Vec<Value> {
    let mut operations = packet["operations"].as_array_mut().unwrap().iter_mut();
    let own = operations.find(|own| own["kind"] == "lay on").unwrap();
    own["rows"].as_array_mut().unwrap()
}

/// What is said of the countertop, so many points damper.
fn said(packet: &Value, moisture: f64) -> Vec<String> {
    let off = Off { moisture, ..Off::NOMINAL };
    let report = build_of(&packet.to_string(), off, &BTreeMap::new());
    report.complaints.into_iter().filter(|own| own.starts_with("CT: ")).collect()
}

/// Black walnut moves 0.00274 for each point. The rows are 15-3/64 apart, and the back
/// edge lies 17-1/4 behind the one that holds fast. In slots of 5/8 less 1/4 a screw goes
/// 3/16 each way; behind it 5/32 stay free. Three points: 0.124 and 0.142; four: 0.189
/// at the wall; six: 0.247 over the screws.
#[test]
fn a_countertop_rides_on_its_slots() {
    let packet = bar();
    assert_eq!(said(&packet, 3.0), Vec::<String>::new());
    assert_eq!(said(&packet, 4.0), ["CT: it swells 0.189 toward the wall and has 0.156"]);
    assert_eq!(said(&packet, 6.0), ["CT: it moves 0.247 in slots that leave 0.188"]);
}

#[test]
fn screws_that_hold_it_in_two_rows_are_noticed() {
    let mut fast = bar();
    for row in rows(&mut fast) {
        row["slotted"] = false.into();
    }
    assert_eq!(said(&fast, 3.0), ["CT: it moves 0.124 between screws that hold it fast"]);
    let mut none = bar();
    rows(&mut none).remove(0);
    assert_eq!(said(&none, 3.0), ["CT: no screw holds it fast"]);
    let mut more = bar();
    rows(&mut more)[1]["screws"] = 6.into();
    assert_eq!(said(&more, 3.0), ["CT: KST has 5 slots for 6 screws"]);
}
