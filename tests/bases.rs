//! Toe kicks that are scribed to the floor, and separate bases with legs of the maker's own.

use casewright::papers::{self, Format};
use casewright::parts::{Direction, Part};

use crate::support::{compile, packet, slugs, spec};

/// The kick is drawn 4 high, from the floor to the underside of the case, and cut 1/2
/// higher, or as much as is written. It goes on when the piece is leveled and fixed.
#[test]
fn a_kick_is_scribed_to_the_floor_when_the_piece_stands_level() {
    let base = "cut-into ends }";
    for (written, left, cut) in [("", "1/2", "4-1/2"), ("; scribe 1-1/4", "1-1/4", "5-1/4")] {
        let text = spec("first.case").replace(base, &format!("cut-into ends{written} }}"));
        let compiled = compile(&text);
        assert_eq!(slugs(&compiled), Vec::<&str>::new());
        let parts = compiled.parts.as_ref().unwrap();
        let kick = parts.named("cupboard.kick").unwrap().1;
        let inches = casewright::measure::Length::inches;
        assert_eq!(kick.extent(Direction::Y), (inches(0, 1), inches(4, 1)));
        let packet = packet(&compiled);
        let all = packet["operations"].as_array().unwrap();
        let scribed = all.iter().find(|own| own["kind"] == "scribe kick").unwrap();
        let edge =
            serde_json::json!({"edge": "bottom edge", "left": scribed["scribed"][0]["left"]});
        assert_eq!(scribed["scribed"][0], edge);
        assert_eq!(edge["left"]["print"], left);
        let sawn = all.iter().find(|own| own["kind"] == "break down" && own["part"] == "KICK");
        assert_eq!(sawn.unwrap()["size"][1]["print"], cut);
        let order = papers::one(&compiled, "assembly-order", Format::Text).unwrap();
        let at = |line: &str| order.find(line).unwrap_or_else(|| panic!("{line}"));
        assert!(at("shim up from it until") < at("KICK is left"));
        assert!(at("KICK is left") < at("KICK: screw it across both notches"));
        assert!(order.contains("the foot of LE, RE is closed by a molding"));
    }
}

/// A separate base is shimmed, and nothing of it is scribed.
#[test]
fn nothing_is_left_on_a_separate_base_to_scribe() {
    let base = |rest: &str| {
        let text = spec("first.case");
        compile(&text.replace("cut-into ends }", &format!("separate{rest} }}")))
    };
    assert_eq!(slugs(&base("; scribe 3/4")), ["not-supported-yet"]);
    let order = papers::one(&base(""), "assembly-order", Format::Text).unwrap();
    assert!(order.contains("a gap between the floor and the base is closed by a molding"));
}

/// The first cabinet on a separate base, its sides and back 23/32 and 3 behind
/// the face of the frame, with these legs.
fn on_a_base(legs: &str) -> Vec<Part> {
    let text = spec("first.case").replace(
        "base { toe-kick; high 4; set-back 3; cut-into ends }",
        &format!("base {{ toe-kick; high 4; set-back 3; separate }}\n  {legs}"),
    );
    let compiled = compile(&text);
    assert_eq!(slugs(&compiled), Vec::<&str>::new(), "{legs}");
    let parts = compiled.parts.unwrap().all;
    parts
        .into_iter()
        .filter(|part| part.path.contains("leg") || part.path.contains("sleeper"))
        .collect()
}

/// The base is 36 wide and has a sleeper at each end and one in the middle. A
/// leg stands between its front and its back. The bottom lies on the base and is
/// screwed down to it, so the back of the base stands 1 before the case's back of
/// 13/64, for the driver: 18 − 13/64 − 1 − 23/32 − 3 − 23/32 = 12-23/64 are between
/// them. In the middle a leg stands in place of the sleeper, elsewhere beside it.
#[test]
fn a_leg_in_a_separate_base_is_one_more_sleeper() {
    let clear = casewright::measure::Length::inches(791, 64);
    let names = |legs: &str| -> Vec<String> {
        let parts = on_a_base(legs);
        assert!(parts.iter().all(|part| part.length.length == clear), "{parts:#?}");
        assert!(parts.iter().all(|part| part.extent(Direction::Y).0.is_zero()));
        let mut names: Vec<_> = parts.iter().map(|part| part.word().to_owned()).collect();
        names.sort();
        names
    };
    let [left, middle, right] = ["base-left-sleeper", "base-sleeper-1", "base-right-sleeper"];
    assert_eq!(names(""), [left, right, middle]);
    assert_eq!(names("leg { at 18 }"), [left, right, "leg"]);
    assert_eq!(names("leg { }"), [left, right, "leg"]);
    assert_eq!(names("leg { at 10 }; leg { at 18-1/2 }"), [left, right, "leg-1", "leg-2"]);
    assert_eq!(names("leg { at 10 }"), [left, right, middle, "leg"]);
}
