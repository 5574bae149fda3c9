//! Sound packets with one thing spoiled each: the shop must notice, and say it
//! of the thing that is wrong.

use serde_json::{Value, json};

use super::hand::{all, case, door, doweled, drawer, frame, mm};
use super::{build, demos};
use crate::support::{compile, packet, spec};

/// Spoils a packet and asks for the complaint.
pub(super) fn noticed(mut packet: Value, spoil: impl FnOnce(&mut Value), complaint: &str) {
    spoil(&mut packet);
    let complaints = build(&packet.to_string()).complaints;
    assert!(
        complaints.iter().any(|own| own.contains(complaint)),
        "no `{complaint}` among {complaints:#?}"
    );
}

/// The operation of a kind, counted from zero.
pub(super) fn at(packet: &Value, kind: &str, number: usize) -> usize {
    let operations = packet["operations"].as_array().unwrap().iter().enumerate();
    let mut own = operations.filter(|(_, own)| own["kind"] == kind);
    own.nth(number).unwrap().0
}

pub(super) fn operation<'a>(packet: &'a mut Value, kind: &str, number: usize) -> &'a mut Value {
    let index = at(packet, kind, number);
    &mut packet["operations"][index]
}

pub(super) fn without(packet: &mut Value, kind: &str, number: usize) -> Value {
    let index = at(packet, kind, number);
    packet["operations"].as_array_mut().unwrap().remove(index)
}

/// Puts an operation behind another step, as its last.
pub(super) fn later(packet: &mut Value, mut own: Value, step: u64) {
    own["step"] = step.into();
    let operations = packet["operations"].as_array_mut().unwrap();
    let place = operations.iter().rposition(|own| own["step"] == step).unwrap();
    operations.insert(place + 1, own);
}

fn swap(list: &mut Value, one: usize, other: usize) {
    list.as_array_mut().unwrap().swap(one, other);
}

pub(super) fn drop_last(list: &mut Value) {
    list.as_array_mut().unwrap().pop().unwrap();
}

#[test]
fn a_guide_that_is_off() {
    let off = |packet: &mut Value| {
        operation(packet, "setting", 0)["set"] = json!([mm(43.0), mm(37.0)]);
    };
    noticed(case(), off, "cuts what is not drawn there");
    noticed(case(), off, "the dado in its inside is not cut as drawn");
    noticed(case(), off, "wood is left");
}

/// A place may be off by half a mark, 0.25; the two walls of a dado may not be.
#[test]
fn a_guide_that_is_off_by_little() {
    let moved = |by: f64| {
        move |packet: &mut Value| {
            operation(packet, "setting", 0)["set"] = json!([mm(37.0 + by), mm(31.0 + by)]);
        }
    };
    let mut packet = case();
    moved(0.2)(&mut packet);
    assert_eq!(build(&packet.to_string()).complaints, Vec::<String>::new());
    noticed(case(), moved(0.5), "off by 0.5 along the length");
    let wide = |packet: &mut Value| {
        operation(packet, "setting", 0)["set"] = json!([mm(37.2), mm(31.0)]);
    };
    noticed(case(), wide, "the dado is 18.2 along its length, drawn 18");
}

/// What is printed is what is set: the exact figure beside it helps nobody.
#[test]
fn a_printed_figure_that_is_wrong() {
    noticed(
        case(),
        |packet| operation(packet, "setting", 0)["set"][0]["print"] = "38".into(),
        "off by 1 along the length",
    );
}

/// Both dadoes 0.2 off, one up and one down: each is within half a mark, and
/// the bottom slopes by 0.4.
#[test]
fn two_dadoes_of_one_board_that_do_not_line_up() {
    let split = |packet: &mut Value| {
        let mut other = operation(packet, "setting", 0).clone();
        let pieces = other["pieces"].as_array_mut().unwrap();
        pieces.remove(0);
        other["set"] = json!([mm(36.8), mm(30.8)]);
        let own = operation(packet, "setting", 0);
        own["set"] = json!([mm(37.2), mm(31.2)]);
        drop_last(&mut own["pieces"]);
        later(packet, other, 2);
    };
    noticed(case(), split, "B, part B: RE and LE don't line up, by 0.4");
}

#[test]
fn a_guide_on_the_other_side_of_the_cut() {
    let far = |packet: &mut Value| operation(packet, "setting", 0)["guide"] = "far".into();
    noticed(case(), far, "cuts what is not drawn there");
}

#[test]
fn another_datum() {
    let top = |packet: &mut Value| operation(packet, "setting", 0)["datum"] = "top end".into();
    noticed(case(), top, "cuts what is not drawn there");
    let inside = |packet: &mut Value| operation(packet, "setting", 0)["datum"] = "inside".into();
    noticed(case(), inside, "no guide set from the inside leads a bit over the inside");
}

#[test]
fn another_face() {
    let outside = |packet: &mut Value| {
        operation(packet, "setting", 0)["pieces"][0]["face"] = "outside".into();
    };
    noticed(case(), outside, "LE, part LE: step 2, set-up 1 cuts what is not drawn there");
    noticed(case(), outside, "the dado in its inside is not cut as drawn");
    let nowhere = |packet: &mut Value| {
        operation(packet, "setting", 0)["pieces"][0]["face"] = "show face".into();
    };
    noticed(case(), nowhere, "it has no show face");
}

/// On the inside of the left end the bottom end lies on the left of who pushes
/// toward the front edge, and on the right of who pushes toward the back edge.
#[test]
fn a_router_pushed_the_wrong_way() {
    let back = |packet: &mut Value| {
        operation(packet, "setting", 0)["pieces"][0]["feed"] =
            json!({"from": "front edge", "to": "back edge"});
    };
    noticed(case(), back, "has its straight-edge on the wrong side");
    let across = |packet: &mut Value| {
        operation(packet, "setting", 0)["pieces"][0]["feed"] =
            json!({"from": "bottom end", "to": "top end"});
    };
    noticed(case(), across, "is not along the cut");
    let unsaid = |packet: &mut Value| {
        operation(packet, "setting", 0)["pieces"][0].as_object_mut().unwrap().remove("feed");
    };
    noticed(case(), unsaid, "doesn't say which way to push");
}

/// The front end of a drawer's left side goes first over the table: its bottom edge
/// lies along the fence, and its inside is down.
#[test]
fn work_pushed_over_the_table_the_wrong_way() {
    let pushed = |from: &str, to: &str| {
        let feed = json!({"from": from, "to": to});
        move |packet: &mut Value| {
            operation(packet, "setting", 0)["pieces"][0]["feed"] = feed.clone();
        }
    };
    let mut packet = drawer();
    pushed("front end", "back end")(&mut packet);
    assert_eq!(build(&packet.to_string()).complaints, Vec::<String>::new());
    noticed(drawer(), pushed("back end", "front end"), "has its fence on the wrong side");
}

/// The rabbet lies along the back edge: without its strip the base hangs off there.
/// A strip of 34 carries 37 of the 75 on that side, one of 35 the half of them.
#[test]
fn a_base_that_hangs_off_the_work() {
    let strips = |strips: Value| {
        move |packet: &mut Value| {
            operation(packet, "setting", 1)["pieces"][0]["supports"] = strips.clone();
        }
    };
    noticed(case(), strips(json!([])), "only 3 of its 75 lie on wood beside the bit");
    let back = |wide: f64| strips(json!([{"along": "back edge", "wide": mm(wide)}]));
    noticed(case(), back(34.0), "only 37 of its 75 lie on wood beside the bit");
    let mut packet = case();
    back(35.0)(&mut packet);
    assert_eq!(build(&packet.to_string()).complaints, Vec::<String>::new());
    let front = strips(json!([{"along": "front edge", "wide": mm(75.0)}]));
    noticed(case(), front, "only 3 of its 75 lie on wood beside the bit");
    let inside = strips(json!([{"along": "inside", "wide": mm(75.0)}]));
    noticed(case(), inside, "no strip lies along the inside");
}

/// A base of 310 is wider than the ends, 300, and never stands on them whole.
#[test]
fn a_base_wider_than_the_work() {
    let wide = |packet: &mut Value| packet["shop"]["base_plate"] = mm(310.0);
    noticed(case(), wide, "the base is never whole on wood");
}

/// The straight-edge is between datum and cut: the far wall comes first.
#[test]
fn strokes_in_the_order_that_climbs() {
    let turned = |packet: &mut Value| swap(&mut operation(packet, "setting", 0)["set"], 0, 1);
    noticed(case(), turned, "is a climb cut");
}

/// On the far side it is the near wall: 100 + 6 + 75 = 181, then 187.
#[test]
fn a_far_straight_edge_the_other_way_round() {
    let set = |first: f64, then: f64| {
        move |packet: &mut Value| {
            let own = operation(packet, "setting", 0);
            own["guide"] = "far".into();
            own["set"] = json!([mm(first), mm(then)]);
            swap(&mut own["pieces"], 0, 1);
            own["pieces"][0]["feed"] = json!({"from": "back edge", "to": "front edge"});
            own["pieces"][1]["feed"] = json!({"from": "front edge", "to": "back edge"});
        }
    };
    let mut packet = case();
    set(181.0, 187.0)(&mut packet);
    assert_eq!(build(&packet.to_string()).complaints, Vec::<String>::new());
    noticed(case(), set(187.0, 181.0), "is a climb cut");
}

/// A groove of 6 widened to 8 on the table: away from the fence is sound.
#[test]
fn a_table_fence_the_other_way_round() {
    let set = |first: f64, then: f64| {
        move |packet: &mut Value| {
            operation(packet, "setting", 0)["set"] = json!([mm(first), mm(then)]);
        }
    };
    noticed(drawer(), set(15.0, 13.0), "is a climb cut");
    let mut packet = drawer();
    set(13.0, 15.0)(&mut packet);
    let complaints = build(&packet.to_string()).complaints;
    assert!(!complaints.iter().any(|own| own.contains("climb cut")), "{complaints:?}");
}

#[test]
fn a_stroke_that_is_missing() {
    noticed(
        case(),
        |packet| drop_last(&mut operation(packet, "setting", 0)["set"]),
        "wood is left",
    );
    let ridge = |packet: &mut Value| {
        operation(packet, "setting", 0)["set"] = json!([mm(57.0), mm(31.0)]);
    };
    noticed(case(), ridge, "a ridge is left between two strokes");
}

#[test]
fn a_depth_that_is_wrong() {
    let shallow = |packet: &mut Value| operation(packet, "setting", 0)["depths"] = json!([mm(5.5)]);
    noticed(case(), shallow, "the dado is 5.5 deep, drawn 6");
    let through = |packet: &mut Value| {
        operation(packet, "setting", 0)["depths"] = json!([mm(6.0), mm(12.0), mm(18.0)]);
    };
    noticed(case(), through, "18 deep goes through the board");
    let at_once = |packet: &mut Value| operation(packet, "setting", 1)["depths"] = json!([mm(9.0)]);
    noticed(case(), at_once, "a pass of 9 at once is too deep");
    let idle =
        |packet: &mut Value| operation(packet, "setting", 0)["depths"] = json!([mm(6.0), mm(6.0)]);
    noticed(case(), idle, "a pass at 6 takes nothing");
}

/// A stop that isn't drawn leaves wood, one that is missing takes it.
#[test]
fn a_stop_that_is_not_drawn() {
    let stopped = |packet: &mut Value| {
        operation(packet, "setting", 0)["pieces"][0]["stops"] =
            json!([{"short": mm(20.0), "of": "front edge"}]);
    };
    noticed(case(), stopped, "LE, part LE: wood is left at 100 to");
    let along = |packet: &mut Value| {
        operation(packet, "setting", 0)["pieces"][0]["stops"] =
            json!([{"short": mm(20.0), "of": "top end"}]);
    };
    noticed(case(), along, "it can't stop short of the top end");
}

#[test]
fn a_piece_left_out_of_a_set_up() {
    noticed(
        case(),
        |packet| drop_last(&mut operation(packet, "setting", 0)["pieces"]),
        "RE, part RE: the dado in its inside is not cut as drawn",
    );
}

#[test]
fn a_cut_made_twice() {
    let twice = |packet: &mut Value| {
        let own = operation(packet, "setting", 0).clone();
        later(packet, own, 2);
    };
    noticed(case(), twice, "cuts what is not drawn there");
}

/// Far from the bottom end, the straight-edge would lie beyond the top end:
/// a base of 1300 has its edge 650 off the bit.
#[test]
fn a_straight_edge_beside_the_board() {
    let beyond = |packet: &mut Value| {
        packet["shop"]["base_plate"] = mm(1300.0);
        let own = operation(packet, "setting", 0);
        own["guide"] = "far".into();
        own["set"] = json!([mm(756.0), mm(762.0)]);
    };
    noticed(case(), beyond, "has no board under it");
}

/// A drawer's groove set from its bottom edge with a straight-edge beyond:
/// 13 + 3 + 75 leaves 9 of a side 100 wide.
#[test]
fn a_board_too_narrow_for_a_straight_edge() {
    let narrow = |packet: &mut Value| {
        let own = operation(packet, "setting", 0);
        own["guide"] = "far".into();
        own["set"] = json!([mm(91.0)]);
    };
    noticed(drawer(), narrow, "a straight-edge at 91 has no board under it");
    let edge = |packet: &mut Value| {
        let own = operation(packet, "setting", 0);
        own["guide"] = "near".into();
    };
    noticed(door(), edge, "the face is too narrow for the router to stand on");
}

#[test]
fn a_bit_that_is_not_there_and_one_too_wide_for_a_hand() {
    let none = |packet: &mut Value| operation(packet, "setting", 0)["tool"] = "T8".into();
    noticed(case(), none, "there is no bit T8");
    let wide = |packet: &mut Value| packet["tools"][0]["diameter"] = mm(30.0);
    noticed(case(), wide, "so wide a bit is not run by hand");
}

#[test]
fn a_part_that_is_not_milled() {
    noticed(frame(), |packet| drop(without(packet, "mill", 4)), "its thickness is 25, drawn 19");
    noticed(frame(), |packet| drop(without(packet, "mill", 6)), "its length is 625, drawn 600");
    // A sheet comes from its stock as large as it is drawn, and rough.
    noticed(frame(), |packet| drop(without(packet, "mill", 0)), "its width is left rough");
    let planed = |packet: &mut Value| {
        operation(packet, "mill", 0)["axis"] = "thickness".into();
        operation(packet, "mill", 0)["to"] = mm(18.0);
    };
    noticed(frame(), planed, "LE, part LE: a sheet is not planed");
    let late = |packet: &mut Value| {
        let own = without(packet, "mill", 5);
        later(packet, own, 2);
    };
    noticed(frame(), late, "LS, part LS: its joints are cut already");
    let growing = |packet: &mut Value| operation(packet, "mill", 5)["to"] = mm(60.0);
    noticed(frame(), growing, "it has only 56");
}

#[test]
fn a_part_that_is_never_made() {
    noticed(case(), |packet| drop(without(packet, "break down", 2)), "it is not broken down yet");
    noticed(case(), |packet| drop(without(packet, "break down", 2)), "B, part B: it is never made");
    let twice = |packet: &mut Value| {
        let own = operation(packet, "break down", 0).clone();
        later(packet, own, 1);
    };
    noticed(case(), twice, "it is there already");
}

/// A board shorter than 300 is not planed by itself, and a stick gives no more than it is
/// long.
#[test]
fn short_parts_are_milled_as_one_stick() {
    let short = |packet: &mut Value| {
        operation(packet, "break down", 2)["size"] = all([290.0, 56.0, 25.0]);
    };
    noticed(frame(), short, "no machine holds a board 290 long");
    let stick = |long: f64| {
        move |packet: &mut Value| {
            drop(without(packet, "break down", 5));
            let own = operation(packet, "break down", 4);
            *own = json!({"step": 1, "kind": "stick", "shorter": mm(300.0), "stock": "ash",
                "parts": ["TR", "BR"], "size": all([long, 46.0, 25.0])});
        }
    };
    // Two rails of 400 and a kerf of 3.
    let mut packet = frame();
    stick(803.0)(&mut packet);
    assert_eq!(build(&packet.to_string()).complaints, Vec::<String>::new());
    noticed(frame(), stick(790.0), "its stick has only 387 left");
}

#[test]
fn a_part_from_another_stock() {
    let thin = |packet: &mut Value| operation(packet, "break down", 2)["stock"] = "thin".into();
    noticed(case(), thin, "it is not made of thin");
    noticed(case(), thin, "thin is 6 thick");
}

/// Two staves of 160 are not 350.
#[test]
fn a_blank_that_is_not_glued_up() {
    let staves = |packet: &mut Value| {
        operation(packet, "break down", 2)["pieces"] = 2.into();
    };
    noticed(frame(), staves, "it is not glued up yet");
    let glued = |wide: f64| {
        move |packet: &mut Value| {
            let place = at(packet, "break down", 2);
            let own = &mut packet["operations"][place];
            own["pieces"] = 2.into();
            own["size"] = all([625.0, 30.0, 25.0]);
            let glue = json!({"step": 1, "kind": "glue up", "part": "LS",
                "way": "edge to edge", "size": all([625.0, wide, 25.0])});
            packet["operations"].as_array_mut().unwrap().insert(place + 1, glue);
        }
    };
    let mut packet = frame();
    glued(56.0)(&mut packet);
    assert_eq!(build(&packet.to_string()).complaints, Vec::<String>::new());
    noticed(frame(), glued(70.0), "its pieces come to 60");
}

#[test]
fn a_joint_cut_after_it_is_closed() {
    let late = |packet: &mut Value| {
        let own = without(packet, "setting", 0);
        later(packet, own, 3);
    };
    noticed(case(), late, "LE, part LE: it is built in since step 3");
    noticed(case(), late, "it hits B, part B on its way from left");
    let mitered = |packet: &mut Value| {
        let index = at(packet, "shape", 0);
        let own = packet["operations"].as_array_mut().unwrap().remove(index);
        later(packet, own, 3);
    };
    noticed(frame(), mitered, "LS, part LS: it is built in since step 3");
}

#[test]
fn steps_out_of_order() {
    let turned = |packet: &mut Value| {
        let place = at(packet, "join", 0);
        swap(&mut packet["operations"], place, place + 1);
    };
    noticed(case(), turned, "it comes after a later step");
}

#[test]
fn a_move_from_the_wrong_side() {
    let from = |number: usize, side: &'static str| {
        move |packet: &mut Value| {
            operation(packet, "join", 0)["moves"][number]["legs"] = json!([{"from": side}]);
        }
    };
    noticed(case(), from(1, "right"), "LE, part LE: it hits B, part B on its way from right");
    noticed(case(), from(1, "below"), "LE, part LE: it hits B, part B on its way from below");
    noticed(drawer(), from(1, "above"), "B, part B: it hits F, part F on its way from above");
    noticed(door(), from(3, "right"), "DL, part DL: it hits DT, part DT on its way from right");
    let unsaid = |packet: &mut Value| {
        operation(packet, "join", 0)["moves"][1].as_object_mut().unwrap().remove("legs");
    };
    noticed(case(), unsaid, "LE: nothing says from where");
}

/// The end folds onto the miter from the left or from behind.
#[test]
fn a_miter_from_the_wrong_side() {
    let from = |side: &'static str| {
        move |packet: &mut Value| {
            operation(packet, "join", 1)["moves"][1]["legs"] = json!([{"from": side}]);
        }
    };
    noticed(frame(), from("right"), "LE, part LE: it hits LS, part LS on its way from right");
    noticed(frame(), from("front"), "LE, part LE: it hits LS, part LS on its way from front");
    let mut packet = frame();
    from("back")(&mut packet);
    assert_eq!(build(&packet.to_string()).complaints, Vec::<String>::new());
}

#[test]
fn a_miter_with_its_long_point_inside() {
    let inside = |packet: &mut Value| operation(packet, "shape", 1)["long_point"] = "inside".into();
    noticed(frame(), inside, "LE, part LE: it hits LS, part LS");
}

/// The end is 300 wide and 18 thick: with its back edge at the fence and its outside face up,
/// the blade stands 300 − 18 = 282 from the fence and comes out at the corner. With the inside
/// face up it cuts the long point off; by hand it is the other way round.
#[test]
fn a_miter_at_the_saw() {
    let end = || {
        let mut packet = frame();
        let shape = operation(&mut packet, "shape", 1);
        assert_eq!(shape["part"], "LE");
        let at = json!({ "exact": "282", "print": "282" });
        shape["sawn"] = json!({ "with": "fence", "on": "back edge", "up": "outside", "at": at });
        packet
    };
    assert_eq!(build(&end().to_string()).complaints, Vec::<String>::new());
    let says = |key: &'static str, value: &'static str| {
        move |packet: &mut Value| operation(packet, "shape", 1)["sawn"][key] = value.into()
    };
    noticed(end(), says("up", "inside"), "with the inside up, the miter slopes the other way");
    noticed(end(), says("with", "straight-edge"), "the miter slopes the other way");
    noticed(end(), says("on", "front edge"), "the front edge is not across from the mitered edge");
    let near = |packet: &mut Value| {
        operation(packet, "shape", 1)["sawn"]["at"]["exact"] = "280".into();
    };
    noticed(end(), near, "comes out beside the corner");
}

/// Tails let go along the thickness of their board only.
#[test]
fn dovetails_pulled_the_wrong_way() {
    let from = |packet: &mut Value| {
        operation(packet, "join", 0)["moves"][3]["legs"] = json!([{"from": "below"}]);
    };
    noticed(drawer(), from, "the dovetails of SL hold it back");
    // From inside the front would have to pass through between the tails.
    let through = |packet: &mut Value| {
        operation(packet, "join", 0)["moves"][3]["legs"] = json!([{"from": "right"}]);
    };
    noticed(drawer(), through, "SL, part SL: it hits F, part F on its way from right");
}

/// The bottom after both sides and the back: its grooves are closed by then.
#[test]
fn a_bottom_that_comes_too_late() {
    let late = |packet: &mut Value| swap(&mut operation(packet, "join", 0)["moves"], 1, 4);
    noticed(drawer(), late, "B, part B: it hits K, part K on its way from back");
}

/// A block that is pushed behind a board needs room to come in: two legs go
/// round what one would hit.
#[test]
fn a_way_in_of_two_legs() {
    let legs = |by: f64| {
        move |packet: &mut Value| {
            let legs = json!([{"from": "below"}, {"from": "left", "by": mm(by)}]);
            operation(packet, "join", 0)["moves"][1]["legs"] = legs;
        }
    };
    let mut packet = case();
    legs(10.0)(&mut packet);
    assert_eq!(build(&packet.to_string()).complaints, Vec::<String>::new());
    noticed(case(), legs(2.0), "LE, part LE: it hits B, part B on its way from below");
    let far = |packet: &mut Value| {
        operation(packet, "join", 0)["moves"][1]["legs"] =
            json!([{"from": "below"}, {"from": "left"}]);
    };
    noticed(case(), far, "LE: nothing says how far it is pushed");
}

#[test]
fn a_joint_closed_twice_or_never() {
    let twice = |packet: &mut Value| operation(packet, "join", 1)["joints"] = json!([3, 4, 5]);
    noticed(case(), twice, "S and RE were joined in step 3");
    let never = |packet: &mut Value| operation(packet, "join", 1)["joints"] = json!([4]);
    noticed(case(), never, "K and RE are never joined");
    let unknown = |packet: &mut Value| operation(packet, "join", 1)["joints"] = json!([4, 5, 6]);
    noticed(case(), unknown, "there is no joint 6");
}

#[test]
fn a_part_left_out_of_a_glue_up() {
    let out = |packet: &mut Value| drop_last(&mut operation(packet, "join", 0)["moves"]);
    noticed(case(), out, "S, part S: it is not among what is brought together");
    noticed(case(), out, "S, part S: nothing holds it up");
}

/// The drawing itself may leave two halves of a joint apart.
#[test]
fn a_joint_whose_halves_do_not_meet() {
    let apart = |packet: &mut Value| {
        let drawn = packet["drawn"]["parts"].as_array_mut().unwrap();
        drawn.iter_mut().find(|own| own["mark"] == "K").unwrap()["at"] = all([9.0, 100.0, 300.0]);
    };
    noticed(case(), apart, "K, part K doesn't meet LE, part LE");
    let within = |packet: &mut Value| {
        let drawn = packet["drawn"]["parts"].as_array_mut().unwrap();
        drawn.iter_mut().find(|own| own["mark"] == "K").unwrap()["at"] = all([9.0, 100.0, 290.0]);
    };
    noticed(case(), within, "it is in the place of");
}

#[test]
fn what_stands_on_nothing_or_below_the_floor() {
    let lifted = |packet: &mut Value, by: f64| {
        for own in packet["drawn"]["parts"].as_array_mut().unwrap() {
            let up: String = own["at"][1]["print"].as_str().unwrap().to_owned();
            own["at"][1] = mm(up.parse::<f64>().unwrap() + by);
        }
    };
    noticed(case(), |packet| lifted(packet, 5.0), "nothing holds it up");
    noticed(case(), |packet| lifted(packet, -5.0), "it stands below the floor");
}

/// The hutch's countertop reaches 3/4 past the left side and the face of its sideboard.
#[test]
fn a_countertop_that_is_laid_elsewhere() {
    let sound = || packet(&compile(&spec("heron-quay-hutch.case")));
    for (side, at) in [("left", 0), ("front", 1)] {
        let off = |packet: &mut Value| {
            let past = &mut operation(packet, "lay on", 0)["past"][at];
            assert_eq!(
                (past["side"].as_str(), past["by"]["print"].as_str()),
                (Some(side), Some("3/4"))
            );
            past["by"]["print"] = json!("1-3/4");
        };
        noticed(sound(), off, &format!("its {side} edge lies 0.75 past"));
    }
}

#[test]
fn what_hangs_on_nothing() {
    let sound = || packet(&compile(&spec("signal-house-media-shelf.case")));
    let lower = |packet: &mut Value| operation(packet, "put up strip", 0)["up"] = mm(240.0);
    noticed(sound(), lower, "LE, left end: nothing holds it up");
    let door = |packet: &mut Value| operation(packet, "fix to wall", 0)["through"] = json!(["no"]);
    noticed(sound(), door, "B, bottom: nothing holds it up");
    let first = |packet: &mut Value| {
        let lift = at(packet, "lift onto strip", 0);
        let wall = at(packet, "fix to wall", 0);
        let own = packet["operations"].as_array_mut().unwrap();
        let step = own[lift]["step"].clone();
        own.swap(lift, wall);
        own[lift]["step"] = step;
    };
    noticed(sound(), first, "the wall screws are in before it is lifted");
    let late = |packet: &mut Value| {
        let wall = at(packet, "fix to wall", 0);
        let step = packet["operations"][wall]["step"].as_u64().unwrap();
        packet["operations"][wall]["step"] = json!(step + 1);
    };
    noticed(sound(), late, "somebody has to hold it while other work is done");
    let bare = |packet: &mut Value| drop(without(packet, "put up strip", 0));
    noticed(sound(), bare, "there is no strip to lift it onto");
}

#[test]
fn a_hole_that_is_off() {
    let off = |packet: &mut Value| operation(packet, "bore", 0)["centers"][0][1] = mm(24.5);
    noticed(door(), off, "the hinge cup is off by 2 along the width");
    let large = |packet: &mut Value| operation(packet, "bore", 0)["diameter"] = mm(36.0);
    noticed(door(), large, "the hinge cup is 36 along its length, drawn 35");
    let shallow = |packet: &mut Value| operation(packet, "bore", 0)["deep"] = mm(11.0);
    noticed(door(), shallow, "the hinge cup is 11 deep, drawn 12.5");
    let front = |packet: &mut Value| operation(packet, "bore", 0)["face"] = "front".into();
    noticed(door(), front, "wood is left");
    let other = |packet: &mut Value| {
        operation(packet, "bore", 0)["from"] = json!(["bottom end", "right edge"]);
    };
    noticed(door(), other, "cuts what is not drawn there");
    let out = |packet: &mut Value| operation(packet, "bore", 0)["centers"][0][1] = mm(10.0);
    noticed(door(), out, "a hole at 10 runs out of the board");
    let near = |packet: &mut Value| operation(packet, "bore", 0)["centers"][0][1] = mm(19.0);
    noticed(door(), near, "only 1.5 is left beside its hinge cup");
    let one = |packet: &mut Value| drop_last(&mut operation(packet, "bore", 0)["centers"]);
    noticed(door(), one, "the hinge cup in its back is not cut as drawn");
}

#[test]
fn a_tenon_that_does_not_fit() {
    let thick = |packet: &mut Value| {
        operation(packet, "shape", 0)["spans"][1] =
            json!({"from": "front", "start": mm(6.5), "end": mm(13.0)});
    };
    noticed(door(), thick, "the tenon is 6.5 along its thickness, drawn 6");
    let long = |packet: &mut Value| operation(packet, "shape", 0)["deep"] = mm(12.0);
    noticed(door(), long, "wood is gone at 8.5 to 12");
    let beside = |packet: &mut Value| {
        operation(packet, "shape", 0)["spans"][1] =
            json!({"from": "left end", "start": mm(6.5), "end": mm(12.5)});
    };
    noticed(door(), beside, "the left end is no side of the left end");
    noticed(door(), |packet| drop(without(packet, "shape", 0)), "DT, part DT");
    let index_of_groove = |packet: &mut Value| {
        operation(packet, "setting", 0)["pieces"].as_array_mut().unwrap().remove(0);
    };
    noticed(door(), index_of_groove, "DL, part DL: it hits");
}

/// A groove 3 from a face leaves a wall of 3; a dado 14 deep in 18 leaves 4.
#[test]
fn a_wall_that_is_too_thin() {
    let walls = |from: f64| {
        let mut packet = door();
        operation(&mut packet, "setting", 0)["set"] = json!([mm(from)]);
        build(&packet.to_string()).thin_walls
    };
    let of_stile = |walls: &[String]| walls.iter().any(|wall| wall.starts_with("DL, part DL"));
    assert!(!of_stile(&walls(5.0)));
    let thin = "DL, part DL: only 3 is left beside its channel or mortise".to_owned();
    assert!(walls(3.0).contains(&thin), "{:?}", walls(3.0));
    let deep = |packet: &mut Value| {
        operation(packet, "setting", 0)["depths"] =
            json!([3.0, 6.0, 9.0, 12.0, 14.0].map(mm).to_vec());
    };
    let mut packet = case();
    deep(&mut packet);
    let thin = "LE, part LE: only 4 is left under its channel or mortise".to_owned();
    let walls = build(&packet.to_string()).thin_walls;
    assert!(walls.contains(&thin), "{walls:?}");
}

#[test]
fn diagonals_that_are_not_those_of_the_sides() {
    let wrong = |packet: &mut Value| {
        operation(packet, "join", 0)["square"]["diagonal"] = "783".into();
    };
    noticed(case(), wrong, "the diagonal is 781.025, not 783");
}

#[test]
fn names_that_mislead() {
    let turned = |packet: &mut Value| {
        packet["parts"][0]["faces"]["width"] = json!(["back edge", "front edge"]);
    };
    noticed(case(), turned, "its back edge is on another side");
    let alike = |packet: &mut Value| {
        packet["parts"][0]["faces"]["thickness"] = json!(["inside", "inside"]);
    };
    noticed(case(), alike, "it has two faces called inside");
    let mark = |packet: &mut Value| packet["parts"][1]["mark"] = "LE".into();
    noticed(case(), mark, "another part has its mark");
}

#[test]
fn a_packet_of_another_kind() {
    let kind = |packet: &mut Value| operation(packet, "setting", 0)["kind"] = "carve".into();
    noticed(case(), kind, "unknown variant `carve`");
    let figure =
        |packet: &mut Value| operation(packet, "setting", 0)["set"][0]["print"] = "a bit".into();
    noticed(case(), figure, "no figure");
}

/// Lines that a rule strikes: a place that is off, an edge that is another, a board
/// that nobody places.
#[test]
fn lines_that_are_not_where_a_board_stands() {
    let off = |packet: &mut Value| {
        packet["layout"][0]["lines"][1]["along"]["start"] = mm(559.0);
    };
    noticed(frame(), off, "LS, part LS: the lines of TR are off by 1");
    let from = |packet: &mut Value| {
        packet["layout"][1]["lines"][0]["along"]["from"] = "top end".into();
    };
    noticed(frame(), from, "RS, part RS: the lines of BR are off by 560");
    let across = |packet: &mut Value| {
        packet["layout"][0]["lines"][0]["across"]["from"] = "back edge".into();
    };
    noticed(case(), across, "LE, part LE: the lines of S are off by 220");
    let none = |packet: &mut Value| drop_last(&mut packet["layout"][0]["lines"]);
    noticed(frame(), none, "LS, part LS: no line says where TR stands");
}

#[test]
fn tails_that_do_not_part_the_width() {
    let tail = |number: usize, start: f64, end: f64| {
        move |packet: &mut Value| {
            let tails = &mut operation(packet, "shape", 0)["tails"]["along"];
            tails[number] = json!({"from": "bottom edge", "start": mm(start), "end": mm(end)});
        }
    };
    noticed(drawer(), tail(1, 37.5, 63.5), "SL, part SL: its tails are not alike");
    noticed(drawer(), tail(1, 38.0, 63.0), "SL, part SL: its pins are not alike");
    let lower = |packet: &mut Value| {
        for (number, start) in [6.0, 37.0, 68.0].into_iter().enumerate() {
            tail(number, start, start + 25.0)(packet);
        }
    };
    // 6 below, and 100 - 93 = 7 above.
    noticed(drawer(), lower, "SL, part SL: its tails stand nearer to one edge");
    let thin = |packet: &mut Value| {
        for (number, start) in [2.5, 35.5, 68.5].into_iter().enumerate() {
            tail(number, start, start + 29.0)(packet);
        }
    };
    noticed(drawer(), thin, "SL, part SL: a pin is only 2.5 wide");
    let steep = |packet: &mut Value| operation(packet, "shape", 0)["tails"]["slope"] = 3.into();
    noticed(drawer(), steep, "SL, part SL: its tails slope 1 in 3");
    let none = |packet: &mut Value| {
        operation(packet, "shape", 0).as_object_mut().unwrap().remove("tails");
    };
    noticed(drawer(), none, "SL, part SL: nobody says where its tails are");
}

#[test]
fn dowels_that_do_not_go_home() {
    let off = |packet: &mut Value| {
        operation(packet, "shape", 1)["row"]["centers"][1] = all([147.0, 9.5]);
    };
    noticed(doweled(), off, "R: a dowel hole has no other half");
    let side =
        |packet: &mut Value| operation(packet, "shape", 0)["row"]["from"][1] = "top edge".into();
    noticed(doweled(), side, "P: a dowel hole has no other half");
    // 2 × 28.5 − 56 = 1, where 54 leaves 1.5 at each end.
    let long = |packet: &mut Value| operation(packet, "shape", 0)["row"]["dowel"] = mm(56.0);
    noticed(doweled(), long, "R: its dowels leave 1 of both holes");
}

/// A groove as deep as the tenon is long leaves no room for glue and end grain.
#[test]
fn a_tenon_that_touches_the_floor_of_its_groove() {
    let shallow = |packet: &mut Value| {
        let own = operation(packet, "setting", 0);
        own["depths"] = json!([mm(3.0), mm(6.0), mm(8.5)]);
    };
    noticed(door(), shallow, "DT, part DT: its tenon leaves 0 for glue in DL");
}

/// The demo press: its door rails are tenoned 30 long, sawn back by 21.5 to haunches 8.5
/// long in grooves of 10. Sawn back by 20 they touch the floor, and not sawn back at all
/// a tenon hits the closed end of its mortise.
#[test]
fn a_haunch_that_does_not_fit() {
    let press = || {
        let text = demos::packet(&compile(&spec("tide-cottage-press.case"))).unwrap();
        serde_json::from_str::<Value>(&text).unwrap()
    };
    let first = |packet: &Value| {
        let all = packet["operations"].as_array().unwrap();
        all.iter().position(|own| own["what"] == "haunch").unwrap()
    };
    let long = |packet: &mut Value| {
        let at = first(packet);
        packet["operations"][at]["deep"] = mm(20.0);
    };
    noticed(press(), long, "its tenon leaves 0 for glue in LIL-LS");
    let left_out = |packet: &mut Value| {
        let at = first(packet);
        packet["operations"].as_array_mut().unwrap().remove(at);
    };
    noticed(press(), left_out, "LIL-TR");
}
