//! What stands behind doors: the shop opens the doors, and every tray comes out past
//! them.

use casewright::diagnostics::Severity;
use serde_json::{Value, json};

use super::build;
use super::demos::packet;
use super::spoiled::noticed;
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
            .replace("long 96; wide 48", "long 96; wide 60")
            .replace(
                "doors upper { share 1; shelf { adjustable 3 };",
                &format!("open upper {{ share 1; {rod} }} #"),
            )
    };
    for (wide, rod) in
        [("30", "rod"), ("56", "rod { from-back 10; down 3 }"), ("30", "rod { stock maple }")]
    {
        assert_built(&format!("{wide}, {rod}"), &coats(wide, rod));
    }
}

/// Two cupboards side by side, with inset doors on hinges that swing free.
const SWUNG: &str = "casework 1
job \"cupboards\" { units in; tape 1/32 }
site { left open; right open; fixing none; humidity 38% to 42% }
shop { humidity 40%; open-time 30 min; clamps 16 }
stock ply   { plywood 3/4; actual 23/32; species sugar-maple; sheet { long 96; wide 48 } }
stock thin  { plywood 1/4; actual 0.205; species sugar-maple; sheet { long 96; wide 48 } }
stock maple { lumber 4/4; thickness 3/4; species sugar-maple; sawn quarter }
hinge butt { butt; gap 1/32; pin-ahead 1/8; swing 180 deg }
pull knob { screw 5/32 }
finish oil { hardwax-oil; coats 2 }
case c {
  wide 50; deep 16; high 30
  stock ply
  base { toe-kick; high 4; set-back 3; cut-into ends }
  bottom { joint dado { deep 1/4 }; flush }
  back { stock thin; joint rabbet { deep 3/8 } }
  top { panel; joint dado { deep 1/4 } }
  partitions { joint dado { deep 1/4 } }
  frame {
    stock maple; joint pocket
    stile left { wide 2 }; stile right { wide 2 }
    rail top { wide 2 }; rail bottom { wide 1-1/2 }
    across {
      door one { share 1; hung left }
      stile { wide 2 }
      doors two { share 2; shelf { adjustable 1 } }
    }
  }
  fronts { stock maple; set inset; gap 3/32; meeting 3/16; hinge butt; pull knob }
  finish oil
}
";

/// On hinges that swing free an inset door closes against a strip: at its latch edge, or at
/// the top where two leaves meet or shelves stand behind. A board right behind it stops it
/// too, and needs no strip.
#[test]
fn doors_that_swing_free_close_against_their_stops() {
    let list = "; across { open a { share 1 }; divider; open b { share 1 } }";
    let divided = SWUNG.replace("hung left", &format!("hung left{list}"));
    let frame = [
        "  frame {\n    stock maple; joint pocket\n    stile left { wide 2 }; stile right { wide 2 }\n    rail top { wide 2 }; rail bottom { wide 1-1/2 }\n",
        "      stile { wide 2 }\n",
        "    }\n  }\n  fronts",
    ];
    let bare = SWUNG
        .replace(frame[0], "  frame none\n")
        .replace(frame[1], "      divider\n")
        .replace(frame[2], "    }\n  fronts")
        .replace("; flush }", " }");
    for (name, text, stops) in [
        ("as written", SWUNG.to_owned(), 2),
        ("hung at the right", SWUNG.replace("hung left", "hung right"), 2),
        ("a divider stops one", divided, 1),
        ("without a frame", bare, 2),
        ("closed by their hinges", SWUNG.replace("hinge butt {", "hinge butt { closing self;"), 0),
    ] {
        assert_built(name, &text);
        let packet = packet(&compile(&text)).expect("a packet");
        assert_eq!(packet.matches("\"set stop\"").count(), stops, "{name}");
        // One catch a leaf, where the hinges don't hold it.
        let catches = if stops == 0 { 0 } else { 3 };
        assert_eq!(packet.matches("\"set catch\"").count(), catches, "{name}");
    }
}

/// A door of 7/8 in stands 1/16 in before the back of a frame of 13/16 in, so the strip lies
/// on the front stretcher, under a top rail of 1-1/2 in: 3/4 in of packing and 3/8 in over.
/// A tape in sixteenths shows neither its gap of 3/32 in nor a stretcher of 23/32 in, and
/// the strip stands where it is laid all the same.
#[test]
fn a_stop_lies_against_the_board_that_carries_it() {
    let text = SWUNG
        .replace("tape 1/32", "tape 1/16")
        .replace(
            "stock maple {",
            "stock cherry { lumber 5/4; thickness 7/8; species sugar-maple }\nstock maple {",
        )
        .replace("fronts { stock maple", "fronts { stock cherry")
        .replace(
            "top { panel; joint dado { deep 1/4 } }",
            "top { stretchers 2 { wide 4 }; joint pocket }",
        )
        .replace("rail top { wide 2 }", "rail top { wide 1-1/2 }");
    assert_built("on a stretcher", &text);
    let packet = packet(&compile(&text)).expect("a packet");
    let read = || serde_json::from_str::<Value>(&packet).unwrap();
    let stop = |packet: &mut Value| {
        let all = packet["operations"].as_array_mut().unwrap();
        all.iter_mut().position(|own| own["kind"] == "set stop" && own["edge"] == "top").unwrap()
    };
    let spoil = |word: &'static str, value: Value| {
        move |packet: &mut Value| {
            let index = stop(packet);
            packet["operations"][index][word] = value;
        }
    };
    let figure = |exact: &str| json!({"exact": exact, "print": exact});
    noticed(read(), spoil("face", json!("top face")), "the top face of FST looks away from it");
    noticed(read(), spoil("on", json!("KICK")), "stop of two");
    let past = "it doesn't come so far into the opening as is printed";
    noticed(read(), spoil("over", figure("5/8")), past);
    let size = json!([figure("20"), figure("7/8"), figure("3/4")]);
    noticed(read(), spoil("size", size), past);
}
