//! A separate base with legs of the maker's own.

use casewright::parts::{Direction, Part};

use crate::support::{compile, slugs, spec};

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
