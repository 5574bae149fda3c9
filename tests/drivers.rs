//! Room for a driver at screws that go down, and at those of a kick: figures worked by hand.

use serde_json::Value;

use crate::bench;
use crate::support::{compile, packet, screw_lines, slugs};

/// A case with a shelf over its bottom.
const SHELF: &str = r#"casework 1
job "t" { units in; tape 1/32 }
site { left open; right open; fixing wall }
stock ply { plywood 3/4; sheet { long 96; wide 48 } }
stock thin { plywood 1/4; sheet { long 96; wide 48 } }
case low {
  wide 32; deep 15; high 30; stock ply
  base { toe-kick; high 4; set-back 2; cut-into ends }
  leg { }
  bottom { joint dado { deep 1/4 } }
  back { stock thin; joint rabbet { deep 3/8 } }
  top { panel; joint rabbet { deep 3/8 } }
  frame none
  down { open over { share 1 }; divider { joint dado { deep 1/4 } }; open under { high 6 } }
}
"#;

fn operations(text: &str) -> Vec<Value> {
    packet(&compile(text))["operations"].as_array().unwrap().clone()
}

/// A right-angle driver takes 140 mm, and boards less than 1 mm nearer only touch it. Under
/// a shelf 5-1/2 up, 139.7 mm, it gets at the screws of a leg, and under one of 5-15/32,
/// 138.9 mm, it doesn't: then a block holds the leg from below.
#[test]
fn a_leg_under_a_low_shelf_is_held_from_below() {
    for (high, is_block) in [("5-1/2", false), ("5-15/32", true)] {
        let text = SHELF.replace("high 6", &format!("high {high}"));
        let all = operations(&text);
        assert_eq!(all.iter().any(|own| own["kind"] == "block leg"), is_block, "{high}");
        assert_eq!(screw_lines(&text, ["B", "LEG"]).is_empty(), is_block, "{high}");
        assert_eq!(slugs(&compile(&text)), Vec::<&str>::new(), "{high}");
        assert_eq!(bench::built(&compile(&text)), Vec::<String>::new(), "{high}");
    }
}

/// The same over a separate base, where the bottom is screwed down from inside: the rule
/// tells that no driver gets in.
#[test]
fn a_bottom_under_a_low_shelf_is_told() {
    let base = "toe-kick; high 4; set-back 2; cut-into ends";
    let text =
        SHELF.replace("  leg { }\n", "").replace(base, "toe-kick; high 4; set-back 2; separate");
    let text = |high: &str| text.replace("high 6", &format!("high {high}"));
    for (high, told) in [("5-1/2", vec![]), ("5-15/32", vec!["driver-reach"])] {
        assert_eq!(slugs(&compile(&text(high))), told, "{high}");
    }
    // Where that is too low by more than the tape shows, the shop finds it, too.
    for (high, is_sound) in [("5-1/2", true), ("5-3/8", false)] {
        assert_eq!(bench::built(&compile(&text(high))).is_empty(), is_sound, "{high}");
    }
}

/// The bottom of a case 40 wide is 39 long in dadoes of 1/4, and a divider stands on its
/// middle, from 19-1/8 to 19-7/8. A drill keeps 1-5/8 from it: so the screws into the base
/// are in two lines, up to 17-1/2 and from 21-1/2 on, three in each: 2 from either end, and
/// (17-1/2 − 4) / 2 = 6-3/4 apart.
#[test]
fn screws_into_a_base_keep_clear_of_dividers() {
    let text = r#"casework 1
job "t" { units in; tape 1/32 }
site { left open; right open; fixing wall }
stock ply { plywood 3/4; sheet { long 96; wide 48 } }
stock thin { plywood 1/4; sheet { long 96; wide 48 } }
case low {
  wide 40; deep 17; high 28; stock ply
  base { toe-kick; high 4; set-back 2; separate }
  bottom { joint dado { deep 1/4 } }
  back { stock thin; joint rabbet { deep 3/8 } }
  top { stretchers 2 { wide 3 }; joint pocket }
  frame none
  across { open one { share 1 }; divider { joint dado { deep 1/4 } }; open two { share 1 } }
}
"#;
    let compiled = compile(text);
    assert_eq!(slugs(&compiled), Vec::<&str>::new());
    let apart = || Some("6-3/4".to_owned());
    let wanted = [("2".to_owned(), apart(), 3), ("23-1/2".to_owned(), apart(), 3)];
    let found = screw_lines(text, ["B", "BSF"]).into_iter();
    let found: Vec<_> = found.map(|(_, first, apart, count)| (first, apart, count)).collect();
    assert_eq!(found, wanted);
    assert_eq!(bench::built(&compiled), Vec::<String>::new());
}

/// Beside a deeper case the last screws of a kick lie 3/8 from its end, which is nearer than
/// half a drill. A drill begins 150 mm behind its screw, over the kick of the other case:
/// where that stands 5-15/16 further out, 150.8 mm, it only touches it, and with 5-31/32,
/// 151.6 mm, it is in the way. A right-angle driver is wider than the 3/8 from its bit on.
#[test]
fn a_kick_beside_a_deeper_case_is_told() {
    let case = |name: &str, deep: &str| {
        format!(
            "case {name} {{\n  wide 30; deep {deep}; high 34; stock ply\n  base {{ toe-kick; high 4; set-back 3; cut-into ends }}\n  bottom {{ joint dado {{ deep 1/4 }} }}\n  back {{ stock thin; joint rabbet {{ deep 3/8 }} }}\n  top {{ stretchers 2 {{ wide 3 }}; joint pocket }}\n  frame none\n  down {{ open {name}-one {{ share 1 }} }}\n}}\n"
        )
    };
    let head = SHELF.split("case low").next().unwrap();
    for (deep, told) in [("21-15/16", vec![]), ("21-31/32", vec!["driver-reach"])] {
        let text = [head, &case("deep", deep), &case("low", "16")].concat();
        let compiled = compile(&text);
        assert_eq!(slugs(&compiled), told, "{deep}");
        assert_eq!(bench::built(&compiled).is_empty(), told.is_empty(), "{deep}");
    }
}

/// A nailer of 4 in stands along the back edge of a bottom, over a separate base: a long bit
/// of 6 in reaches over it, with the line of screws 3/8 and more before it. Under a shelf of
/// 12 a drill of 14 does not fit, and that is told; the screws are on the layout sheet all the
/// same.
#[test]
fn a_nailer_takes_no_screw_away() {
    let base = "toe-kick; high 4; set-back 2; cut-into ends";
    let text = SHELF
        .replace("  leg { }\n", "")
        .replace(base, "toe-kick; high 4; set-back 2; separate")
        .replace("rabbet { deep 3/8 } }\n  top", "rabbet { deep 3/8 }; nailers 2 }\n  top");
    for (high, told) in [("20", vec![]), ("12", vec!["driver-reach"])] {
        let text = text.replace("high 30", "high 36").replace("high 6", &format!("high {high}"));
        assert_eq!(slugs(&compile(&text)), told, "{high}");
        let behind = screw_lines(&text, ["B", "BSK"]);
        let count: u64 = behind.iter().map(|own| own.3).sum();
        // 31-1/16 long, one each 6 in.
        assert_eq!(count, 6, "{high}: {behind:#?}");
        assert_eq!(bench::built(&compile(&text)).is_empty(), told.is_empty(), "{high}");
    }
}
