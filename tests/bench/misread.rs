//! Sound packets whose readings are spoiled, and pieces that can't be screwed
//! together or opened.

use std::collections::BTreeMap;

use serde_json::{Value, json};

use super::hand::{all, case, door, mm};
use super::spoiled::{at, drop_last, later, noticed, operation, without};
use super::{build, build_of, off};

/// Without its reading an odd board goes to a dado that doesn't take it.
#[test]
fn a_board_that_is_not_measured() {
    let unread = |packet: &mut Value| drop(without(packet, "verify", 2));
    noticed(case(), unread, "B, part B: it is not measured before the cut that takes it");
    let mut packet = case();
    unread(&mut packet);
    for (number, how) in [(2, "doesn't go into"), (3, "is loose in")] {
        let report = build_of(&packet.to_string(), off::ALL[number].1, &BTreeMap::new());
        let complaint = format!("B, part B: it {how} its channel, by 0.3");
        assert!(report.complaints.contains(&complaint), "{:#?}", report.complaints);
    }
    let late = |packet: &mut Value| {
        let own = without(packet, "verify", 2);
        later(packet, own, 2);
    };
    noticed(case(), late, "B, part B: it is not measured before the cut that takes it");
}

/// A sheet is read before anything is sawn: then it is too late for other papers.
#[test]
fn a_sheet_that_is_not_measured_in_time() {
    let unread = |packet: &mut Value| drop(without(packet, "verify", 0));
    noticed(case(), unread, "LE, part LE: its sheet is sawn and was never measured");
    let mut packet = case();
    let index = at(&packet, "verify", 1);
    let own = packet["operations"].as_array_mut().unwrap().remove(index);
    later(&mut packet, own, 1);
    noticed(packet.clone(), |_| {}, "K, part K: its sheet is sawn and was never measured");
    let report = build_of(&packet.to_string(), off::ALL[0].1, &BTreeMap::new());
    assert_eq!(report.stops.len(), 1, "it stops before it saws");
    let sheets = BTreeMap::from([("ply".to_owned(), 18.0)]);
    let report = build_of(&packet.to_string(), off::ALL[0].1, &sheets);
    let late = "LE, part LE: it is sawn by the old papers already";
    assert!(report.complaints.iter().any(|own| own.contains(late)), "{:#?}", report.complaints);
    let other = |packet: &mut Value| operation(packet, "verify", 0)["sheet"] = "thin".into();
    noticed(case(), other, "thin is 6 thick");
    let short = |packet: &mut Value| drop_last(&mut operation(packet, "verify", 0)["parts"]);
    noticed(case(), short, "S, part S: the reading of ply is wrong about it");
}

#[test]
fn a_reading_that_helps_nobody() {
    let within =
        |by: f64| move |packet: &mut Value| operation(packet, "verify", 2)["within"] = mm(by);
    noticed(case(), within(0.3), "within 0.3 a cut no longer fits its board");
    let none = |packet: &mut Value| operation(packet, "verify", 2)["within"] = mm(0.0);
    noticed(case(), none, "no caliper reads so fine as 0");
    let fine = |packet: &mut Value| operation(packet, "verify", 2)["fine"] = "18.50".into();
    noticed(case(), fine, "18.50 is not 18");
    let figure = |packet: &mut Value| operation(packet, "verify", 2)["figure"] = mm(19.0);
    noticed(case(), figure, "B, part B: it is 18 thick");
    let remedy = |number: usize, which: &'static str, what: &'static str| {
        move |packet: &mut Value| operation(packet, "verify", number)[which] = what.into()
    };
    let anew = "papers are made anew for a whole sheet, and only for that";
    noticed(case(), remedy(2, "thicker", "enter as measured"), anew);
    noticed(case(), remedy(0, "thinner", "replace"), anew);
    noticed(case(), remedy(2, "thinner", "plane"), "no plane makes a thin board thicker");
    noticed(case(), remedy(2, "thicker", "plane"), "B, part B: a sheet is not planed");
}

/// A panel of ash 260.3 wide that fills its grooves has no room for 260.3 × 0.0035 × 2,
/// which is 1.822 more; one that rested has come to the moisture it was drawn for.
#[test]
fn wood_that_is_too_damp() {
    let solid = |packet: &mut Value| {
        packet["stocks"][2]["movement"] = 3500.into();
        let parts = packet["parts"].as_array_mut().unwrap();
        parts.iter_mut().find(|own| own["mark"] == "P").unwrap()["stock"] = "ash".into();
    };
    let unread = |packet: &mut Value| drop(without(packet, "verify", 2));
    let damp = |packet: &Value| {
        let read = BTreeMap::from([("ply".to_owned(), 18.0), ("thin".to_owned(), 6.0)]);
        build_of(&packet.to_string(), off::ALL[0].1, &read).complaints
    };
    let mut packet = door();
    solid(&mut packet);
    let swells = "P, part P: it swells by 1.822 and has";
    assert!(damp(&packet).iter().all(|own| !own.contains(swells)), "{:#?}", damp(&packet));
    unread(&mut packet);
    assert!(damp(&packet).iter().any(|own| own.contains(swells)), "{:#?}", damp(&packet));
    noticed(door(), unread, "DL, part DL: nobody read how damp its wood is");
    let reading = |which: &'static str, what: &'static str| {
        move |packet: &mut Value| operation(packet, "verify", 2)[which] = what.into()
    };
    noticed(door(), reading("percent", "28.0"), "no wood is milled at 28 %");
    noticed(door(), reading("within", "3"), "within 3 points helps nobody");
    let sheet = |packet: &mut Value| {
        operation(packet, "verify", 2)["stocks"] = json!(["ash", "thin"]);
    };
    noticed(door(), sheet, "thin is no solid wood");
}

/// The stretcher's left pockets are driven from its right: a board stands 60 from its
/// left end, or beyond the reach of an angle driver.
#[test]
fn a_screw_that_no_driver_gets_at() {
    let board = |from: f64| {
        move |packet: &mut Value| {
            let drawn = packet["drawn"]["parts"].as_array_mut().unwrap();
            // The back stands across, from above the bottom to the top.
            let own = drawn.iter_mut().find(|own| own["mark"] == "K").unwrap();
            own["at"] = all([18.0 + from, 118.0, 0.0]);
            own["axes"] = json!(["z", "y", "x"]);
            let joint = &mut operation(packet, "join", 0)["moves"];
            joint
                .as_array_mut()
                .unwrap()
                .insert(1, json!({"parts": ["K"], "legs": [{"from": "above"}]}));
        }
    };
    let near = "no driver gets at the screws of S, part S in LE, part LE: K, part K is in its way";
    noticed(case(), board(60.0), near);
    let mut packet = case();
    board(250.0)(&mut packet);
    let complaints = build(&packet.to_string()).complaints;
    assert!(complaints.iter().all(|own| !own.contains(near)), "{complaints:#?}");
}

/// A pin 30 behind the front swings the corner of a door, which is 2 from its post,
/// through the post: open 15 degrees it has moved 30 × sin 15 = 7.8.
#[test]
fn a_door_that_does_not_open() {
    let pin =
        |ahead: f64| move |packet: &mut Value| packet["opens"]["doors"][0]["ahead"] = mm(ahead);
    noticed(door(), pin(-30.0), "DL, part DL: open 6 degrees it hits POST, part POST");
    let path = |packet: &mut Value| {
        packet["opens"]["doors"][0] = json!({"parts": ["DL", "DR", "DT", "DB", "P"],
            "hung": "left", "opens": "105", "about": "path", "poses": [
                {"at": "0", "out": mm(0.0), "aside": mm(0.0)},
                {"at": "90", "out": mm(0.0), "aside": mm(-20.0)}]});
    };
    noticed(door(), path, "it hits POST, part POST");
    let corner = |packet: &mut Value| {
        packet["opens"]["doors"][0]["about"] = "corner".into();
    };
    let mut packet = door();
    corner(&mut packet);
    assert_eq!(build(&packet.to_string()).complaints, Vec::<String>::new());
    let right = |packet: &mut Value| packet["opens"]["doors"][0]["hung"] = "right".into();
    noticed(door(), right, "DL: it hangs on POST, at its other side");
    let little = |packet: &mut Value| packet["opens"]["doors"][0]["opens"] = "30".into();
    noticed(door(), little, "it opens only 30");
    let shut = |packet: &mut Value| packet["opens"]["doors"] = json!([]);
    noticed(door(), shut, "DL: nothing says how it opens");
}

/// A bottom in its dadoes is no drawer.
#[test]
fn a_drawer_that_does_not_come_out() {
    let pulled = |travel: f64| {
        move |packet: &mut Value| {
            packet["opens"]["drawers"] = json!([{"parts": ["K"], "travel": mm(travel)}]);
        }
    };
    noticed(case(), pulled(294.0), "K, part K: pulled out it hits LE, part LE");
    noticed(case(), pulled(294.0), "K: it comes out 294");
}

/// The stretcher is 80 wide, with pockets 20 and 60 from its front edge.
#[test]
fn pocket_holes_that_are_misplaced() {
    let at = |centers: [f64; 2]| {
        move |packet: &mut Value| {
            operation(packet, "shape", 0)["pockets"]["centers"] = all(centers);
        }
    };
    let out = |place: &str| format!("S, part S: its pocket hole at {place} runs out of its joint");
    noticed(case(), at([4.0, 60.0]), &out("4"));
    noticed(case(), at([20.0, 76.0]), &out("76"));
    noticed(case(), at([20.0, 29.0]), "S, part S: two of its pocket holes run into each other");
    let unsaid = |packet: &mut Value| operation(packet, "shape", 0)["pockets"] = Value::Null;
    noticed(case(), unsaid, "S, part S: nobody says where its pocket holes are");
    let mut packet = case();
    at([5.0, 75.0])(&mut packet);
    assert_eq!(build(&packet.to_string()).complaints, Vec::<String>::new());
}
