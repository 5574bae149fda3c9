//! What stands behind doors: the shop opens the doors, and every tray comes out past
//! them.

use casewright::diagnostics::Severity;

use super::build;
use super::demos::packet;
use crate::support::{compile, spec};

/// The list behind the lower doors of the pantry.
const TRAYS: [&str; 2] = ["        down {\n          tray jars", "      }\n    }\n  }\n\n  fronts"];

/// A board upright between trays and shelves, with a board lying between those.
const BINS: &str = "        across {
          down bins {
            share 1
            tray jars  { share 1; box { high 3-1/4 } }
            tray tins  { same jars; box { high 3-1/2 } }
            tray pans  { same jars; box { high 3-1/2 } }
          }
          divider
          down stack {
            wide 8
            open bottles { share 1; shelf { adjustable 1 } }
            divider
            open cloths { high 12 }
          }
        }
";

/// A case without a frame, with a pair of doors before two trays and a drawer over them.
const BARE: &str = "casework 1
job \"bins\" { units mm; tape 0.5 mm }
site { left open; right open; fixing none; humidity 30% to 60% }
shop { humidity 45%; clamps 16; open-time 20 min }
stock ply  { plywood 18 mm; actual 17.8; species yellow-birch; sheet { long 2440; wide 1220 } }
stock thin { plywood 6 mm; actual 5.8; species yellow-birch; sheet { long 2440; wide 1220 } }
stock side { plywood 12 mm; species yellow-birch; sheet { long 2440; wide 1220 } }
hinge cup { cup 35; bore 12.5; from-edge 5; swing 110 deg; gap 1.5 mm; door-thickness 16 to 24; from-end 200 }
slide run-500 {
  SIDED; length 500; room 515
  WIDTH; box-high opening - 25; load 40 kg
}
pull knob { screw 4 }
finish oil { hardwax-oil; coats 1 }
case bins {
  wide 700; deep 600; high 800
  stock ply
  base { toe-kick; high 100; set-back 60; cut-into ends }
  bottom { joint dado { deep 6 } }
  back { stock thin; joint rabbet { deep 9 } }
  top { stretchers 2 { wide 100 }; joint pocket }
  partitions { joint dado { deep 6 } }
  frame none
  down {
    drawer cutlery { high 150 }
    divider
    doors bin {
      share 1
      across {
        down left {
          share 1
          tray upper { high 160; box { high 60 } }
          tray lower { share 1; box { high 140 } }
        }
        divider
        open right { share 1; shelf { adjustable 2 } }
      }
    }
  }
  fronts { stock ply; SET; build slab; gap 3; meeting 3; hinge cup; pull knob }
  drawers { stock side; bottom-stock thin; slide run-500; groove { up 13; deep 6 }; joint butt }
  finish oil
}
";

fn assert_built(name: &str, text: &str) {
    let compiled = compile(text);
    let errors: Vec<_> =
        compiled.diagnostics.iter().filter(|found| found.severity == Severity::Error).collect();
    assert!(errors.is_empty(), "{name}: {errors:?}");
    let complaints = build(&packet(&compiled).expect("a packet")).complaints;
    assert!(complaints.is_empty(), "{name}: {complaints:#?}");
}

fn pantry() -> String {
    let text = spec("weir-house-pantry.case");
    text.split_once("\naccept").map_or(text.clone(), |(piece, _)| format!("{piece}\n"))
}

#[test]
fn trays_come_out_past_a_single_door() {
    for side in ["left", "right"] {
        let text = pantry()
            .replace("doors lower {", &format!("door lower {{\n        hung {side}"))
            .replace("doors upper {", &format!("door upper {{ hung {side};"))
            .replace("wide 30; deep 24", "wide 20; deep 24");
        assert_built(side, &text);
    }
}

#[test]
fn a_board_stands_between_trays_and_shelves() {
    let text = pantry();
    let [from, to] = TRAYS.map(|at| text.find(at).expect("the list"));
    let text = format!("{}{BINS}{}", &text[..from], &text[to..])
        .replace("top     { panel", "partitions { joint dado { deep 1/4 } }\n  top     { panel")
        .replace("wide 30; deep 24", "wide 34; deep 24");
    assert_built("bins", &text);
}

#[test]
fn trays_come_out_of_a_case_without_a_frame() {
    let slides =
        [("undermount", "box-inside opening - 42"), ("side-mount", "box-outside opening - 26")];
    for set in ["set overlay", "set inset"] {
        for (sided, width) in slides {
            let text = BARE.replace("SET", set).replace("SIDED", sided);
            let text = text.replace("WIDTH", width);
            assert_built(&format!("{set}, {sided}"), &text);
        }
    }
}

/// Behind inset doors and overlay ones, on both kinds of slide: a drawer with a front of
/// its own, with a pull that stays clear of the closed leaf.
#[test]
fn drawers_with_fronts_come_out_past_the_doors() {
    let slides =
        [("undermount", "box-inside opening - 42"), ("side-mount", "box-outside opening - 26")];
    let bare =
        BARE.replace("tray upper { high 160; box { high 60 } }", "drawer upper { high 160 }");
    for set in ["set overlay", "set inset"] {
        for (sided, width) in slides {
            let text = bare.replace("SET", set).replace("SIDED", sided);
            let text = text.replace("WIDTH", width);
            assert_built(&format!("{set}, {sided}"), &text);
        }
    }
    let drawers = [
        ("tray tins  { same jars; box { high 3-1/4 } }", "drawer tins { same jars }"),
        (
            "tray pans  { high 16; box { high 3-1/2 } }",
            "drawer pans { high 16; set-back 2-1/2; front { pull none; build slab } }",
        ),
    ];
    for (tray, drawer) in drawers {
        let text = pantry()
            .replace(tray, drawer)
            .replace("155 deg", "110 deg")
            .replace("wide 30; deep 24", "wide 30; deep 27");
        assert_built(drawer, &text);
    }
}

/// A rail from board to board: in a niche, behind doors, and with a hanger in its middle
/// where it is long.
#[test]
fn rails_hang_where_their_cups_are_screwed_on() {
    let coats = |wide: &str, rod: &str| {
        pantry()
            .replace("wide 30; deep 24", &format!("wide {wide}; deep 26"))
            .replace(
                "doors upper { share 1; shelf { adjustable 3 };",
                &format!("open upper {{ share 1; {rod} }} #"),
            )
            .replace("high 48\n", "high 34\n")
            .replace("tray pans  { high 16;", "tray pans  { high 8;")
    };
    for (wide, rod) in
        [("30", "rod"), ("56", "rod { from-back 10; down 3 }"), ("30", "rod { stock maple }")]
    {
        assert_built(&format!("{wide}, {rod}"), &coats(wide, rod));
    }
}
