//! A baseboard that stays behind the piece, with figures worked by hand.

use casewright::pipeline::Compilation;
use serde_json::Value;

use crate::support::{compile, packet, slugs};

/// A case 30 in wide and 12 deep before this baseboard, on this base.
fn spec(baseboard: &str, base: &str, more: &str) -> String {
    format!(
        "casework 1
job \"baseboard\" {{ units in; tape 1/32 }}
site {{ fixing wall; baseboard {{ {baseboard} }} }}
shop {{ clamps 20; open-time 30 min }}
stock ply {{ plywood 3/4; sheet {{ long 96; wide 48 }} }}
stock thin {{ plywood 1/4; sheet {{ long 96; wide 48 }} }}
case c {{
  wide 30; deep 12; high 40
  stock ply
  {base}
  bottom {{ joint dado {{ deep 1/4 }} }}
  back {{ stock thin; joint rabbet {{ deep 3/8 }} }}
  top {{ panel; joint rabbet }}
  frame none
  across {{ open a {{ share 1 }} }}
  {more}
}}
"
    )
}

const KICK: &str = "base { toe-kick; high 4; set-back 3; cut-into ends }";

/// From and to of every notch of a part, along its length and its width.
fn notches(compiled: &Compilation, mark: &str) -> Vec<[[String; 2]; 2]> {
    let packet = packet(compiled);
    let parts = packet["drawn"]["parts"].as_array().unwrap();
    let part = parts.iter().find(|part| part["mark"] == mark).unwrap();
    let notches = part["features"].as_array().unwrap().iter();
    let print = |own: &Value| own["print"].as_str().unwrap().to_owned();
    notches
        .filter(|own| own["kind"] == "notch")
        .map(|own| [0, 1].map(|axis| [print(&own["from"][axis]), print(&own["to"][axis])]))
        .collect()
}

#[test]
fn ends_are_notched_by_the_baseboard_and_its_play() {
    let compiled = compile(&spec("high 3-1/2; thick 3/4", KICK, ""));
    assert!(slugs(&compiled).is_empty(), "{:?}", slugs(&compiled));
    let text = |own: [[&str; 2]; 2]| own.map(|span| span.map(str::to_owned));
    // The toe kick, 3 and 3/4 thick; the baseboard, 3-1/2 and 1/8 high, 3/4 and 1/8 deep, at
    // the back of an end 12 wide.
    let expected = [text([["0", "4"], ["0", "3-3/4"]]), text([["0", "3-5/8"], ["11-1/8", "12"]])];
    assert_eq!(notches(&compiled, "LE"), expected);
    assert_eq!(notches(&compiled, "RE"), expected);
}

#[test]
fn the_bottom_lies_above_the_baseboard() {
    // 3-7/8 and 1/8 of play end where the bottom begins.
    assert!(slugs(&compile(&spec("high 3-7/8; thick 3/4", KICK, ""))).is_empty());
    assert_eq!(slugs(&compile(&spec("high 3-29/32; thick 3/4", KICK, ""))), ["baseboard-hit"]);
    // Without a base the bottom lies on the floor.
    assert_eq!(slugs(&compile(&spec("high 3-1/2; thick 3/4", "", ""))), ["baseboard-hit"]);
}

#[test]
fn a_foot_is_left_between_two_notches() {
    // 12 less 6-3/4 less 3-1/8 and 1/8 are 2.
    let kick = "base { toe-kick; high 4; set-back 6; cut-into ends }";
    let found = slugs(&compile(&spec("high 3; thick 3-1/8", kick, "")));
    assert!(!found.contains(&"baseboard-hit"), "{found:?}");
    let found = slugs(&compile(&spec("high 3; thick 3-5/32", kick, "")));
    assert!(found.contains(&"baseboard-hit"), "{found:?}");
}

#[test]
fn a_separate_base_ends_before_the_baseboard() {
    let base = "base { toe-kick; high 4; set-back 3; separate }";
    let compiled = compile(&spec("high 3-1/2; thick 1-1/2", base, ""));
    assert!(slugs(&compiled).is_empty(), "{:?}", slugs(&compiled));
    let parts = compiled.parts.as_ref().unwrap();
    let rear = parts.all.iter().filter(|part| part.path.contains("base"));
    let rear = rear.map(|part| part.cuboid().to.z).max().unwrap();
    // 12 less 1-1/2 and 1/8.
    assert_eq!(rear, casewright::measure::Length::inches(83, 8));
    // Its ends stand on it, over the baseboard.
    assert!(notches(&compiled, "LE").is_empty());
}

#[test]
fn a_leg_under_the_bottom_is_notched_too() {
    let compiled = compile(&spec("high 3-1/2; thick 3/4", KICK, "leg { }"));
    let parts = compiled.parts.as_ref().unwrap();
    let leg = parts.all.iter().find(|part| part.role == casewright::parts::Role::Leg).unwrap();
    let all = notches(&compiled, &leg.mark);
    let [notch] = all.as_slice() else { panic!("{all:?}") };
    // It ends at the back, which is 1/4 thick: 3/4 and 1/8 less 1/4, from 11-3/4 − 3-3/4 = 8.
    assert_eq!(notch[0], ["7-3/8", "8"]);
    assert_eq!(notch[1], ["0", "3-5/8"]);
}

#[test]
fn nothing_before_it_is_told() {
    let hung = compile(&spec("high 3-1/2; thick 3/4", "hung { up 20 }", ""));
    assert!(slugs(&hung).contains(&"baseboard-hit"), "{:?}", slugs(&hung));
}
